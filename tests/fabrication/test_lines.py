from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.part import Sheet
from segkit.fabrication import lines
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.sources import bibliography
from segkit.working import evaluate

Sheets = Callable[[str], Sheet]


@pytest.mark.parametrize(
    "made",
    [
        {},
        {"fit": "let-in"},
        {"lip_mm": 1.5, "led_hole_mm": 6.0},
        {"tool": "knife", "kerf_mm": None, "board_sheet": "foam-board-5mm"},
        {"depth_mm": 61.0, "board_sheet": "foam-board-5mm-small"},
    ],
)
def test_every_line_is_what_its_formula_says(cut: Callable[..., CutSet], made: dict[str, object]) -> None:
    found = cut(**made).lines
    assert len({line.name for line in found}) == len(found) >= 8
    for line in found:
        value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-6), line.name
        assert line.source in bibliography()


@pytest.mark.parametrize(
    ("name", "depth_mm", "layers"),
    [
        ("foam-board-5mm", 25, 5),
        ("foam-board-5mm", 25.1, 6),
        ("plywood-3mm", 25, 9),
        ("foam-board-5mm", 4, 1),
    ],
)
def test_whole_layers_reach_the_depth(sheets: Sheets, name: str, depth_mm: float, layers: int) -> None:
    assert lines.grid_layers_line(sheets(name), depth_mm=depth_mm).value == layers


def test_rounding_makes_no_extra_layer(sheets: Sheets) -> None:
    from dataclasses import replace

    odd = replace(sheets("plywood-3mm"), thickness_mm=2.8)
    assert math.ceil(8.4 / 2.8) == 4, "what plain rounding up would give"
    assert lines.grid_layers_line(odd, depth_mm=8.4).value == 3


@given(st.floats(0.5, 30), st.floats(0, 3), st.floats(1, 1.5))
def test_the_lip_leaves_the_clearance_between_neighbours(gap: float, clearance: float, reach: float) -> None:
    widest = max(0.0, (gap - clearance) / 2 / reach)
    limit, lip = lines.lip_lines(MakeSettings(clearance_mm=clearance), gap_mm=gap, widest_mm=widest)
    assert lip.value <= limit.value == widest
    if widest > 0:
        assert limit.inputs[-1].value == pytest.approx(reach)
        assert gap - 2 * reach * lip.value >= clearance - 1e-9


def test_a_single_opening_has_no_neighbour_to_mind() -> None:
    assert lines.lip_lines(MakeSettings(), gap_mm=math.inf, widest_mm=math.inf)[-1].value == 5


@pytest.mark.parametrize(
    ("name", "count", "expected"), [("plywood-3mm", 8, 2), ("plywood-3mm", 1, 1), ("opal-acrylic-3mm", 3, 2)]
)
def test_stock_sheets_by_hand(board: Board, sheets: Sheets, name: str, count: int, expected: int) -> None:
    """The board is about 390 x 260 mm: 3 x 2 out of 1220 x 610, 2 out of 600 x 400 turned."""
    assert (round(board.width_mm, -1), round(board.height_mm, -1)) == (390, 260)
    assert lines.stock_sheets_line("face", board, sheets(name), count=count).value == expected


def test_a_board_over_several_sheets(boards: Callable[..., Board], sheets: Sheets) -> None:
    long = boards("88:88", height_mm=380.0, stroke_mm=50.0)
    assert (round(long.width_mm, -1), long.height_mm) == (1290, 440), "4 x 1 sheets of 400 x 600"
    assert lines.stock_sheets_line("face", long, sheets("opal-acrylic-3mm"), count=5).value == 20
