"""``segkit turns``: digits that share one set of registers and are lit one after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.electrical.multiplexing import Turns
    from segkit.electrical.two_colours import TwoColours
    from segkit.errors import Problem

EXAMPLE = "segkit turns --digits 4 --led red-5mm-diffused --series 3 --current 10mA --supply 12V"


def turns(
    digits: Annotated[Text, option("COUNT", "Digits that take turns, 2 to 16.")] = None,
    led: Annotated[Text, option("ID", "Catalogue LED: red-5mm-diffused.")] = None,
    current: Annotated[
        Text, option("AMP", "Current of an LED in static drive, whose light is to be kept.")
    ] = None,
    supply: Annotated[Text, option("VOLT", "Supply of the LEDs: 12V.")] = None,
    series: Annotated[Text, option("COUNT", "LEDs in a string; 1 if left out.")] = None,
    strings: Annotated[Text, option("COUNT", "Strings of a segment, side by side; 1 if left out.")] = None,
    driver: Annotated[
        Text, option("ID", "Catalogue driver of the segments; darlington-sink-8 if left out.")
    ] = None,
    switch: Annotated[
        Text, option("KIND", "What switches a digit to plus: p-mosfet (if left out), pnp, source-array.")
    ] = None,
    refresh: Annotated[Text, option("HERTZ", 'Rounds a second: "500 Hz" if left out.')] = None,
    dark: Annotated[Text, option("SECONDS", 'Dark at each change of digit: "50 us" if left out.')] = None,
    exposure: Annotated[
        Text, option("SECONDS", 'Exposure of a camera that films it: "1 ms" if left out.')
    ] = None,
    beside: Annotated[
        Text, option("ID", "LED of another digit that shares the segment resistors: blue-5mm-clear.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """What digits get that take turns on one set of outputs: current, light, limits, flicker."""
    from segkit.findings import in_order, stops

    texts = {
        "digits": digits, "led": led, "current": current, "supply": supply, "series": series,
        "strings": strings, "driver": driver, "switch": switch, "refresh": refresh, "dark": dark,
        "exposure": exposure, "beside": beside,
    }  # fmt: skip
    given = _read(texts)
    made = _made(given)
    colours = _colours(given, made)
    findings = in_order((*made.findings, *(colours.findings if colours else ())))
    if as_json:
        data = _as_dict(made) | (_colours_as_dict(given, colours) if colours else {})
        output.print_json(data | {"findings": [finding.as_dict() for finding in findings]})
    else:
        _print(made)
        if colours:
            _print_colours(given, colours)
        output.print_findings(findings)
    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


def _read(texts: dict[str, str | None]) -> dict[str, Any]:
    from segkit.catalog import reader
    from segkit.electrical.multiplexing import SWITCHES
    from segkit.units import CURRENT, DURATION, FREQUENCY, VOLTAGE

    readers = {
        "digits": ask.whole(16),
        "led": reader.led,
        "current": ask.within(CURRENT, low=1e-4, high=5.0),
        "supply": ask.within(VOLTAGE, low=1.0, high=60.0),
        "series": ask.whole(40),
        "strings": ask.whole(40),
        "driver": reader.sink,
        "switch": ask.one_of(*SWITCHES),
        "refresh": ask.within(FREQUENCY, low=20.0, high=20_000.0),
        "dark": ask.within(DURATION, low=0.0, high=0.01),
        "exposure": ask.within(DURATION, low=1e-5, high=1.0),
        "beside": reader.led,
    }
    needed = {"digits": "4", "led": "red-5mm-diffused", "current": "10mA", "supply": "12V"}
    return ask.read_all(texts, readers, needed=needed, more=_one_alone)


def _one_alone(given: Any) -> list[Problem]:
    from segkit.errors import Problem

    if given["digits"] != 1:
        return []
    return [Problem("one digit has nobody to take turns with.", key="--digits", limit="2 to 16")]


def _made(given: dict[str, Any]) -> Turns:
    from segkit.catalog import reader
    from segkit.electrical.multiplexing import SWITCHES, take_turns

    return take_turns(
        digits=given["digits"], led=given["led"], sink=given["driver"] or reader.sink("darlington-sink-8"),
        switch=SWITCHES[given["switch"] or "p-mosfet"], supply_v=given["supply"], static_a=given["current"],
        series=given["series"] or 1, strings=given["strings"] or 1, refresh_hz=given["refresh"] or 500.0,
        dark_s=50e-6 if given["dark"] is None else given["dark"], exposure_s=given["exposure"] or 1e-3,
    )  # fmt: skip


def _colours(given: dict[str, Any], made: Turns) -> TwoColours | None:
    """The other LED behind the same resistors; nothing without one, or with nothing left for it."""
    from segkit.catalog import reader
    from segkit.electrical.multiplexing import SWITCHES, InTurn
    from segkit.electrical.two_colours import two_colours

    sink = given["driver"] or reader.sink("darlington-sink-8")
    if given["beside"] is None or made.resistor_ohm <= 0 or sink.type == "constant-current":
        return None
    turn = InTurn(
        given["led"], sink, SWITCHES[given["switch"] or "p-mosfet"], given["supply"], given["series"] or 1,
        given["strings"] or 1,
    )  # fmt: skip
    duty = made.duty * made.digits
    return two_colours(turn, given["beside"], resistor_ohm=made.resistor_ohm, duty=duty)


def _print(made: Turns) -> None:
    from segkit.units import engineering

    output.say(
        f"{made.light:.0%} of the light of static drive is left, with {engineering(made.peak_a, 'A')} in an "
        f"LED for {made.duty:.1%} of the time.\n"
    )
    rows = [
        ("lit", f"{made.duty:.2%}", f"1/{made.digits} of the time less the dark change of digit"),
        ("current for the full light", engineering(made.wanted_a, "A"), "static current over that share"),
        ("current in its turn", engineering(made.peak_a, "A"), "no more than the LED's continuous limit"),
        ("left for the resistor", f"{made.headroom_v:.3g} V", "supply − sink − digit switch − LEDs"),
        ("resistor before rounding", engineering(made.resistor_ohm, "Ω"), "at the current in its turn"),
        ("switch of a digit", engineering(made.digit_a, "A"), "eight segments lit"),
        ("turn of a digit", engineering(made.slot_s, "s"), f"lit for {engineering(made.lit_s, 's')}"),
        ("sink, everything lit", f"{made.load.junction_c:.0f} °C", "junction in a box at 50 °C"),
    ]
    output.print_table(("", "value", "how"), rows)


def _colours_as_dict(given: dict[str, Any], made: TwoColours) -> dict[str, Any]:
    ids = (given["led"].id, given["beside"].id)
    return {
        "turn_ma": {name: 1000 * current_a for name, current_a in zip(ids, made.currents_a, strict=True)},
        "on_time": dict(zip(ids, made.charge, strict=True)),
        "on_time_equal_light": dict(zip(ids, made.light, strict=False)) or None,
        "two_colours_sink_ma": 1000 * made.total_a,
    }


def _print_colours(given: dict[str, Any], made: TwoColours) -> None:
    from segkit.units import engineering

    lights = [f"{share:.0%}" for share in made.light] or ["not known"] * 2
    rows = [
        (led.id, engineering(current_a, "A"), f"{charge:.0%}", light)
        for led, current_a, charge, light in zip(
            (given["led"], given["beside"]), made.currents_a, made.charge, lights, strict=True
        )
    ]
    output.print_table(("behind one resistor", "in its turn", "on-time, equal charge", "equal light"), rows)


def _as_dict(made: Turns) -> dict[str, Any]:
    return {
        "digits": made.digits,
        "duty": made.duty,
        "wanted_ma": 1000 * made.wanted_a,
        "peak_ma": 1000 * made.peak_a,
        "light": made.light,
        "headroom_v": made.headroom_v,
        "resistor_ohm": made.resistor_ohm or None,
        "digit_ma": 1000 * made.digit_a,
        "slot_us": 1e6 * made.slot_s,
        "lit_us": 1e6 * made.lit_s,
        "sink": {"total_ma": 1000 * made.load.total_a, "junction_c": made.load.junction_c},
    }
