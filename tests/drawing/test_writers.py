from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.drawing.drawing import Drawing
from segkit.drawing.svg import svg_text
from segkit.drawing.writers import WRITERS, writer
from segkit.errors import InputError


def test_each_ending_gives_its_format(page: Drawing) -> None:
    assert writer(".svg")(page).decode() == svg_text(page)
    assert writer(".PNG")(page).startswith(b"\x89PNG\r\n")
    assert set(WRITERS) == {".svg", ".dxf", ".pdf", ".png"}
    assert writer(".dxf")(page).lstrip().startswith(b"0\nSECTION")
    assert writer(".pdf")(page).startswith(b"%PDF-")


def test_a_large_page_is_a_picture_that_fits_a_screen(page: Drawing) -> None:
    from io import BytesIO

    from PIL import Image

    wall = replace(page, width_mm=20_000.0, height_mm=500.0)
    assert Image.open(BytesIO(writer(".png")(wall))).size == (1400, 35)
    assert Image.open(BytesIO(writer(".png")(page))).size == (241, 160)


@pytest.mark.parametrize("suffix", ["", ".bmp", "svg"])
def test_an_unknown_ending_names_those_there_are(suffix: str) -> None:
    with pytest.raises(InputError, match=r"Allowed: \.svg, \.dxf, \.pdf, \.png\."):
        writer(suffix)
