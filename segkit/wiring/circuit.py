"""The whole board as a circuit: every part with its pins, every net with what it joins. Knows no places."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from segkit.catalog.part import ShiftRegister
from segkit.catalog.reader import network
from segkit.units import engineering, plain_number
from segkit.wiring.channel_map import Channel
from segkit.wiring.chips import (
    SinkSeat,
    capacitor_ref,
    gate_resistor_ref,
    register_ref,
    setting_resistor_ref,
    sink_seat,
)
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.plan import (
    CHAIN_POLES,
    CONNECTOR_PINS,
    CONTROLLER,
    ENTRY,
    FUSE,
    PLUS_PIN,
    POLES,
    PULL_UP,
    SOURCE,
    Pin,
    Plan,
    card_connector,
    connector,
)

PULL_OHM, DECOUPLING_F = 10e3, 100e-9
SUPPLY, LED_PLUS, ZERO, LOGIC = "SUPPLY", "LED_PLUS", "ZERO", "LOGIC"
#: Chain poles that run through all cards, with their nets.
_THROUGH = {"logic supply": LOGIC, "0 V": ZERO, "clock": "CLOCK", "latch": "LATCH", "enable": "ENABLE"}


@dataclass(frozen=True)
class Component:
    """One part of the board.

    Attributes:
        ref: reference.
        kind: ``led``, ``resistor``, ``network``, ``capacitor``, ``fuse``, ``register``, ``sink``,
            ``connector``, ``controller`` or ``source``.
        value: such as ``510 Ω`` or the catalogue id.
        pins: all pins that the circuit names, open ones too.
    """

    ref: str
    kind: str
    value: str
    pins: tuple[str, ...]


@dataclass(frozen=True)
class Net:
    """Pins that are joined.

    Attributes:
        name: such as ``SEG_2a``: letters, digits and underscores.
        pins: (reference, pin), each once on the board.
    """

    name: str
    pins: tuple[Pin, ...]


@dataclass(frozen=True)
class Circuit:
    """The parts and the nets; a pin that is in no net is open."""

    components: tuple[Component, ...]
    nets: tuple[Net, ...]

    def net_of(self) -> dict[Pin, str]:
        """Net by pin."""
        return {pin: net.name for net in self.nets for pin in net.pins}


Joint = tuple[str, Pin]  # net, pin


def circuit_of(plan: Plan) -> Circuit:
    """Parts and nets of a board, from the channel map and the strings alone.

    Args:
        plan: what the wiring follows from.

    Sources: those of the register and the sink; pull-up and capacitor: common-practice.
    """
    joined: dict[str, list[Pin]] = {}
    for net, pin in (*_feed(plan), *_chain(plan), *_outputs(plan), *_segments(plan)):
        joined.setdefault(net, []).append(pin)
    nets = tuple(Net(name, tuple(dict.fromkeys(pins))) for name, pins in joined.items())
    used: dict[str, list[str]] = {}
    for one in nets:
        for ref, pin_name in one.pins:
            used.setdefault(ref, []).append(pin_name)
    return Circuit(tuple(_components(plan, used)), nets)


def led_plus(plan: Plan, digit: int) -> str:
    """Net of the plus of a digit's LEDs: one for all, or one behind each cable's fuse.

    Args:
        plan: what the wiring follows from.
        digit: from 1.
    """
    return LED_PLUS if plan.carries == "supply" else f"{LED_PLUS}_{digit}"


def fuse_ref(plan: Plan, digit: int) -> str:
    """Reference of the fuse that a digit hangs on: the one at the supply, or that of its cable.

    Args:
        plan: what the wiring follows from.
        digit: from 1.
    """
    return FUSE if plan.carries == "supply" else f"F{digit}"


def _feed(plan: Plan) -> Iterator[Joint]:
    yield ZERO, (SOURCE, "-")
    yield ZERO, (ENTRY, "2")
    if plan.carries == "supply":
        yield SUPPLY, (SOURCE, "+")
        yield SUPPLY, (FUSE, "1")
        yield LED_PLUS, (FUSE, "2")
        yield LED_PLUS, (ENTRY, "1")
        for chip in plan.chips:
            yield LED_PLUS, (card_connector(chip, "P"), "1")
    else:
        yield SUPPLY, (SOURCE, "+")
        yield SUPPLY, (ENTRY, "1")
        for digit in plan.digits:
            yield SUPPLY, (fuse_ref(plan, digit), "1")
            yield led_plus(plan, digit), (fuse_ref(plan, digit), "2")
            yield led_plus(plan, digit), (card_connector(plan.card_of(digit), "S"), str(PLUS_PIN))
    for digit in plan.digits:
        yield led_plus(plan, digit), (connector(digit), str(PLUS_PIN))
    for chip in plan.chips:
        yield ZERO, (card_connector(chip, "P"), "2")


def _chain(plan: Plan) -> Iterator[Joint]:
    register, last = plan.register, plan.channels.channels[-1].chip
    for pole in CHAIN_POLES:
        yield _THROUGH.get(pole, "DATA_1"), (CONTROLLER, pole)
    for chip in plan.chips:
        sides = "I" if chip == last else "IO"
        for number, pole in enumerate(CHAIN_POLES, 1):
            for side in sides:
                data = f"DATA_{chip if side == 'I' else chip + 1}"
                yield _THROUGH.get(pole, data), (card_connector(chip, side), str(number))
        yield from _register_pins(chip, register, is_last=chip == last)
    yield LOGIC, (PULL_UP, "1")
    if register.enable_pin:
        yield "ENABLE", (PULL_UP, "2")


def _register_pins(chip: int, register: ShiftRegister, *, is_last: bool) -> Iterator[Joint]:
    ref = register_ref(chip)
    yield f"DATA_{chip}", (ref, str(register.data_pin))
    if not is_last:
        yield f"DATA_{chip + 1}", (ref, str(register.serial_out_pin))
    yield "CLOCK", (ref, str(register.clock_pin))
    yield "LATCH", (ref, str(register.latch_pin))
    for net, pin in (
        ("ENABLE", register.enable_pin),
        (LOGIC, register.clear_pin),
        (LOGIC, register.supply_pin),
    ):
        if pin:
            yield net, (ref, str(pin))
    for pin in register.zero_pins:
        yield ZERO, (ref, str(pin))
    yield LOGIC, (capacitor_ref(chip), "1")
    yield ZERO, (capacitor_ref(chip), "2")
    if register.setting_pin:
        yield f"SETTING_{chip}", (ref, str(register.setting_pin))
        yield f"SETTING_{chip}", (setting_resistor_ref(chip), "1")
        yield ZERO, (setting_resistor_ref(chip), "2")


def _outputs(plan: Plan) -> Iterator[Joint]:
    """From each register output through the sink to the connector of its digit."""
    for channel in plan.wired:
        lamp = f"SEG_{channel.digit}{channel.segment}"
        register, pole = (register_ref(channel.chip), str(channel.pin)), CONNECTOR_PINS[channel.segment]
        seat = seat_of(plan, channel)
        if not seat.ref:
            yield lamp, register
        else:
            through = f"OUT_{channel.chip}{channel.output}"
            yield through, register
            yield through, (seat.ref, seat.into)
            yield lamp, (seat.ref, seat.out)
            yield from _sink_ground(plan, channel, seat)
        if leaves_card(plan, channel):
            yield lamp, (card_connector(channel.chip, "S"), out_pole(plan, channel))
        yield lamp, (connector(channel.digit), str(pole))


def seat_of(plan: Plan, channel: Channel) -> SinkSeat:
    """The sink behind an output; see ``chips.sink_seat``."""
    return sink_seat(channel, plan.channels, sink=plan.sink, register=plan.register)


def leaves_card(plan: Plan, channel: Channel) -> bool:
    """Whether a segment's wire leaves the card: through a digit's cable, or for the digit of another card.

    Args:
        plan: what the wiring follows from.
        channel: an output that lights something.
    """
    return plan.carries == "segments" or channel.chip != plan.card_of(channel.digit)


def out_pole(plan: Plan, channel: Channel) -> str:
    """Pole of the card's segment connector: that of the digit's connector; with the digit for a foreign one.

    Args:
        plan: what the wiring follows from.
        channel: an output that leaves its card.
    """
    pole = str(CONNECTOR_PINS[channel.segment])
    return pole if channel.chip == plan.card_of(channel.digit) else f"{channel.digit}.{pole}"


def _sink_ground(plan: Plan, channel: Channel, seat: SinkSeat) -> Iterator[Joint]:
    if plan.sink.outputs == 1:
        gate = gate_resistor_ref(channel)
        yield ZERO, (seat.ref, "S")
        yield f"OUT_{channel.chip}{channel.output}", (gate, "1")
        yield ZERO, (gate, "2")
    for pin in plan.sink.zero_pins:
        yield ZERO, (seat.ref, str(pin))


def _segments(plan: Plan) -> Iterator[Joint]:
    for string in plan.strings:
        plus, lamp = led_plus(plan, string.digit), f"SEG_{string.digit}{string.segment}"
        inner = f"IN_{string.digit}{string.segment}{string.number}_"
        if string.resistor:
            yield plus, (string.resistor, string.feed_pin)
            yield f"{inner}0", (string.resistor, string.own_pin)
        yield f"{inner}0" if string.resistor else plus, (string.leds[0].ref, "A")
        for place, (one, other) in enumerate(pairwise(string.leds), 1):
            yield f"{inner}{place}", (one.ref, "K")
            yield f"{inner}{place}", (other.ref, "A")
        yield lamp, (string.leds[-1].ref, "K")


def _components(plan: Plan, used: dict[str, list[str]]) -> Iterator[Component]:
    values = _values(plan)
    for ref, pins in used.items():
        kind, value, extra = values.get(ref) or _mechanical(ref)
        whole = dict.fromkeys((*extra, *pins))
        yield Component(ref, kind, value, tuple(sorted(whole, key=_pin_order)))


def _pin_order(pin: str) -> tuple[int, str]:
    return (int(pin), "") if pin.isdecimal() else (0, pin)


def _mechanical(ref: str) -> tuple[str, str, tuple[str, ...]]:
    """A connector; a digit's has all its poles, used or not."""
    poles = tuple(str(pole) for pole in range(1, POLES + 1)) if ref[1:].isdecimal() and ref != ENTRY else ()
    return "connector", f"{POLES}-pole" if poles else "terminals", poles


def _values(plan: Plan) -> dict[str, tuple[str, str, tuple[str, ...]]]:
    """Reference to kind, value and pins beyond those in use."""
    pull, register = engineering(PULL_OHM, "Ω"), plan.register
    free = (*map(str, (*register.output_pins, register.serial_out_pin, *register.open_pins)),)
    amps = f"{plain_number(plan.fuse_a, 3)} A" if plan.fuse_a else ""
    found: dict[str, tuple[str, str, tuple[str, ...]]] = {
        SOURCE: ("source", f"{plain_number(plan.supply_v)} V", ()),
        CONTROLLER: ("controller", f"{plain_number(plan.logic_v)} V", ()),
        PULL_UP: ("resistor", pull, ()),
    }
    for digit in plan.digits:
        found[fuse_ref(plan, digit)] = ("fuse", amps, ())
    for chip in plan.chips:
        found[register_ref(chip)] = ("register", register.id, free)
        found[capacitor_ref(chip)] = ("capacitor", engineering(DECOUPLING_F * 1e9, "nF"), ())
        found[setting_resistor_ref(chip)] = ("resistor", engineering(plan.setting_ohm, "Ω"), ())
    for channel in plan.wired:
        seat = seat_of(plan, channel)
        pins = (*map(str, (*plan.sink.input_pins, *plan.sink.output_pins, *plan.sink.open_pins)),)
        found[seat.ref] = ("sink", plan.sink.id, pins)
        found[gate_resistor_ref(channel)] = found.get(gate_resistor_ref(channel)) or ("resistor", pull, ())
    for string in plan.strings:
        found[string.resistor] = _resistor(string)
        found |= {led.ref: ("led", plan.led.id, ()) for led in string.leds}
    return found


def _resistor(string: PlacedString) -> tuple[str, str, tuple[str, ...]]:
    """A single resistor, or the network that it is part of with all its pins, spare ones too."""
    ohm = engineering(string.ohm, "Ω")
    if not string.network:
        return "resistor", ohm, ()
    pins = network(string.network).pins
    return "network", f"{ohm} {string.network}", tuple(str(pin) for pin in range(1, pins + 1))
