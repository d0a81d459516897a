from __future__ import annotations

import math
from collections.abc import Callable

from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.holes import RIM_MM, WEB_MM, cable_exit, drains, hole_room_findings
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.geometry.polygon import clearance
from segkit.optics.placement import LedPlace


def test_each_pocket_drains_near_its_lowest_point(board: Board, places: tuple[LedPlace, ...]) -> None:
    settings = MakeSettings(tool="laser", drain_mm=3.0)
    found = drains(board, places, settings)
    assert len(found) == sum(len(s.outlines) for s in board.segments)
    outlines = [o for s in board.segments for o in s.outlines]
    for at, outline in zip(found, outlines, strict=True):
        assert clearance(outline, at) >= 1.5 + RIM_MM - 1e-6, "inside the pocket"
        low, high = min(y for _, y in outline), max(y for _, y in outline)
        assert at[1] <= (low + high) / 2
        for led in places:
            assert math.dist(at, led.at) >= (3.0 + settings.hole_mm) / 2 + WEB_MM / 2 - 1e-9


def test_no_drains_indoors(board: Board, places: tuple[LedPlace, ...]) -> None:
    assert drains(board, places, MakeSettings()) == ()


def test_the_cable_leaves_low_in_the_middle_off_the_fixings(board: Board) -> None:
    at = cable_exit(board, MakeSettings(cable_exit_mm=10.0))
    assert at is not None
    assert at[1] == board.margin_mm / 2
    assert abs(at[0] - board.width_mm / 2) < 25
    assert min(math.dist(at, fixing) for fixing in board.fixings) >= (10 + board.fixing_hole_mm) / 2 + WEB_MM


def test_a_margin_too_narrow_is_a_note(board: Board) -> None:
    settings = MakeSettings(cable_exit_mm=28.0)
    assert cable_exit(board, settings) is None
    (note,) = hole_room_findings(board, settings)
    assert (note.code, note.limit) == ("no-cable-exit", 32.0)
    assert not [*hole_room_findings(board, MakeSettings(cable_exit_mm=8.0))]


def test_they_are_drawn_in_a_layer_of_their_own(cut: Callable[..., CutSet], board: Board) -> None:
    made = cut(board, drain_mm=3.0, cable_exit_mm=8.0)
    layer = next(la for la in made.drawings["back_board"].layers if la.name == "drill-other-holes")
    assert layer.operation == "drill"
    sizes = sorted({round(2 * hole.radius_mm + 0.2, 6) for hole in layer.shapes})  # type: ignore[union-attr]
    assert sizes == [3.0, 8.0]
    assert not [la for la in made.drawings["face"].layers if la.name == "drill-other-holes"]
