"""The wiring of a digit from behind: LEDs with polarity, strings, resistors, connector, core colours."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from segkit.drawing.drawing import Drawing, Path
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.wiring.colours import split
from segkit.wiring.digit_labels import joints, led_number, segment_names, wire_tags
from segkit.wiring.digit_layout import DigitLayout
from segkit.wiring.digit_panel import panel, pin_name, poles, short_name
from segkit.wiring.digit_routes import DigitWiring
from segkit.wiring.harness import Harness
from segkit.wiring.label_room import Box, Room
from segkit.wiring.lanes import plus_ends, stub
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.page import EDGE_MM, PAGE_WIDE_MM, PANEL_MM, TOP_MM, sheet
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import POLES, Plan, connector
from segkit.wiring.symbols import led_in_hole
from segkit.wiring.view import View, view_of

#: Height of the box of the connector, and of the name of a resistor, mm.
_BOX_HIGH, _NAME_MM = 12.5, 2.0
_HALF_WIRE_MM = 0.6
_MARK = {"dp": "dp", "colon": ":"}


def alike(plan: Plan) -> tuple[tuple[int, ...], ...]:
    """Digits that are wired alike: same segments in the same places, on the same outputs of a chip
    and pins of networks.

    Args:
        plan: what the wiring follows from.

    Returns:
        groups in order of their first digit.
    """
    groups: dict[object, list[int]] = {}
    for digit in plan.digits:
        own = [s for s in plan.board.segments if s.digit == digit]
        x0, y0 = own[0].axes[0][0]
        shape = tuple(
            (s.name, s.kind, *(round(c, 3) for axis in s.axes for x, y in axis for c in (x - x0, y - y0)))
            for s in own
        )
        outputs = tuple(
            (c.segment, c.output, c.sink_pin, c.chip == plan.card_of(digit))
            for c in plan.wired
            if c.digit == digit
        )
        seats = tuple(pin_name(string) for string in plan.strings_of(digit) if string.network)
        groups.setdefault((shape, outputs, seats), []).append(digit)
    return tuple(tuple(group) for group in groups.values())


def digit_drawing(whole: Harness, digits: Sequence[int], *, behind: bool = True) -> Drawing:
    """The sheet of digits that are wired alike; the first one is drawn.

    Args:
        whole: the wiring of the board.
        digits: of one group of ``alike``.
        behind: False draws the same from the front, for a check.

    Sources: iec-60617 (diode, resistor), iec-60757 (codes of colours).
    """
    plan, digit = whole.plan, digits[0]
    named = f"digit {digit}" if len(digits) == 1 else f"digits {', '.join(map(str, digits))}"
    pen = sheet(plan.title, f"Wiring of {named}", plan.stamp, behind=behind)
    own = [s for s in plan.board.segments if s.digit == digit]
    points = [point for s in own for outline in s.outlines for point in outline]
    view = view_of(
        points, left_mm=EDGE_MM + 16, foot_mm=EDGE_MM + 16, behind=behind,
        wide_mm=PAGE_WIDE_MM - 2 * EDGE_MM - PANEL_MM - 34, high_mm=TOP_MM - EDGE_MM - 32,
    )  # fmt: skip
    _pockets(pen, own, view)
    room = Room()
    segment_names(pen, own, view, whole.digits[digit], room)
    _wires(pen, whole.digits[digit], view)
    layout = whole.digits[digit].layout
    radius = plan.led.body_mm / 2 * view.scale
    for string in plan.strings_of(digit):
        _string(pen, string, layout, view, radius=radius)
        for led in string.leds:
            room.take_round(view.at(led.at), radius)
    _connector(pen, whole, digits, view, room)
    wire_tags(pen, plan, whole.digits[digit], view, room)
    lines = [line for run in whole.digits[digit].runs for line in _line_boxes(view.path(run.route))]
    _resistors(pen, plan, layout, view, room, lines)
    for string in plan.strings_of(digit):
        for led in string.leds:
            led_number(pen, led, string, layout, view, room, lines, radius=radius)
    panel(pen, whole, digits)
    return pen.drawing()


def _pockets(pen: Pen, own: Sequence[Segment], view: View) -> None:
    for segment in own:
        for outline in segment.outlines:
            pen.put("area", view.outline(outline))
            pen.put("faint", view.outline(outline))


def _wires(pen: Pen, wiring: DigitWiring, view: View) -> None:
    for run in wiring.runs:
        path = view.path(run.route)
        if run.code:
            pen.wire(path, run.code)
        elif len(path) > 1:
            pen.line(*path, ink="line")
    for at in joints(wiring.runs):
        pen.dot(view.at(at), 0.75, ink="joint")


def _line_boxes(path: Sequence[Point]) -> list[Box]:
    """Boxes about the stretches of a wire that stand or lie; slanting ones are cut into short pieces."""
    found: list[Box] = []
    for (ax, ay), (bx, by) in pairwise(path):
        pieces = 1 + int(min(abs(bx - ax), abs(by - ay)) / 1.5)
        xs, ys = ([a + (b - a) * k / pieces for k in range(pieces + 1)] for a, b in ((ax, bx), (ay, by)))
        for (x0, x1), (y0, y1) in zip(pairwise(xs), pairwise(ys), strict=True):
            found.append((min(x0, x1) - _HALF_WIRE_MM, min(y0, y1) - _HALF_WIRE_MM,
                          max(x0, x1) + _HALF_WIRE_MM, max(y0, y1) + _HALF_WIRE_MM))  # fmt: skip
    return found


def _string(pen: Pen, string: PlacedString, layout: DigitLayout, view: View, *, radius: float) -> None:
    for led in string.leds:
        led_in_hole(pen, view.at(led.anode), view.at(led.cathode), radius=radius)
    if string.resistor and not string.network:
        pen.line(*view.path(stub(layout, string.leds[0], plus=True)))


def _resistors(
    pen: Pen, plan: Plan, layout: DigitLayout, view: View, room: Room, lines: Sequence[Box]
) -> None:
    """Every resistor of a digit, then their names where there is room; pins of networks likewise."""
    strings = [string for string in plan.strings_of(layout.digit) if string.resistor]
    named: list[tuple[str, Box]] = []
    for string in strings:
        rail, end = (view.at(point) for point in plus_ends(layout, string))
        if string.network:
            (x, y), name = ((rail[0] + end[0]) / 2, (rail[1] + end[1]) / 2), pin_name(string)
            named.append((name, (x, y, x, y)))
            continue
        body = _resistor(pen, rail, end)
        room.take(body)
        named.append((short_name(string), body))
    for name, body in named:
        pen.centred(room.seat(_beside(body, name), name, _NAME_MM, lines=lines), name, _NAME_MM)


def _beside(body: Box, name: str) -> list[Point]:
    """Middles of a name round a box, the nearest first."""
    left, foot, right, top = body
    wide, high = text_mm(name, _NAME_MM) / 2, 0.36 * _NAME_MM
    x, y = (left + right) / 2, (foot + top) / 2
    found: list[Point] = []
    for gap in (0.6, 1.0, 1.6, 2.4, 3.4, 4.6, 6.0):
        for shift in (0.0, 0.5, -0.5, 1.0, -1.0):
            across, up = shift * (right - left + 2 * wide), shift * (top - foot + 2 * high)
            found += [
                (right + gap + wide, y + up), (left - gap - wide, y + up),
                (x + across, top + gap + high), (x + across, foot - gap - high),
            ]  # fmt: skip
    return sorted(found, key=lambda at: math.dist(at, (x, y)))


def _resistor(pen: Pen, rail: Point, end: Point) -> Box:
    """A box on the way from the plus rail to the first LED."""
    length = math.dist(rail, end)
    ux, uy = (end[0] - rail[0]) / length, (end[1] - rail[1]) / length
    long = min(6.5, max(0.62 * length, min(3.0, 0.95 * length)))
    across = min(2.4, max(0.3 * length, min(1.2, 0.6 * length)))
    mx, my = (rail[0] + end[0]) / 2, (rail[1] + end[1]) / 2
    corners = tuple(
        (mx + ux * a * long / 2 - uy * b * across / 2, my + uy * a * long / 2 + ux * b * across / 2)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    pen.put("blank", Path(corners))
    pen.put("line", Path(corners))
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _connector(pen: Pen, whole: Harness, digits: Sequence[int], view: View, room: Room) -> None:
    """The poles with number, segment and colour code."""
    plan, layout = whole.plan, whole.digits[digits[0]].layout
    used = poles(plan, digits[0])
    step = layout.pitch_mm * view.scale
    first, last = view.at(layout.pin(1)), view.at(layout.pin(POLES))
    left, right = min(first[0], last[0]) - 0.7 * step, max(first[0], last[0]) + 0.7 * step
    foot = first[1] - _BOX_HIGH / 2
    for ink in ("blank", "line"):
        pen.box(left, foot, right - left, _BOX_HIGH, ink=ink)
    room.take((left, foot, right, foot + _BOX_HIGH + 4.0))
    type_mm = min(2.6, 0.72 * step)
    for pole in range(1, POLES + 1):
        x, y = view.at(layout.pin(pole))
        name, code = used.get(pole, ("", ""))
        pen.centred((x, y + 4.3), str(pole), type_mm)
        pen.centred((x, y + 1.1), _MARK.get(name, name), type_mm)
        for row, part in enumerate(split(code)):
            pen.centred((x, y - 1.9 - 2.6 * row), part, min(2.2, 0.52 * step))
    pen.text((right, foot + _BOX_HIGH + 1.0), connector(digits[0]), 3.6, anchor="end")
