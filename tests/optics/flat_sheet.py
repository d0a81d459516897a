"""Light of one LED on a flat sheet, by its lobe, the inverse square and the cosine of the sheet."""

from __future__ import annotations

import math

from segkit.optics.photometry import intensity


def target_illuminance(*, axis_cd: float, gap_mm: float, offset_mm: float, exponent: float) -> float:
    """Illuminance [lx] beside the axis: ``I(t)*cos(t)/r^2``."""
    angle = math.atan2(abs(offset_mm), gap_mm)
    towards_cd = intensity(axis_cd=axis_cd, angle_deg=math.degrees(angle), exponent=exponent)
    return towards_cd * math.cos(angle) * 1e6 / (gap_mm**2 + offset_mm**2)
