from __future__ import annotations

import pytest

from segkit.drawing.drawing import Drawing
from segkit.drawing.svg import svg_text
from segkit.drawing.writers import WRITERS, writer
from segkit.errors import InputError


def test_each_ending_gives_its_format(page: Drawing) -> None:
    assert writer(".svg")(page).decode() == svg_text(page)
    assert writer(".PNG")(page).startswith(b"\x89PNG\r\n")
    assert set(WRITERS) == {".svg", ".png"}


@pytest.mark.parametrize("suffix", ["", ".bmp", "svg"])
def test_an_unknown_ending_names_those_there_are(suffix: str) -> None:
    with pytest.raises(InputError, match=r"Allowed: \.svg, \.png\."):
        writer(suffix)
