"""Plane outlines in mm; the only user of the geometry library."""

from __future__ import annotations

Point = tuple[float, float]
Outline = tuple[Point, ...]
