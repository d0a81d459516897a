"""The segments of a digit in standard order: a on top, clockwise to f, g in the middle, dp the point."""

from __future__ import annotations

SEGMENTS = ("a", "b", "c", "d", "e", "f", "g")
POINT = "dp"
COLON = "colon"
ALL = (*SEGMENTS, POINT)
