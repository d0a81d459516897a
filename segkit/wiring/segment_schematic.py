"""The schematic of a segment: from plus through resistors and LEDs to connector, sink and register."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.drawing.drawing import Drawing, Point
from segkit.electrical.driver import sink_drop
from segkit.electrical.led_curve import curve_of
from segkit.electrical.resistor import rating_name
from segkit.electrical.string import StringCircuit
from segkit.units import engineering, plain_number
from segkit.wiring.channel_map import Channel
from segkit.wiring.chips import gate_resistor_ref, register_ref
from segkit.wiring.circuit import PULL_OHM, seat_of
from segkit.wiring.colours import SEGMENT_CODES
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.page import EDGE_MM, PAGE_WIDE_MM, notes, sheet, table
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import CONNECTOR_PINS, PLUS_PIN, Plan, connector
from segkit.wiring.symbols import (
    NAME_TYPE_MM,
    VALUE_TYPE_MM,
    PinRow,
    chip,
    inverter,
    join,
    led_down,
    mosfet,
    plus,
    resistor,
    zero,
)

#: Strings drawn side by side; of more, the first ones and the number of all.
MOST_STRINGS = 6
_RAIL_Y, _LOWEST_JOIN_Y = 240.0, 112.0
_LED_STEP_MM, _RESISTOR_MM = 28.0, 16.0
#: Width of a diode with its arrows, and the gap to its reference, mm.
_SYMBOL_MM = 9.0
#: Box of the part in the common lead, and its leads, mm.
_PART_MM, _LEAD_MM = 4.0, 2.0


def circuits_alike(plan: Plan) -> tuple[tuple[PlacedString, ...], ...]:
    """One segment of every circuit that differs: its strings.

    Args:
        plan: what the wiring follows from.

    Returns:
        strings of the first segment of each, in order of first appearance.
    """
    found: dict[tuple[tuple[int, float], ...], tuple[PlacedString, ...]] = {}
    for segment in plan.board.segments:
        strings = plan.strings_of(segment.digit, segment.name)
        found.setdefault(tuple((len(s.leds), s.ohm) for s in strings), strings)
    return tuple(found.values())


def segment_schematic(whole: Harness) -> Drawing:
    """The sheet: one segment of each different circuit, side by side.

    Args:
        whole: the wiring of the board.

    Sources: iec-60617; values: those of the electrical stage.
    """
    plan = whole.plan
    pen = sheet(plan.title, "Schematic of a segment", plan.stamp, behind=False)
    examples = circuits_alike(plan)
    wide = (PAGE_WIDE_MM - 2 * EDGE_MM - 10) / len(examples)
    for number, strings in enumerate(examples):
        _segment(pen, plan, strings, left=EDGE_MM + 5 + number * wide, wide=wide)
    notes(pen, _reading(plan), left=EDGE_MM + 6, top=27, wide=PAGE_WIDE_MM - 2 * EDGE_MM - 90, size=3.0)
    return pen.drawing()


def _segment(pen: Pen, plan: Plan, strings: Sequence[PlacedString], *, left: float, wide: float) -> None:
    first = strings[0]
    shown = strings if len(strings) <= MOST_STRINGS else strings[: MOST_STRINGS - 1]
    step = min(46.0, (wide - 52) / max(1, len(shown)))
    xs = [left + 26 + step * k for k in range(len(shown))]
    alike = [kind for kind in plan.board.kinds() if _same(plan, kind, strings)]
    amps = engineering(plan.circuits[first.kind].current_a, "A")
    kinds = ", ".join(alike)
    words = f"Segment {first.segment} of digit {first.digit}; alike: all of kind {kinds}; {amps} when lit"
    for y, line, largest in ((262.0, words, NAME_TYPE_MM), (256.5, _sum(plan, first), VALUE_TYPE_MM)):
        pen.text((left + 2, y), line, min(largest, largest * (wide - 6) / text_mm(line, largest)))
    pen.line((xs[0], _RAIL_Y), (xs[-1], _RAIL_Y))
    _plus(pen, plan, first.digit, xs[0], room=wide - 32)
    join_y = max(_LOWEST_JOIN_Y, _RAIL_Y - _RESISTOR_MM - _LED_STEP_MM * len(first.leds))
    for x, string in zip(xs, shown, strict=True):
        _string(pen, string, x, join_y, inner=0 < shown.index(string) < len(shown) - 1, step=step)
    pen.line((xs[0], join_y), (xs[-1], join_y))
    if len(shown) < len(strings):
        pen.text((xs[-1] + 8, 0.5 * (_RAIL_Y + join_y)), f"… {len(strings)} strings in all", NAME_TYPE_MM)
    _sink(pen, plan, first, xs[0], join_y)
    _values(pen, plan, first, left=left + 2, wide=wide)


def _plus(pen: Pen, plan: Plan, digit: int, x: float, *, room: float) -> None:
    """The supply, and below it what stands in plus and takes volts."""
    volts, pole = f"+{plain_number(plan.supply_v)} V", f"{connector(digit)} pole {PLUS_PIN}"
    if not plan.lost_v:
        plus(pen, (x, _RAIL_Y), f"{volts} ({pole})")
        return
    foot, top = _RAIL_Y + _LEAD_MM, _RAIL_Y + _LEAD_MM + _PART_MM
    plus(pen, (x, top + _LEAD_MM), volts)
    pen.line((x, top + _LEAD_MM), (x, top))
    pen.box(x - _PART_MM / 2, foot, _PART_MM, _PART_MM)
    pen.line((x, foot), (x, _RAIL_Y))
    where = "each digit" if plan.lost_in == "digit" else "the board, before all digits"
    words = f"part in plus of {where}: takes {plain_number(plan.lost_v, 3)} V, no resistor"
    size = min(VALUE_TYPE_MM, VALUE_TYPE_MM * room / text_mm(words, VALUE_TYPE_MM))
    pen.text((x + _PART_MM / 2 + 1.2, foot + 1.2), words, size)
    pen.text((x - 1.5, _RAIL_Y - 1), pole, VALUE_TYPE_MM, anchor="end")


def _values(pen: Pen, plan: Plan, first: PlacedString, *, left: float, wide: float) -> None:
    """What the strings are made of and what flows in them."""
    head = ("strings", "LEDs each", "resistor", "rating", "typical", "highest", "heat in it")
    strings = plan.circuits[first.kind].strings
    rows = [_value_row(one, strings.count(one), first.network) for one in dict.fromkeys(strings)]
    each = min(26.0, (wide - 8) / 7)
    table(pen, [head, *rows], left=left, top=48, columns=(each,) * 7, size=2.8)


def _value_row(one: StringCircuit, number: int, network: str) -> tuple[str, ...]:
    amps = engineering(one.current_a, "A"), engineering(one.highest_a, "A")
    if not one.chosen_ohm:
        return (str(number), str(one.leds), "none", "", *amps, "")
    ohm, heat = engineering(one.chosen_ohm, "Ω"), engineering(one.resistor_w, "W")
    return (str(number), str(one.leds), ohm, "network" if network else rating_name(one.rating_w), *amps, heat)


def _sum(plan: Plan, string: PlacedString) -> str:
    """Where the supply's voltage goes, with typical parts."""
    circuit = plan.circuits[string.kind]
    amps = circuit.strings[string.number - 1].current_a
    drop = sink_drop(plan.sink, current_a=circuit.current_a).typical_v
    leds = len(string.leds) * curve_of(plan.led).voltage_v(amps)
    left = plan.supply_v - plan.lost_v - drop - leds
    lost = f"{plain_number(plan.lost_v, 3)} V in the common lead + " if plan.lost_v else ""
    rest = f"{plain_number(left, 3)} V across {string.element}" if string.resistor else "the rest in the sink"
    return (
        f"{plain_number(plan.supply_v)} V = {plain_number(leds, 3)} V in {len(string.leds)} LEDs + {lost}"
        f"{plain_number(round(drop, 3), 2)} V in the sink + {rest}; {engineering(amps, 'A')} in the string"
    )


def _same(plan: Plan, kind: str, strings: Sequence[PlacedString]) -> bool:
    segment = plan.board.kinds()[kind][0]
    own = plan.strings_of(segment.digit, segment.name)
    return [(len(s.leds), s.ohm) for s in own] == [(len(s.leds), s.ohm) for s in strings]


def _string(pen: Pen, string: PlacedString, x: float, join_y: float, *, inner: bool, step: float) -> None:
    top, room = _RAIL_Y, step - _SYMBOL_MM
    if string.resistor:
        resistor(pen, (x, top), (x, top - _RESISTOR_MM), string.element, engineering(string.ohm, "Ω"))
        top -= _RESISTOR_MM
    each = (top - join_y) / len(string.leds)
    for place, led in enumerate(string.leds):
        led_down(pen, (x, top - each * (place + 0.5)), led.ref, reach=each / 2, room=room)
    if inner:
        join(pen, (x, _RAIL_Y))
        join(pen, (x, join_y))


def _sink(pen: Pen, plan: Plan, first: PlacedString, x: float, join_y: float) -> None:
    """Connector, sink and register output below the strings."""
    channel = next(c for c in plan.wired if (c.digit, c.segment) == (first.digit, first.segment))
    terminal, y = join_y - 9, join_y - 38
    pen.line((x, join_y), (x, terminal + 1))
    pen.dot((x, terminal), 1.0, ink="line")
    words = (
        f"{connector(first.digit)} pole {CONNECTOR_PINS[first.segment]}, core {SEGMENT_CODES[first.segment]}"
    )
    pen.text((x + 2.5, terminal - 1), words, VALUE_TYPE_MM)
    join(pen, (x, join_y))
    seat = seat_of(plan, channel)
    chip_x = x + 58 if seat.ref else x + 12
    rows = (PinRow(str(channel.pin), channel.output, y),)
    chip(
        pen, left=chip_x, foot=y - 12, wide=26, high=24, name=register_ref(channel.chip),
        kind=plan.register.id, left_pins=rows,
    )  # fmt: skip
    if not seat.ref:
        pen.line((x, terminal - 1), (x, y), (chip_x, y))
    elif plan.sink.outputs == 1:
        pen.line((x, terminal - 1), (x, y + 8))
        _transistor(pen, plan, channel, (x, y))
    else:
        pen.line((x, terminal - 1), (x, y), (x + 8, y))
        _array(pen, plan, channel, (x, y))


def _transistor(pen: Pen, plan: Plan, channel: Channel, at: Point) -> None:
    """A single MOSFET with the resistor that holds its gate down."""
    x, y = at
    mosfet(pen, at)
    zero(pen, (x, y - 8))
    pen.text((x + 5, y - 5), seat_of(plan, channel).ref, NAME_TYPE_MM)
    pen.text((x + 5, y - 8.5), plan.sink.id, 2.3)
    join(pen, (x + 34, y))
    resistor(pen, (x + 34, y), (x + 34, y - 14), gate_resistor_ref(channel), engineering(PULL_OHM, "Ω"))
    zero(pen, (x + 34, y - 14))
    pen.line((x + 18, y), (x + 58, y))


def _array(pen: Pen, plan: Plan, channel: Channel, at: Point) -> None:
    """One sink of an array in its box."""
    (x, y), seat = at, seat_of(plan, channel)
    pen.box(x + 8, y - 8, 26, 16)
    inverter(pen, (x + 21, y), left=x + 8, right=x + 34, towards=-1)
    pen.text((x + 8, y + 10), f"{seat.ref}  {plan.sink.id}", VALUE_TYPE_MM)
    pen.text((x + 7.2, y + 0.8), seat.out, 2.4, anchor="end")
    pen.text((x + 34.8, y + 0.8), seat.into, 2.4)
    zero(pen, (x + 21, y - 8))
    pen.line((x + 34, y), (x + 58, y))


def _reading(plan: Plan) -> list[str]:
    if plan.sink.type == "constant-current":
        limit = "The sink holds the current; no resistor is needed in a string."
    else:
        limit = "Every string has its own resistor; one for several strings would make them uneven."
    lit = (
        "A 1 at the register output lights the segment."
        if plan.sink.inverts
        else ("A 0 at the register output lights the segment.")
    )
    return [f"{limit} {lit} References are those of the wire list and the netlist."]
