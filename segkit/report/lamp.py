"""A glyph as a small picture for a table cell."""

from __future__ import annotations

from collections.abc import Iterable

from segkit.geometry.digit import DigitShape, digit_outlines
from segkit.units import coordinate

_SHAPE = DigitShape(height_mm=40, width_mm=24, stroke_mm=5, gap_mm=1, ends="pointed", slant_deg=0, point_mm=5)
_LIT, _DARK = "#1d2329", "#e3e7ea"


def lamp_svg(segments: Iterable[str]) -> str:
    """A digit as inline SVG with these segments dark on a light ground; a point beside it.

    Args:
        segments: lit ones, of a to g and dp.

    Example:
        >>> lamp_svg("bc").count("#1d2329")
        2
    """
    lit = frozenset(segments)
    paths = [
        f'<path fill="{_LIT if name in lit else _DARK}" d="M{_points(outline)}Z"/>'
        for name, (outline, _) in digit_outlines(_SHAPE).items()
    ]
    dot = f'<circle cx="29" cy="37.5" r="2.5" fill="{_LIT if "dp" in lit else _DARK}"/>'
    return f'<svg class="lamp" viewBox="-2 -2 36 44" aria-hidden="true">{"".join(paths)}{dot}</svg>'


def _points(outline: Iterable[tuple[float, float]]) -> str:
    return " ".join(f"{coordinate(x)},{coordinate(_SHAPE.height_mm - y)}" for x, y in outline)
