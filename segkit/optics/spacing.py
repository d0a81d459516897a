"""How far apart LEDs may stand for even light: the endless line, published flat spots, shop rules."""

from __future__ import annotations

import math
from itertools import pairwise

from segkit.errors import InputError, Problem

#: Evenness (lowest over mean illuminance) that can be asked for.
EVENNESS_RANGE = (0.3, 0.95)

#: Pitch over depth of the pocket in light-box practice, for 120 degree modules.
PRACTICE_PITCH_OVER_DEPTH = (1.0, 1.5)

#: How even one row can make a white pocket at best, against the fall of light across the stroke
#: (``across_fall``): found by linear programming on a bar 120 x 20 mm, 25 to 50 mm deep, walls 0.85;
#: the first value by tracing rays from a 20 degree row.
ONE_ROW_BEST = (
    (0.0, 0.24), (0.068, 0.43), (0.29, 0.68), (0.434, 0.81), (0.576, 0.85), (0.68, 0.91), (0.754, 0.93),
    (0.843, 0.95), (1.0, 0.97),
)  # fmt: skip

#: What a real row with few LEDs stays below the best one by.
ONE_ROW_SHORT = 0.05

_REACH = 60.0  # gaps from the LED beyond which its light no longer counts


def line_evenness(*, pitch_over_gap: float, exponent: float) -> float:
    """Lowest over mean illuminance along an endless line of LEDs under a flat sheet, no walls.

    Formula: with ``f(x) = (1 + (x/z)^2)^(-(m+3)/2)`` the lowest value, half way between two LEDs, is
    ``sum of f((k + 1/2) p)`` and the mean ``z/p sqrt(pi) Gamma((m+2)/2) / Gamma((m+3)/2)``.

    Args:
        pitch_over_gap: LED distance p over the clear height z above the tips, above 0.
        exponent: m of ``photometry.lobe_exponent``.

    Returns:
        0 (dark between the LEDs) to 1 (even).

    Sources: moreno-2006 for the lobe; arithmetic.

    Example:
        >>> round(line_evenness(pitch_over_gap=1.32, exponent=1), 2)
        0.9
    """
    lowest, mean = line_levels(pitch_over_gap=pitch_over_gap, exponent=exponent)
    return min(1.0, lowest / mean)


def line_levels(*, pitch_over_gap: float, exponent: float) -> tuple[float, float]:
    """Lowest and mean illuminance along the endless line, in units of that right above one lone LED.

    Args:
        pitch_over_gap: as in ``line_evenness``.
        exponent: m of ``photometry.lobe_exponent``.
    """
    power = -(exponent + 3) / 2
    terms = min(4000, math.ceil(_REACH / pitch_over_gap) + 1)
    lowest = 2 * sum((1 + ((k + 0.5) * pitch_over_gap) ** 2) ** power for k in range(terms))
    shape = math.exp(math.lgamma((exponent + 2) / 2) - math.lgamma((exponent + 3) / 2))
    return lowest, math.sqrt(math.pi) * shape / pitch_over_gap


def pitch_limit(*, evenness: float, exponent: float) -> float:
    """Largest pitch over gap at which an endless line is as even as asked: the root of ``line_evenness``.

    Walls and ends are left out. On white pockets 120 x 20 mm it asks for the count that the full calculation
    finds, or one LED more, up to evenness 0.8 and where one row can do it at all (``one_row_best``). At 0.9
    it can be one LED too few.

    Args:
        evenness: lowest over mean, 0.3 to 0.95.
        exponent: m of ``photometry.lobe_exponent``.

    Raises:
        InputError: evenness outside its range.

    Sources: moreno-2006, pocket-study.

    Example:
        >>> round(pitch_limit(evenness=0.7, exponent=1), 1)
        1.9
    """
    refuse_evenness(evenness)
    low, high = 0.0, 20.0
    for _ in range(50):
        middle = (low + high) / 2
        if line_evenness(pitch_over_gap=middle, exponent=exponent) >= evenness:
            low = middle
        else:
            high = middle
    return low


def refuse_evenness(evenness: float) -> None:
    """Raise InputError unless the evenness can be asked for."""
    low, high = EVENNESS_RANGE
    if not low <= evenness <= high:
        raise InputError(
            Problem(
                "no evenness to design for (lowest over mean brightness of a segment).",
                key="evenness",
                value=f"{evenness:g}",
                limit=f"{low:g} to {high:g}",
                remedy="0.7 looks even from the reader's distance; 0.8 from close by.",
            )
        )


def flat_line_spacing(exponent: float) -> float:
    """Published flat-spot spacing of a long line, over the gap, for a flat sheet.

    Formula: ``sqrt(3.2773 / (m + 5.2539))``: the published fit with m + 1 in the place of m, because it
    leaves out the cosine of the sheet. Safe and close: printed as a reference, not used for the count.

    Args:
        exponent: m of ``photometry.lobe_exponent``.

    Sources: moreno-2006.

    Example:
        >>> round(flat_line_spacing(1), 4)
        0.7239
    """
    return math.sqrt(3.2773 / (exponent + 5.2539))


def across_fall(*, stroke_mm: float, gap_mm: float, exponent: float) -> float:
    """Light at the edge of the stroke over that on its middle line, for a close row without walls.

    Formula: ``(1 + (w/2z)^2)^(-(m+2)/2)``.

    Args:
        stroke_mm: width w across the row, mm.
        gap_mm: clear height z above the tips, mm, above 0.
        exponent: m of ``photometry.lobe_exponent``.

    Example:
        >>> round(across_fall(stroke_mm=20, gap_mm=19, exponent=1), 2)
        0.69
    """
    return float((1 + (stroke_mm / (2 * gap_mm)) ** 2) ** (-(exponent + 2) / 2))


def one_row_best(fall: float) -> float:
    """How even one row can make a white pocket at best, from the fall across the stroke.

    Args:
        fall: ``across_fall``, 0 to 1.

    Sources: pocket-study (interpolated between the pockets of one outline; rays traced in wider ones agree
    to 0.06).

    Example:
        >>> one_row_best(0.576)
        0.85
    """
    for (x0, y0), (x1, y1) in pairwise(ONE_ROW_BEST):
        if fall <= x1:
            return y0 + (y1 - y0) * (fall - x0) / (x1 - x0)
    return ONE_ROW_BEST[-1][1]


def widest_stroke(*, evenness: float, gap_mm: float, exponent: float) -> float:
    """Widest stroke [mm] that one row can light as evenly as asked, at a gap.

    The inverse of ``one_row_best`` of ``across_fall``, with ``ONE_ROW_SHORT`` in hand: about 0.45 gaps for
    30 degree LEDs at evenness 0.8.

    Args:
        evenness: lowest over mean, 0.3 to 0.95; counted up to 0.92.
        gap_mm: clear height above the tips, mm, above 0.
        exponent: m of ``photometry.lobe_exponent``.

    Sources: pocket-study.

    Example:
        >>> round(widest_stroke(evenness=0.8, gap_mm=10, exponent=20), 1)
        4.5
    """
    asked = min(evenness, 0.92) + ONE_ROW_SHORT
    low, high = 0.0, 1.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (low, middle) if one_row_best(middle) >= asked else (middle, high)
    return float(2 * gap_mm * math.sqrt(high ** (-2 / (exponent + 2)) - 1))


def depth_range(pitch_mm: float) -> tuple[float, float]:
    """Depth [mm] of a light box for a pitch of 120 degree LEDs: ``pitch/1.5`` to ``pitch/1``.

    Common practice; not for narrow beams.

    Args:
        pitch_mm: distance between neighbours, mm.

    Sources: light-box-practice.

    Example:
        >>> [round(depth, 1) for depth in depth_range(1000 / 60)]
        [11.1, 16.7]
    """
    shallow, deep = PRACTICE_PITCH_OVER_DEPTH
    return pitch_mm / deep, pitch_mm / shallow
