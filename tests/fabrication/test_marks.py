from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import pytest
import shapely

from segkit.drawing.drawing import Drawing, Point, Text
from segkit.fabrication import marks
from segkit.fabrication.cut_sheet import SheetText, on_sheet, text_width_mm, type_for
from segkit.fabrication.layers import Palette
from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape


def test_names_are_digit_and_letter(board: Board) -> None:
    names = [marks.piece_name(segment) for segment in board.segments]
    assert names == [*(f"1{s}" for s in "abcdefg"), "1:low", *(f"2{s}" for s in "abcdefg"), "2dp"]


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
    left, right = marks.side_marks(board, type_mm=None)
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


@pytest.mark.parametrize("ends", ["pointed", "blunt", "rounded"])
@pytest.mark.parametrize(("width", "stroke"), [(0.4, 0.08), (0.55, 0.14), (0.8, 0.12), (1.0, 0.2)])
@pytest.mark.parametrize("height_mm", [60.0, 250.0, 1200.0])
def test_names_inside_a_digit_keep_off_each_other_and_off_the_pockets(
    ends: str, width: float, stroke: float, height_mm: float
) -> None:
    shape = DigitShape(height_mm, width * height_mm, stroke * height_mm, 3.0, ends, 0.0, 0.1 * height_mm)
    made = board_of(layout="8", shape=shape, spacing_mm=20, margin_mm=20)
    boxes = {}
    for text in marks.digit_names(made):
        assert isinstance(text, Text)
        half = 0.9 * text_width_mm(text.text, height_mm=text.height_mm) / 2
        (x, y), up = text.at, 0.72 * text.height_mm
        boxes[text.text] = shapely.box(
            x - half, y - (0.2 * text.height_mm if text.text == "digit" else 0), x + half, y + up
        )
    assert len(boxes) == 9
    for (one, here), (other, there) in itertools.combinations(boxes.items(), 2):
        assert not here.intersects(there), f"{one} over {other}"
    for segment in made.segments:
        for name, here in boxes.items():
            assert not here.intersects(shapely.Polygon(segment.outlines[0])), f"{name} over {segment.name}"


@pytest.mark.parametrize("type_mm", [None, 1.0, 4.0, 9.0])
@pytest.mark.parametrize("height_mm", [60.0, 250.0, 1200.0])
def test_the_sides_of_the_reader_stay_in_the_margin_of_the_page(
    boards: Callable[..., Board], height_mm: float, type_mm: float | None
) -> None:
    """Turned by a quarter, a line reaches 0.8 of its size above its foot, 0.25 below."""
    made = boards("8", height_mm=height_mm, stroke_mm=0.12 * height_mm, gap_mm=3.0)
    part = Drawing("", made.width_mm, made.height_mm, ())
    sheet = on_sheet(part, SheetText("A", "", (), type_mm=type_mm), palette=Palette())
    edge = (type_mm or type_for(made.width_mm)) * 4
    assert sheet.width_mm >= made.width_mm + edge
    for mark in marks.side_marks(made, type_mm=type_mm):
        beyond = max(-mark.at[0], mark.at[0] - made.width_mm)
        assert 0.25 * mark.height_mm < beyond < edge - 0.8 * mark.height_mm


def test_both_dots_of_a_colon_have_their_own_name(board: Board) -> None:
    colon = next(s for s in board.segments if s.name == "colon")
    heights = {marks.piece_name(colon, i): marks.middle(axis)[1] for i, axis in enumerate(colon.axes)}
    assert heights["1:up"] > heights["1:low"]
    labels = {t.text: t.at[1] for t in marks.digit_names(board) if isinstance(t, Text) and ":" in t.text}
    assert labels[":up"] > heights["1:up"] > labels[":low"] > heights["1:low"]


def test_a_cross_marks_the_middle_of_each_fixing_hole(board: Board) -> None:
    arms = marks.centre_marks(board)
    middles = [marks.middle((arm.points[0], arm.points[1])) for arm in arms]
    for found in (middles[::2], middles[1::2]):
        assert [c for at in found for c in at] == pytest.approx([c for at in board.fixings for c in at])
    assert all(math.dist(*arm.points) > board.fixing_hole_mm for arm in arms)
