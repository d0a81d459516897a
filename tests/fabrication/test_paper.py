from __future__ import annotations

import pytest

from segkit.errors import InputError
from segkit.fabrication.paper import PAPERS, STRIP_MM, PaperSettings

MM = 25.4 / 72


@pytest.mark.parametrize(
    ("size", "name"),
    [("a4", "A4"), ("a3", "A3"), ("letter", "letter"), ("legal", "legal"), ("tabloid", "TABLOID")],
)
def test_sizes_are_those_of_a_general_purpose_library(size: str, name: str) -> None:
    """The library names its sizes in points; it takes A sizes from ISO 216 and the others in inches."""
    from reportlab.lib import pagesizes

    width, height = (side * MM for side in getattr(pagesizes, name))
    assert PAPERS[size] == pytest.approx((width, height), abs=0.001)


def test_a3_is_two_a4_side_by_side() -> None:
    """ISO 216: halving the longer side gives the next size."""
    assert PAPERS["a3"] == (PAPERS["a4"][1], 2 * PAPERS["a4"][0])


def test_window_is_what_margins_and_rulers_leave() -> None:
    paper = PaperSettings("letter", margin_mm=5, overlap_mm=8)
    assert paper.window_mm(turned=True) == pytest.approx((279.4 - 10 - STRIP_MM, 215.9 - 10 - STRIP_MM))
    assert [PaperSettings(size).name for size in ("a4", "legal")] == ["A4", "Legal"]


def test_all_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(InputError) as caught:
        PaperSettings("a5", margin_mm=-1, overlap_mm=1)
    assert [problem.key for problem in caught.value.problems] == ["size", "margin", "overlap"]
