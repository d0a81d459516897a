"""Where the wires of a digit lie on the back board: rails, connector, lanes. Front view, mm."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.wiring.led_strings import OUTER, PlacedLed, plus_side
from segkit.wiring.plan import PLUS_PIN, POLES

#: Pole distances that connectors are sold with, mm, wide first; source connector-pitch.
PITCHES_MM = (5.08, 3.81, 2.54)
RING_STEP_DEG = 10.0
#: Wires side by side keep at least this distance, middle to middle, mm: twice a thin wire with its cover.
LEAST_APART_MM = 1.5
#: Distance from a wire to the middle of an LED, in diameters of the LED.
KEEP = 0.62
#: Radius of the plus ring and of the minus ring of a dot, over that of the dot; the plus ring lies farther
#: out, so that resistors find room between it and the LEDs.
PLUS_RING, MINUS_RING, NARROWEST_RING = 1.4, 1.15, 1.1
#: Distance of a ring from the rail of a digit, mm.
RING_GAP_MM = 3.0


@dataclass(frozen=True)
class Bar:
    """The two rails of a bar: plus on the outer side, minus on the inner, half a stroke from its axis.

    Attributes:
        middle: of the axis.
        along: unit vector to the plus side of the LEDs.
        outer: unit vector across, to the plus rail.
        reach: from the axis to a rail, mm.
        half: half the length, mm.
    """

    middle: Point
    along: Point
    outer: Point
    reach: float
    half: float

    def station(self, at: Point) -> float:
        """Distance along the bar from its middle, towards plus."""
        return (at[0] - self.middle[0]) * self.along[0] + (at[1] - self.middle[1]) * self.along[1]

    def height(self, at: Point) -> float:
        """Distance from the axis, towards the plus rail."""
        return (at[0] - self.middle[0]) * self.outer[0] + (at[1] - self.middle[1]) * self.outer[1]

    def rail_at(self, station: float, *, plus: bool) -> Point:
        """The point of a rail at a distance along the bar."""
        out = self.reach if plus else -self.reach
        return (
            self.middle[0] + self.along[0] * station + self.outer[0] * out,
            self.middle[1] + self.along[1] * station + self.outer[1] * out,
        )

    def rail_at_height(self, y: float, *, plus: bool) -> Point:
        """The point of a rail of a standing bar at a height."""
        start = self.rail_at(0, plus=plus)
        return self.rail_at((y - start[1]) / self.along[1], plus=plus)

    def rail_above(self, x: float, *, plus: bool) -> Point:
        """The point of a rail of a lying bar over a place."""
        start = self.rail_at(0, plus=plus)
        return self.rail_at((x - start[0]) / self.along[0], plus=plus)


@dataclass(frozen=True)
class Dot:
    """The two ring rails round a dot: minus close to it, plus outside.

    Attributes:
        middle: of the dot.
        radius: of the dot, mm.
        plus_ring, minus_ring: radii of the rings, mm.
    """

    middle: Point
    radius: float
    plus_ring: float
    minus_ring: float

    def angle_to(self, at: Point) -> float:
        """Angle from the middle towards a point, rad; 0 for the middle itself."""
        return math.atan2(at[1] - self.middle[1], at[0] - self.middle[0])

    def on_ring(self, angle: float, *, plus: bool) -> Point:
        """The point of a ring at an angle."""
        radius = self.plus_ring if plus else self.minus_ring
        return self.middle[0] + radius * math.cos(angle), self.middle[1] + radius * math.sin(angle)

    def arc(self, start: float, end: float, *, plus: bool) -> tuple[Point, ...]:
        """Points of a ring from one angle to another, the shorter way, both ends among them."""
        turn = math.remainder(end - start, math.tau)
        steps = max(1, math.ceil(abs(math.degrees(turn)) / RING_STEP_DEG - 1e-9))
        return tuple(self.on_ring(start + turn * k / steps, plus=plus) for k in range(steps + 1))


@dataclass(frozen=True)
class DigitLayout:
    """Rails and connector of a digit.

    Attributes:
        digit: 1 = leftmost as the reader sees it.
        bars: the seven by name.
        dots: outlines of ``dp`` and ``colon``, by name.
        connector_at: middle of the connector.
        pitch_mm: distance of its poles.
        leds: of each bar.
        keep_mm: a wire keeps this distance from the middle of an LED.
        apart_mm: wires side by side keep this distance.
        lanes: where along its bar the way from a rail to the LED at the end of a string runs, by the LED's
            reference and True for the plus rail [mm].
    """

    digit: int
    bars: Mapping[str, Bar]
    dots: Mapping[str, tuple[Dot, ...]]
    connector_at: Point
    pitch_mm: float
    leds: Mapping[str, tuple[PlacedLed, ...]]
    keep_mm: float
    apart_mm: float
    lanes: Mapping[tuple[str, bool], float] = field(default_factory=dict)

    def pin(self, pole: int) -> Point:
        """Place of a pole; pole 1 is on the right here, so that seen from behind it is on the left."""
        return self.connector_at[0] + ((POLES + 1) / 2 - pole) * self.pitch_mm, self.connector_at[1]

    @property
    def plus_pin(self) -> Point:
        """Place of the plus pole."""
        return self.pin(PLUS_PIN)


def digit_layout(
    segments: Sequence[Segment], leds: Sequence[PlacedLed] = (), *, body_mm: float = 5.0
) -> DigitLayout:
    """Rails of a digit's segments and a place for its connector in the middle of the lower cell.

    Args:
        segments: of one digit: a to g, with dp and colon if it has them.
        leds: of the digit.
        body_mm: diameter of an LED.

    Source: design-choice; pole distances: connector-pitch.
    """
    bars = {s.name: _bar(s) for s in segments if s.name in OUTER}
    dots = {
        s.name: tuple(_dot(axis[0], s.stroke_mm / 2, bars) for axis in s.axes)
        for s in segments
        if s.name not in OUTER
    }
    (gx, gy), (dx, dy) = bars["g"].middle, bars["d"].middle
    (cx, _), (ex, _) = bars["c"].middle, bars["e"].middle
    room = abs(cx - ex) - bars["c"].reach - bars["e"].reach
    pitch = next((p for p in PITCHES_MM if (POLES + 2) * p <= 0.9 * room), min(PITCHES_MM[-1], room / 12))
    at = ((gx + dx) / 2, (gy - bars["g"].reach + dy + bars["d"].reach) / 2)
    own = {name: tuple(led for led in leds if led.segment == name) for name in bars}
    height = bars["a"].middle[1] - dy
    apart = max(LEAST_APART_MM, height / 130)
    return DigitLayout(segments[0].digit, bars, dots, at, pitch, own, KEEP * body_mm, apart)


def _dot(middle: Point, radius: float, bars: Mapping[str, Bar]) -> Dot:
    """Rings as wide as they are meant to be, or as the rail of the digit beside the dot leaves room for."""
    room = min(
        math.dist(middle, bar.rail_at(min(bar.half, max(-bar.half, bar.station(middle))), plus=True))
        for bar in bars.values()
    )
    plus = max(NARROWEST_RING * radius, min(PLUS_RING * radius, room - RING_GAP_MM))
    return Dot(middle, radius, plus, min(MINUS_RING * radius, plus - 0.12 * radius))


def _bar(segment: Segment) -> Bar:
    (ax, ay), (bx, by) = segment.axes[0]
    along, wish = plus_side(segment.axes[0]), OUTER[segment.name]
    across = (-along[1], along[0])
    if across[0] * wish[0] + across[1] * wish[1] < 0:
        across = (along[1], -along[0])
    half = math.dist(*segment.axes[0]) / 2
    return Bar(((ax + bx) / 2, (ay + by) / 2), along, across, segment.stroke_mm / 2, half)


def crossing(one: Bar, other: Bar) -> Point | None:
    """Where the plus rails of two bars meet; None if they run side by side."""
    (px, py), (qx, qy) = one.rail_at(0, plus=True), other.rail_at(0, plus=True)
    (ux, uy), (vx, vy) = one.along, other.along
    area = ux * vy - uy * vx
    if abs(area) < 1e-6:
        return None
    station = ((qx - px) * vy - (qy - py) * vx) / area
    return one.rail_at(station, plus=True)


def free_lane(
    wanted: float, leds: Sequence[float], taken: Sequence[float], *, keep: float,
    apart: float = LEAST_APART_MM, beside: Sequence[float] = (), upto: float = math.inf,
) -> float:  # fmt: skip
    """The place nearest to the wanted one where a wire crosses a row between its LEDs.

    Args:
        wanted: where the wire would like to cross, mm along the row.
        leds: places of the LEDs, mm.
        taken: places of wires that cross already, mm.
        keep: distance to keep from the middle of an LED, mm.
        apart: distance to keep from another wire, mm.
        beside: places to keep off too where there is room, such as names of resistors.
        upto: no place beyond this, mm along the row, such as the connector.

    Returns:
        a place; the middle of the nearest gap that no wire has where there is less room than that, or past
        the wires that are there where no gap is left.

    Source: arithmetic.

    Example:
        >>> free_lane(10, [0, 12, 24], [], keep=4), free_lane(10, [0, 6, 12, 18], [9], keep=4)
        (8, 15.0)
    """
    rows = sorted(leds)
    reach = (rows[-1] - rows[0]) / 4 if rows else 0.0

    def clear(off: Sequence[float], *, within: float, past: Sequence[float] = ()) -> list[float]:
        edges = [edge for at in off for edge in (at - keep, at + keep)]
        return [
            x for x in (wanted, *edges, *past)
            if x <= upto and abs(x - wanted) <= within
            and all(abs(x - at) >= keep - 1e-9 for at in off)
            and all(abs(x - at) >= apart for at in taken)
        ]  # fmt: skip

    gaps = [(a + b) / 2 for a, b in pairwise(rows)]
    tight = [x for x in gaps if x <= upto and all(abs(x - at) >= apart for at in taken)]
    near = max(reach, keep)
    choices = (
        clear([*rows, *beside], within=near)
        or clear(rows, within=near)
        or tight
        or clear(rows, within=math.inf)
        or clear(rows, within=math.inf, past=[edge for at in taken for edge in (at - apart, at + apart)])
        or [wanted]
    )
    return min(choices, key=lambda x: abs(x - wanted))
