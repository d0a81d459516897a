from __future__ import annotations

import itertools
import math
from collections.abc import Callable
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.fabrication.lip import smallest_gap_mm, widest_lip_mm
from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape
from segkit.geometry.polygon import offset


def nearest(board: Board, lip_mm: float) -> float:
    """Smallest distance between the grown pieces, every pair measured by a general-purpose library."""
    grown = [shapely.Polygon(offset(o, distance_mm=lip_mm)) for s in board.segments for o in s.outlines]
    return float(min(one.distance(other) for one, other in itertools.combinations(grown, 2)))


@given(
    gap=st.floats(1.5, 12), slant=st.floats(0, 15), ends=st.sampled_from(("pointed", "blunt", "rounded")),
    layout=st.sampled_from(("8.8", "8:8", "88")), clearance=st.floats(0, 1),
)  # fmt: skip
@settings(max_examples=25)
def test_lips_at_the_limit_keep_the_clearance_and_are_no_narrower_than_needed(
    gap: float, slant: float, ends: str, layout: str, clearance: float
) -> None:
    shape = DigitShape(200, 110, 26, gap, ends, slant, 26)
    board = board_of(layout=layout, shape=shape, spacing_mm=50, margin_mm=30)
    found = smallest_gap_mm(board)
    lip = widest_lip_mm(board, gap_mm=found, clearance_mm=clearance)
    assert 0 < lip <= (found - clearance) / 2
    assert nearest(board, lip) == pytest.approx(clearance, abs=1e-4)


@pytest.mark.parametrize("ends", ["pointed", "blunt", "rounded"])
def test_edges_that_face_each_other_share_the_gap(boards: Callable[..., Board], ends: str) -> None:
    """Gap 5, clearance 0.3: 2.35 mm each."""
    board = boards("88", ends=ends, slant_deg=0.0)
    gap = smallest_gap_mm(board)
    assert widest_lip_mm(board, gap_mm=gap, clearance_mm=0.3) == pytest.approx(2.35, abs=0.01)


def test_square_corners_that_face_each_other_reach_farther(boards: Callable[..., Board]) -> None:
    """A mitred square corner reaches sqrt(2) times the lip: 2.35/1.4142 = 1.662 mm."""
    board, apart = boards("8", ends="blunt", slant_deg=0.0), 10 + 5 / math.sqrt(2)
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    moved = tuple((x + apart, y + apart) for x, y in square)
    board = replace(board, segments=(replace(board.segments[0], outlines=(square, moved)),))
    gap = smallest_gap_mm(board)
    assert gap == pytest.approx(5)
    lip = widest_lip_mm(board, gap_mm=gap, clearance_mm=0.3)
    assert lip == pytest.approx((gap - 0.3) / 2 / math.sqrt(2), abs=0.002)


def test_no_room_and_no_neighbour(boards: Callable[..., Board]) -> None:
    board = boards("8")
    assert widest_lip_mm(board, gap_mm=0.2, clearance_mm=0.3) == 0
    assert widest_lip_mm(board, gap_mm=math.inf, clearance_mm=0.3) == math.inf
