"""The wires of one digit: strings, the plus ring outside, the segment wires inside. Front view, mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from segkit.geometry.polygon import Point
from segkit.wiring.circuit import led_plus
from segkit.wiring.colours import PLUS_CODE, SEGMENT_CODES
from segkit.wiring.digit_layout import (
    LEAST_APART_MM,
    Bar,
    DigitLayout,
    Dot,
    crossing,
    digit_layout,
    free_lane,
)
from segkit.wiring.lanes import plus_ends, stub, with_lanes
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.network_loom import network_loom
from segkit.wiring.plan import CONNECTOR_PINS, PLUS_PIN, Pin, Plan, connector
from segkit.wiring.run import LEADS_MM, Run, path_mm, tidy

#: Way of the plus wire round the digit, from the bar next to the connector; source design-choice.
RING = ("g", "f", "a", "b", "c", "d", "e")
#: Segments whose wires cross the middle bar, and those whose wires stay below it.
_UP, _DOWN = ("a", "b", "f", "g"), ("c", "e", "dp", "colon")
#: Distance of a resistor's name from its LED, along the bar, mm.
_NAME_MM = 2.0
#: How far below its middle the wires of an upright come to it, as a share of half its length.
_HIGH = {"b": 0.25, "f": 0.4}
#: Where on its way up to the middle bar a wire goes aside, the first choice first; the next ones where it
#: would lie on another wire.
_JOGS = (0.7, 0.55, 0.85, 0.4)
#: Two wires between the dots of a colon part by this angle on each ring, rad.
_PART = 0.35

Path = tuple[Point, ...]


@dataclass(frozen=True)
class DigitWiring:
    """A digit's rails and all its wires on the board."""

    layout: DigitLayout
    runs: tuple[Run, ...]


def digit_wiring(plan: Plan, digit: int) -> DigitWiring:
    """All wires from a digit's connector to its LEDs.

    Plus runs round the outside of the digit from resistor to resistor; each segment's wire comes from the
    connector to the inner side of its bar and joins the ends of its strings.

    Args:
        plan: what the wiring follows from.
        digit: from 1.

    Source: design-choice (the routes).
    """
    leds = [led for string in plan.strings_of(digit) for led in string.leds]
    segments = [s for s in plan.board.segments if s.digit == digit]
    layout = with_lanes(digit_layout(segments, leds, body_mm=plan.led.body_mm), plan.strings_of(digit))
    made = _Digit(plan, layout)
    return DigitWiring(layout, (*made.strings(), *made.plus(), *made.segments()))


@dataclass(frozen=True)
class _Stop:
    """A place where a rail is tapped: the pin, the rail point, and the way from the rail to the pin."""

    pin: Pin
    rail: Point
    stub: Path
    outline: int

    def back(self) -> Path:
        return self.stub[::-1]


@dataclass(frozen=True)
class _Digit:
    plan: Plan
    layout: DigitLayout

    def strings(self) -> Iterator[Run]:
        """Resistor to LED, LED to LED."""
        for string in self.plan.strings_of(self.layout.digit):
            if string.resistor and not string.network:
                _, end = plus_ends(self.layout, string)
                first = string.leds[0]
                way = tidy((end, *stub(self.layout, first, plus=True)[1:]))
                yield self._link(string, 0, (string.resistor, "2"), (first.ref, "A"), way)
            for number, (one, other) in enumerate(pairwise(string.leds), 1):
                yield self._link(string, number, (one.ref, "K"), (other.ref, "A"), (one.cathode, other.anode))

    def _link(self, string: PlacedString, number: int, start: Pin, end: Pin, path: Path) -> Run:
        short = path_mm(path) <= LEADS_MM
        total = self.plan.circuits[string.kind].strings[string.number - 1].highest_a
        net = f"IN_{string.digit}{string.segment}{string.number}_{number}"
        return Run(
            "string", "leads" if short else "wire", net,
            start, end, path, "" if short else SEGMENT_CODES[string.segment], total,
            string.digit, string.segment, string.number,
        )  # fmt: skip

    # plus

    def plus(self) -> Iterator[Run]:
        """Plus to every string: one wire round the digit, or a loom of wires from networks the same way."""
        strings = self.plan.strings_of(self.layout.digit)
        if not any(string.network for string in strings):
            return self._ring()
        firsts = [string.leds[0] for string in strings]
        leads = {led.ref: stub(self.layout, led, plus=True) for led in firsts}
        return network_loom(self.plan, self._ring(), strings, leads)

    def _ring(self) -> Iterator[Run]:
        """From the connector to the middle bar, on round the digit, and out to point and colon."""
        stops = {name: self._stops(name, plus=True) for name in (*self.layout.bars, *self.layout.dots)}
        ring = {name: _along_ring(name, stops[name]) for name in RING}
        pin, first = self.layout.plus_pin, ring["g"]
        entry = self.layout.bars["g"].rail_above(pin[0], plus=True)
        nearest = min(range(len(first)), key=lambda n: math.dist(first[n].rail, entry))
        start = (connector(self.layout.digit), str(PLUS_PIN))
        yield self._plus("g", start, first[nearest], (pin, entry, first[nearest].rail))
        yield from self._hops("g", first, nearest, plus=True)
        for name, following in pairwise(RING):
            yield self._between_bars(name, ring[name][-1], following, ring[following][0])
            yield from self._hops(following, ring[following], 0, plus=True)
        tapped = [stop for name in "bcd" for stop in ring[name]]
        for name, dots in self.layout.dots.items():
            yield from self._to_dots(name, dots, stops[name], tapped)

    def _plus(self, segment: str, start: Pin, stop: _Stop, path: Path) -> Run:
        route = tidy((*path, *stop.stub))
        return self._run("plus", start, stop.pin, route, segment)

    def _between_bars(self, name: str, last: _Stop, following: str, first: _Stop) -> Run:
        bars = self.layout.bars
        if name == "g":
            corner = bars["e"].rail_at(bars["e"].station(bars["g"].rail_at(0, plus=True)), plus=False)
            end = _far_end(bars["g"], left=True)
            out = bars["f"].rail_at_height(end[1], plus=True)
            turns: Path = (bars["g"].rail_above(corner[0], plus=True), end, out)
        else:
            meet = crossing(bars[name], bars[following])
            turns = (meet,) if meet else ()
        path = (*last.back(), *turns, first.rail, *first.stub)
        return self._run("plus", last.pin, first.pin, tidy(path), following)

    def _to_dots(
        self, name: str, dots: Sequence[Dot], stops: Sequence[_Stop], tapped: Sequence[_Stop]
    ) -> Iterator[Run]:
        stop = stops[0]
        dot = dots[stop.outline]
        source = min(tapped, key=lambda one: math.dist(one.rail, dot.middle))
        angle = dot.angle_to(source.rail)
        arc = dot.arc(angle, dot.angle_to(stop.rail), plus=True)
        path = (*source.back(), *arc, *stop.stub)
        yield self._run("plus", source.pin, stop.pin, tidy(path), name)
        yield from self._hops(name, stops, 0, plus=True)

    # the segments' own wires

    def segments(self) -> Iterator[Run]:
        """From each pole to the inner side of its segment, and from string end to string end."""
        leads = {**self._up_leads(), **self._down_leads()}
        for name, path in leads.items():
            stops = self._stops(name, plus=False)
            nearest = min(range(len(stops)), key=lambda n: math.dist(stops[n].rail, path[-1]))
            stop = stops[nearest]
            start = (connector(self.layout.digit), str(CONNECTOR_PINS[name]))
            tail: Path = (stop.rail,)
            if name in self.layout.dots:
                dot = self.layout.dots[name][stop.outline]
                entry = dot.angle_to(path[-1])
                tail = dot.arc(entry, dot.angle_to(stop.rail), plus=False)
            yield self._run("segment", start, stop.pin, tidy((*path, *tail, *stop.stub)), name)
            yield from self._hops(name, stops, nearest, plus=False)

    def _up_leads(self) -> dict[str, Path]:
        """Up from their poles in the order of these, across the middle bar between its LEDs."""
        layout, found, taken = self.layout, dict[str, Path](), [self.layout.plus_pin[0]]
        middle, others = layout.bars["g"], list[Path]()
        above, below = (middle.rail_at(0, plus=plus)[1] for plus in (False, True))
        pins = [layout.pin(CONNECTOR_PINS[name]) for name in _UP]
        lanes = [self._lane("g", 0, pin[0], taken, apart=layout.apart_mm) for pin in pins]
        for name, pin, x in zip(_UP, pins, sorted(lanes, reverse=True), strict=True):
            ways = [
                (pin, (pin[0], jog), (x, jog), (x, below))
                for jog in (pin[1] + share * (below - pin[1]) for share in _JOGS)
            ]
            clear = (way for way in ways if not any(_lie_on(way, other) for other in others))
            others.append(next(clear, ways[0]))
            start: Path = others[-1][:-1]
            if name == "g":
                found[name] = (*start, (x, above))
            elif name == "a":
                found[name] = (*start, layout.bars["a"].rail_above(x, plus=False))
            else:
                high = layout.bars[name].middle[1] - _HIGH[name] * layout.bars[name].half
                found[name] = (*start, (x, high), layout.bars[name].rail_at_height(high, plus=False))
        return found

    def _down_leads(self) -> dict[str, Path]:
        """Down from their poles and to the side, each at its own height; d straight down."""
        layout = self.layout
        floor = layout.bars["d"].rail_at(0, plus=False)[1]
        room = layout.connector_at[1] - floor
        found, taken = dict[str, Path](), [floor]
        names = [name for name in _DOWN if name in layout.bars or name in layout.dots]
        step = 0.65 * room / (len(names) + 1)
        for number, name in enumerate(names, 1):
            pin = layout.pin(CONNECTOR_PINS[name])
            y = pin[1] - 0.25 * room - step * number
            if name in layout.bars:
                found[name] = (pin, (pin[0], y), layout.bars[name].rail_at_height(y, plus=False))
                taken.append(y)
                continue
            apart, upto = min(layout.apart_mm, 0.9 * step), pin[1] - 0.2 * room
            y = self._lane("c", 1, y, taken, apart=apart, upto=upto)
            found[name] = (pin, (pin[0], y), *self._out_to(name, y))
        pin = layout.pin(CONNECTOR_PINS["d"])
        found["d"] = (pin, layout.bars["d"].rail_above(pin[0], plus=False))
        return found

    def _out_to(self, name: str, y: float) -> Path:
        """Out of the digit at a height, to the nearer side of the nearest dot."""
        edge = self.layout.bars["c"].rail_at_height(y, plus=True)
        outside = (edge[0] + 0.2 * self.layout.bars["c"].reach, y)
        dot = min(self.layout.dots[name], key=lambda one: math.dist(one.middle, outside))
        return outside, dot.on_ring(dot.angle_to(outside), plus=False)

    # both

    def _lane(
        self, name: str, way: int, wanted: float, taken: list[float], *, apart: float, upto: float = math.inf
    ) -> float:
        """Where a wire crosses a bar: between its LEDs, and off the names of its resistors if it can be."""
        strings, aside = self._of(name), _NAME_MM if way else -_NAME_MM
        lane = free_lane(
            wanted, [led.at[way] for string in strings for led in string.leds], taken,
            keep=self.layout.keep_mm, apart=apart, upto=upto,
            beside=[string.leds[0].at[way] + aside for string in strings if string.resistor],
        )  # fmt: skip
        taken.append(lane)
        return lane

    def _of(self, name: str) -> tuple[PlacedString, ...]:
        return self.plan.strings_of(self.layout.digit, name)

    def _stops(self, name: str, *, plus: bool) -> list[_Stop]:
        found = []
        for string in self._of(name):
            led = string.leds[0] if plus else string.leds[-1]
            way = stub(self.layout, led, plus=plus)
            pin = _plus_pin(string) if plus else (led.ref, "K")
            kept = way[:1] if plus and string.resistor else way
            found.append(_Stop(pin, way[0], kept, led.outline))
        return found

    def _hops(self, name: str, stops: Sequence[_Stop], first: int, *, plus: bool) -> Iterator[Run]:
        """From stop to stop both ways from the one that is fed."""
        pairs = [(n, n + 1) for n in range(first, len(stops) - 1)] + [(n, n - 1) for n in range(first, 0, -1)]
        for one, other in pairs:
            start, end = stops[one], stops[other]
            way = self._ring_way(name, start, end, plus=plus) if name in self.layout.dots else ()
            path = tidy((*start.back(), *way, *end.stub))
            yield self._run("plus" if plus else "segment", start.pin, end.pin, path, name)

    def _ring_way(self, name: str, start: _Stop, end: _Stop, *, plus: bool) -> Path:
        one, other = (self.layout.dots[name][stop.outline] for stop in (start, end))
        leave, arrive = one.angle_to(start.rail), other.angle_to(end.rail)
        if one is other:
            return one.arc(leave, arrive, plus=plus)
        part = _PART if plus == (one.middle[1] < other.middle[1]) else -_PART
        away, back = one.angle_to(other.middle) + part, other.angle_to(one.middle) - part
        return (*one.arc(leave, away, plus=plus), *other.arc(back, arrive, plus=plus))

    def _run(self, group: str, start: Pin, end: Pin, route: Path, segment: str) -> Run:
        digit, plan = self.layout.digit, self.plan
        if group == "plus":
            amps = plan.current_a(digit)
            return Run(
                "plus", "wire", led_plus(plan, digit), start, end, route, PLUS_CODE, amps, digit, segment
            )
        amps = plan.current_a(digit, segment)
        net = f"SEG_{digit}{segment}"
        return Run("segment", "wire", net, start, end, route, SEGMENT_CODES[segment], amps, digit, segment)


def _plus_pin(string: PlacedString) -> Pin:
    """Where plus reaches a string: its resistor, or its own pin of a network."""
    if not string.resistor:
        return string.leds[0].ref, "A"
    return string.resistor, string.own_pin if string.network else string.feed_pin


def _lie_on(one: Path, other: Path) -> bool:
    """Whether two ways of upright and lying stretches run on top of each other anywhere."""
    return any(
        max(p[k] for p in (*a, *b)) - min(p[k] for p in (*a, *b)) < LEAST_APART_MM / 3
        and min(max(p[1 - k] for p in a), max(p[1 - k] for p in b))
        - max(min(p[1 - k] for p in a), min(p[1 - k] for p in b)) > 0.0
        for a in pairwise(one) for b in pairwise(other) for k in (0, 1)
    )  # fmt: skip


def _along_ring(name: str, stops: Sequence[_Stop]) -> list[_Stop]:
    """The stops of a bar in the order in which the ring passes them."""
    sign = -1 if name in ("g", "b", "c", "d") else 1
    lying = name in ("a", "d", "g")
    return sorted(stops, key=lambda stop: sign * stop.rail[0 if lying else 1])


def _far_end(bar: Bar, *, left: bool) -> Point:
    """End of a lying bar's axis."""
    ends = [
        (bar.middle[0] + sign * bar.half * bar.along[0], bar.middle[1] + sign * bar.half * bar.along[1])
        for sign in (1, -1)
    ]
    return min(ends) if left else max(ends)
