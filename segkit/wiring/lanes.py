"""The ways from the rails of a digit to the leads of its LEDs, past the LEDs of other rows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from segkit.geometry.polygon import Point
from segkit.wiring.digit_layout import DigitLayout, free_lane
from segkit.wiring.led_strings import PlacedLed, PlacedString
from segkit.wiring.run import tidy

#: Share of the way from the plus rail to the LED at which the resistor ends.
RESISTOR_SHARE = 0.72
#: Farthest that a wire goes aside to pass another row, mm.
_ASIDE_MM = 15.0

Path = tuple[Point, ...]


def plus_ends(layout: DigitLayout, string: PlacedString) -> tuple[Point, Point]:
    """Where the resistor of a string begins, on the plus rail, and where it ends, before the first LED.

    Args:
        layout: of the digit.
        string: one of its strings; without a resistor both are the LED's anode.
    """
    led = string.leds[0]
    if not string.resistor:
        return led.anode, led.anode
    rail, *rest = stub(layout, led, plus=True)
    if led.segment not in layout.bars:
        return rail, _between(rail, led.anode, RESISTOR_SHARE)
    bar = layout.bars[led.segment]
    free = bar.reach - max(bar.height(other.at) for other in layout.leds[led.segment])
    return rail, _between(rail, rest[0], RESISTOR_SHARE * free / math.dist(rail, rest[0]))


def with_lanes(layout: DigitLayout, strings: Sequence[PlacedString]) -> DigitLayout:
    """The layout with a lane of its own for each end of each string that passes LEDs of another row.

    Args:
        layout: of the digit.
        strings: of the digit.

    Source: design-choice.
    """
    lanes: dict[tuple[str, bool], float] = {}
    for name in layout.bars:
        taken: list[float] = []
        for string in strings:
            if string.segment != name:
                continue
            for led, plus in ((string.leds[0], True), (string.leds[-1], False)):
                lanes[led.ref, plus] = _lane_to(layout, led, taken, plus=plus)
                taken.append(lanes[led.ref, plus])
    return replace(layout, lanes=lanes)


def _lane_to(layout: DigitLayout, led: PlacedLed, taken: Sequence[float], *, plus: bool) -> float:
    """Where along its bar a lead goes to its rail: straight, or between the LEDs of the rows it passes."""
    bar, own = layout.bars[led.segment], layout.leds[led.segment]
    way = 1 if plus else -1
    lead = led.anode if plus else led.cathode
    passed = [
        bar.station(other.at) for other in own if way * (bar.height(other.at) - bar.height(led.at)) > 1.0
    ]
    station = bar.station(lead)
    if not passed:
        return station
    aside = min((other - one for one, other in pairwise(sorted(passed))), default=2 * _ASIDE_MM) / 2
    turn = 1 if station >= bar.station(led.at) else -1
    wanted = station + turn * min(aside, _ASIDE_MM)
    return free_lane(wanted, passed, taken, keep=layout.keep_mm, apart=layout.apart_mm)


def rail_point(layout: DigitLayout, led: PlacedLed, *, plus: bool) -> Point:
    """Where an LED's lead meets its rail: the plus rail for its anode, the minus rail for its cathode."""
    return stub(layout, led, plus=plus)[0]


def stub(layout: DigitLayout, led: PlacedLed, *, plus: bool) -> Path:
    """The way from the rail to a lead of an LED, between the LEDs of another row where one is passed.

    Args:
        layout: of the digit.
        led: one of its LEDs.
        plus: True from the plus rail to the anode, False from the minus rail to the cathode.
    """
    lead = led.anode if plus else led.cathode
    if led.segment not in layout.bars:
        dot = layout.dots[led.segment][led.outline]
        return dot.on_ring(dot.angle_to(lead), plus=plus), lead
    bar = layout.bars[led.segment]
    station = layout.lanes.get((led.ref, plus))
    if station is None:
        station = _lane_to(layout, led, [], plus=plus)
    abreast = bar.rail_at(station, plus=True)
    down = bar.reach - bar.height(led.at)
    corner = (abreast[0] - bar.outer[0] * down, abreast[1] - bar.outer[1] * down)
    return tidy((bar.rail_at(station, plus=plus), corner, lead))


def _between(one: Point, other: Point, share: float) -> Point:
    return one[0] + (other[0] - one[0]) * share, one[1] + (other[1] - one[1]) * share
