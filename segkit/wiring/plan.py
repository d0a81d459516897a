"""What the wiring is made from, in one record, and where each card and connector stands."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from segkit.catalog.part import Led, ShiftRegister, Sink, Wire
from segkit.electrical.bus import Feed
from segkit.electrical.string import SegmentCircuit
from segkit.geometry.board import Board
from segkit.glyphs.segments import ALL, COLON
from segkit.wiring.channel_map import Channel, ChannelMap, FirstDigit
from segkit.wiring.led_strings import PlacedString

Carries = Literal["supply", "segments"]
Pin = tuple[str, str]  # reference, pin
#: Pin of a digit's connector: 1 is plus, then the segments in order.
CONNECTOR_PINS: Mapping[str, int] = {name: number for number, name in enumerate((*ALL, COLON), 2)}
PLUS_PIN, POLES = 1, 10
#: Poles of a chain connector, in order.
CHAIN_POLES = ("logic supply", "0 V", "data", "clock", "latch", "enable")
CONTROLLER, ENTRY, SOURCE = "A0", "X0", "G1"
FUSE, PULL_UP = "F1", "R1"


@dataclass(frozen=True)
class Plan:
    """Everything the wiring of a board follows from.

    Attributes:
        title, stamp: for drawings and files.
        board: from the geometry.
        strings: LEDs of every segment in the order of the current.
        circuits: of each kind of segment.
        channels: which output lights which segment.
        led, register, sink: catalogue parts.
        supply_v, logic_v: LED supply and supply of the registers, V.
        cable: the cable of the design; ``cable_m`` its length to the nearest digit, m.
        carries: ``supply``: the cards are on the board; ``segments``: they are with the controller and a
            cable for each digit leads to the board.
        fuse_a: fuse in the positive lead, A; 0 if not yet known.
        setting_ohm: resistor that sets a constant-current sink, Ω; 0 for others.
        stock: wires to choose sizes from.
        along: wire of the two that run from card to card on the board; chosen from the stock if None.
        commons: cores of a digit's cable for its common; 0 where ``common`` is a wire of its own.
        common: that wire.
        lost_v: taken by what stands between the supply and the LEDs, typical, V.
        lost_in: whether one stands in plus of each digit or one in that of the board.
        each_way: cores side by side that bring the supply, and as many that take it back.
        feed: where the supply comes in to the cards; at the digit of chip 1 if None.
        nearest: the end of the board that the digits' cables come from.
    """

    title: str
    stamp: str
    board: Board
    strings: tuple[PlacedString, ...]
    circuits: Mapping[str, SegmentCircuit]
    channels: ChannelMap
    led: Led
    register: ShiftRegister
    sink: Sink
    supply_v: float
    logic_v: float
    cable: Wire
    cable_m: float
    carries: Carries
    fuse_a: float
    setting_ohm: float
    stock: tuple[Wire, ...]
    along: Wire | None = None
    commons: int = 1
    common: Wire | None = None
    lost_v: float = 0.0
    lost_in: Literal["digit", "board"] = "digit"
    each_way: int = 1
    feed: Feed | None = None
    nearest: FirstDigit = "left"

    @property
    def digits(self) -> tuple[int, ...]:
        """Digits with anything to light, 1 = leftmost as the reader sees it."""
        return tuple(sorted({segment.digit for segment in self.board.segments}))

    @property
    def chips(self) -> range:
        """Chips, 1 = next to the controller."""
        return range(1, self.channels.chips + 1)

    @property
    def wired(self) -> tuple[Channel, ...]:
        """Outputs that light something."""
        return tuple(channel for channel in self.channels.channels if channel.segment)

    def strings_of(self, digit: int, segment: str = "") -> tuple[PlacedString, ...]:
        """The strings of a digit, or of one segment of it."""
        return tuple(
            string
            for string in self.strings
            if string.digit == digit and (not segment or string.segment == segment)
        )

    def home(self, chip: int) -> int:
        """The digit whose segments a chip mainly lights."""
        counts = Counter(channel.digit for channel in self.wired if channel.chip == chip)
        return counts.most_common(1)[0][0] if counts else self.digits[-1]

    def card_of(self, digit: int) -> int:
        """The chip on whose card the connector of a digit sits: the one that lights most of it."""
        counts = Counter(channel.chip for channel in self.wired if channel.digit == digit)
        return counts.most_common(1)[0][0]

    def current_a(self, digit: int, segment: str = "") -> float:
        """Highest current of a segment or, all segments lit, of a digit."""
        kinds = [s.kind for s in self.board.segments if s.digit == digit and segment in ("", s.name)]
        return sum(self.circuits[kind].highest_a for kind in kinds)

    @property
    def total_a(self) -> float:
        """Highest current of the whole board, everything lit."""
        return sum(self.current_a(digit) for digit in self.digits)


def connector(digit: int) -> str:
    """Reference of a digit's connector: ``X2``."""
    return f"X{digit}"


def card_connector(chip: int, what: str) -> str:
    """Reference of a connector of a card, such as ``X2I``.

    Args:
        chip: the card, from 1.
        what: ``I`` chain in, ``O`` chain out, ``P`` power, ``S`` segments.

    Source: design-choice (names).
    """
    return f"X{chip}{what}"
