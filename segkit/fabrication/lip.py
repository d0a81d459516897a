"""How wide the lip of the diffuser pieces may be before neighbours meet."""

from __future__ import annotations

import math

from segkit.geometry.board import Board
from segkit.geometry.polygon import Outline, distance, near_pairs, offset, turning_angles

_HALVINGS = 24
_FIRST_LOOK_MM = 20.0
_MEASURE_MM = 1e-6


def smallest_gap_mm(board: Board) -> float:
    """Smallest clear distance between any two openings [mm]; infinite for a single opening."""
    outlines, within = _outlines(board), _FIRST_LOOK_MM
    while not (pairs := near_pairs(outlines, within_mm=within)):
        if within > board.width_mm + board.height_mm:
            return math.inf
        within *= 4  # looking far at once would compare every opening with every other
    return pairs[0].width_mm


def widest_lip_mm(board: Board, *, gap_mm: float, clearance_mm: float) -> float:
    """Widest lip at which the grown pieces still keep the clearance between them [mm].

    Half of what the gap leaves where edges face each other. Where corners face each other it is less,
    since a sharp corner reaches farther out than the lip: measured on the grown outlines.

    Args:
        board: all openings.
        gap_mm: from ``smallest_gap_mm``.
        clearance_mm: to be kept between two lips, 0 or more.

    Returns:
        0 or more; infinite for a single opening.
    """
    most = (gap_mm - clearance_mm) / 2
    if most <= 0 or math.isinf(most):
        return max(0.0, most)
    outlines = _outlines(board)
    sharpest = max(1 / math.cos(turn / 2) for outline in outlines for turn in turning_angles(outline))
    near = near_pairs(outlines, within_mm=clearance_mm + 2 * most * sharpest)
    pairs = [(outlines[web.first], outlines[web.second]) for web in near]
    if _kept(pairs, most) >= clearance_mm - _MEASURE_MM:
        return most
    low, high = 0.0, most
    for _ in range(_HALVINGS):
        lip = (low + high) / 2
        low, high = (lip, high) if _kept(pairs, lip) >= clearance_mm else (low, lip)
    return low


def _kept(pairs: list[tuple[Outline, Outline]], lip_mm: float) -> float:
    grown = {outline: offset(outline, distance_mm=lip_mm) for pair in pairs for outline in pair}
    return min(distance(grown[one], grown[other]) for one, other in pairs)


def _outlines(board: Board) -> list[Outline]:
    return [outline for segment in board.segments for outline in segment.outlines]
