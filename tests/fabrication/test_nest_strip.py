from __future__ import annotations

import time

from segkit.fabrication.nest_strip import shortest, used_mm
from segkit.geometry.polygon import circle, near_pairs
from segkit.geometry.segment import segment_outline

LONG, SHORT = (segment_outline(length_mm=length, stroke_mm=40, ends="pointed") for length in (150, 140))
BOARD = [LONG] * 12 + [SHORT] * 16 + [circle((0, 0), diameter_mm=44)] * 2


def test_a_board_with_dots_is_laid_out_tightly_and_at_once() -> None:
    shortest(BOARD, [(0, 90)] * 30, width_mm=600, spacing_mm=3)
    start = time.perf_counter()
    made = shortest(BOARD, [(0, 90)] * 30, width_mm=600, spacing_mm=3)
    took = time.perf_counter() - start
    assert made is not None
    assert sorted(piece.index for piece in made) == [*range(30)]
    assert near_pairs([piece.outline for piece in made], within_mm=9)[0].width_mm >= 3 - 1e-6
    assert used_mm(made, 3) < 350, "30 pieces of 153 000 mm2 in all: 73 % or more of the strip"
    assert took < 0.5


def test_the_same_pieces_give_the_same_layout() -> None:
    ways = [shortest(BOARD, [(0, 90)] * 30, width_mm=400, spacing_mm=3) for _ in range(2)]
    assert ways[0] == ways[1]


def test_many_kinds_are_packed_one_by_one() -> None:
    shapes = [segment_outline(length_mm=60 + 7 * k, stroke_mm=14 + k, ends="pointed") for k in range(9)]
    made = shortest(shapes, [(0, 90)] * 9, width_mm=300, spacing_mm=2)
    assert made is not None
    assert len(made) == 9
    assert near_pairs([piece.outline for piece in made], within_mm=9)[0].width_mm >= 2 - 1e-6


def test_too_long_for_the_strip_gives_nothing() -> None:
    assert shortest(BOARD, [(0, 90)] * 30, width_mm=400, spacing_mm=3, highest_mm=300) is None
