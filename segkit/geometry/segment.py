"""The outline of one segment lying flat: pointed, blunt or rounded."""

from __future__ import annotations

import math

from segkit.errors import InputError, Problem, nearest
from segkit.geometry.polygon import FLATTENING_MM, Outline, arc_steps

ENDS = ("pointed", "blunt", "rounded")
LARGEST_SLANT_DEG = 30.0
#: Shortest segment, in strokes: pointed and rounded ends take half a stroke each.
SHORTEST = {"pointed": 1.0, "blunt": 0.5, "rounded": 1.0}
#: A shear by 30 deg stretches a length at most 1.33 times; arcs are drawn finer by that much.
_FINE = FLATTENING_MM / 1.34


def end_steps(stroke_mm: float) -> int:
    """Chords in one rounded end: a multiple of 4, so that a point lies at 45 deg, where ends face."""
    return arc_steps(stroke_mm / 2, flattening_mm=_FINE) // 2


def segment_outline(*, length_mm: float, stroke_mm: float, ends: str) -> Outline:
    """A flat segment centred on the origin, counter-clockwise from its right end.

    Args:
        length_mm: from end to end, above the stroke (blunt: above half of it).
        stroke_mm: width across, above 0.
        ends: ``pointed`` (45 degree ends, a hexagon), ``blunt`` (square) or ``rounded`` (half circles
            as chords, no farther than 0.01 mm from the arc even after a slant of 30 degrees).

    Returns:
        6 points, 4 points, or as many as the half circles need.

    Raises:
        InputError: a length too short for its ends, a stroke not above 0, unknown ends.

    Area: pointed ``L*T - T**2/2``, blunt ``L*T``, rounded ``(L - T)*T + n*(T/2)**2*sin(pi/n)`` with n
    chords in one end, which tends to ``(L - T)*T + pi*T**2/4``. Sources: arithmetic.

    Example:
        >>> segment_outline(length_mm=120, stroke_mm=22, ends="pointed")[:3]
        ((60.0, 0.0), (49.0, 11.0), (-49.0, 11.0))
    """
    _refuse(length_mm, stroke_mm, ends)
    half, side = length_mm / 2, stroke_mm / 2
    if ends == "blunt":
        return ((half, -side), (half, side), (-half, side), (-half, -side))
    if ends == "pointed":
        flat = half - side
        return ((half, 0.0), (flat, side), (-flat, side), (-half, 0.0), (-flat, -side), (flat, -side))
    steps = end_steps(stroke_mm)
    turns = [math.pi * (i / steps - 0.5) for i in range(steps + 1)]
    right = [(half - side + side * math.cos(t), side * math.sin(t)) for t in turns]
    return tuple(right + [(-x, -y) for x, y in right])


def segment_area(*, length_mm: float, stroke_mm: float, ends: str) -> float:
    """Area [mm2] of ``segment_outline`` in closed form. Sources: arithmetic.

    Example:
        >>> segment_area(length_mm=120, stroke_mm=22, ends="pointed")
        2398.0
    """
    _refuse(length_mm, stroke_mm, ends)
    if ends == "blunt":
        return length_mm * stroke_mm
    if ends == "pointed":
        return length_mm * stroke_mm - stroke_mm**2 / 2
    steps = end_steps(stroke_mm)
    return (length_mm - stroke_mm) * stroke_mm + steps * (stroke_mm / 2) ** 2 * math.sin(math.pi / steps)


def _refuse(length_mm: float, stroke_mm: float, ends: str) -> None:
    problems = []
    if ends not in ENDS:
        problems.append(
            Problem("no such ends.", value=f'"{ends}"', limit=", ".join(ENDS), remedy=nearest(ends, ENDS))
        )
    if not 0 < stroke_mm < math.inf:
        problems.append(Problem("the stroke must be above 0.", value=f"{stroke_mm:g} mm"))
    shortest = SHORTEST.get(ends, 1.0) * stroke_mm
    if not shortest < length_mm < math.inf:
        text = f"too short for {ends} ends at a stroke of {stroke_mm:g} mm."
        remedy = "Make the segment longer or the stroke narrower."
        problems.append(
            Problem(text, value=f"{length_mm:g} mm", limit=f"above {shortest:g} mm", remedy=remedy)
        )
    if problems:
        raise InputError(problems)
