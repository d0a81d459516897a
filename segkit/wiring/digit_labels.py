"""Names, numbers and joints on the sheet of a digit, each where there is room for it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.wiring.digit_layout import DigitLayout
from segkit.wiring.digit_routes import DigitWiring
from segkit.wiring.label_room import Box, Room
from segkit.wiring.lanes import rail_point
from segkit.wiring.led_strings import PlacedLed, PlacedString
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import CONNECTOR_PINS, Plan, connector
from segkit.wiring.run import Run
from segkit.wiring.view import View

#: Where along a bar its name may stand, the middle first.
_NAME_AT = (0.0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45, 0.6, -0.6, 0.75, -0.75)
_NAME_GAP_MM = 5.5
_TAG_MM = 2.4
#: A tag keeps this far from the pole, so that the box of the connector does not cover it.
_PAST_BOX_MM = 9.0


def segment_names(pen: Pen, own: Sequence[Segment], view: View, wiring: DigitWiring, room: Room) -> None:
    """The name of each segment beside its plus rail, of each dot beside its rings, where no wire runs.

    Args:
        pen: the page.
        own: segments of the digit.
        view: from the board to the page.
        wiring: rails and wires of the digit.
        room: what the sheet holds.

    Source: design-choice.
    """
    layout = wiring.layout
    wires = [view.path(run.route) for run in wiring.runs if run.code]
    for segment in own:
        for dot in layout.dots.get(segment.name, ()):
            spots = [view.at(dot.on_ring(0.1 * math.pi * k, plus=True)) for k in range(20)]
            spots = _away(spots, view.at(dot.middle))
            name = segment.name
            spot = _free(spots, wires, wide=text_mm(name, 4.5))
            pen.centred(room.seat((spot,), name, 4.5), name, 4.5)
    for name, bar in layout.bars.items():
        plus = name != "g"
        stations = [bar.half * share for share in _NAME_AT]
        rail = [view.at(bar.rail_at(station, plus=plus)) for station in stations]
        axis = [view.at(bar.rail_at(station, plus=not plus)) for station in stations]
        spots = [_beyond(at, across) for at, across in zip(rail, axis, strict=True)]
        pen.centred(room.seat((_free(spots, wires),), name, 6.0), name, 6.0)


def wire_tags(pen: Pen, plan: Plan, wiring: DigitWiring, view: View, room: Room) -> None:
    """Segment and colour code on each wire from the connector, where there is most room.

    Args:
        pen: the page.
        plan: what the wiring follows from.
        wiring: rails and wires of the digit.
        view: from the board to the page.
        room: what the sheet holds.

    Source: iec-60757.
    """
    leds = [view.at(led.at) for string in plan.strings_of(wiring.layout.digit) for led in string.leds]
    placed: list[Sequence[Point]] = []
    for run in wiring.runs:
        if run.start != (connector(run.digit), str(CONNECTOR_PINS.get(run.segment, 0))):
            continue
        others = [view.path(other.route) for other in wiring.runs if other.net != run.net and other.code]
        pairs = _pairs(view.path(run.route))
        start = view.at(run.route[0])
        spots = [spot for pair in pairs[:-2] or pairs[:1] for spot in _along(pair)]
        spots = [spot for spot in spots if math.dist(spot, start) > _PAST_BOX_MM] or spots
        words = f"{run.segment} {run.code}"
        spots = [spot for spot in spots if not room.covered(spot, words, _TAG_MM)] or spots
        wide = text_mm(words, _TAG_MM) / 2
        away = [
            min(_room((x + dx, y), [*others, *placed], leds) for dx in (-wide, 0.0, wide)) for x, y in spots
        ]
        best = spots[away.index(max(away))]
        placed.append(((best[0] - wide, best[1]), (best[0] + wide, best[1])))
        pen.tag(room.seat((best,), words, _TAG_MM), words, _TAG_MM)


def joints(runs: Sequence[Run]) -> tuple[Point, ...]:
    """Places where three or more ways of one net meet: drawn as dots.

    Args:
        runs: wires with their routes.

    Source: iec-60617 (a dot joins, a crossing without a dot does not).

    Example:
        >>> line = Run("plus", "wire", "P", ("X1", "1"), ("R1", "1"), ((0, 0), (4, 0)), "RD")
        >>> joints([line, Run("plus", "wire", "P", ("X1", "1"), ("R2", "1"), ((2, 0), (2, 3)), "RD")])
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
    for one, other in pairwise(path):
        if _off(point, (one, other)) > 1e-3:
            continue
        for end in (one, other):
            far = math.dist(point, end)
            if far > 1e-3:
                found.add((round((end[0] - point[0]) / far * 20), round((end[1] - point[1]) / far * 20)))
    return found


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
    for (ax, ay), (bx, by) in pairwise(path):
        long = (bx - ax) ** 2 + (by - ay) ** 2
        share = ((spot[0] - ax) * (bx - ax) + (spot[1] - ay) * (by - ay)) / long if long else 0.0
        share = min(1.0, max(0.0, share))
        best = min(best, math.dist(spot, (ax + share * (bx - ax), ay + share * (by - ay))))
    return best


def _room(spot: Point, paths: Sequence[Sequence[Point]], leds: Sequence[Point]) -> float:
    """Distance from a point to the nearest wire or LED."""
    return min(*(math.dist(spot, led) for led in leds), *(_off(spot, path) for path in paths))


def _pairs(path: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(pairwise(path))


def _along(pair: tuple[Point, Point]) -> list[Point]:
    """Points of a stretch, apart from its ends."""
    (ax, ay), (bx, by) = pair
    return [(ax + (bx - ax) * k / 8, ay + (by - ay) * k / 8) for k in range(1, 8)]


def led_number(
    pen: Pen, led: PlacedLed, string: PlacedString, layout: DigitLayout, view: View, room: Room,
    lines: Sequence[Box], *, radius: float,
) -> None:  # fmt: skip
    """The number on the inner side of the row; at a dot's LED where no link runs.

    Args:
        pen: the page.
        led: the LED.
        string: its string.
        layout: rails of the digit.
        view: from the board to the page.
        room: what the sheet holds.
        lines: boxes of wires that the number keeps off where it can.
        radius: of the LED on the page, mm.
    """
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
    turns = sorted((k * math.tau / 16 for k in range(-8, 8)), key=abs)
    spots = [
        (x + gap * math.cos(angle + turn), y + gap * math.sin(angle + turn))
        for gap in (radius + 1.5, radius + 2.2, radius + 3.0)
        for turn in turns
    ]
    words = str(led.number)
    pen.centred(room.seat(spots, words, 2.0, lines=lines), words, 2.0)


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
