from __future__ import annotations

import math
from collections.abc import Callable

import pytest
import shapely

from segkit.drawing.drawing import Point, Text
from segkit.fabrication import marks
from segkit.geometry.board import Board


def test_names_are_digit_and_letter(board: Board) -> None:
    names = [marks.piece_name(segment) for segment in board.segments]
    assert names == [*(f"1{s}" for s in "abcdefg"), "1:", *(f"2{s}" for s in "abcdefg"), "2dp"]


@pytest.mark.parametrize("ends", ["pointed", "blunt", "rounded"])
@pytest.mark.parametrize("kerf_mm", [0.0, 3.0])
def test_names_stay_inside_what_falls_out(boards: Callable[..., Board], ends: str, kerf_mm: float) -> None:
    board = boards(ends=ends)
    shapes = [shapely.Polygon(o) for s in board.segments for o in s.outlines]
    for text, shape in zip(marks.names_in_openings(board, kerf_mm=kerf_mm), shapes, strict=True):
        half = (
            0.3 * len(text.text) * text.height_mm
        )  # letters of a common type are below 0.6 of its size wide
        box = shapely.box(
            text.at[0] - half, text.at[1], text.at[0] + half, text.at[1] + 0.72 * text.height_mm
        )
        assert shape.buffer(-kerf_mm).contains(box), text


@pytest.mark.parametrize("slant_deg", [0.0, 12.0])
@pytest.mark.parametrize("ends", ["pointed", "rounded"])
def test_letters_beside_the_segments_touch_neither_pockets_nor_each_other(
    boards: Callable[..., Board], slant_deg: float, ends: str
) -> None:
    board = boards(slant_deg=slant_deg, ends=ends)
    pockets = shapely.union_all([shapely.Polygon(o) for s in board.segments for o in s.outlines])
    boxes = []
    for text in marks.digit_names(board):
        assert isinstance(text, Text)
        half = 0.3 * len(text.text) * text.height_mm
        boxes.append(
            shapely.box(text.at[0] - half, text.at[1], text.at[0] + half, text.at[1] + 0.72 * text.height_mm)
        )
    assert all(not box.intersects(pockets) for box in boxes)
    assert all(not a.intersects(b) for i, a in enumerate(boxes) for b in boxes[:i])


def test_each_letter_is_nearest_to_its_own_segment(board: Board) -> None:
    letters = [t for t in marks.digit_names(board) if isinstance(t, Text) and t.text in tuple("abcdefg")]
    assert len(letters) == 14
    for number, letter in enumerate(letters):
        digit = 1 + number // 7
        at = (letter.at[0], letter.at[1] + 0.36 * letter.height_mm)
        near = min(
            board.segments,
            key=lambda s: min(shapely.Polygon(o).distance(shapely.Point(at)) for o in s.outlines),
        )
        assert (near.digit, near.name) == (digit, letter.text)


def test_the_sides_of_the_reader(board: Board) -> None:
    left, right = marks.side_marks(board)
    assert left.text == "reader's left"
    assert left.at[0] < 0
    assert right.text == "reader's right"
    assert right.at[0] > board.width_mm


def test_a_cross_has_two_equal_arms() -> None:
    arms = marks.cross((5, 5), size_mm=3)
    assert [math.dist(*arm.points) for arm in arms] == [3, 3]
    assert not any(arm.closed for arm in arms)


ROW = ((0.0, 0.0), (90.0, 0.0))


@pytest.mark.parametrize("free_mm", [math.inf, 9.0, 6.0, 3.0, 1.0])
@pytest.mark.parametrize("hole_mm", [5.0, 5.2, 10.2])
@pytest.mark.parametrize("axis", [ROW, ((0.0, 0.0), (0.0, 90.0)), ((0.0, 0.0), (20.0, 90.0))])
def test_signs_of_polarity_can_be_read_and_told_from_those_of_the_next_led(
    axis: tuple[Point, Point], hole_mm: float, free_mm: float
) -> None:
    """At least 1.5 mm across, off every hole, and nearer to their own hole than to the next one."""
    length = math.dist(*axis)
    ux, uy = (axis[1][0] - axis[0][0]) / length, (axis[1][1] - axis[0][1]) / length
    pitch = hole_mm + min(free_mm, 30.0)
    centres = [shapely.Point(ux * pitch * i, uy * pitch * i) for i in (-1, 0, 1)]
    holes = [centre.buffer(hole_mm / 2) for centre in centres]
    signs = marks.polarity_marks((0.0, 0.0), axis, hole_mm=hole_mm, free_mm=free_mm)
    lines = [shapely.LineString(sign.points) for sign in signs]
    assert min(line.length for line in lines) >= 1.5 - 1e-9
    assert all(line.distance(hole) > 0 for line in lines for hole in holes)
    for line in lines:
        middle = line.centroid
        own, *others = (middle.distance(centres[i]) for i in (1, 0, 2))
        assert own < min(others)
    plus, minus = lines[0].centroid, lines[2].centroid
    assert (plus.x - minus.x) * ux + (plus.y - minus.y) * uy > 0.5 * hole_mm, "plus on its side"
    next_minus = shapely.affinity.translate(lines[2], ux * pitch, uy * pitch)
    assert min(line.distance(next_minus) for line in lines[:2]) > 0.3


def test_signs_stand_in_the_row_where_there_is_room() -> None:
    lying, _, dash = marks.polarity_marks((9.0, 0.0), ROW, hole_mm=5.0, free_mm=9.0)
    assert lying.points[0][1] == dash.points[0][1] == 0
    close = marks.polarity_marks((9.0, 0.0), ROW, hole_mm=5.0, free_mm=1.0)
    assert max(y for sign in close for _, y in sign.points) < -2.5, "beside the row"
