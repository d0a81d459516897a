"""How deep the light pockets come out: whole layers of sheet make at least the depth that was asked for."""

from __future__ import annotations

import math

from segkit.catalog.part import Sheet

LET_PASS = 0.001  # of a layer: less than that is no reason for one more


def grid_layers(sheet: Sheet, *, depth_mm: float) -> int:
    """Layers of sheet in the light grid: ``ceil(D/t - 0.001)``.

    Args:
        sheet: of the grid.
        depth_mm: depth that was asked for, above 0.

    Sources: arithmetic.

    Example:
        >>> from segkit.catalog.reader import sheet
        >>> grid_layers(sheet("foam-board-5mm"), depth_mm=22)
        5
    """
    return math.ceil(depth_mm / sheet.thickness_mm - LET_PASS)


def built_depth_mm(sheet: Sheet, *, depth_mm: float) -> float:
    """The depth that is built and reckoned with: layers times thickness; arguments as ``grid_layers``.

    Example:
        >>> from segkit.catalog.reader import sheet
        >>> built_depth_mm(sheet("foam-board-5mm"), depth_mm=22)
        25.0
    """
    return grid_layers(sheet, depth_mm=depth_mm) * sheet.thickness_mm
