from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import replace

import pytest

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Path
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.panels import CLEAR_MM, ROOM_MM, joints, judged
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds

Boards = Callable[..., Board]
Sheets = Callable[[str], Sheet]


@pytest.mark.parametrize("slant", [0.0, 8.0])
@pytest.mark.parametrize("width", [400.0, 620.0, 900.0])
def test_joints_cross_no_segment_and_no_hole(
    boards: Boards, sheets: Sheets, slant: float, width: float
) -> None:
    board = boards("88:88 88", slant_deg=slant)
    stock = replace(sheets("plywood-3mm"), width_mm=width, height_mm=300.0)
    found = joints(board, stock)
    assert found
    ends = (0.0, *found, board.width_mm)
    assert all(right - left <= width + 1e-6 for left, right in itertools.pairwise(ends))
    for place in found:
        for segment in board.segments:
            for outline in segment.outlines:
                left, _, right, _ = bounds([outline])
                assert not left - CLEAR_MM < place - 1e-9 < right + CLEAR_MM - 1e-6
        for x, _ in board.fixings:
            assert abs(x - place) >= board.fixing_hole_mm / 2 + CLEAR_MM - 1e-6


def test_panels_are_about_even(boards: Boards, sheets: Sheets) -> None:
    board = boards("8888", slant_deg=0.0)
    stock = replace(sheets("plywood-3mm"), width_mm=0.9 * board.width_mm, height_mm=400.0)
    (place,) = joints(board, stock) or ()
    assert place == pytest.approx(board.width_mm / 2, abs=0.1 * board.width_mm)


def test_a_board_that_fits_has_none_and_a_digit_too_wide_has_no_answer(
    boards: Boards, sheets: Sheets
) -> None:
    board = boards("88")
    assert joints(board, sheets("plywood-3mm")) == ()
    tiny = replace(sheets("plywood-3mm"), width_mm=80.0, height_mm=400.0)
    assert joints(board, tiny) is None
    assert joints(boards("88", height_mm=700.0), replace(sheets("plywood-3mm"), width_mm=500.0)) is None


def test_each_panel_has_its_own_closed_outline(cut: Callable[..., CutSet], boards: Boards) -> None:
    made = cut(boards("88:88 88 88", height_mm=300.0))
    (outline,) = (layer for layer in made.drawings["face"].layers if layer.name == "cut-outline")
    joined = [f for f in made.findings if f.code == "joined-panels"]
    assert joined
    assert len(outline.shapes) == joined[0].value
    assert all(isinstance(shape, Path) and shape.closed for shape in outline.shapes)
    assert not [f for f in made.findings if f.code == "larger-than-sheet"]
    assert made.stock_sheets["face"] >= len(outline.shapes)


def test_no_joint_leaves_the_findings(sheets: Sheets) -> None:
    assert judged((), "face", sheets("plywood-3mm"), ()) == ()


def test_a_joint_keeps_its_distance_where_the_strip_has_room(boards: Boards, sheets: Sheets) -> None:
    """Two panels that may both be nearly as wide as the board: nothing forces the joint to a segment's side."""
    board = boards("88:88", slant_deg=8.0)
    stock = replace(sheets("plywood-3mm"), width_mm=0.95 * board.width_mm, height_mm=400.0)
    (place,) = joints(board, stock) or ()
    spans = [bounds([outline])[::2] for s in board.segments for outline in s.outlines]
    left = place - max(right for _, right in spans if right < place)
    right = min(left for left, _ in spans if left > place) - place
    assert left == pytest.approx(right, abs=0.01) or min(left, right) >= ROOM_MM
    assert min(left, right) > CLEAR_MM + 1
