from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.drawing.drawing import Path, Text
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.parts import TAB_MM
from segkit.fabrication.settings import TOOLS, MakeSettings
from segkit.fabrication.tool import (
    EDGE_MM,
    SLOT_MM,
    WEB_MM,
    fit_findings,
    narrowest_slot_mm,
    tool_findings,
    worst_play_mm,
)
from segkit.geometry.board import Board


def test_every_tool_has_its_limits() -> None:
    assert set(WEB_MM) == set(SLOT_MM) == set(TOOLS)


def test_a_bit_wider_than_the_opening_is_a_stop_with_the_cure(boards: Callable[..., Board]) -> None:
    small = boards("8", height_mm=60.0, stroke_mm=6.0, gap_mm=4.0)
    (found,) = tool_findings(small, "face", MakeSettings(tool="router", kerf_mm=6.0))
    assert (found.level, found.code, found.holds) == ("stop", "slot-too-narrow", ("face",))
    assert found.limit == narrowest_slot_mm(MakeSettings(tool="router", kerf_mm=6.0))
    assert "narrower tool" in found.remedy
    assert not [*tool_findings(small, "back_board", MakeSettings(tool="router", kerf_mm=6.0))]


def test_a_web_that_the_tool_breaks_is_a_caution(boards: Callable[..., Board]) -> None:
    (found,) = tool_findings(boards(gap_mm=2.0), "light_grid", MakeSettings(tool="router"))
    assert (found.level, found.code) == ("caution", "web-too-thin")
    assert not [*tool_findings(boards(gap_mm=5.0), "light_grid", MakeSettings(tool="router"))]


@pytest.mark.parametrize("part", ["face", "light_grid", "diffuser"])
def test_a_router_gets_ticks_for_its_tabs(cut: Callable[..., CutSet], board: Board, part: str) -> None:
    guides = next(
        la for la in cut(board, tool="router", kerf_mm=3.0).drawings[part].layers if la.name == "guides"
    )
    assert len(guides.shapes) == 2 * sum(len(s.outlines) for s in board.segments)
    lengths = {
        round(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5, 6)
        for a, b in (shape.points for shape in guides.shapes if isinstance(shape, Path))
    }
    assert lengths == {TAB_MM}
    assert not [la for la in cut(board, tool="laser").drawings[part].layers if la.name == "guides"]


def test_tabs_are_spoken_of_where_ticks_are_drawn(cut: Callable[..., CutSet], board: Board) -> None:
    for part, drawing in cut(board, tool="router", kerf_mm=3.0).drawings.items():
        words = " ".join(s.text for la in drawing.layers for s in la.shapes if isinstance(s, Text))
        assert ("Ticks across an edge" in words) is (part != "back_board"), part


def test_a_drill_makes_the_back_board_and_says_so_of_the_rest(cut: Callable[..., CutSet]) -> None:
    found = [f for f in cut(tool="drill", kerf_mm=None).findings if f.code == "tool-cannot-cut"]
    assert {f.subject for f in found} == {"light grid", "diffuser", "face"}
    assert all("round holes" in f.text and f.remedy for f in found)


@pytest.mark.parametrize("tool", ["laser", "router", "knife"])
def test_inner_cuts_come_first(cut: Callable[..., CutSet], tool: str) -> None:
    for drawing in cut(tool=tool, kerf_mm=None).drawings.values():
        names = [la.name for la in drawing.layers if la.operation in ("cut", "drill")]
        assert names == sorted(names, key=lambda name: ("drill" not in name, "outline" in name))
        assert names[-1] == "cut-outline"


@pytest.mark.parametrize("tool", ["laser", "router", "knife"])
@pytest.mark.parametrize("clearance", [0.1, 0.3, 0.7])
def test_a_piece_goes_in_at_worst_tolerance_or_it_is_said(
    boards: Callable[..., Board], tool: str, clearance: float
) -> None:
    """The piece grown and the opening shrunk by the tolerance, laid on each other by a geometry library."""
    import shapely

    settings = MakeSettings(tool=tool, fit="let-in", clearance_mm=clearance)
    off = EDGE_MM[tool]
    fits = True
    for segment in boards(slant_deg=10.0).segments:
        for outline in segment.outlines:
            opening = shapely.Polygon(outline).buffer(-off, join_style="mitre", mitre_limit=9)
            piece = shapely.Polygon(outline).buffer(off - clearance, join_style="mitre", mitre_limit=9)
            fits = fits and bool(opening.buffer(1e-6).contains(piece))
    assert fits == (worst_play_mm(settings) >= 0)
    assert bool([*fit_findings(settings)]) == (not fits)
