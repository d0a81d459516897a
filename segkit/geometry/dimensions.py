"""The worksheet of the geometry: sizes of digits, segments and board with their working."""

from __future__ import annotations

import math
from collections.abc import Mapping

from segkit.geometry.corner import PullBacks
from segkit.geometry.digit import DigitShape, one_piece_width_of, shape_pull_backs
from segkit.geometry.layout import Row
from segkit.geometry.polygon import arc_steps
from segkit.geometry.segment import end_steps
from segkit.working import Given, Line

_CROSSBAR_PULL = {
    "pointed": "gap/sqrt(2)",
    "blunt": "T/2 + gap/cos(radians(s))",
    "rounded": "(T + gap)/sqrt(2) - T/2",
}

_NOTES = {
    "width": "before the slant, over the outer edges",
    "gap_measured": "smallest clear distance in any joint, on the drawn outlines after the slant",
    "pull_back": "how far a crossbar stops short of the crossing of the centre lines",
    "one_piece_width": "with this width and no slant all seven segments are the same piece",
}


def _height(shape: DigitShape) -> Given:
    return Given("H", shape.height_mm, "mm", "digit height")


def _width(shape: DigitShape) -> Given:
    return Given("W", shape.width_mm, "mm", "digit width")


def _stroke(shape: DigitShape) -> Given:
    return Given("T", shape.stroke_mm, "mm", "stroke")


def _gap(shape: DigitShape) -> Given:
    return Given("gap", shape.gap_mm, "mm", "gap asked for")


def _slant(shape: DigitShape) -> Given:
    return Given("s", shape.slant_deg, "deg", "slant")


def _ratio(symbol: str, size_mm: float, shape: DigitShape, what: str) -> Given:
    return Given(symbol, size_mm / shape.height_mm, "", f"{what} as a share of the height")


def digit_lines(shape: DigitShape, joints: Mapping[str, float], *, small: bool) -> tuple[Line, ...]:
    """Width, stroke, opening, pull-back, measured gap and one-piece width of a digit shape.

    Args:
        shape: the shape, all sizes in mm.
        joints: measured clear distance in each joint [mm], by the two letters.
        small: whether this is the small digit; its names end in ``.small-digit``.
    """
    tail, of = (".small-digit", " of a small digit") if small else ("", "")
    height, width, stroke, gap = _height(shape), _width(shape), _stroke(shape), _gap(shape)
    pull = shape_pull_backs(shape).crossbar_mm
    blunt = shape.ends == "blunt"
    pull_inputs = (stroke, gap, _slant(shape)) if blunt else (stroke, gap)
    measured = tuple(
        Given(pair, clear, "mm", f"measured between {pair[0]} and {pair[1]}")
        for pair, clear in joints.items()
    )

    def line(what: str, title: str, symbol: str, value: float, formula: str, *inputs: Given) -> Line:
        source = "design-choice" if what in ("width", "stroke") else "arithmetic"
        name, note = f"geometry.{what}{tail}", _NOTES.get(what, "")
        return Line(name, f"{title}{of}", symbol, value, "mm", formula, inputs, source, note)

    width_ratio = _ratio("k", shape.width_mm, shape, "width")
    stroke_ratio = _ratio("k", shape.stroke_mm, shape, "stroke")
    return (
        line("width", "Width", "W", shape.width_mm, "k*H", width_ratio, height),
        line("stroke", "Stroke", "T", shape.stroke_mm, "k*H", stroke_ratio, height),
        line("opening", "Inner opening", "O", shape.width_mm - 2 * shape.stroke_mm, "W - 2*T", width, stroke),
        line("pull_back", "Pull-back of a crossbar", "p", pull, _CROSSBAR_PULL[shape.ends], *pull_inputs),
        line(
            "gap_measured", "Measured gap", "g", min(joints.values()), f"min({', '.join(joints)})", *measured
        ),
        line(
            "one_piece_width",
            "One-piece width",
            "W1",
            one_piece_width_of(shape),
            "(H + 3*gap)/2 + 2*T" if blunt else "(H + T)/2",
            *((height, gap, stroke) if blunt else (height, stroke)),
        ),
    )


def bar_lines(
    kind: str, shape: DigitShape, *, length_mm: float, area_mm2: float, upright: bool
) -> tuple[Line, ...]:
    """Length along the axis and area of a crossbar or an upright.

    Args:
        kind: kind of the segment.
        shape: shape of its digit.
        length_mm, area_mm2: measured on the outline.
        upright: whether the slant lengthens it.
    """
    backs = shape_pull_backs(shape)
    leant = upright and shape.slant_deg != 0
    before = "L*cos(radians(s))" if leant else "L"
    slant = (_slant(shape),) if leant else ()
    first = Given("p", backs.crossbar_mm, "mm", "pull-back of either end")
    length_inputs: tuple[Given, ...]
    formula, length_inputs = "W - T - 2*p", (_width(shape), _stroke(shape), first)
    if upright:
        before_slant, length_inputs = _upright_length(shape, backs)
        formula = before_slant + ("/cos(radians(s))" if leant else "")
        length_inputs += slant
    area_formula, steps, note = {
        "pointed": (f"{before}*T - T**2/2", (), "45 degree ends; a slant does not change an area"),
        "blunt": (f"{before}*T", (), "a slant does not change an area"),
        "rounded": (
            f"({before} - T)*T + n*(T/2)**2*sin(pi/n)",
            (Given("n", end_steps(shape.stroke_mm), "", "chords in one rounded end"),),
            "the arcs are drawn as chords that keep within 0.01 mm",
        ),
    }[shape.ends]
    length = Given("L", length_mm, "mm", "length along the axis")
    return _pair(
        kind,
        _line(
            "segment_length", kind, "Length", "L", length_mm, "mm", formula, length_inputs, "from end to end"
        ),
        (area_mm2, area_formula, (length, _stroke(shape), *slant, *steps), note),
    )


def _upright_length(shape: DigitShape, backs: PullBacks) -> tuple[str, tuple[Given, ...]]:
    """Formula and inputs of the length of an upright before the slant."""
    if shape.ends == "blunt":
        return "(H - gap)/2", (_height(shape), _gap(shape))
    sharp, wide = backs.e
    ends = (
        Given("p", sharp, "mm", "pull-back at the sharper corner, solved on the outlines"),
        Given("q", wide, "mm", "pull-back at the wider corner, solved on the outlines"),
    )
    return "((H - T)/2 - p - q)", (_height(shape), _stroke(shape), *ends)


def _pair(kind: str, length: Line, area: tuple[float, str, tuple[Given, ...], str]) -> tuple[Line, Line]:
    value, formula, inputs, note = area
    return length, _line("segment_area", kind, "Area", "A", value, "mm2", formula, inputs, note)


def _line(
    what: str,
    kind: str,
    title: str,
    symbol: str,
    value: float,
    unit: str,
    formula: str,
    inputs: tuple[Given, ...],
    note: str,
) -> Line:
    name = f"geometry.{what}.{kind.replace(' ', '-')}"
    return Line(name, f"{title} of one {kind}", symbol, value, unit, formula, inputs, "arithmetic", note)


def dot_lines(kind: str, *, diameter_mm: float, area_mm2: float, dots: int) -> tuple[Line, ...]:
    """Diameter and area of a point (one dot) or colon (two dots)."""
    diameter = Given("D", diameter_mm, "mm", "diameter of a dot")
    chords = Given("n", arc_steps(diameter_mm / 2), "", "chords in the circle")
    count = Given("m", dots, "", "dots")
    formula, note = "m*n/2*(D/2)**2*sin(2*pi/n)", "the circle is drawn as chords that keep within 0.01 mm"
    return _pair(
        kind,
        _line(
            "segment_length",
            kind,
            "Diameter",
            "D",
            diameter_mm,
            "mm",
            "D",
            (diameter,),
            "chosen size of a dot",
        ),
        (area_mm2, formula, (diameter, chords, count), note),
    )


def web_line(*, joint_mm: float, other_mm: float) -> Line:
    """Narrowest web between any two openings; other_mm is infinite where nothing else is near."""
    inputs: tuple[Given, ...] = (Given("j", joint_mm, "mm", "narrowest joint inside a digit"),)
    if math.isfinite(other_mm):
        inputs += (Given("o", other_mm, "mm", "narrowest between digits, points and colons"),)
    formula = "min(j, o)" if len(inputs) == 2 else "j"
    note = "board left standing between two openings, measured on the outlines"
    value = min(joint_mm, other_mm)
    return Line("geometry.web", "Narrowest web", "w", value, "mm", formula, inputs, "arithmetic", note)


def board_lines(
    row: Row, *, left_mm: float, right_mm: float, height_mm: float, margin_mm: float
) -> tuple[Line, ...]:
    """Size of the row of digits and of the board.

    Args:
        row: the digits in place.
        left_mm, right_mm: reach of the slanted row.
        height_mm: of the tallest digit.
        margin_mm: around the digits.
    """
    span = right_mm - left_mm
    over = span - row.length_mm
    margin = Given("m", margin_mm, "mm", "margin")
    row_inputs = (
        Given("B", row.boxes_mm, "mm", "widths of all digits"),
        Given("b", row.blanks_mm, "mm", "blanks, half a digit each"),
        Given("G", row.clear_mm, "mm", "clear distances and dots, square to the slanted sides"),
        _slant(row.places[0].shape),
        Given("E", over, "mm", "what the slant adds at the two ends"),
    )
    width = Given("X", span, "mm", "width of the row")
    height = Given("H", height_mm, "mm", "height of the tallest digit")

    def line(what: str, title: str, symbol: str, value: float, formula: str, *inputs: Given) -> Line:
        return Line(f"geometry.{what}", title, symbol, value, "mm", formula, inputs, "arithmetic")

    return (
        line(
            "row_width", "Width of the row of digits", "X", span, "B + b + G/cos(radians(s)) + E", *row_inputs
        ),
        line("board_width", "Width of the board", "Wb", span + 2 * margin_mm, "X + 2*m", width, margin),
        line(
            "board_height", "Height of the board", "Hb", height_mm + 2 * margin_mm, "H + 2*m", height, margin
        ),
    )
