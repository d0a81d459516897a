"""Digits, pieces and boards against stock sheets."""

from __future__ import annotations

import pytest

from segkit.geometry.board import Board, board_of
from segkit.geometry.sheets import larger_than_sheet
from tests.geometry.shapes import shape


def board(layout: str = "88:88", **changes) -> Board:
    return board_of(layout=layout, shape=shape(**changes), spacing_mm=60, margin_mm=40)


def judge(made: Board, part: str, width: float, height: float):
    return larger_than_sheet(made, part, sheet_width_mm=width, sheet_height_mm=height)


@pytest.mark.parametrize("sheet", [(962, 380), (380, 962), (2000, 1000)])
def test_a_board_that_fits_either_way_round(sheet):
    assert judge(board(), "face", *sheet) == ()


def test_a_digit_larger_than_its_sheet_stops_that_part():
    (finding,) = judge(board(height_mm=500.0, width_mm=275.0, stroke_mm=70.0), "face", 400, 450)
    assert (finding.level, finding.code, finding.holds) == ("stop", "larger-than-sheet", ("face",))
    assert "275 mm wide and 500 mm high" in finding.text
    assert "400 by 450 mm" in finding.text
    assert (finding.value, finding.limit) == (pytest.approx(500), 450)


def test_a_digit_that_fits_only_when_turned():
    (finding,) = judge(board("8"), "face", 310, 170)
    assert finding.level == "caution", "the digit fits turned, the margin does not"


@pytest.mark.parametrize(
    ("layout", "sheet", "panels"),
    [
        ("88:88", (961, 400), 2),  # one millimetre short
        ("88:88", (520, 400), 2),  # seam at 517 mm, right of the colon
        ("88:88", (500, 400), 3),  # no seam between 462 and 500 mm: the colon stands there
        ("88:88", (300, 400), 4),
        ("8888", (700, 400), 2),  # three and one
        ("88:88", (400, 240), 5),  # turned: a panel for each digit and one for the colon
        ("88:88", (330, 330), 6),  # lower than the board either way: 2 rows of 3
    ],
)
def test_a_board_larger_than_its_sheet_names_the_panels(layout, sheet, panels):
    (finding,) = judge(board(layout), "back_board", *sheet)
    assert (finding.level, finding.holds) == ("caution", ())
    assert f"takes {panels} panels" in finding.text
    assert f"up to {panels} sheets" in finding.remedy
