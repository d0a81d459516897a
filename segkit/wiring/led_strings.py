"""The LEDs of each string in the order of the current, with their leads in place."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from types import MappingProxyType

from segkit.electrical.network import NetworkPlan, elements
from segkit.electrical.string import SegmentCircuit
from segkit.errors import InputError, Problem
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point
from segkit.optics.placement import LedPlace

#: Distance of the two leads of a round LED, mm; source led-lead-pitch.
LEAD_PITCH_MM = 2.54
#: Outer side of each bar: where its plus rail lies. g has it towards the connector.
OUTER: Mapping[str, Point] = {
    "a": (0, 1), "b": (1, 0), "c": (1, 0), "d": (0, -1), "e": (-1, 0), "f": (-1, 0), "g": (0, -1),
}  # fmt: skip


@dataclass(frozen=True)
class PlacedLed:
    """One LED on the back board, as seen from the front.

    Attributes:
        ref: such as ``D2a3``: digit, segment, number.
        digit, segment: where it belongs.
        number: within the segment, from 1 in the order of the current.
        outline: which outline of the segment it stands in.
        at: middle of its hole [mm].
        anode, cathode: where its leads come out [mm].
        turned: its plus points against ``plus_side``, in a row that the current runs back along.
    """

    ref: str
    digit: int
    segment: str
    number: int
    outline: int
    at: Point
    anode: Point
    cathode: Point
    turned: bool = False


@dataclass(frozen=True)
class PlacedString:
    """One series string: from plus through the resistor and the LEDs to the segment's wire.

    Attributes:
        digit, segment, kind: of the segment.
        number: of the string within the segment, from 1.
        resistor: reference of its resistor, such as ``R2a1``, or of the network that it is part of, such as
            ``RN2A``; empty if it has none.
        ohm: value of the resistor; 0 if it has none.
        leds: in the order of the current; the first one's anode is at the resistor.
        feed_pin, own_pin: pins of the resistor on plus and at the first LED.
        network: catalogue id of the network; empty for a single resistor.
    """

    digit: int
    segment: str
    kind: str
    number: int
    resistor: str
    ohm: float
    leds: tuple[PlacedLed, ...]
    feed_pin: str = "1"
    own_pin: str = "2"
    network: str = ""

    @property
    def element(self) -> str:
        """What to call its resistor on a drawing: the reference, with the pins where it is one of a network.

        Example:
            >>> PlacedString(2, "a", "bar", 1, "RN2A", 510, (), "1", "3", "sip-bussed-8").element
            'RN2A 1-3'
        """
        return f"{self.resistor} {self.feed_pin}-{self.own_pin}" if self.network else self.resistor


def plus_side(axis: tuple[Point, Point]) -> Point:
    """The way in which the plus of an LED points: up where a segment stands, right where it lies or is a
    dot, as seen from the front. Only rows that a string runs back along are turned.

    Args:
        axis: centre line of the outline, mm.

    Returns:
        a unit vector.

    Source: common-practice (one way for all, as the cut sheet of the back board is marked).

    Example:
        >>> plus_side(((0, 10), (0, 0))), plus_side(((5, 5), (5, 5)))
        ((0.0, 1.0), (1.0, 0.0))
    """
    (x1, y1), (x2, y2) = axis
    length = math.hypot(x2 - x1, y2 - y1)
    if length < 1e-9:
        return 1.0, 0.0
    ux, uy = (x2 - x1) / length, (y2 - y1) / length
    turned = uy < 0 if abs(uy) > abs(ux) else ux < 0
    return (0.0 - ux, 0.0 - uy) if turned else (ux, uy)


def placed_strings(
    board: Board, places: Sequence[LedPlace], circuits: Mapping[str, SegmentCircuit],
    networks: Mapping[int, Sequence[NetworkPlan]] = MappingProxyType({}),
) -> tuple[PlacedString, ...]:  # fmt: skip
    """Every string of the board, in the order of digits, segments and strings.

    A bar is taken row by row from its plus rail inward, each row from its plus end. A string that runs over
    from one row into the next goes there and back: the LEDs of the next row are turned where the current
    enters it at the other end.

    Args:
        board: from the geometry.
        places: every LED, segment by segment.
        circuits: of each kind of segment; its strings together hold the LEDs of a segment.
        networks: by digit, in place of the single resistors of their values; lettered in that order.

    Raises:
        InputError: a segment has more or fewer LEDs than its strings.

    Sources: led-lead-pitch, sip-pin-plan; order of the LEDs: arithmetic.
    """
    found: list[PlacedString] = []
    of_segment: dict[tuple[int, str], list[LedPlace]] = {}
    for place in places:
        of_segment.setdefault((place.digit, place.segment), []).append(place)
    for segment in board.segments:
        circuit = circuits[segment.kind]
        leds = _leds(segment, of_segment.get((segment.digit, segment.name), []), circuit)
        found += _strings(segment, leds, circuit)
    return tuple(_in_networks(found, networks))


def _in_networks(
    strings: Sequence[PlacedString], networks: Mapping[int, Sequence[NetworkPlan]]
) -> Iterator[PlacedString]:
    """Each string with the element of a network that takes the place of its resistor."""
    seats: dict[tuple[int, float], Iterator[tuple[str, str, str, str]]] = {}
    for digit, plans in networks.items():
        before = 0
        for plan in plans:
            seats[digit, plan.ohm] = iter(
                [
                    (network_ref(digit, before + package), str(feed), str(own), plan.network)
                    for package, feed, own in elements(plan)
                ]
            )
            before += plan.packages
    for string in strings:
        seat = seats.get((string.digit, string.ohm))
        if seat is None:
            yield string
            continue
        ref, feed, own, network = next(seat)
        yield replace(string, resistor=ref, feed_pin=feed, own_pin=own, network=network)


def network_ref(digit: int, number: int) -> str:
    """Reference of a resistor network: ``RN2A`` is the first one of digit 2, ``RN2B`` the second.

    Args:
        digit: from 1.
        number: within the digit, from 1.

    Source: design-choice (names).

    Example:
        >>> network_ref(2, 1), network_ref(2, 28)
        ('RN2A', 'RN2BB')
    """
    return f"RN{digit}{chr(ord('A') + (number - 1) % 26) * (1 + (number - 1) // 26)}"


def as_wired(places: Sequence[LedPlace], strings: Iterable[PlacedString]) -> tuple[LedPlace, ...]:
    """The places with those marked whose LED the strings turn, for the plus marks of the back board.

    Args:
        places: every LED.
        strings: of ``placed_strings`` with the same places.

    Source: arithmetic.
    """
    turned = {(led.digit, led.segment, led.at) for one in strings for led in one.leds if led.turned}
    return tuple(replace(at, turned=(at.digit, at.segment, at.at) in turned) for at in places)


#: An LED to place: outline, middle, the way its plus points, whether it is turned.
_Spot = tuple[int, Point, Point, bool]


def _leds(segment: Segment, places: Sequence[LedPlace], circuit: SegmentCircuit) -> list[PlacedLed]:
    """The LEDs of a segment, numbered as the current runs."""
    per_outline = len(places) // len(segment.axes)
    in_order: list[_Spot] = []
    for outline, axis in enumerate(segment.axes):
        side = plus_side(axis)
        own = [place.at for place in places[outline * per_outline : (outline + 1) * per_outline]]
        if segment.name in OUTER:
            rows = _rows(own, side, OUTER[segment.name])
            in_order += _there_and_back(rows, side, list(accumulate(one.leds for one in circuit.strings)))
        else:
            in_order += [(outline, at, side, False) for at in own]
    return [_led(segment, number, *placed) for number, placed in enumerate(in_order, 1)]


#: LEDs whose distance from the axis differs by less than this stand in one row, mm.
_ROW_MM = 1.0


def _rows(spots: Sequence[Point], side: Point, outer: Point) -> list[list[Point]]:
    """The rows of a bar from its plus rail inward, each from its plus end."""
    way = 1 if side[0] * outer[1] - side[1] * outer[0] > 0 else -1

    def inward(at: Point) -> float:
        return way * (side[1] * at[0] - side[0] * at[1])

    rows: list[list[Point]] = []
    for at in sorted(spots, key=inward):
        if not rows or inward(at) - inward(rows[-1][-1]) >= _ROW_MM:
            rows.append([])
        rows[-1].append(at)
    return [sorted(row, key=lambda at: -(at[0] * side[0] + at[1] * side[1])) for row in rows]


def _there_and_back(rows: Sequence[Sequence[Point]], side: Point, ends: Sequence[int]) -> list[_Spot]:
    """Row after row; one that a string runs over into is entered at the nearer end."""
    back = (-side[0], -side[1])
    found: list[_Spot] = []
    for row in rows:
        over = bool(found) and len(found) not in ends
        if over and math.dist(found[-1][1], row[-1]) < math.dist(found[-1][1], row[0]):
            found += [(0, at, back, True) for at in reversed(row)]
        else:
            found += [(0, at, side, False) for at in row]
    return found


def _led(segment: Segment, number: int, outline: int, at: Point, side: Point, turned: bool) -> PlacedLed:
    half = LEAD_PITCH_MM / 2
    return PlacedLed(
        ref=f"D{segment.digit}{segment.name}{number}",
        digit=segment.digit,
        segment=segment.name,
        number=number,
        outline=outline,
        at=at,
        anode=(at[0] + side[0] * half, at[1] + side[1] * half),
        cathode=(at[0] - side[0] * half, at[1] - side[1] * half),
        turned=turned,
    )


def _strings(segment: Segment, leds: Sequence[PlacedLed], circuit: SegmentCircuit) -> list[PlacedString]:
    if len(leds) != sum(string.leds for string in circuit.strings):
        raise InputError(
            Problem(
                f"segment {segment.name} of digit {segment.digit} has {len(leds)} LEDs, its strings "
                f"{sum(string.leds for string in circuit.strings)}.",
                key="circuits",
            )
        )
    made, start = [], 0
    for number, string in enumerate(circuit.strings, 1):
        made.append(
            PlacedString(
                digit=segment.digit,
                segment=segment.name,
                kind=segment.kind,
                number=number,
                resistor=f"R{segment.digit}{segment.name}{number}" if string.chosen_ohm else "",
                ohm=string.chosen_ohm,
                leds=tuple(leds[start : start + string.leds]),
            )
        )
        start += string.leds
    return made
