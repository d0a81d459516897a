"""One digit: seven segments and its point, in the digit's own frame."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class DigitShape:
    """What a digit looks like; all lengths in mm.

    Attributes:
        height_mm, width_mm: outer size before the slant, over the outer edges of the strokes.
        stroke_mm: width of a segment.
        gap_mm: clear distance between facing edges of neighbouring segments, as measured after the slant.
        ends: ``pointed``, ``blunt`` or ``rounded``.
        slant_deg: lean to the right, 0 for upright.
        point_mm: diameter of a point or colon dot.
    """

    height_mm: float
    width_mm: float
    stroke_mm: float
    gap_mm: float
    ends: str
    slant_deg: float
    point_mm: float
