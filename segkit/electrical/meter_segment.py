"""What a multimeter should read on one kind of segment: its output, its resistor, its string of LEDs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from segkit.electrical.corners import brightest_curve, dimmest_curve
from segkit.electrical.driver import drop_line, sink_drop
from segkit.electrical.led_curve import curve_of, string_current_a
from segkit.electrical.measured_board import Reading, Wired
from segkit.electrical.string import SegmentCircuit, StringCircuit
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Readings by which a transistor that is half on gives itself away, V.
_TELLING_V = (1.5, 6.0)
_STEADY = "constant-current"


def segment_readings(board: Wired, kinds: Sequence[str]) -> Iterator[tuple[Reading, Line | None]]:
    """The readings of kinds that are wired the same way, each with its working where it is not there yet.

    Args:
        board: what is measured.
        kinds: of segment; the first gives its name to the lines.

    Formula: ``V = I*R`` at a resistor, ``n*Vled(I)`` along a string, ``I*Ron`` or the printed drop at an
    output that is on. The ends of each range are solved at the corners that move it most.

    Source: those of the parts; arithmetic.
    """
    circuit, named = board.circuits[kinds[0]], ", ".join(kinds)
    yield _current(board, circuit, named), None
    yield _output(board, circuit, named)
    endings: dict[tuple[int, float], str] = {}
    for string in circuit.strings:
        way, suffix = (string.leds, string.chosen_ohm), _suffix(circuit.kind)
        if way not in endings:
            endings[way] = f"{suffix}-of-{string.leds}" if endings else suffix
            if string.chosen_ohm > 0:
                yield _resistor(board, circuit, string, named, endings[way])
            yield _leds(board, circuit, string, named, endings[way])


def _current(board: Wired, circuit: SegmentCircuit, named: str) -> Reading:
    strings = len(circuit.strings)
    part = f" Part of it: some of its {strings} strings are dark." if strings > 1 else ""
    return Reading(
        "current of a segment",
        named,
        f"electrical.segment_current.{_suffix(circuit.kind)}",
        board.lowest_a(circuit),
        circuit.current_a,
        circuit.highest_a,
        "A",
        f"None: an open wire, or the output is off.{part}",
    )


def _suffix(kind: str) -> str:
    return kind.replace(" ", "-")


def _left_v(board: Wired, circuit: SegmentCircuit) -> tuple[float, float, float]:
    """What the string leaves across a constant-current output, V: least, typical, most."""
    leds, led, given = circuit.strings[0].leds, board.led, board.conditions
    drop = given.common
    return (
        max(0.0, given.supply_min_v - drop.worst_v - board.lost_v - leds * led.vf_max_v),
        max(0.0, given.supply_v - drop.typical_v - leds * led.vf_v),
        max(0.0, given.supply_max_v - drop.low_v - leds * led.vf_min_v),
    )


def across_v(board: Wired, kind: str) -> float:
    """Across an output that is on, typical, V; the worst of a register alone, whose typical is not known.

    Args:
        board: what is measured.
        kind: of segment.
    """
    circuit = board.circuits[kind]
    if board.sink.type == _STEADY:
        return _left_v(board, circuit)[1]
    drop = sink_drop(board.sink, current_a=circuit.current_a)
    return drop.worst_v if board.sink.type == "register" else drop.typical_v


def _output(board: Wired, circuit: SegmentCircuit, named: str) -> tuple[Reading, Line]:
    sink, name = board.sink, f"electrical.meter_output.{_suffix(circuit.kind)}"
    probe, wrong = "across an output that is on", _wrong_output(board, circuit)
    if sink.type == _STEADY:
        low, expected, high = _left_v(board, circuit)
        leds = circuit.strings[0].leds
        conditions = board.conditions
        given = (
            Given("V", conditions.supply_v, "V", "supply"),
            Given("Vc", conditions.common.typical_v, "V", "lost in the common lead"),
            Given("n", leds, "", "LEDs in series"),
            Given("Vf", board.led.vf_v, "V", "of one, typical"),
        )
        title, formula = "left across an output that is on", "max(0, V - Vc - n*Vf)"
        line = Line(name, title, "Vo", expected, "V", formula, given, sink.source)
        return Reading(probe, named, name, low, expected, high, "V", wrong), line
    if sink.type == "register":
        named = f"{named}: only the highest is stated"
    line = drop_line(sink, current_a=circuit.current_a, name=name)
    low = sink_drop(sink, current_a=board.lowest_a(circuit)).low_v
    high = sink_drop(sink, current_a=circuit.highest_a).worst_v
    return Reading(probe, named, name, low, line.value, high, "V", wrong), line


def _wrong_output(board: Wired, circuit: SegmentCircuit) -> str:
    """What a wrong reading across an output means, by what the output is."""
    kind, supply = board.sink.type, plain_number(board.conditions.supply_v)
    if kind in ("mosfet", "power-register"):
        return _half_on(board, circuit.current_a)
    if kind == _STEADY:
        return "Too little: the string leaves nothing to hold the current with; take an LED out of it."
    if kind == "register":
        return (
            "More: the output sags, too much current for it or for its chip. As much as the logic rail: it "
            "is off."
        )
    return (
        f"Near {supply} V: it is off, look at its input and its ground. Higher than the range: too much "
        "current, or too little drive at the input. None at all: shorted."
    )


def _half_on(board: Wired, current_a: float) -> str:
    """A MOSFET that reads volts, with what that would be in ohms."""
    sink = board.sink
    amps, worst = engineering(current_a, "A"), plain_number(sink.on_resistance_worst_ohm)
    drop = engineering(current_a * sink.on_resistance_worst_ohm, "V", 1)
    like = " and ".join(
        f"{plain_number(volts)} V would be {plain_number(volts / current_a, 3)} ohm" for volts in _TELLING_V
    )
    look = "Check the rail of the chip and its ground pin"
    if sink.type == "mosfet":
        gate = plain_number(sink.gate_v)
        look = f"Check the order of the pins and the voltage at the gate itself (it wants {gate} V there)"
    return (
        f"At {amps} even its worst {worst} ohm drop no more than {drop}; {like}: it is half on. {look}, and "
        "whether the part is what is printed on it."
    )


def _resistor(
    board: Wired, circuit: SegmentCircuit, string: StringCircuit, named: str, ending: str
) -> tuple[Reading, Line]:
    given, ohm, leds = board.at(circuit), string.chosen_ohm, string.leds
    small, large = ohm * (1 - given.tolerance), ohm * (1 + given.tolerance)
    low = small * string_current_a(
        dimmest_curve(board.led, given), leds=leds, drive_v=given.lowest_drive_v(), resistance_ohm=small
    )
    high = large * string_current_a(
        brightest_curve(board.led, given), leds=leds, drive_v=given.highest_drive_v(), resistance_ohm=large
    )
    line = Line(
        f"electrical.meter_resistor.{ending}", f"across the resistor of a string, {circuit.kind}", "Vr",
        string.current_a * ohm, "V", "I*R",
        (Given("I", string.current_a, "A", "of the string, typical"), Given("R", ohm, "ohm", "its resistor")),
        "arithmetic",
    )  # fmt: skip
    one_v = plain_number(board.led.vf_v, 2)
    return Reading(
        "across the resistor of a string",
        f"{named}: {engineering(ohm, 'Ω')}",
        line.name,
        low,
        line.value,
        high,
        "V",
        "None: the string is open, or an LED sits the wrong way round, or the output is off. About "
        f"{one_v} V more: an LED of the string is bridged.",
    ), line


def _leds(
    board: Wired, circuit: SegmentCircuit, string: StringCircuit, named: str, ending: str
) -> tuple[Reading, Line]:
    given, leds, ohm = board.at(circuit), string.leds, string.chosen_ohm
    dim, bright = dimmest_curve(board.led, given), brightest_curve(board.led, given)
    one_v = curve_of(board.led).voltage_v(string.current_a)
    least_a = most_a = string.current_a
    if ohm > 0:
        least_a = string_current_a(
            bright, leds=leds, drive_v=given.lowest_drive_v(), resistance_ohm=ohm * (1 + given.tolerance)
        )
        most_a = string_current_a(
            dim, leds=leds, drive_v=given.highest_drive_v(), resistance_ohm=ohm * (1 - given.tolerance)
        )
    line = Line(
        f"electrical.meter_leds.{ending}", f"along the LEDs of a string, {circuit.kind}", "Vn", leds * one_v,
        "V", "n*V1",
        (Given("n", leds, "", "LEDs in series"),
         Given("V1", one_v, "V", f"of one at {engineering(string.current_a, 'A')}, on its curve")),
        board.led.source,
    )  # fmt: skip
    less = "One LED's volts too little: one is bridged." if leds > 1 else "None: it is bridged."
    return Reading(
        "along the LEDs of a string",
        f"{named}: {plain_number(leds)} in series" if leds > 1 else f"{named}: one LED",
        line.name,
        leds * bright.voltage_v(least_a),
        line.value,
        leds * dim.voltage_v(most_a),
        "V",
        f"Nearly the whole supply: an LED is open or the wrong way round. {less}",
    ), line
