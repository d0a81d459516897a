from __future__ import annotations

from dataclasses import replace

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Circle, Drawing, Layer, Path
from segkit.fabrication.clip import clipped
from segkit.fabrication.layers import tool_path_mm
from segkit.fabrication.paper import PAPERS, PaperSettings
from segkit.fabrication.ruler import ruler
from segkit.fabrication.tiling import fewer_pages, obstacles, pages_line, plan_tiles
from segkit.working import evaluate


def drawing(width: float = 700.0, height: float = 420.0) -> Drawing:
    holes = tuple(
        Circle((x, y), 2.5) for x in range(20, int(width) - 10, 23) for y in (60, 211, 350) if y < height - 5
    )
    edge = Path(((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)))
    return Drawing(
        "Lid", width, height,
        (Layer("drill-led-holes", "drill", holes), Layer("cut-outline", "cut", (edge,))),
    )  # fmt: skip


@pytest.mark.parametrize("size", PAPERS)
def test_tiles_put_together_are_the_drawing(size: str) -> None:
    """Every line once and in its place: lengths by cells, and the holes by their centres."""
    page = drawing()
    plan = plan_tiles(page, PaperSettings(size))
    shapes = obstacles(page)
    parts = [clipped(shapes, tile.cell) for tile in plan.tiles]
    assert sum(map(tool_path_mm, parts)) == pytest.approx(tool_path_mm(shapes), abs=0.01)
    cells = shapely.union_all([shapely.box(*tile.cell) for tile in plan.tiles])
    assert cells.equals(shapely.box(0, 0, page.width_mm, page.height_mm))
    assert sum(shapely.box(*tile.cell).area for tile in plan.tiles) == pytest.approx(700 * 420)
    whole = {s for part in parts for s in part if isinstance(s, Circle)}
    assert whole == {s for s in shapes if isinstance(s, Circle)}
    assert plan.holes_crossed == 0


@given(st.floats(60, 2500), st.floats(60, 1500), st.sampled_from(sorted(PAPERS)), st.floats(0, 20))
def test_windows_fit_the_paper(width: float, height: float, size: str, margin: float) -> None:
    paper = PaperSettings(size, margin_mm=margin)
    plan = plan_tiles(Drawing("", width, height, ()), paper)
    across, up = paper.window_mm(turned=plan.turned)
    for tile in plan.tiles:
        left, bottom, right, top = tile.window
        assert right - left <= across + 1e-6
        assert top - bottom <= up + 1e-6
    assert len({tile.name for tile in plan.tiles}) == len(plan.tiles) == plan.columns * plan.rows


@given(st.floats(60, 1500), st.floats(60, 900), st.sampled_from(sorted(PAPERS)))
def test_the_margin_at_which_fewer_pages_would_do(width: float, height: float, size: str) -> None:
    page, paper = Drawing("", width, height, ()), PaperSettings(size)
    plan = plan_tiles(page, paper)
    if plan.fewer_margin_mm is None or plan.fewer_pages is None:
        assert (
            len(plan_tiles(page, replace(paper, margin_mm=0.0)).tiles) >= len(plan.tiles)
            or plan.holes_crossed
        )
        return
    at = replace(paper, margin_mm=max(0.0, plan.fewer_margin_mm - 1e-6))
    above = replace(paper, margin_mm=plan.fewer_margin_mm + 0.01)
    assert len(plan_tiles(page, at).tiles) == plan.fewer_pages < len(plan.tiles)
    assert len(plan_tiles(page, above).tiles) == len(plan.tiles)


def test_names_run_from_the_upper_left() -> None:
    plan = plan_tiles(Drawing("", 400, 600, ()), PaperSettings("a4"))
    first = plan.tiles[0]
    assert (first.name, first.column, first.row) == ("A1", 0, 0)
    assert first.cell[3] == 600
    assert plan.tiles[-1].cell[1] == 0


def test_the_line_gives_the_pages() -> None:
    page, paper = drawing(), PaperSettings("a4")
    line = pages_line("face", paper, width_mm=page.width_mm, height_mm=page.height_mm)
    assert line.value == len(plan_tiles(page, paper).tiles)
    assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == line.value


def test_a_small_pattern_stays_on_one_page() -> None:
    assert fewer_pages(PaperSettings("a4"), width_mm=100, height_mm=100, now=1) == (None, None)


@pytest.mark.parametrize("upright", [False, True])
def test_the_ruler_shows_a_print_at_the_wrong_scale(upright: bool) -> None:
    """A 500 mm pattern that came out 580 mm wide, and A4 shrunk to 5 mm margins (287 of 297 mm)."""
    lines = [shape for shape in ruler((20.0, 30.0), upright=upright) if isinstance(shape, Path)]
    along = 1 if upright else 0
    marks = sorted({round(path.points[0][along], 3) for path in lines})
    start = (20.0, 30.0)[along]
    assert {start + 100.0, start + 4 * 25.4} <= set(marks)
    for printed, wanted in ((580 / 500, 116.0), (287 / 297, 96.6)):
        assert (start + 100.0 - marks[0]) * printed == pytest.approx(wanted, abs=0.05)
