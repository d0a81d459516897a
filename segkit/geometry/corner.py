"""How far segments stop short of each other where their ends meet.

Where two segments with pointed or rounded ends meet, both are pulled back from the crossing of their
centre lines so that the clear distance between the facing edges is the gap. A slant makes one kind of
corner sharper and the other wider. All three crossbars keep the pull-back of an upright digit, and the
uprights take up the rest at each end.

Blunt uprights run the full height and stop one gap short of each other in the middle; the crossbars stand
between them, one gap from either. So no corner of the digit stays open.

Either way every joint measures the gap, the crossbars stay one piece and the uprights stay one piece.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from segkit.geometry.polygon import distance_when_moved, rotate, shear, translate
from segkit.geometry.segment import segment_outline

_EXACT_MM = 1e-5  # how close the measured gap is brought to the asked one


FootAndHead = tuple[float, float]


@dataclass(frozen=True)
class PullBacks:
    """How far ends stop short of the crossing of the centre lines, along the axis before the slant [mm].

    Attributes:
        crossbar_mm: both ends of a, d, g.
        b, c, e, f: foot and head of that upright; below 0 where it runs past the crossing. The sum is the
            same for all four.
    """

    crossbar_mm: float
    b: FootAndHead
    c: FootAndHead
    e: FootAndHead
    f: FootAndHead


@lru_cache(maxsize=64)
def pull_backs(*, stroke_mm: float, gap_mm: float, ends: str, slant_deg: float) -> PullBacks:
    """The pull-backs that leave the gap in every joint: closed forms, or solved on the measured outlines.

    Args:
        stroke_mm: width of a segment, above 0.
        gap_mm: clear distance asked for, above 0.
        ends: ``pointed``, ``blunt`` or ``rounded``.
        slant_deg: lean to the right, -30 to 30.

    Sources: arithmetic.

    Example:
        >>> backs = pull_backs(stroke_mm=42, gap_mm=5, ends="pointed", slant_deg=0)
        >>> round(backs.crossbar_mm, 4), backs.e == (backs.crossbar_mm, backs.crossbar_mm)
        (3.5355, True)
    """
    crossbar = crossbar_pull_back(stroke_mm=stroke_mm, gap_mm=gap_mm, ends=ends, slant_deg=slant_deg)
    if ends == "blunt":
        outer, inner = -stroke_mm / 2, gap_mm / 2
        return PullBacks(crossbar, b=(inner, outer), c=(outer, inner), e=(outer, inner), f=(inner, outer))
    sharp, wide = (
        _upright_pull_back(crossbar, stroke_mm=stroke_mm, gap_mm=gap_mm, ends=ends, slant_deg=angle)
        if angle
        else crossbar
        for angle in (slant_deg, -slant_deg)
    )
    return PullBacks(crossbar, b=(wide, sharp), c=(wide, sharp), e=(sharp, wide), f=(sharp, wide))


def crossbar_pull_back(*, stroke_mm: float, gap_mm: float, ends: str, slant_deg: float) -> float:
    """Pull-back of a crossbar [mm].

    Pointed ``gap/sqrt(2)``: the 45 degree edges are parallel and one gap apart. Rounded
    ``(T + gap)/sqrt(2) - T/2``: the centres of the half circles are ``T + gap`` apart. These two hold at
    any slant, and without one for the uprights too. Blunt ``T/2 + gap/cos(slant)``: the end is parallel
    to the side of the upright, one gap away as measured square to it. Sources: arithmetic.
    """
    if ends == "pointed":
        return gap_mm / math.sqrt(2)
    if ends == "blunt":
        return stroke_mm / 2 + gap_mm / math.cos(math.radians(slant_deg))
    return (stroke_mm + gap_mm) / math.sqrt(2) - stroke_mm / 2


def _upright_pull_back(
    crossbar_mm: float, *, stroke_mm: float, gap_mm: float, ends: str, slant_deg: float
) -> float:
    """Foot of an upright over the left end of a crossbar: secant steps on the measured distance."""
    long = 4 * (stroke_mm + gap_mm)
    bar = segment_outline(length_mm=long, stroke_mm=stroke_mm, ends=ends)
    flat = shear(translate(bar, dx_mm=crossbar_mm + long / 2, dy_mm=0), slant_deg=slant_deg)
    upright = shear(rotate(bar, angle_deg=90), slant_deg=slant_deg)
    lean = math.tan(math.radians(slant_deg))

    measured = distance_when_moved(flat, upright)

    def excess(pull_mm: float) -> float:
        rise = pull_mm + long / 2
        return measured(lean * rise, rise) - gap_mm

    pull = _first_guess(crossbar_mm, gap_mm=gap_mm, ends=ends, lean=lean)
    found, step = excess(pull), gap_mm / 50
    for _ in range(60):
        if abs(found) < _EXACT_MM:
            return pull
        slope = (excess(pull + step) - found) / step
        pull -= found / slope if slope > 0.1 else -step
        found, step = excess(pull), max(abs(found) / 100, _EXACT_MM)
    raise ArithmeticError(f"no pull-back found for a gap of {gap_mm} mm at {slant_deg} deg")


def _first_guess(crossbar_mm: float, *, gap_mm: float, ends: str, lean: float) -> float:
    """Exact for pointed ends, whose facing edges stay parallel."""
    return gap_mm * math.hypot(1 + lean, 1) - crossbar_mm if ends == "pointed" else crossbar_mm
