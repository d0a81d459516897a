"""The wires between supply, controller, cards and digits, and the links on each card. Front view, mm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import accumulate, pairwise

from segkit.electrical.bus import fed_first
from segkit.geometry.polygon import Point
from segkit.wiring.chips import (
    capacitor_ref,
    gate_resistor_ref,
    register_ref,
    separate,
    setting_resistor_ref,
)
from segkit.wiring.circuit import SUPPLY, ZERO, Circuit, fuse_ref, leaves_card, led_plus, out_pole, seat_of
from segkit.wiring.colours import PLUS_CODE, SEGMENT_CODES, SIGNAL_CODES, ZERO_CODE, code_of
from segkit.wiring.digit_cables import along_mm, digit_cables_m
from segkit.wiring.digit_layout import DigitLayout, free_lane
from segkit.wiring.plan import (
    CHAIN_POLES,
    CONNECTOR_PINS,
    CONTROLLER,
    ENTRY,
    PLUS_PIN,
    PULL_UP,
    SOURCE,
    Pin,
    Plan,
    card_connector,
    connector,
)
from segkit.wiring.run import Run

#: Wire between two parts of the driver box, and from the supply to its fuse, mm; source common-practice.
BOX_MM, FUSE_LEAD_MM = 150.0, 150.0
#: Largest current of a signal wire for the choice of its size, A.
SIGNAL_A = 0.1
#: Colour of a core beyond those that the cable has.
NO_CORE = "no core left"


@dataclass(frozen=True)
class Stations:
    """Where the cards, the cable entry and the controller sit on the board.

    Attributes:
        cards: middle of each card by chip; empty where the cards are not on the board.
        entry, controller: where supply and signals come in.
        lane: place across the board of the riser from the lower edge to the first card.
        fed: the digit whose card the supply comes in to.
        feed_lane: place across the board of the riser from the entry to it.
    """

    cards: Mapping[int, Point]
    entry: Point
    controller: Point
    lane: float
    fed: int
    feed_lane: float


def stations(plan: Plan, layouts: Mapping[int, DigitLayout]) -> Stations:
    """Each card behind its digit, one more in the upper cell of the digit that it helps.

    The controller is in the lower margin under the first card, the entry under the card that is fed.

    Args:
        plan: what the wiring follows from.
        layouts: by digit.

    Source: design-choice.
    """
    cards: dict[int, Point] = {}
    for chip in plan.chips:
        layout = layouts[plan.home(chip)]
        own = plan.card_of(plan.home(chip)) == chip
        cards[chip] = layout.connector_at if own else _upper_cell(layout)
    first, fed = plan.home(1), fed_digit(plan, layouts)
    low, lane, feed_lane = plan.board.margin_mm / 2, _riser(plan, layouts[first]), _riser(plan, layouts[fed])
    entry = feed_lane - 0.6 * layouts[fed].bars["d"].half, low
    controller = lane + 0.6 * layouts[first].bars["d"].half, low
    return Stations(cards, entry, controller, lane, fed, feed_lane)


def _riser(plan: Plan, layout: DigitLayout) -> float:
    """Place across the board where wires go up to a digit's card between the LEDs of segment d."""
    row = [led.at[0] for s in plan.strings_of(layout.digit, "d") for led in s.leds]
    return free_lane(layout.connector_at[0], row, [], keep=0.8 * plan.led.body_mm)


def fed_digit(plan: Plan, layouts: Mapping[int, DigitLayout]) -> int:
    """The digit whose card the supply comes in to: that of chip 1 unless the design says where.

    Args:
        plan: what the wiring follows from.
        layouts: by digit.

    Source: design-choice.
    """
    if plan.feed is None:
        return plan.home(1)
    at = [layouts[digit].connector_at for digit in plan.digits]
    hops = (along_mm(one, other) for one, other in pairwise(at))
    return plan.digits[fed_first([0.0, *accumulate(hops)], plan.feed)]


def _upper_cell(layout: DigitLayout) -> Point:
    """Place for one more card: low in the upper cell of a digit."""
    (x, low), (_, high) = (layout.bars[name].rail_at(0, plus=False) for name in "ga")
    return x, low + 0.3 * (high - low)


def board_runs(plan: Plan, circuit: Circuit, layouts: Mapping[int, DigitLayout]) -> tuple[Run, ...]:
    """All wires that do not belong to one digit's LEDs.

    Args:
        plan: what the wiring follows from.
        circuit: its parts and nets.
        layouts: by digit.

    Source: design-choice (the routes).
    """
    made = _Board(plan, layouts, stations(plan, layouts))
    feed = made.on_board() if plan.carries == "supply" else made.in_box()
    return (*feed, *made.chain(), *made.foreign(), *card_links(plan, circuit))


@dataclass(frozen=True)
class _Board:
    plan: Plan
    layouts: Mapping[int, DigitLayout]
    at: Stations

    def on_board(self) -> Iterator[Run]:
        """The supply cable to the entry, and two wires on from card to card."""
        plan, whole = self.plan, self.plan.total_a
        fuse, length = fuse_ref(plan, plan.digits[0]), plan.cable_m * 1000
        ways, amps = self._cable_codes(), whole / plan.each_way
        yield Run("supply", "wire", SUPPLY, (SOURCE, "+"), (fuse, "1"), (), PLUS_CODE, whole,
                  beyond_mm=FUSE_LEAD_MM)  # fmt: skip
        led = led_plus(plan, plan.digits[0])
        for plus, _ in ways:
            yield Run("cable", "core", led, (fuse, "2"), (ENTRY, "1"), (), plus, amps, beyond_mm=length)
        for _, zero in ways:
            yield Run("cable", "core", ZERO, (SOURCE, "-"), (ENTRY, "2"), (), zero, amps, beyond_mm=length)
        for net, pole, code in ((led, "1", PLUS_CODE), (ZERO, "2", ZERO_CODE)):
            for before, chip in self._feeding():
                start: Pin = (card_connector(before, "P") if before else ENTRY, pole)
                end = (card_connector(chip, "P"), pole)
                yield Run("supply", "wire", net, start, end, self._feed_way(before, chip), code, whole)

    def _feeding(self) -> Iterator[tuple[int, int]]:
        """Card before and card of each stretch of the supply: in at one digit and on to both sides.

        0 stands for the entry; a card that helps a digit is fed from that digit's own.
        """
        plan = self.plan
        own = [plan.card_of(digit) for digit in plan.digits]
        first = plan.digits.index(self.at.fed)
        yield 0, own[first]
        yield from pairwise(own[first:])
        yield from pairwise(own[first::-1])
        for chip in plan.chips:
            if chip not in own:
                yield plan.card_of(plan.home(chip)), chip

    def _feed_way(self, before: int, chip: int) -> tuple[Point, ...]:
        if before:
            return self._across(before, chip)
        (x, y), entry = self.at.cards[chip], self.at.entry
        return entry, (self.at.feed_lane, entry[1]), (self.at.feed_lane, y), (x, y)

    def _across(self, before: int, chip: int) -> tuple[Point, ...]:
        """From card to card: across, then up or down."""
        (before_x, before_y), (x, y) = self.at.cards[before], self.at.cards[chip]
        return (before_x, before_y), (x, before_y), (x, y)

    def _cable_codes(self) -> list[tuple[str, str]]:
        """Colours of plus and zero, a pair for each of the cores side by side."""
        colours, pairs = self.plan.cable.colours, self.plan.each_way
        if len(colours) < 2:
            return [(PLUS_CODE, ZERO_CODE)] * pairs
        codes = [code_of(colour) for colour in colours] + [NO_CORE] * (2 * pairs)
        return list(zip(codes[0 : 2 * pairs : 2], codes[1 : 2 * pairs : 2], strict=True))

    def in_box(self) -> Iterator[Run]:
        """Supply and fuses in the driver box, and a cable to each digit."""
        plan = self.plan
        plus: Pin = (SOURCE, "+")
        yield Run("supply", "wire", SUPPLY, plus, (ENTRY, "1"), (), PLUS_CODE, plan.total_a, beyond_mm=BOX_MM)
        zero: Pin = (SOURCE, "-")
        ends: list[Pin] = [(ENTRY, "2"), *((card_connector(chip, "P"), "2") for chip in plan.chips)]
        for end in ends:
            yield Run("supply", "wire", ZERO, zero, end, (), ZERO_CODE, plan.total_a, beyond_mm=BOX_MM)
            zero = end
        for digit in plan.digits:
            yield from self._digit_feed(digit)
            yield from self._digit_cable(digit)

    def _digit_feed(self, digit: int) -> Iterator[Run]:
        plan, fuse = self.plan, fuse_ref(self.plan, digit)
        amps, board = plan.current_a(digit), card_connector(self.plan.card_of(digit), "S")
        yield Run("supply", "wire", SUPPLY, (ENTRY, "1"), (fuse, "1"), (), PLUS_CODE, amps, digit,
                  beyond_mm=BOX_MM)  # fmt: skip
        yield Run("supply", "wire", led_plus(plan, digit), (fuse, "2"), (board, str(PLUS_PIN)), (), PLUS_CODE,
                  amps, digit, beyond_mm=BOX_MM)  # fmt: skip

    def _digit_cable(self, digit: int) -> Iterator[Run]:
        """The common to plus, and one core for each segment in the order of the poles."""
        plan, layout = self.plan, self.layouts[digit]
        lengths_m = digit_cables_m(plan.board, length_m=plan.cable_m, nearest=plan.nearest)
        length, foot = lengths_m[digit] * 1000, layout.connector_at[0]
        row = [led.at[0] for s in plan.strings_of(digit, "d") for led in s.leds]
        x = free_lane(foot, row, [], keep=0.8 * plan.led.body_mm)
        own = sorted(
            (channel for channel in plan.wired if channel.digit == digit),
            key=lambda channel: CONNECTOR_PINS[channel.segment],
        )
        commons, codes = self._core_codes(len(own))
        start: Pin = (card_connector(plan.card_of(digit), "S"), str(PLUS_PIN))
        way = self._up(x, layout, PLUS_PIN)
        for code in commons:
            yield Run("cable", "core", led_plus(plan, digit), start, (connector(digit), str(PLUS_PIN)), way,
                      code, plan.current_a(digit) / len(commons), digit, beyond_mm=length)  # fmt: skip
        for code, channel in zip(codes, own, strict=True):
            pole = CONNECTOR_PINS[channel.segment]
            start = (card_connector(channel.chip, "S"), out_pole(plan, channel))
            yield Run(
                "cable", "core", f"SEG_{digit}{channel.segment}", start, (connector(digit), str(pole)),
                self._up(x, layout, pole), code, plan.current_a(digit, channel.segment), digit,
                channel.segment, beyond_mm=length,
            )  # fmt: skip

    def _core_codes(self, segments: int) -> tuple[list[str], list[str]]:
        """Colours of the common, first in the cable unless it is a wire of its own, and of the segments."""
        cable, commons = self.plan.cable, self.plan.commons
        if cable.cores == 1 or cable.colours == ("any",):
            return [PLUS_CODE] * max(1, commons), list(SEGMENT_CODES.values())[:segments]
        codes = [code_of(colour) for colour in cable.colours] + [NO_CORE] * (commons + segments)
        return codes[:commons] or [PLUS_CODE], codes[commons : commons + segments]

    def _up(self, x: float, layout: DigitLayout, pole: int) -> tuple[Point, ...]:
        """From the lower edge of the board to a pole of the connector."""
        px, py = layout.pin(pole)
        turn = py - 0.12 * layout.bars["c"].half
        return (x, 0.0), (x, turn), (px, turn), (px, py)

    def chain(self) -> Iterator[Run]:
        """Six wires from the controller to the first card and on from card to card."""
        plan = self.plan
        nets = {"0 V": ZERO, "logic supply": "LOGIC", "clock": "CLOCK", "latch": "LATCH", "enable": "ENABLE"}
        box = plan.carries == "segments"
        for chip in plan.chips:
            for number, pole in enumerate(CHAIN_POLES, 1):
                before: Pin = (
                    (CONTROLLER, pole) if chip == 1 else (card_connector(chip - 1, "O"), str(number))
                )
                end = (card_connector(chip, "I"), str(number))
                way = () if box else self._way(chip, self.at.controller)
                yield Run(
                    "chain", "wire", nets.get(pole, f"DATA_{chip}"), before, end, way, SIGNAL_CODES[pole],
                    SIGNAL_A, beyond_mm=BOX_MM if box else 0.0,
                )  # fmt: skip

    def _way(self, chip: int, start: Point) -> tuple[Point, ...]:
        """To a card: from the lower margin for the first, from the card before for the others."""
        x, y = self.at.cards[chip]
        if chip == 1:
            return start, (self.at.lane, start[1]), (self.at.lane, y), (x, y)
        return self._across(chip - 1, chip)

    def foreign(self) -> Iterator[Run]:
        """Segments lit by another digit's card, where the cards are on the board."""
        plan = self.plan
        if plan.carries == "segments":
            return
        for channel in plan.wired:
            if not leaves_card(plan, channel):
                continue
            pole, layout = CONNECTOR_PINS[channel.segment], self.layouts[channel.digit]
            (x, y), end = self.at.cards[channel.chip], layout.pin(CONNECTOR_PINS[channel.segment])
            yield Run(
                "segment", "wire", f"SEG_{channel.digit}{channel.segment}",
                (card_connector(channel.chip, "S"), out_pole(plan, channel)),
                (connector(channel.digit), str(pole)), ((x, y), (end[0], y), end),
                SEGMENT_CODES[channel.segment], plan.current_a(channel.digit, channel.segment),
                channel.digit, channel.segment,
            )  # fmt: skip


def card_refs(plan: Plan, chip: int) -> frozenset[str]:
    """References of everything on a card.

    Args:
        plan: what the wiring follows from.
        chip: from 1.
    """
    found = {register_ref(chip), capacitor_ref(chip), *(card_connector(chip, what) for what in "IOPS")}
    if chip == 1:
        found.add(PULL_UP)
    if plan.register.setting_pin:
        found.add(setting_resistor_ref(chip))
    for channel in plan.wired:
        if channel.chip == chip and separate(plan.sink, plan.register):
            found.add(seat_of(plan, channel).ref)
            if plan.sink.outputs == 1:
                found.add(gate_resistor_ref(channel))
    if plan.carries == "supply":
        found |= {connector(digit) for digit in plan.digits if plan.card_of(digit) == chip}
    return frozenset(found)


def card_links(plan: Plan, circuit: Circuit) -> tuple[Run, ...]:
    """The tracks or links of each card: what a net joins there, from pin to pin.

    Args:
        plan: what the wiring follows from.
        circuit: its parts and nets.
    """
    found = []
    for chip in plan.chips:
        here = card_refs(plan, chip)
        for net in circuit.nets:
            pins = [pin for pin in net.pins if pin[0] in here]
            for start, end in pairwise(pins):
                digit, segment = _lamp(net.name)
                found.append(Run("card", "card", net.name, start, end, (), digit=digit, segment=segment))
    return tuple(found)


def _lamp(net: str) -> tuple[int, str]:
    """Digit and segment of a segment's net."""
    if not net.startswith("SEG_"):
        return 0, ""
    name = net.removeprefix("SEG_")
    digits = len(name) - len(name.lstrip("0123456789"))
    return int(name[:digits]), name[digits:]
