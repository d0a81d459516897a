"""The wiring of a digit from behind: LEDs with polarity, strings, resistors, connector, core colours."""

from __future__ import annotations

import math
from collections.abc import Sequence

from segkit.drawing.drawing import Drawing, Path
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.wiring.colours import split
from segkit.wiring.digit_labels import joints, led_number, segment_names, wire_tags
from segkit.wiring.digit_layout import DigitLayout
from segkit.wiring.digit_panel import panel, pin_name, poles
from segkit.wiring.digit_routes import DigitWiring, plus_ends, stub
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.page import EDGE_MM, PAGE_WIDE_MM, PANEL_MM, TOP_MM, sheet
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import POLES, Plan, connector
from segkit.wiring.symbols import led_in_hole
from segkit.wiring.view import View, view_of

#: Height of the box of the connector, and of the name of a resistor, mm.
_BOX_HIGH, _NAME_MM = 12.5, 2.2
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
    segment_names(pen, own, view, whole.digits[digit])
    _wires(pen, whole.digits[digit], view)
    layout = whole.digits[digit].layout
    for string in plan.strings_of(digit):
        _string(pen, string, layout, view, body_mm=plan.led.body_mm)
    _resistors(pen, plan, layout, view)
    wire_tags(pen, plan, whole.digits[digit], view)
    _connector(pen, whole, digits, view)
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


def _string(pen: Pen, string: PlacedString, layout: DigitLayout, view: View, *, body_mm: float) -> None:
    for led in string.leds:
        led_in_hole(pen, view.at(led.anode), view.at(led.cathode), radius=body_mm / 2 * view.scale)
        led_number(pen, led, string, layout, view, radius=body_mm / 2 * view.scale)
    if string.resistor and not string.network:
        pen.line(*view.path(stub(layout, string.leds[0], plus=True)))


def _resistors(pen: Pen, plan: Plan, layout: DigitLayout, view: View) -> None:
    """Every resistor of a digit; its name stands on its left if another is close on its right."""
    strings = [string for string in plan.strings_of(layout.digit) if string.resistor]
    ends = [plus_ends(layout, string) for string in strings]
    spots = [(view.at(rail), view.at(end)) for rail, end in ends]
    for string, (rail, end) in zip(strings, spots, strict=True):
        crowded = any(
            0 < other[0] - rail[0] < text_mm("R10", _NAME_MM) + 1.5 and abs(other[1] - rail[1]) < _NAME_MM
            for other, _ in spots
        )
        if string.network:
            _tap(pen, rail, end, pin_name(string), left=crowded)
        else:
            _resistor(pen, rail, end, string.number, left=crowded)


def _tap(pen: Pen, rail: Point, end: Point, name: str, *, left: bool) -> None:
    """The name of a network's pin where its wire leaves the loom."""
    (mx, my), upright = _middle(rail, end), abs(end[1] - rail[1]) > abs(end[0] - rail[0])
    if not upright:
        pen.text((mx, my + 0.8), name, _NAME_MM, anchor="middle")
    elif left:
        pen.text((mx - 0.8, my - 0.8), name, _NAME_MM, anchor="end")
    else:
        pen.text((mx + 0.8, my - 0.8), name, _NAME_MM)


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _resistor(pen: Pen, rail: Point, end: Point, number: int, *, left: bool) -> None:
    """A box on the way from the plus rail to the first LED, with the number of its string."""
    length = math.dist(rail, end)
    ux, uy = (end[0] - rail[0]) / length, (end[1] - rail[1]) / length
    long = min(6.5, max(0.62 * length, min(3.0, 0.95 * length)))
    across = min(2.4, max(0.3 * length, min(1.2, 0.6 * length)))
    mx, my = _middle(rail, end)
    corners = tuple(
        (mx + ux * a * long / 2 - uy * b * across / 2, my + uy * a * long / 2 + ux * b * across / 2)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    pen.put("blank", Path(corners))
    pen.put("line", Path(corners))
    side = across / 2 + 0.8
    if abs(uy) <= abs(ux):
        pen.text((mx, my + side), f"R{number}", _NAME_MM, anchor="middle")
    elif left:
        pen.text((mx - side, my - 0.8), f"R{number}", _NAME_MM, anchor="end")
    else:
        pen.text((mx + side, my - 0.8), f"R{number}", _NAME_MM)


def _connector(pen: Pen, whole: Harness, digits: Sequence[int], view: View) -> None:
    """The poles with number, segment and colour code."""
    plan, layout = whole.plan, whole.digits[digits[0]].layout
    used = poles(plan, digits[0])
    step = layout.pitch_mm * view.scale
    first, last = view.at(layout.pin(1)), view.at(layout.pin(POLES))
    left, right = min(first[0], last[0]) - 0.7 * step, max(first[0], last[0]) + 0.7 * step
    foot = first[1] - _BOX_HIGH / 2
    for ink in ("blank", "line"):
        pen.box(left, foot, right - left, _BOX_HIGH, ink=ink)
    type_mm = min(2.6, 0.72 * step)
    for pole in range(1, POLES + 1):
        x, y = view.at(layout.pin(pole))
        name, code = used.get(pole, ("", ""))
        pen.centred((x, y + 4.3), str(pole), type_mm)
        pen.centred((x, y + 1.1), _MARK.get(name, name), type_mm)
        for row, part in enumerate(split(code)):
            pen.centred((x, y - 1.9 - 2.6 * row), part, min(2.2, 0.52 * step))
    pen.text((right, foot + _BOX_HIGH + 1.0), connector(digits[0]), 3.6, anchor="end")
