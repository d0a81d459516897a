"""The digits in their places on one board frame: origin at the lower left, y up, mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.geometry.digit import DigitShape
from segkit.geometry.polygon import Outline, Point
from segkit.working import Line

#: What a layout is made of: a digit, a small digit, a point after a digit, a colon, half a digit of space.
LAYOUT_MARKS = {"8": "digit", "o": "small digit", ".": "point", ":": "colon", " ": "space"}


@dataclass(frozen=True)
class Segment:
    """One lit thing that is switched as a whole.

    Attributes:
        digit: number of the digit that drives it, 1 = leftmost as the reader sees it; a colon belongs
            to the digit on its left.
        name: ``a`` to ``g``, ``dp`` or ``colon``.
        kind: segments of one kind have the same size and get the same LEDs: ``crossbar`` (a, d, g),
            ``upright`` (b, c, e, f), ``bar`` (all seven, where they are the same piece), ``point``,
            ``colon``; with ``small `` before it for a small digit.
        outlines: one, or two for a colon; counter-clockwise, last point not repeated.
        axes: centre line of each outline, from end to end (for a dot twice the centre).
        length_mm: length of the outline along its axis.
        stroke_mm: width across the axis.
    """

    digit: int
    name: str
    kind: str
    outlines: tuple[Outline, ...]
    axes: tuple[tuple[Point, Point], ...]
    length_mm: float
    stroke_mm: float


@dataclass(frozen=True)
class Board:
    """All segments in place.

    Attributes:
        layout: the layout text, such as ``88:88``.
        width_mm, height_mm: size of the board with its margin.
        margin_mm: from the digits to the edge.
        shape, small_shape: shape of the digits; small_shape is None without small digits.
        segments: in the order digit 1 a..g, dp, colon, digit 2 ...
        fixings: centres of the fixing holes.
        fixing_hole_mm: their diameter.
        lines, findings: working and verdicts of the geometry.
    """

    layout: str
    width_mm: float
    height_mm: float
    margin_mm: float
    shape: DigitShape
    small_shape: DigitShape | None
    segments: tuple[Segment, ...]
    fixings: tuple[Point, ...]
    fixing_hole_mm: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]

    @property
    def digits(self) -> int:
        """Number of digits."""
        return max(segment.digit for segment in self.segments)

    def kinds(self) -> Mapping[str, tuple[Segment, ...]]:
        """Segments by kind, kinds in order of first appearance."""
        found: dict[str, list[Segment]] = {}
        for segment in self.segments:
            found.setdefault(segment.kind, []).append(segment)
        return {kind: tuple(members) for kind, members in found.items()}
