"""The tinted front: a sheet over the whole board, with the fixing holes, seen from the front."""

from __future__ import annotations

import io
import itertools
from dataclasses import replace

import pytest

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Circle, Drawing, Path
from segkit.drawing.dxf import dxf_bytes
from segkit.drawing.svg import svg_text
from segkit.fabrication.cut_set import CutSet, cut_drawings
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds
from segkit.working import evaluate
from tests.fabrication.conftest import make_board, places_on, sheet

LASER = MakeSettings(tool="laser", led_body_mm=5.0)
TINT = sheet("grey-tint-3mm")
MM = 25.4 / 96  # a reader at 96 to the inch


def solve(front: Sheet | None, settings: MakeSettings = LASER, board: Board | None = None) -> CutSet:
    board = board or make_board()
    return cut_drawings(
        board, places_on(board), settings=settings, face=sheet("acrylic-black-3mm"), grid=sheet("mdf-6mm"),
        back=sheet("mdf-3mm"), diffuser=sheet("opal-acrylic-3mm"), depth_mm=24, title="Pool lap clock",
        front=front,
    )  # fmt: skip


def shapes(drawing: Drawing, layer: str) -> tuple[object, ...]:
    return next((one.shapes for one in drawing.layers if one.name == layer), ())


@pytest.mark.parametrize("construction", ["pockets", "string-bulbs"])
def test_its_edge_and_holes_are_those_of_the_face(construction: str) -> None:
    whole = solve(TINT, replace(LASER, construction=construction))
    face, front = whole.drawings["face"], whole.drawings["front"]
    for layer in ("cut-outline", "drill-fixing-holes"):
        assert shapes(front, layer) == shapes(face, layer) != ()
    assert not shapes(front, "cut-openings")
    assert not shapes(front, "drill-led-holes")
    assert (whole.counts["front"], whole.stock_sheets["front"]) == (1, 1)
    lines = {line.name: line for line in whole.lines if line.name.endswith(".front")}
    assert sorted(lines) == [f"fabrication.{what}.front" for what in ("cut_length", "mass", "stock_sheets")]
    for line in lines.values():
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6)
    assert "front" not in solve(None, replace(LASER, construction=construction)).drawings


def test_it_reads_back_at_true_size() -> None:
    """By readers of SVG and DXF that are not ours: the board and half a kerf all round."""
    import ezdxf
    import svgelements

    board, drawing = make_board(), solve(TINT).drawings["front"]
    size = (board.width_mm + 0.2, board.height_mm + 0.2)
    read = svgelements.SVG.parse(io.StringIO(svg_text(drawing)), ppi=96)
    edge = next(g for g in read.elements() if isinstance(g, svgelements.Group) and g.id == "cut-outline")
    left, top, right, bottom = (side * MM for side in edge.bbox())
    assert (right - left, bottom - top) == pytest.approx(size, abs=0.01)
    document = ezdxf.read(io.StringIO(dxf_bytes(drawing).decode()))
    (line,) = (e for e in document.modelspace() if e.dxf.layer.lower() == "cut-outline")
    x0, y0, x1, y1 = bounds([tuple((x, y) for x, y, *_ in line.get_points())])
    assert line.closed
    assert (x1 - x0, y1 - y0) == pytest.approx(size, abs=0.01)


def test_a_joint_crosses_no_segment_and_no_hole() -> None:
    board = make_board()
    half = replace(TINT, width_mm=0.6 * board.width_mm, height_mm=board.height_mm + 10)
    whole = solve(half, board=board)
    panels = [
        bounds([p.points]) for p in shapes(whole.drawings["front"], "cut-outline") if isinstance(p, Path)
    ]
    assert len(panels) == whole.stock_sheets["front"] == 2
    left = min(x0 for x0, *_ in panels)
    for (_, _, end, _), (start, *_) in itertools.pairwise(sorted(panels)):
        joint = (end + start) / 2 - left - 0.1
        for segment in board.segments:
            for x0, _, x1, _ in (bounds([outline]) for outline in segment.outlines):
                assert not x0 - 3 < joint < x1 + 3
        assert all(abs(x - joint) > board.fixing_hole_mm / 2 + 3 - 1e-6 for x, _ in board.fixings)
    (told,) = (f for f in whole.findings if f.code == "joined-panels" and f.subject == "front")
    assert told.value == 2
    assert not [f for f in solve(TINT, board=board).findings if f.subject == "front"]


def test_what_the_tool_cannot_cut_is_held_back() -> None:
    plastic = replace(TINT, caution="no-laser")
    (found,) = (f for f in solve(plastic).findings if f.subject == "front")
    assert (found.level, found.code, found.holds) == ("stop", "no-laser", ("front",))
    for tool, level, holds in (("knife", "caution", ()), ("laser", "stop", ("front",))):
        sawn = solve(replace(TINT, tools=("saw",)), replace(LASER, tool=tool))
        (found,) = (f for f in sawn.findings if f.subject == "front")
        assert (found.level, found.code, found.holds) == (level, "tool-cannot-cut", holds)


def test_a_digit_larger_than_the_sheet_holds_the_front_alone() -> None:
    (found,) = (f for f in solve(replace(TINT, width_mm=50, height_mm=50)).findings if f.level == "stop")
    assert (found.code, found.subject, found.holds) == ("larger-than-sheet", "front", ("front",))


def test_the_holes_are_as_wide_as_the_screws_ask() -> None:
    board = make_board()
    holes = [c for c in shapes(solve(TINT).drawings["front"], "drill-fixing-holes") if isinstance(c, Circle)]
    assert len(holes) == len(board.fixings) > 0
    assert {round(c.radius_mm * 2 + LASER.hole_cut_mm, 6) for c in holes} == {board.fixing_hole_mm}
