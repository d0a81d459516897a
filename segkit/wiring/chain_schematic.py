"""The schematic of the chain: controller, registers, sinks, connectors, and what keeps it dark at first."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.drawing.drawing import Drawing, Path
from segkit.units import engineering, plain_number
from segkit.wiring.channel_map import BITS, Channel
from segkit.wiring.chips import (
    capacitor_ref,
    gate_resistor_ref,
    register_ref,
    setting_resistor_ref,
)
from segkit.wiring.circuit import DECOUPLING_F, PULL_OHM, leaves_card, out_pole, seat_of
from segkit.wiring.colours import PLUS_CODE, SEGMENT_CODES, SIGNAL_CODES
from segkit.wiring.harness import Harness
from segkit.wiring.page import EDGE_MM, PAGE_WIDE_MM, notes, sheet
from segkit.wiring.pen import Pen
from segkit.wiring.plan import (
    CHAIN_POLES,
    CONNECTOR_PINS,
    CONTROLLER,
    PULL_UP,
    Plan,
    card_connector,
    connector,
)
from segkit.wiring.symbols import (
    NAME_TYPE_MM,
    PIN_TYPE_MM,
    VALUE_TYPE_MM,
    PinRow,
    capacitor,
    chip,
    inverter,
    join,
    plus,
    resistor,
    transistor,
    zero,
)

#: Heights of the chain poles and of the register outputs on the page, mm.
_POLE_Y = {pole: 224.0 - 10 * number for number, pole in enumerate(CHAIN_POLES)}
_OUT_POLE_Y = {pole: 104.0 - 8 * number for number, pole in enumerate(CHAIN_POLES)}
_RAIL_Y, _CLEAR_Y, _SERIAL_Y = 250.0, 164.0, 136.0
_CHIP_LEFT, _CHIP_WIDE, _CHIP_FOOT, _CHIP_HIGH = 148.0, 34.0, 126.0, 100.0
_SINK_LEFT, _SINK_WIDE = 236.0, 28.0
_OUT_LEFT = 318.0
#: Where each signal leaves its line for the next card.
_DOWN_X = {"logic supply": 92.0, "clock": 98.0, "latch": 104.0, "enable": 110.0}
MOST_CARDS = 8


def _bit_y(bit: int) -> float:
    return 216.0 - 9.0 * bit


def chain_schematic(whole: Harness) -> Drawing:
    """The sheet: the first card with all its pins, then the row of all cards.

    Args:
        whole: the wiring of the board.

    Sources: iec-60617; pins: those of the register and the sink; pull-up and capacitor: common-practice.
    """
    plan = whole.plan
    pen = sheet(
        plan.title, "Schematic of the chain: card 1, and all cards in a row", plan.stamp, behind=False
    )
    _controller(pen)
    _register(pen, plan)
    _around(pen, plan)
    _through(pen, plan)
    _outputs(pen, plan)
    _row(pen, plan)
    return pen.drawing()


def _controller(pen: Pen) -> None:
    pins = [PinRow("", pole, _POLE_Y[pole]) for pole in CHAIN_POLES]
    chip(pen, left=18, foot=166, wide=26, high=66, name=CONTROLLER, kind="controller", right_pins=pins)
    numbers = [PinRow(str(n), "", _POLE_Y[pole]) for n, pole in enumerate(CHAIN_POLES, 1)]
    chip(pen, left=72, foot=166, wide=7, high=66, name=card_connector(1, "I"), kind="", left_pins=numbers)
    for pole in CHAIN_POLES:
        y = _POLE_Y[pole]
        pen.line((44, y), (72, y))
        pen.text((56, y + 0.8), SIGNAL_CODES[pole], PIN_TYPE_MM, anchor="middle")
        pen.centred((75.5, y), str(CHAIN_POLES.index(pole) + 1), PIN_TYPE_MM)
    zero(pen, (84, _POLE_Y["0 V"]))
    pen.line((79, _POLE_Y["0 V"]), (84, _POLE_Y["0 V"]))


def _register(pen: Pen, plan: Plan) -> None:
    part = plan.register
    left = [
        PinRow(str(pin), name, _POLE_Y[pole])
        for pole, pin, name in (
            ("data", part.data_pin, "data"), ("clock", part.clock_pin, "clock"),
            ("latch", part.latch_pin, "latch"), ("enable", part.enable_pin, "enable, low"),
        )
    ]  # fmt: skip
    if part.clear_pin:
        left.append(PinRow(str(part.clear_pin), "clear, low", _CLEAR_Y))
    right = [
        PinRow(str(part.output_pins[bit]), part.output_names[bit], _bit_y(bit)) for bit in range(BITS)
    ] + [PinRow(str(part.serial_out_pin), "serial out", _SERIAL_Y)]
    chip(pen, left=_CHIP_LEFT, foot=_CHIP_FOOT, wide=_CHIP_WIDE, high=_CHIP_HIGH, name="", kind="",
         left_pins=left, right_pins=right)  # fmt: skip
    for pole in ("data", "clock", "latch", "enable"):
        pen.line((79, _POLE_Y[pole]), (_CHIP_LEFT, _POLE_Y[pole]))
    x, top = _CHIP_LEFT + _CHIP_WIDE - 2, _CHIP_FOOT + _CHIP_HIGH
    pen.text((x - 2, top + 4.6), register_ref(1), NAME_TYPE_MM, anchor="end")
    pen.text((x - 2, top + 1.2), part.id, PIN_TYPE_MM, anchor="end")
    pen.line((x, top), (x, _RAIL_Y))
    join(pen, (x, _RAIL_Y))
    pen.text((x + 1, top + 8.5), str(part.supply_pin), 2.3)
    zero(pen, (_CHIP_LEFT + 10, _CHIP_FOOT))
    pen.text((_CHIP_LEFT + 13.5, _CHIP_FOOT - 3), ", ".join(map(str, part.zero_pins)), 2.3)
    if part.clear_pin:
        pen.line((_CHIP_LEFT, _CLEAR_Y), (142, _CLEAR_Y), (142, _RAIL_Y))
        join(pen, (142, _RAIL_Y))
    if part.setting_pin:
        _setting(pen, plan, part.setting_pin)


def _setting(pen: Pen, plan: Plan, pin: int) -> None:
    x = _CHIP_LEFT + 26
    resistor(
        pen,
        (x, _CHIP_FOOT),
        (x, _CHIP_FOOT - 13),
        setting_resistor_ref(1),
        engineering(plan.setting_ohm, "Ω"),
    )
    pen.text((x + 0.8, _CHIP_FOOT - 2.5), str(pin), 2.3)
    zero(pen, (x, _CHIP_FOOT - 13))


def _around(pen: Pen, plan: Plan) -> None:
    """Logic supply, pull-up at output-enable, capacitor at the register."""
    supply = _POLE_Y["logic supply"]
    pen.line((79, supply), (86, supply), (86, _RAIL_Y), (206, _RAIL_Y))
    plus(pen, (86, _RAIL_Y), f"+{plain_number(plan.logic_v)} V logic")
    if plan.register.enable_pin:
        resistor(pen, (124, _RAIL_Y), (124, _RAIL_Y - 16), PULL_UP, engineering(PULL_OHM, "Ω"))
        pen.line((124, _RAIL_Y - 16), (124, _POLE_Y["enable"]))
        join(pen, (124, _RAIL_Y))
        join(pen, (124, _POLE_Y["enable"]))
    capacitor(
        pen, (206, _RAIL_Y), (206, _RAIL_Y - 14), capacitor_ref(1), engineering(DECOUPLING_F * 1e9, "nF")
    )
    zero(pen, (206, _RAIL_Y - 14))
    pen.text((212, _RAIL_Y - 14), f"close to {register_ref(1)}", 2.3)


def _through(pen: Pen, plan: Plan) -> None:
    """What goes on to the next card."""
    if plan.channels.chips < 2:
        pen.line((_CHIP_LEFT + _CHIP_WIDE, _SERIAL_Y), (_CHIP_LEFT + _CHIP_WIDE + 10, _SERIAL_Y))
        pen.text((_CHIP_LEFT + _CHIP_WIDE + 11, _SERIAL_Y - 1), "stays free: last card", VALUE_TYPE_MM)
        return
    pins = [PinRow(str(n), "", _OUT_POLE_Y[pole]) for n, pole in enumerate(CHAIN_POLES, 1)]
    chip(pen, left=_OUT_LEFT, foot=58, wide=7, high=52, name=card_connector(1, "O"), kind="", left_pins=pins)
    for number, pole in enumerate(CHAIN_POLES, 1):
        y = _OUT_POLE_Y[pole]
        pen.centred((_OUT_LEFT + 3.5, y), str(number), PIN_TYPE_MM)
        pen.text(
            (_OUT_LEFT + 9, y - 0.9),
            f"{pole}, {SIGNAL_CODES[pole]}, to {card_connector(2, 'I')} pole {number}",
            2.6,
        )
        if pole in _DOWN_X:
            x, start = _DOWN_X[pole], _POLE_Y[pole]
            if pole == "logic supply":
                start = _RAIL_Y
            pen.line((x, start), (x, y), (_OUT_LEFT, y))
            join(pen, (x, start))
    y = _OUT_POLE_Y["0 V"]
    pen.line((_OUT_LEFT - 10, y), (_OUT_LEFT, y))
    zero(pen, (_OUT_LEFT - 10, y))
    end = _CHIP_LEFT + _CHIP_WIDE
    pen.line((end, _SERIAL_Y), (300, _SERIAL_Y), (300, _OUT_POLE_Y["data"]), (_OUT_LEFT, _OUT_POLE_Y["data"]))


def _outputs(pen: Pen, plan: Plan) -> None:
    """From each output through its sink to the connector."""
    own = [channel for channel in plan.channels.channels if channel.chip == 1]
    seats = {c.bit: seat_of(plan, c) for c in own if c.segment}
    arrays = dict.fromkeys(seat.ref for seat in seats.values() if seat.ref and seat.ref[0] == "U")
    for ref in arrays:
        bits = [bit for bit, seat in seats.items() if seat.ref == ref]
        rows = [(bit, seats[bit].into, seats[bit].out) for bit in bits]
        _array(pen, plan, ref, rows, second=ref != next(iter(arrays)), alone=len(arrays) == 1)
    digit = plan.home(1)
    _digit_connector(pen, plan, digit)
    for channel in own:
        _output(pen, plan, channel)


def _array(
    pen: Pen, plan: Plan, ref: str, rows: Sequence[tuple[int, str, str]], *, second: bool, alone: bool
) -> None:
    """An array with its pins; of two that share a chip, the names keep out of each other's way."""
    over = 6.0 if alone else 4.0
    foot, top = min(_bit_y(bit) for bit, _, _ in rows) - over, max(_bit_y(bit) for bit, _, _ in rows) + over
    right = _SINK_LEFT + _SINK_WIDE
    chip(
        pen, left=_SINK_LEFT, foot=foot, wide=_SINK_WIDE, high=top - foot, name="" if second else ref,
        kind="" if second else plan.sink.id,
        left_pins=[PinRow(into, "", _bit_y(bit)) for bit, into, _ in rows],
        right_pins=[PinRow(out, "", _bit_y(bit)) for bit, _, out in rows],
    )  # fmt: skip
    for bit, _, _ in rows:
        inverter(pen, ((_SINK_LEFT + right) / 2, _bit_y(bit)), left=_SINK_LEFT, right=right)
    sink = plan.sink
    ground = ", ".join(map(str, sink.zero_pins))
    free = f"pin {', '.join(map(str, sink.open_pins))} stays free: {sink.open_why}" if sink.open_pins else ""
    if second:
        pen.text((right + 2, foot - 1.2), f"{ref} {plan.sink.id}", PIN_TYPE_MM)
    if alone or second:
        zero(pen, (_SINK_LEFT + 8, foot))
        pen.text((_SINK_LEFT + 11, foot - 3), ground, 2.3)
        pen.text((_SINK_LEFT + 11, foot - 6.5), free, 2.3)
    else:
        pen.text((right + 2, top + 1.2), f"0 V: pin {ground}; {free}", 1.8)


def _digit_connector(pen: Pen, plan: Plan, digit: int) -> None:
    name = connector(digit) if plan.carries == "supply" else card_connector(1, "S")
    low = _bit_y(BITS - 1) - 5
    chip(pen, left=_OUT_LEFT, foot=low, wide=7, high=_bit_y(0) + 14 - low, name=name, kind="")
    y = _bit_y(0) + 9
    pen.line((_OUT_LEFT - 12, y), (_OUT_LEFT, y))
    plus(pen, (_OUT_LEFT - 12, y), f"+{plain_number(plan.supply_v)} V LED")
    pen.centred((_OUT_LEFT + 3.5, y), "1", PIN_TYPE_MM)
    pen.text((_OUT_LEFT + 9, y - 0.9), f"plus of digit {digit}, {PLUS_CODE}", 2.6)


def _output(pen: Pen, plan: Plan, channel: Channel) -> None:
    y, start = _bit_y(channel.bit), _CHIP_LEFT + _CHIP_WIDE
    if not channel.segment:
        pen.line((start, y), (start + 8, y))
        pen.text((start + 9, y - 0.9), "spare, stays free", 2.4)
        return
    seat = seat_of(plan, channel)
    if not seat.ref:
        pen.line((start, y), (_OUT_LEFT, y))
    elif seat.ref[0] == "U":
        pen.line((start, y), (_SINK_LEFT, y))
        pen.line((_SINK_LEFT + _SINK_WIDE, y), (_OUT_LEFT, y))
    else:
        _single(pen, channel, seat.ref, start, y)
    pole = out_pole(plan, channel) if leaves_card(plan, channel) else str(CONNECTOR_PINS[channel.segment])
    pen.centred((_OUT_LEFT + 3.5, y), pole, PIN_TYPE_MM if len(pole) < 3 else 1.8)
    to = f"segment {channel.segment} of digit {channel.digit}, {SEGMENT_CODES[channel.segment]}"
    pen.text((_OUT_LEFT + 9, y - 0.9), to, 2.6)


def _single(pen: Pen, channel: Channel, ref: str, start: float, y: float) -> None:
    """A MOSFET with the resistor that holds its gate down."""
    x = 262.0
    pen.line((start, y), (x - 4, y))
    transistor(pen, (x, y), ref)
    pen.line((x + 4, y), (_OUT_LEFT, y))
    gate_x = 214.0 + 7.0 * (channel.bit % 2)
    join(pen, (gate_x, y))
    pen.text((gate_x + 1, y + 0.9), f"{gate_resistor_ref(channel)} to 0 V", 2.2)
    if channel.bit == 0:
        pen.text(
            (200, 226.5),
            f"{gate_resistor_ref(channel)} and on: {engineering(PULL_OHM, 'Ω')} from gate to 0 V; "
            "S of each Q: 0 V",
            2.5,
        )


def _row(pen: Pen, plan: Plan) -> None:
    """All cards in a row, and what happens at power-on."""
    chips = list(plan.chips)
    shown = chips if len(chips) <= MOST_CARDS else [*chips[: MOST_CARDS - 1], chips[-1]]
    wide = min(40.0, 296.0 / (len(shown) + 1))
    x, y = EDGE_MM + 6, 24.0
    pen.box(x, y, wide - 8, 20)
    pen.centred((x + (wide - 8) / 2, y + 10), CONTROLLER, 3.0)
    for number, card in enumerate(shown, 1):
        left = x + number * wide
        _arrow(pen, left - 8, left, y + 10)
        pen.box(left, y, wide - 8, 20)
        middle = left + (wide - 8) / 2
        digits = sorted({c.digit for c in plan.wired if c.chip == card})
        pen.centred((middle, y + 15.5), f"card {card}", 3.0)
        pen.centred((middle, y + 10), register_ref(card), 2.6)
        pen.centred((middle, y + 4.5), f"digit {', '.join(map(str, digits))}", 2.6)
    left_out = chips[len(shown) - 1 : -1] if len(shown) < len(chips) else []
    last = ""
    if left_out:
        pen.centred((x + len(shown) * wide - 4, y + 13), "…", 4.0)
        named = (
            f"Card {left_out[0]} is" if len(left_out) == 1 else f"Cards {left_out[0]} to {left_out[-1]} are"
        )
        last = f" {named} left out here."
    notes_mm = PAGE_WIDE_MM - EDGE_MM - 316
    lines = [
        "Each arrow is the six wires of the chain; data goes from serial out to data of the next card, "
        f"the other five run through.{last}",
        _power_on(plan),
    ]
    notes(pen, lines, left=312, top=50, wide=notes_mm, size=2.7)


def _power_on(plan: Plan) -> str:
    if plan.register.enable_pin:
        return (
            f"Power-on: {PULL_UP} holds output-enable high, so all stays dark. Shift a dark frame, latch it, "
            "then pull output-enable low."
        )
    return (
        "Power-on: this register has no output-enable; keep the LED supply off until a dark frame is latched."
    )


def _arrow(pen: Pen, start: float, end: float, y: float) -> None:
    pen.line((start, y), (end, y))
    pen.put("solid", Path(((end, y), (end - 2.4, y + 1.1), (end - 2.4, y - 1.1))))
