"""Which output lights which segment: every (digit, segment) to chip, output, pin and place in the stream."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from segkit.catalog.part import ShiftRegister, Sink
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.glyphs.segments import ALL, COLON, POINT

Lamp = tuple[int, str]
FirstDigit = Literal["left", "right"]
BITS = 8
#: Sinks that are the register itself: nothing is wired between register and segment.
_OWN_OUTPUTS = ("register", "power-register", "constant-current")


@dataclass(frozen=True)
class Channel:
    """One register output.

    Attributes:
        chip: 1 = the chip next to the controller.
        output: name of the output, such as ``QA``.
        pin: pin number of the output on the register.
        bit: bit number in the byte of this chip, 7 = most significant, sent first.
        place: place in the stream of the whole chain, 0 = the first bit that is shifted.
        digit: digit it drives, 1 = leftmost as the reader sees it; 0 for a spare output.
        segment: ``a`` to ``g``, ``dp``, ``colon``; empty for a spare output.
        sink_pin: output pin of the sink behind it; 0 if it has none or is a single part.
    """

    chip: int
    output: str
    pin: int
    bit: int
    place: int
    digit: int
    segment: str
    sink_pin: int = 0


@dataclass(frozen=True)
class ChannelMap:
    """The whole chain.

    Attributes:
        order: segment names of a byte, most significant bit first.
        chips: number of chips.
        channels: one for each output of the chain, by chip and then by output.
        findings: verdicts.
    """

    order: tuple[str, ...]
    chips: int
    channels: tuple[Channel, ...]
    findings: tuple[Finding, ...]

    @property
    def spares(self) -> tuple[Channel, ...]:
        """Outputs that light nothing."""
        return tuple(channel for channel in self.channels if not channel.segment)


def channel_map(
    *,
    lamps: Sequence[Lamp],
    register: ShiftRegister,
    sink: Sink | None = None,
    order: tuple[str, ...],
    first_digit: FirstDigit = "left",
) -> ChannelMap:
    """Give every (digit, segment) an output of a chain of registers, one chip a digit.

    ``order`` gives bits 7 to 0, which are the outputs QH to QA, for the bit that is shifted first comes
    to rest in QH of the last chip. A colon takes the place of the point of the digit on its left where that
    digit has no point, else the next spare output, else an output of one more chip.

    Formula: place = (chips - chip)*8 + 7 - bit.

    Args:
        lamps: (digit, segment) in any order, digit 1 = leftmost; segments ``a`` to ``g``, ``dp``, ``colon``.
        register: the register of the chain; eight outputs.
        sink: what follows each output, or None.
        order: segment names of a byte, most significant bit first.
        first_digit: which digit chip 1, next to the controller, drives: the leftmost or the rightmost.

    Raises:
        InputError: no lamp, a lamp named twice, an unknown segment, an order that is not all eight names, a
            register without eight outputs; all at once.

    Source keys: ``register-hc595`` (order in which the bits come to rest), ``common-practice``.

    Example:
        >>> from segkit.catalog.reader import register
        >>> chain = channel_map(lamps=[(1, "a"), (1, "g")], register=register("hc595"),
        ...     order=("dp", "g", "f", "e", "d", "c", "b", "a"))
        >>> [(c.segment, c.output, c.pin, c.bit, c.place) for c in chain.channels if c.segment]
        [('a', 'QA', 15, 0, 7), ('g', 'QG', 6, 6, 1)]
    """
    _check(lamps, register, order, first_digit)
    digits = sorted({digit for digit, _ in lamps}, reverse=first_digit == "right")
    seats, chips = _seats(lamps, digits, order)
    channels = tuple(
        _channel(chip, bit, chips, seats, register, sink)
        for chip in range(1, chips + 1)
        for bit in range(BITS)
    )
    findings = (_chain_order(chips, digits, register), _power_on(register), *_short_sink(channels, sink))
    return ChannelMap(order=order, chips=chips, channels=channels, findings=findings)


Seat = tuple[int, int]  # chip, bit


def _seats(lamps: Sequence[Lamp], digits: list[int], order: tuple[str, ...]) -> tuple[dict[Seat, Lamp], int]:
    """Which lamp sits on which (chip, bit), and how many chips that takes."""
    bit_of = {name: BITS - 1 - place for place, name in enumerate(order)}
    chip_of = {digit: chip for chip, digit in enumerate(digits, start=1)}
    seats = {(chip_of[n], bit_of[name]): (n, name) for n, name in lamps if name != COLON}
    left_over = []
    for lamp in sorted(lamp for lamp in lamps if lamp[1] == COLON):
        own_point = (chip_of[lamp[0]], bit_of[POINT])
        if own_point in seats:
            left_over.append(lamp)
        else:
            seats[own_point] = lamp
    chips = len(digits)
    for lamp in left_over:
        seat = _next_spare(seats, chip_of[lamp[0]], chips)
        if seat is None:
            chips += 1
            seat = (chips, 0)
        seats[seat] = lamp
    return seats, chips


def _next_spare(seats: Mapping[Seat, Lamp], chip: int, chips: int) -> Seat | None:
    """The first free output from ``chip`` on to the end of the chain, then from its start."""
    for candidate in (*range(chip, chips + 1), *range(1, chip)):
        for bit in range(BITS):
            if (candidate, bit) not in seats:
                return candidate, bit
    return None


def _channel(
    chip: int,
    bit: int,
    chips: int,
    seats: Mapping[Seat, Lamp],
    register: ShiftRegister,
    sink: Sink | None,
) -> Channel:
    digit, segment = seats.get((chip, bit), (0, ""))
    used = [b for b in range(BITS) if (chip, b) in seats]
    return Channel(
        chip=chip,
        output=register.output_names[bit],
        pin=register.output_pins[bit],
        bit=bit,
        place=(chips - chip) * BITS + BITS - 1 - bit,
        digit=digit,
        segment=segment,
        sink_pin=_sink_pin(bit, used, register, sink),
    )


def _separate(register: ShiftRegister, sink: Sink | None) -> bool:
    return sink is not None and not register.sinks and sink.type not in _OWN_OUTPUTS


def _sink_pin(bit: int, used: list[int], register: ShiftRegister, sink: Sink | None) -> int:
    """Pin of the sink array: output by output for eight, close-packed for a smaller array."""
    if sink is None or not _separate(register, sink) or len(sink.output_pins) < 2:
        return 0
    if len(sink.output_pins) >= BITS:
        return sink.output_pins[bit]
    return sink.output_pins[used.index(bit) % len(sink.output_pins)] if bit in used else 0


def _check(
    lamps: Sequence[Lamp], register: ShiftRegister, order: tuple[str, ...], first_digit: FirstDigit
) -> None:
    problems = []
    doubled = [
        f"{name} of digit {digit}" for digit, name in dict.fromkeys(lamps) if lamps.count((digit, name)) > 1
    ]
    strange = [f"{name} of digit {digit}" for digit, name in lamps if name not in (*ALL, COLON) or digit < 1]
    if not lamps:
        problems.append(Problem("there is nothing to drive: the board has no segments."))
    if doubled:
        problems.append(Problem("named twice.", key="lamps", value=", ".join(doubled)))
    if strange:
        problems.append(
            Problem(
                "no segment of a digit.", key="lamps", value=", ".join(strange), limit="a to g, dp, colon"
            )
        )
    if sorted(order) != sorted(ALL):
        problems.append(
            Problem(
                "not all eight names, once each.", key="order", value=" ".join(order), limit=" ".join(ALL)
            )
        )
    if register.outputs != BITS or len(register.output_names) != BITS or len(register.output_pins) != BITS:
        problems.append(
            Problem(
                "the chain is laid out for registers of eight outputs.",
                key="register",
                value=register.id,
                limit="8 outputs",
                remedy="Choose another register.",
            )
        )
    if first_digit not in ("left", "right"):
        problems.append(Problem("not a side.", key="first_digit", value=first_digit, limit="left or right"))
    if problems:
        raise InputError(problems)


def _chain_order(chips: int, digits: list[int], register: ShiftRegister) -> Finding:
    first, last = digits[0], digits[-1]
    rest = "" if chips == len(digits) else f" Chip {chips} carries what did not fit."
    return Finding(
        level="note",
        code="chain-order",
        subject="register chain",
        text=f"Chip 1, next to the controller, drives digit {first} (1 = leftmost) and chip {len(digits)} "
        f"digit {last}.{rest} The byte for chip {chips} is sent first.",
        value=float(chips),
        unit="chips",
        source=register.source,
        remedy="If the digits come out in reversed order, send the bytes in the other order.",
    )


def _power_on(register: ShiftRegister) -> Finding:
    pin = f" (pin {register.enable_pin})" if register.enable_pin else ""
    clear = f" (pin {register.clear_pin})" if register.clear_pin else ""
    return Finding(
        level="note",
        code="dark-at-power-on",
        subject=register.name,
        text="At power-on the outputs hold a random pattern until the first latch pulse; the clear input"
        f"{clear} empties the shift stage only, not the outputs.",
        value="random",
        limit="dark",
        source=register.source,
        remedy=f"Pull output-enable{pin} up with 10 kohm; then shift a dark frame, latch it, and only then "
        "pull output-enable low.",
    )


def _short_sink(channels: Sequence[Channel], sink: Sink | None) -> tuple[Finding, ...]:
    """A sink array with fewer outputs than a chip uses."""
    pins = len(sink.output_pins) if sink is not None and sink.type not in _OWN_OUTPUTS else 0
    if sink is None or not 1 < pins < BITS:
        return ()
    most = max(
        sum(1 for c in channels if c.chip == chip and c.segment) for chip in {c.chip for c in channels}
    )
    if most <= pins:
        return ()
    return (
        Finding(
            level="caution",
            code="sink-array-too-narrow",
            subject=sink.name,
            text=f"A chip uses {most} outputs and the sink array has {pins}; the rest need a second array, "
            "whose pin numbers start again in the channel map.",
            value=float(most),
            limit=float(pins),
            unit="outputs",
            source=sink.source,
            remedy="Take a sink array with eight outputs.",
        ),
    )
