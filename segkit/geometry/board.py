"""The digits in their places on one board frame: origin at the lower left, y up, mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.findings import Finding, in_order
from segkit.geometry.digit import (
    CROSSBARS,
    NEARLY_ONE_PIECE,
    DigitShape,
    Placed,
    digit_outlines,
    dot,
    is_one_piece,
    joint_gaps,
    one_piece_width_of,
    shape_problems,
    small_shape_of,
)
from segkit.geometry.dimensions import bar_lines, board_lines, digit_lines, dot_lines, web_line
from segkit.geometry.fixings import fixing_holes, margin_findings
from segkit.geometry.layout import Place, Row, dot_centres, layout_problems, reach, row_of
from segkit.geometry.polygon import Outline, Point, area, near_pairs, translate
from segkit.units import plain_number
from segkit.working import Line


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


def board_of(
    *,
    layout: str,
    shape: DigitShape,
    spacing_mm: float,
    margin_mm: float,
    small_ratio: float = 0.6,
    fixing_hole_mm: float = 4.0,
) -> Board:
    """The whole board: digits from left to right on one baseline, points, colons, blanks, fixing holes.

    Args:
        layout: ``8`` a digit, ``o`` a small digit, ``.`` a point after a digit, ``:`` a colon, a blank
            for half a digit of space.
        shape: of a digit written 8.
        spacing_mm: clear distance between digits, square to their slanted sides; 0.1 or more.
        margin_mm: from the digit boxes to the edge of the board; 0 or more.
        small_ratio: height of a small digit over that of a large one, 0.2 to 0.95.
        fixing_hole_mm: diameter of the fixing holes; 0 for none.

    Raises:
        InputError: layout, shape or sizes that cannot be drawn; names every fault.

    Sources: arithmetic; distance of fixing holes: common-practice.

    Example:
        >>> shape = DigitShape(300, 165, 42, 5, "pointed", 0, 42)
        >>> board = board_of(layout="88:88", shape=shape, spacing_mm=60, margin_mm=40)
        >>> board.width_mm, board.height_mm, board.digits, len(board.segments), list(board.kinds())
        (962.0, 380, 4, 29, ['crossbar', 'upright', 'colon'])
    """
    small = small_shape_of(shape, ratio=small_ratio)
    sizes = {"spacing": spacing_mm, "margin": margin_mm, "small": small_ratio, "fixing_hole": fixing_hole_mm}
    _refuse([*layout_problems(layout), *shape_problems(shape), *_size_problems(sizes)])
    _refuse(_small_problems(small) if "o" in layout else [])
    row = row_of(layout, shape=shape, small=small, spacing_mm=spacing_mm)
    left, right = reach(row)
    height = max(place.shape.height_mm for place in row.places)
    width_mm, height_mm = right - left + 2 * margin_mm, height + 2 * margin_mm
    drawn = {used: digit_outlines(used) for used in dict.fromkeys(place.shape for place in row.places)}
    segments = tuple(
        segment
        for place in row.places
        for segment in _segments(place, drawn, small, dx_mm=margin_mm - left, dy_mm=margin_mm)
    )
    row_lines = board_lines(row, left_mm=left, right_mm=right, height_mm=height, margin_mm=margin_mm)
    return Board(
        layout=layout,
        width_mm=width_mm,
        height_mm=height_mm,
        margin_mm=margin_mm,
        shape=shape,
        small_shape=small if "o" in layout else None,
        segments=segments,
        fixings=fixing_holes(
            width_mm=width_mm, height_mm=height_mm, margin_mm=margin_mm, hole_mm=fixing_hole_mm
        ),
        fixing_hole_mm=fixing_hole_mm,
        lines=(
            *_digit_lines(drawn, small),
            *_kind_lines(row, segments, small),
            _web(segments, spacing_mm),
            *row_lines,
        ),
        findings=in_order(
            [
                *_one_piece(shape if shape in drawn else small),
                *margin_findings(margin_mm=margin_mm, hole_mm=fixing_hole_mm),
            ]
        ),
    )


def _refuse(problems: list[Problem]) -> None:
    if problems:
        raise InputError(problems)


_SIZES = {  # key: lowest, highest, unit, what to do
    "spacing": (0.1, 1e5, " mm", "A stroke or more between digits reads well."),
    "margin": (0.0, 1e4, " mm", "It also holds the fixing holes: 40 mm is usual."),
    "small": (0.2, 0.95, "", "0.6 of the large digit's height is usual."),
    "fixing_hole": (0.0, 100.0, " mm", "4 mm takes an M4 screw; 0 mm leaves the holes out."),
}


def _size_problems(sizes: Mapping[str, float]) -> list[Problem]:
    return [
        Problem(
            "cannot be drawn.",
            key=f"digit.{key}",
            value=plain_number(sizes[key]) + unit,
            limit=f"{plain_number(low)}{unit} to {plain_number(high)}{unit}",
            remedy=remedy,
        )
        for key, (low, high, unit, remedy) in _SIZES.items()
        if not low <= sizes[key] <= high
    ]


def _small_problems(small: DigitShape) -> list[Problem]:
    return [
        Problem(
            f"in the small digits, {problem.text}",
            key="digit.small",
            value=f"{plain_number(small.height_mm, 4)} mm high",
            remedy="Make the small digits larger, or the gap narrower.",
        )
        for problem in shape_problems(small)
    ]


def _segments(
    place: Place,
    drawn: Mapping[DigitShape, Mapping[str, Placed]],
    small: DigitShape,
    *,
    dx_mm: float,
    dy_mm: float,
) -> list[Segment]:
    """The seven segments of a digit, or the point or colon as one segment, moved to the board."""
    shape = place.shape
    prefix = "small " if shape == small else ""
    if place.mark in ".:":
        name, kind = ("dp", "point") if place.mark == "." else ("colon", "colon")
        dots = [dot(shape, (x + dx_mm, y + dy_mm)) for x, y in dot_centres(place)]
        outlines, axes = tuple(outline for outline, _ in dots), tuple(axis for _, axis in dots)
        return [Segment(place.digit, name, prefix + kind, outlines, axes, shape.point_mm, shape.point_mm)]
    one_piece, across = is_one_piece(shape), shape.stroke_mm * math.cos(math.radians(shape.slant_deg))
    found = []
    for name, (outline, axis) in drawn[shape].items():
        moved = translate(outline, dx_mm=place.left_mm + dx_mm, dy_mm=dy_mm)
        start, end = translate(axis, dx_mm=place.left_mm + dx_mm, dy_mm=dy_mm)
        crossbar = name in CROSSBARS
        kind = prefix + ("bar" if one_piece else "crossbar" if crossbar else "upright")
        stroke = shape.stroke_mm if crossbar else across
        length = math.dist(*axis)
        found.append(Segment(place.digit, name, kind, (moved,), ((start, end),), length, stroke))
    return found


def _digit_lines(drawn: Mapping[DigitShape, Mapping[str, Placed]], small: DigitShape) -> list[Line]:
    return [
        line
        for shape, placed in drawn.items()
        for line in digit_lines(shape, joint_gaps(placed, ends=shape.ends), small=shape == small)
    ]


def _kind_lines(row: Row, segments: tuple[Segment, ...], small: DigitShape) -> list[Line]:
    shape = next((place.shape for place in row.places if place.shape != small), small)
    lines: dict[str, tuple[Line, ...]] = {}
    for segment in segments:
        if segment.kind in lines:
            continue
        own = small if segment.kind.startswith("small ") else shape
        total = sum(area(outline) for outline in segment.outlines)
        if segment.name in ("dp", "colon"):
            dots = len(segment.outlines)
            lines[segment.kind] = dot_lines(
                segment.kind, diameter_mm=segment.length_mm, area_mm2=total, dots=dots
            )
        else:
            upright = segment.name not in CROSSBARS
            lines[segment.kind] = bar_lines(
                segment.kind, own, length_mm=segment.length_mm, area_mm2=total, upright=upright
            )
    return [line for pair in lines.values() for line in pair]


def _web(segments: tuple[Segment, ...], spacing_mm: float) -> Line:
    """The narrowest web, inside a digit and elsewhere, measured on the outlines in place."""
    flat = [(segment, outline) for segment in segments for outline in segment.outlines]
    within = 1.01 * max(spacing_mm, min(segment.stroke_mm for segment in segments))
    joint = other = math.inf
    for web in near_pairs([outline for _, outline in flat], within_mm=within):
        one, two = flat[web.first][0], flat[web.second][0]
        if (
            one.digit == two.digit
            and "dp" not in (one.name, two.name)
            and "colon" not in (one.name, two.name)
        ):
            joint = min(joint, web.width_mm)
        else:
            other = min(other, web.width_mm)
    return web_line(joint_mm=joint, other_mm=other)


def _one_piece(shape: DigitShape) -> list[Finding]:
    """A note where all seven segments are, or could nearly be, the same piece."""
    exact = one_piece_width_of(shape)
    if shape.slant_deg != 0 or abs(shape.width_mm - exact) > NEARLY_ONE_PIECE * exact:
        return []
    width, best = plain_number(shape.width_mm), plain_number(exact)
    if is_one_piece(shape):
        text = f"At a digit width of {width} mm all seven segments are the same piece."
        remedy = "Cut one template and use it for every segment."
    else:
        text = (
            f"At a digit width of {best} mm instead of {width} mm all seven segments would be the same piece."
        )
        remedy = f"Make the digit {best} mm wide: one template then serves every segment."
    return [
        Finding("note", "one-piece-digit", "digits", text, shape.width_mm, exact, "mm", "arithmetic", remedy)
    ]
