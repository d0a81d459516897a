"""Small glyph pictures: as many dark areas as lit segments."""

import pytest

from segkit.report.lamp import lamp_svg


@pytest.mark.parametrize(("segments", "lit"), [("", 0), ("bc", 2), ("abcdefg", 7)])
def test_lit_segments_are_dark_on_paper(segments: str, lit: int) -> None:
    picture = lamp_svg(segments)
    assert picture.count("#1d2329") == lit
    assert picture.count("#e3e7ea") == 8 - lit
    assert lamp_svg([*segments, "dp"]).count("#1d2329") == lit + 1
