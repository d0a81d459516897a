"""The wiring of a digit as seen from behind: LEDs with polarity, strings, resistors, connector, core colours."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from segkit.drawing.drawing import Drawing, Path
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.units import engineering
from segkit.wiring.circuit import seat_of
from segkit.wiring.colours import PLUS_CODE, SEGMENT_CODES, name_of, split
from segkit.wiring.digit_layout import DigitLayout
from segkit.wiring.digit_routes import DigitWiring, plus_ends, rail_point
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import PlacedLed, PlacedString
from segkit.wiring.page import EDGE_MM, PAGE_HIGH_MM, PAGE_WIDE_MM, PANEL_MM, notes, sheet, table
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import CONNECTOR_PINS, PLUS_PIN, POLES, Plan, connector
from segkit.wiring.run import Run
from segkit.wiring.view import View, view_of

_TOP = PAGE_HIGH_MM - EDGE_MM - 22
_BOX_HIGH = 12.5
_MARK = {"dp": "dp", "colon": ":"}


def alike(plan: Plan) -> tuple[tuple[int, ...], ...]:
    """Digits that are wired alike: same segments in the same places, on the same outputs of a chip.

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
            (c.segment, c.output, c.sink_pin, c.chip == plan.card_of(digit)) for c in plan.wired if c.digit == digit
        )
        groups.setdefault((shape, outputs), []).append(digit)
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
        wide_mm=PAGE_WIDE_MM - 2 * EDGE_MM - PANEL_MM - 34, high_mm=_TOP - EDGE_MM - 32,
    )  # fmt: skip
    _segments(pen, own, view, whole.digits[digit])
    _wires(pen, whole.digits[digit], view)
    for string in plan.strings_of(digit):
        _string(pen, string, whole.digits[digit].layout, view, body_mm=plan.led.body_mm)
    _tags(pen, plan, whole.digits[digit], view)
    _connector(pen, whole, digits, view)
    _panel(pen, whole, digits)
    return pen.drawing()


def _segments(pen: Pen, own: Sequence[Segment], view: View, wiring: DigitWiring) -> None:
    """The pockets, faint, and the name of each segment beside its plus rail where no wire runs."""
    layout = wiring.layout
    wires = [view.path(run.route) for run in wiring.runs if run.code]
    for segment in own:
        for number, outline in enumerate(segment.outlines):
            pen.put("area", view.outline(outline))
            pen.put("faint", view.outline(outline))
            if segment.name in layout.dots:
                dot = layout.dots[segment.name][number]
                spots = [view.at(dot.on_ring(0.1 * math.pi * k, plus=True)) for k in range(20)]
                spots = _away(spots, view.at(dot.middle))
                name = segment.name
                pen.centred(_free(spots, wires, wide=text_mm(name, 4.5)), name, 4.5)
    for name, bar in layout.bars.items():
        plus = name != "g"
        stations = [bar.half * share for share in _NAME_AT]
        rail = [view.at(bar.rail_at(station, plus=plus)) for station in stations]
        axis = [view.at(bar.rail_at(station, plus=not plus)) for station in stations]
        spots = [_beyond(at, across) for at, across in zip(rail, axis, strict=True)]
        pen.centred(_free(spots, wires), name, 6.0)


#: Where along a bar its name may stand, the middle first.
_NAME_AT = (0.0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45, 0.6, -0.6, 0.75, -0.75)
_NAME_GAP_MM = 5.5


def _beyond(at: Point, inner: Point) -> Point:
    """A point a little farther from ``inner``."""
    reach = math.dist(at, inner) or 1.0
    return (
        at[0] + (at[0] - inner[0]) / reach * _NAME_GAP_MM, at[1] + (at[1] - inner[1]) / reach * _NAME_GAP_MM
    )  # fmt: skip


def _away(spots: Sequence[Point], middle: Point) -> list[Point]:
    """Spots a name's width farther out, those above first."""
    moved = [_beyond(_beyond(at, middle), middle) for at in spots]
    return sorted(moved, key=lambda at: -at[1])


def _free(spots: Sequence[Point], wires: Sequence[Sequence[Point]], *, wide: float = 0.0) -> Point:
    """The first spot where a name of that width keeps clear of all wires, else where it keeps farthest."""
    room = [
        min(_off((x + dx, y), path) for path in wires for dx in (-wide / 2, 0.0, wide / 2)) for x, y in spots
    ]
    clear = [spot for spot, far in zip(spots, room, strict=True) if far >= 0.6 * _NAME_GAP_MM]
    return clear[0] if clear else spots[room.index(max(room))]


def _off(spot: Point, path: Sequence[Point]) -> float:
    """Distance from a point to a polyline."""
    best = math.inf
    for (ax, ay), (bx, by) in zip(path, path[1:], strict=False):
        long = (bx - ax) ** 2 + (by - ay) ** 2
        share = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / long if long else 0.0
        share = min(1.0, max(0.0, share))
        best = min(best, math.dist(spot, (ax + share * (bx - ax), ay + share * (by - ay))))
    return best


def _wires(pen: Pen, wiring: DigitWiring, view: View) -> None:
    for run in wiring.runs:
        path = view.path(run.route)
        if run.code:
            pen.wire(path, run.code)
        elif len(path) > 1:
            pen.line(*path, ink="line")
    for at in joints(wiring.runs):
        pen.dot(view.at(at), 0.75, ink="joint")


def _tags(pen: Pen, plan: Plan, wiring: DigitWiring, view: View) -> None:
    """Segment and colour code on each wire from the connector, where there is most room."""
    leds = [
        (view.at(led.at),) * 2 for string in plan.strings_of(wiring.layout.digit) for led in string.leds
    ]  # fmt: skip
    placed: list[tuple[Point, Point]] = []
    for run in wiring.runs:
        if run.start != (connector(run.digit), str(CONNECTOR_PINS.get(run.segment, 0))):
            continue
        others = [view.path(other.route) for other in wiring.runs if other.net != run.net]
        pairs = _pairs(view.path(run.route))
        spots = [spot for pair in pairs[:-2] or pairs[:1] for spot in _along(pair)]
        wide = text_mm(f"{run.segment} {run.code}", _TAG_MM) / 2
        away = [
            min(_off((x + dx, y), path) for path in (*others, *leds, *placed) for dx in (-wide, 0.0, wide))
            for x, y in spots
        ]
        best = spots[away.index(max(away))]
        placed.append(((best[0] - wide, best[1]), (best[0] + wide, best[1])))
        pen.tag(best, f"{run.segment} {run.code}", _TAG_MM)


_TAG_MM = 2.4


def _pairs(path: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(path, path[1:], strict=False))


def _along(pair: tuple[Point, Point]) -> list[Point]:
    """Points of a stretch, apart from its ends."""
    (ax, ay), (bx, by) = pair
    return [(ax + (bx - ax) * k / 8, ay + (by - ay) * k / 8) for k in range(1, 8)]


def joints(runs: Sequence[Run]) -> tuple[Point, ...]:
    """Places where three or more ways of one net meet: drawn as dots.

    Args:
        runs: wires with their routes.

    Source: iec-60617 (a dot joins, a crossing without a dot does not).

    Example:
        >>> line = Run("plus", "wire", "P", ("X1", "1"), ("R1", "1"), ((0, 0), (4, 0)))
        >>> joints([line, Run("plus", "wire", "P", ("X1", "1"), ("R2", "1"), ((2, 0), (2, 3)))])
        ((2, 0),)
    """
    found: list[Point] = []
    for net in dict.fromkeys(run.net for run in runs):
        paths = [run.route for run in runs if run.net == net and run.code]
        corners = dict.fromkeys(point for path in paths for point in path)
        ends = [run.end for run in runs if run.net == net and run.code]
        for point in corners:
            ways = {way for path in paths for way in _ways(point, path)}
            resistor = any(
                run.net == net and run.end in ends and run.end[0][0] == "R" and run.route[-1] == point
                for run in runs
            )
            if len(ways) + resistor > 2:
                found.append(point)
    return tuple(found)


def _ways(point: Point, path: Sequence[Point]) -> set[tuple[int, int]]:
    """Directions, coarse, in which a polyline leaves a point that lies on it."""
    found = set()
    for one, other in zip(path, path[1:], strict=False):
        if _off(point, (one, other)) > 1e-3:
            continue
        for end in (one, other):
            far = math.dist(point, end)
            if far > 1e-3:
                found.add((round((end[0] - point[0]) / far * 20), round((end[1] - point[1]) / far * 20)))
    return found


def _string(pen: Pen, string: PlacedString, layout: DigitLayout, view: View, *, body_mm: float) -> None:
    for led in string.leds:
        led_symbol(pen, view.at(led.anode), view.at(led.cathode), radius=body_mm / 2 * view.scale)
        _led_number(pen, led, string, layout, view, radius=body_mm / 2 * view.scale)
    if not string.resistor:
        return
    rail, end = (view.at(point) for point in plus_ends(layout, string))
    pen.line(rail, view.at(string.leds[0].anode))
    _resistor(pen, rail, end, string.number)


def led_symbol(pen: Pen, anode: Point, cathode: Point, *, radius: float) -> None:
    """An LED in its hole: a triangle that points with the current, a bar at the cathode.

    Args:
        pen: the page.
        anode, cathode: where the leads are, page mm; they give the direction.
        radius: of the hole, page mm.

    Source: iec-60617.
    """
    x, y = (anode[0] + cathode[0]) / 2, (anode[1] + cathode[1]) / 2
    length = math.dist(anode, cathode)
    ux, uy = (cathode[0] - anode[0]) / length, (cathode[1] - anode[1]) / length
    tip, half = 0.5 * radius, 0.55 * radius
    pen.dot((x, y), radius, ink="blank")
    pen.dot((x, y), radius, ink="line")
    bar_x, bar_y = x + ux * tip, y + uy * tip
    back_x, back_y = x - ux * tip, y - uy * tip
    corners = (
        (bar_x, bar_y),
        (back_x - uy * half, back_y + ux * half),
        (back_x + uy * half, back_y - ux * half),
    )
    pen.put("solid", Path(corners))
    pen.line((bar_x - uy * half, bar_y + ux * half), (bar_x + uy * half, bar_y - ux * half), ink="line")
    pen.line((x - ux * radius, y - uy * radius), (back_x, back_y), ink="line")
    pen.line((bar_x, bar_y), (x + ux * radius, y + uy * radius), ink="line")


def _led_number(
    pen: Pen, led: PlacedLed, string: PlacedString, layout: DigitLayout, view: View, *, radius: float
) -> None:
    """The number on the inner side of the row; at a dot's LED where no link runs."""
    x, y = view.at(led.at)
    if led.segment in layout.bars:
        bar = layout.bars[led.segment]
        inner = view.at((led.at[0] - bar.outer[0], led.at[1] - bar.outer[1]))
        angle = math.atan2(inner[1] - y, inner[0] - x)
        plus = view.at(led.anode)
        reach = math.dist(plus, (x, y))
        x, y = x + (plus[0] - x) / reach, y + (plus[1] - y) / reach
    else:
        angle = _open_angle((x, y), _neighbours(led, string, layout, view))
    gap = radius + 1.5
    pen.centred((x + gap * math.cos(angle), y + gap * math.sin(angle)), str(led.number), 2.0)


def _neighbours(led: PlacedLed, string: PlacedString, layout: DigitLayout, view: View) -> list[Point]:
    """What the lines at an LED lead to: its neighbours in the string, or the rails."""
    place = string.leds.index(led)
    found = [string.leds[n].at for n in (place - 1, place + 1) if 0 <= n < len(string.leds)]
    if place == 0:
        found.append(rail_point(layout, led, plus=True))
    if place == len(string.leds) - 1:
        found.append(rail_point(layout, led, plus=False))
    return [view.at(point) for point in found]


def _open_angle(at: Point, others: Sequence[Point]) -> float:
    """The direction, of sixteen, that keeps farthest from those of the others."""
    taken = [math.atan2(y - at[1], x - at[0]) for x, y in others]
    choices = [k * math.tau / 16 for k in range(16)]
    return max(choices, key=lambda turn: min(abs(math.remainder(turn - t, math.tau)) for t in taken))


def _resistor(pen: Pen, rail: Point, end: Point, number: int) -> None:
    """A box on the way from the plus rail to the first LED, with the number of its string."""
    length = math.dist(rail, end)
    ux, uy = (end[0] - rail[0]) / length, (end[1] - rail[1]) / length
    long, across = min(6.5, 0.62 * length), min(2.4, 0.3 * length)
    mx, my = (rail[0] + end[0]) / 2, (rail[1] + end[1]) / 2
    corners = tuple(
        (mx + ux * a * long / 2 - uy * b * across / 2, my + uy * a * long / 2 + ux * b * across / 2)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    pen.put("blank", Path(corners))
    pen.put("line", Path(corners))
    side = across / 2 + 0.8
    if abs(uy) > abs(ux):
        pen.text((mx + side, my - 0.8), f"R{number}", 2.2)
    else:
        pen.text((mx, my + side), f"R{number}", 2.2, anchor="middle")


def _connector(pen: Pen, whole: Harness, digits: Sequence[int], view: View) -> None:
    """The poles with number, segment and colour code."""
    plan, layout = whole.plan, whole.digits[digits[0]].layout
    used = _poles(plan, digits[0])
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
            pen.centred((x, y - 1.9 - 2.6 * row), part, min(2.2, 0.6 * step))
    pen.text((left - 0.8, first[1] - 1.2), connector(digits[0]), 3.4, anchor="end")


def _poles(plan: Plan, digit: int) -> Mapping[int, tuple[str, str]]:
    """Pole to what it feeds and the colour of its wire on the board."""
    own = {c.segment for c in plan.wired if c.digit == digit}
    return {PLUS_PIN: ("+", PLUS_CODE)} | {
        pole: (name, SEGMENT_CODES[name]) for name, pole in CONNECTOR_PINS.items() if name in own
    }


def _panel(pen: Pen, whole: Harness, digits: Sequence[int]) -> None:
    """Tables and reading help at the right edge."""
    plan, left = whole.plan, PAGE_WIDE_MM - EDGE_MM - PANEL_MM
    pen.line((left - 4, EDGE_MM), (left - 4, _TOP + 2), ink="faint")
    names = ", ".join(f"{connector(digit)} of digit {digit}" for digit in digits)
    pen.text((left, _TOP - 4), f"Connector {names}" if len(digits) < 5 else "Connectors", 3.2)
    foot = table(
        pen, _pole_rows(plan, digits), left=left, top=_TOP - 7, size=3.0,
        columns=(11, 15, 36, 17, 24, 17),
    )  # fmt: skip
    foot = table(pen, _string_rows(plan, digits[0]), left=left, top=foot - 4, size=3.0,
                 columns=(26, 24, 40, 30))  # fmt: skip
    x, y = left + 13, foot - 13
    led_symbol(pen, (x - 1, y), (x + 1, y), radius=6)
    pen.line((x - 12, y), (x - 6, y))
    pen.line((x + 6, y), (x + 12, y))
    pen.text((x - 11, y + 1.5), "A +", 3.4)
    pen.text((x + 7, y + 1.5), "K −", 3.4)
    pen.text((x + 18, y + 2), "A: anode, plus, the long lead", 3.2)
    pen.text((x + 18, y - 3), "K: cathode, the short lead, flat on the rim", 3.2)
    notes(pen, _reading(plan, digits[0]), left=left, top=y - 10, wide=PANEL_MM - 4, size=3.0)


def _pole_rows(plan: Plan, digits: Sequence[int]) -> list[tuple[str, ...]]:
    card = plan.card_of(digits[0])
    rows = [("pole", "to", "core", "output", "pin", "sink pin")]
    outputs = {c.segment: c for c in plan.wired if c.digit == digits[0]}
    for pole, (name, code) in sorted(_poles(plan, digits[0]).items()):
        if name == "+":
            rows.append((str(pole), "+", f"{code} {name_of(code)}", "LED plus", "", ""))
            continue
        channel = outputs[name]
        seat = seat_of(plan, channel)
        away = "" if channel.chip == card else f", chip {channel.chip}"
        sink = (f"Q {seat.out}" if seat.ref[0] == "Q" else seat.out) if seat.ref else "–"
        rows.append((str(pole), name, f"{code} {name_of(code)}", channel.output + away, str(channel.pin), sink))
    return rows


def _string_rows(plan: Plan, digit: int) -> list[tuple[str, ...]]:
    """Segments of one kind with their strings: LEDs and resistors."""
    kinds: dict[str, list[str]] = {}
    for segment in plan.board.segments:
        if segment.digit == digit:
            kinds.setdefault(segment.kind, []).append(segment.name)
    rows = [("segments", "string", "LEDs in it", "resistor")]
    for names in kinds.values():
        strings = plan.strings_of(digit, names[0])
        for string in strings[:8]:
            first, last = string.leds[0].number, string.leds[-1].number
            count = f"{first} to {last}" if last > first else str(first)
            ohm = f"R{string.number}: {engineering(string.ohm, 'Ω')}" if string.resistor else "none"
            rows.append((" ".join(names) if string is strings[0] else "", str(string.number), count, ohm))
    return rows


def _reading(plan: Plan, digit: int) -> list[str]:
    example = next(string for string in plan.strings_of(digit))
    cards = (
        "The card of the digit sits behind its connector."
        if plan.carries == "supply"
        else "The digit's cable ends at this connector; its core colours are in the wire list."
    )
    return [
        "Current runs from the red plus wire round the outside through each resistor R and the LEDs of its "
        "string to the segment's own wire on the inner side, and back to the connector.",
        "Numbers at the LEDs count in that order. "
        f"In the lists, LED 1 of segment {example.segment} is {example.leds[0].ref}"
        + (f" and its R1 is {example.resistor}." if example.resistor else "."),
        "Wires join at a dot; where they cross without a dot they do not touch.",
        f"{cards} Two letters at a wire are its colour; every length is in wire_list.csv.",
    ]
