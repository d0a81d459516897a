"""How far apart LEDs may stand for even light: the endless line, published flat spots, shop rules."""

from __future__ import annotations

import math

from segkit.errors import InputError, Problem

#: Evenness (lowest over mean illuminance) that can be asked for.
EVENNESS_RANGE = (0.3, 0.95)

#: Pitch over depth of the pocket in light-box practice, for 120 degree modules.
PRACTICE_PITCH_OVER_DEPTH = (1.0, 1.5)

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
