"""Fixing holes in the margin of the board."""

from __future__ import annotations

import math

from segkit.findings import Finding
from segkit.geometry.polygon import Point
from segkit.units import plain_number

EVERY_MM = 500.0  # longest distance between fixing holes; common practice for thin board
MARGIN_DIAMETERS = 3.0  # a hole in mid-margin then keeps its own diameter to either side; common practice


def fixing_holes(*, width_mm: float, height_mm: float, margin_mm: float, hole_mm: float) -> tuple[Point, ...]:
    """Centres of the fixing holes: at the corners in mid-margin, and between them at most every 500 mm.

    Args:
        width_mm, height_mm: of the board.
        margin_mm: free of openings all round.
        hole_mm: diameter; 0 for no holes.

    Returns:
        from the lower left, row by row; nothing where the margin is under three diameters.

    Sources: common-practice.

    Example:
        >>> fixing_holes(width_mm=600, height_mm=380, margin_mm=40, hole_mm=4)[:3]
        ((20.0, 20.0), (300.0, 20.0), (580.0, 20.0))
    """
    if hole_mm == 0 or margin_mm < MARGIN_DIAMETERS * hole_mm:
        return ()
    inset = margin_mm / 2
    across, up = width_mm - margin_mm, height_mm - margin_mm
    columns, rows = math.ceil(across / EVERY_MM), math.ceil(up / EVERY_MM)
    return tuple(
        (inset + across * i / columns, inset + up * j / rows)
        for j in range(rows + 1)
        for i in range(columns + 1)
        if j in (0, rows) or i in (0, columns)
    )


def margin_findings(*, margin_mm: float, hole_mm: float) -> tuple[Finding, ...]:
    """A caution where the margin is too narrow to hold the fixing holes that are asked for."""
    needed = MARGIN_DIAMETERS * hole_mm
    if margin_mm >= needed:
        return ()
    text = (
        f"The margin of {plain_number(margin_mm)} mm is too narrow for fixing holes of "
        f"{plain_number(hole_mm)} mm, which want three diameters, {plain_number(needed)} mm; none are drawn."
    )
    remedy = "Widen digit.margin, or hold the board by its edges and set digit.fixing_hole to less."
    return (Finding("caution", "no-fixing-holes", "board", text, margin_mm, needed, "mm", remedy=remedy),)
