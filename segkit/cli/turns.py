"""``segkit turns``: digits that share one set of registers and are lit one after the other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.electrical.multiplexing import Turns
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
    shares = _shares(given, made)
    findings = in_order(made.findings)
    if as_json:
        data = _as_dict(made) | ({"on_time": shares} if shares else {})
        output.print_json(data | {"findings": [finding.as_dict() for finding in findings]})
    else:
        _print(made, shares)
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


def _shares(given: dict[str, Any], made: Turns) -> dict[str, float]:
    """On-times of two LEDs behind one resistor; empty without a second one, or with nothing left for it."""
    from segkit.electrical.led_curve import curve_of, string_current_a
    from segkit.electrical.multiplexing import equal_on_times

    if given["beside"] is None or made.resistor_ohm <= 0:
        return {}
    series = given["series"] or 1
    drive_v = made.headroom_v + series * curve_of(given["led"]).voltage_v(made.peak_a)
    currents = {
        led.id: string_current_a(
            curve_of(led), leds=series, drive_v=drive_v, resistance_ohm=made.resistor_ohm
        )
        for led in (given["led"], given["beside"])
    }
    return equal_on_times(currents)


def _print(made: Turns, shares: dict[str, float]) -> None:
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
    for name, share in shares.items():
        output.say(f"{name}: {share:.0%} of the longest on-time for equal current behind one resistor.")
    if shares:
        output.say("Their light a milliampere differs too: compare the intensities, or try it.\n")


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
