from __future__ import annotations

from collections.abc import Callable

import pytest
import shapely

from segkit.catalog.part import Sheet
from segkit.fabrication import stock
from segkit.geometry.board import Board
from segkit.working import evaluate


def test_kept_area_is_the_board_less_its_openings(board: Board) -> None:
    whole = shapely.box(0, 0, board.width_mm, board.height_mm)
    opened = whole - shapely.union_all([shapely.Polygon(o) for s in board.segments for o in s.outlines])
    assert stock.kept_mm2(board, opened=True) == pytest.approx(opened.area)
    assert stock.kept_mm2(board, opened=False) == pytest.approx(whole.area)


def test_mass_is_volume_times_density(sheets: Callable[[str], Sheet]) -> None:
    """A square metre of sheet 1 mm thick of density 1000 kg/m3 weighs 1 kg (arithmetic)."""
    wood = sheets("mdf-6mm")
    line = stock.mass_line("light_grid", wood, kept_mm2=1e6, count=3)
    assert line.value == pytest.approx(3 * wood.thickness_mm * wood.density_kg_m3 / 1000)
    assert evaluate(line.formula, {given.symbol: given.value for given in line.inputs}) == pytest.approx(
        line.value
    )


def test_more_than_ten_sheets_of_one_part(sheets: Callable[[str], Sheet]) -> None:
    foam = sheets("foam-board-5mm")
    assert not list(stock.many_sheets("light_grid", foam, stock_sheets=10, count=10, mass_kg=2.0))
    (finding,) = stock.many_sheets("light_grid", foam, stock_sheets=12, count=12, mass_kg=2.34)
    assert (finding.level, finding.code, finding.value, finding.limit) == ("caution", "many-sheets", 12, 10)
    for said in ("12 sheets", "8.4 m²", "2.3 kg"):
        assert said in finding.text
    assert "on edge" in finding.remedy
