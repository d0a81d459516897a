"""``segkit resistor``: the resistor for a string of LEDs, or the strings for a number of LEDs."""

from __future__ import annotations

from typing import Annotated

import typer

from segkit.cli import output

EXAMPLE = "segkit resistor --supply 12V --vf 2.0V --series 4 --current 20mA --drop 1.1V"

_Text = str | None


def _option(metavar: str, help_text: str) -> typer.models.OptionInfo:
    option: typer.models.OptionInfo = typer.Option(metavar=metavar, help=help_text, show_default=False)
    return option


def resistor(
    supply: Annotated[
        _Text, _option("VOLT", "Supply voltage, such as 12V; the middle of its range if left out.")
    ] = None,
    supply_range: Annotated[_Text, _option("RANGE", 'Lowest and highest supply: "11 V to 13.8 V".')] = None,
    source: Annotated[
        _Text, _option("KIND", "Kind of supply, for its range: mains-adapter, lead-acid, lithium, cells.")
    ] = None,
    vf: Annotated[_Text, _option("VOLT", "Forward voltage of one LED at the current wanted: 2.0V.")] = None,
    vf_range: Annotated[_Text, _option("RANGE", 'Lowest and highest bin of it: "1.8 V to 2.4 V".')] = None,
    led: Annotated[_Text, _option("ID", "A catalogue LED instead of --vf: red-5mm-diffused.")] = None,
    series: Annotated[_Text, _option("COUNT", "LEDs in one string; 1 if left out.")] = None,
    leds: Annotated[_Text, _option("COUNT", "LEDs of a segment, to be divided into strings.")] = None,
    parallel: Annotated[
        _Text, _option("COUNT", "Equal strings beside each other, each with its own resistor.")
    ] = None,
    current: Annotated[_Text, _option("AMP", "Current wanted in each LED: 20mA.")] = None,
    ohm: Annotated[_Text, _option("OHM", 'A resistor you have, to be judged: "100 ohm".')] = None,
    rating: Annotated[_Text, _option("WATT", 'The rating of that resistor: "1/4 W".')] = None,
    drop: Annotated[_Text, _option("VOLT", "Drop of the switch: 1.1V.")] = None,
    driver: Annotated[
        _Text, _option("ID", "A catalogue driver; its drop at this current and its limits.")
    ] = None,
    outputs: Annotated[
        _Text, _option("COUNT", "Outputs of the driver that are on together; all if left out.")
    ] = None,
    logic: Annotated[_Text, _option("VOLT", "Supply of the logic before the driver: 3.3V.")] = None,
    max_current: Annotated[_Text, _option("AMP", "Highest continuous current of the LED: 30mA.")] = None,
    shared_by: Annotated[
        _Text, _option("COUNT", "Segments fed through this one resistor in a common lead.")
    ] = None,
    values: Annotated[
        _Text, _option("SERIES", "Series to buy from: E12, E24 (taken if left out), E96.")
    ] = None,
    tolerance: Annotated[_Text, _option("PERCENT", "Tolerance of the resistor; 5% if left out.")] = None,
    points: Annotated[
        _Text, _option("LIST", 'Measured points of the LED: "1.8 V at 2 mA, 2.0 V at 20 mA".')
    ] = None,
    temperature: Annotated[
        _Text, _option("RANGE", 'Coldest and hottest LED in °C: "-10 to 60"; 25 if left out.')
    ] = None,
    network: Annotated[
        _Text, _option("COUNT", "Resistors of this value that a network is to hold, such as 7 for a digit.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """The resistor for a string of LEDs, or the best strings for a number of LEDs."""
    from segkit.cli import resistor_print
    from segkit.cli.resistor_answer import answer
    from segkit.cli.resistor_question import read
    from segkit.findings import stops

    question = read(
        {
            "supply": supply, "supply_range": supply_range, "vf": vf, "vf_range": vf_range, "led": led,
            "series": series, "leds": leds, "parallel": parallel, "current": current, "ohm": ohm,
            "rating": rating, "drop": drop, "driver": driver, "outputs": outputs, "logic": logic,
            "max_current": max_current, "shared_by": shared_by, "values": values, "tolerance": tolerance,
            "source": source, "temperature": temperature, "network": network, "points": points,
        }
    )  # fmt: skip
    result = answer(question)
    if as_json:
        output.print_json(resistor_print.as_dict(question, result))
    else:
        resistor_print.print_answer(question, result)
    raise typer.Exit(output.STOPPED if stops(result.findings) else output.GOOD)
