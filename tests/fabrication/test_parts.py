from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import pytest
import shapely

from segkit.drawing.drawing import Path
from segkit.fabrication import parts
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace

LASER = MakeSettings(tool="laser", kerf_mm=0.2)


def area(path: Path) -> float:
    return float(shapely.Polygon(path.points).area)


def test_the_face_opens_each_segment_and_is_as_large_as_the_board(board: Board) -> None:
    shapes = parts.face_shapes(board, LASER)
    outlines = [o for s in board.segments for o in s.outlines]
    assert len(shapes.openings) == len(outlines) == 17
    for path, outline in zip(shapes.openings, outlines, strict=True):
        finished = shapely.Polygon(path.points).buffer(0.1, join_style="mitre", mitre_limit=9)
        assert finished.symmetric_difference(shapely.Polygon(outline)).area < 0.01
    assert area(shapes.outlines[0]) == pytest.approx((board.width_mm + 0.2) * (board.height_mm + 0.2))
    assert {round(2 * c.radius_mm, 6) for c in shapes.fixing_holes} == {board.fixing_hole_mm - 0.2}
    assert [c.centre for c in shapes.fixing_holes] == list(board.fixings)


def test_the_back_board_has_a_hole_for_each_led(board: Board, places: tuple[LedPlace, ...]) -> None:
    shapes = parts.back_board_shapes(board, places, LASER)
    assert [c.centre for c in shapes.led_holes] == [p.at for p in places]
    assert {round(c.radius_mm, 6) for c in shapes.led_holes} == {(5.2 - 0.2) / 2}
    assert not shapes.openings
    assert len(shapes.guides) == 17


def test_plus_is_right_or_above_as_seen_from_the_front(board: Board, places: tuple[LedPlace, ...]) -> None:
    """So it is on the left in lying segments once the sheet is mirrored."""
    shapes = parts.back_board_shapes(board, places, LASER)
    marks = [s for s in shapes.notes if isinstance(s, Path)][: 3 * len(places)]
    assert len(marks) == 3 * len(places)
    for place, (lying, standing, dash) in zip(
        places, zip(marks[::3], marks[1::3], marks[2::3], strict=True), strict=True
    ):
        plus = shapely.LineString(lying.points).intersection(shapely.LineString(standing.points))
        minus = shapely.LineString(dash.points).centroid
        if place.segment in "adg":
            assert minus.x < place.at[0] < plus.x
        elif place.segment in "bcef":
            assert minus.y < place.at[1] < plus.y
        assert math.dist((plus.x, plus.y), place.at) > 2.6, "beside the hole, not in it"


def test_close_leds_of_one_segment_leave_the_signs_of_the_others_as_they_are(board: Board) -> None:
    alone = (LedPlace(1, "d", 1, (60, 44)),)
    close = (LedPlace(1, "a", 1, (100, 200)), LedPlace(1, "a", 2, (106, 200)))
    notes = parts.back_board_shapes(board, (*alone, *close), LASER).notes
    signs = [s for s in notes if isinstance(s, Path)]
    signs_alone = [s for s in parts.back_board_shapes(board, alone, LASER).notes if isinstance(s, Path)]
    assert signs[:3] == signs_alone[:3]


def test_marks_of_close_leds_stay_apart(board: Board) -> None:
    close = (LedPlace(1, "a", 1, (100, 200)), LedPlace(1, "a", 2, (107, 200)))
    marks = [s for s in parts.back_board_shapes(board, close, LASER).notes if isinstance(s, Path)]
    plus_of_first, dash_of_second = marks[0], marks[5]
    assert max(x for x, _ in plus_of_first.points) < min(x for x, _ in dash_of_second.points)


@pytest.mark.parametrize("ends", ["pointed", "blunt", "rounded"])
def test_pieces_are_larger_by_the_lip_or_smaller_by_the_clearance(
    boards: Callable[..., Board], ends: str
) -> None:
    board = boards(ends=ends)
    outlines = [shapely.Polygon(o) for s in board.segments for o in s.outlines]
    lip = parts.diffuser_pieces(board, LASER, lip_mm=2.0)
    let_in = parts.diffuser_pieces(board, MakeSettings(fit="let-in", clearance_mm=0.3), lip_mm=9.0)
    for plain, over, under in zip(outlines, lip, let_in, strict=True):
        assert shapely.Polygon(over.outline).area > plain.area + 1.99 * plain.length
        assert (
            plain.area - 0.3 * plain.length
            < shapely.Polygon(under.outline).area
            < plain.area - 0.29 * plain.length
        )


@pytest.mark.parametrize(("tool", "kerf"), [("knife", 0.0), ("laser", 0.2), ("router", 3.0)])
def test_a_bridge_of_sheet_stays_between_the_cuts(
    boards: Callable[..., Board], tool: str, kerf: float
) -> None:
    """What a round tool of that width takes away along each path, drawn by a general-purpose library."""
    settings = MakeSettings(tool=tool, kerf_mm=kerf, fit="let-in")
    pieces = parts.diffuser_pieces(boards(slant_deg=12.0), settings, lip_mm=0.0)
    nest = parts.diffuser_nest(pieces, settings, sheet_width_mm=600, sheet_height_mm=400)
    paths = [shapely.Polygon(path.points) for path in parts.diffuser_shapes(nest, settings).outlines]
    cuts = [path.buffer(kerf / 2) for path in paths]
    apart = min(one.distance(other) for one, other in itertools.combinations(cuts, 2))
    assert apart == pytest.approx(parts.BRIDGE_MM, abs=0.01)
    finished = sorted(path.buffer(-kerf / 2, join_style="mitre", mitre_limit=9).area for path in paths)
    assert finished == pytest.approx(sorted(shapely.Polygon(piece.outline).area for piece in pieces))


def test_an_led_knows_its_pocket(board: Board) -> None:
    colon = next(s for s in board.segments if s.name == "colon")
    for which, axis in enumerate(colon.axes):
        place = LedPlace(1, "colon", which + 1, axis[0])
        assert list(parts.homes_of(board, [place])) == [(place, colon, which)]


def test_smallest_pitch_counts_within_a_segment_only() -> None:
    apart = (LedPlace(1, "a", 1, (0, 0)), LedPlace(1, "b", 1, (1, 0)), LedPlace(1, "a", 2, (9, 0)))
    assert parts.smallest_pitch_mm(apart) == 9
    assert parts.smallest_pitch_mm(apart[:2]) == math.inf
