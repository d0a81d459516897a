"""What is wrong with a board that shows something else than it should, by its own wiring and numbers."""

from __future__ import annotations

from dataclasses import replace

from segkit.errors import InputError
from segkit.findings import Finding
from segkit.glyphs.chain import Chain, no_points
from segkit.glyphs.segments import SEGMENTS
from segkit.glyphs.sighting import read_sighting
from segkit.glyphs.symptoms import diagnose_board
from segkit.project import Project, text_lamps
from segkit.units import engineering, plain_number


def sighted(project: Project, *, meant: str, seen: str) -> tuple[Finding, ...]:
    """The faults that explain what was seen, the likeliest first.

    Args:
        project: a solved design.
        meant: what was to be shown; empty for the sample text of the design, or an 8 on every digit.
        seen: what was seen, see ``glyphs.sighting.read_sighting``.

    Raises:
        InputError: texts that the board cannot show, keys as on the command line.
    """
    design = project.design
    count = sum(mark in "8o" for mark in design.display.layout)
    text = meant or design.display.sample or "8" * count
    try:
        text_lamps(design, text)
    except InputError as error:
        raise error.at(key="--meant") from None
    try:
        found = diagnose_board(
            chain_of(project), text, seen, style=project.table.style, custom=design.glyphs.custom
        )
    except InputError as error:
        raise error.at(key="--seen") from None
    glow = _glow(project, found[0]) if found[0].code == "logic-inverted" else ()
    full = _full_digits_dark(project, text, seen, found[0]) if found[0].code == "digit-dark" else ()
    return (*full, *found, *glow)


def chain_of(project: Project) -> Chain:
    """The board as the bits see it: as planned, or as the walk test found it.

    Args:
        project: a solved design.
    """
    wiring = project.flash.driver.wiring
    places = tuple(output.lights for row in wiring.rows for output in row)
    return Chain(project.design.display.layout, places, wiring.active)


def _full_digits_dark(project: Project, text: str, seen: str, first: Finding) -> tuple[Finding, ...]:
    """Where only digits with all seven segments are dark: what they take, and what may give way."""
    design = project.design
    sighting = read_sighting(
        seen, layout=design.display.layout, style=design.glyphs.style, custom=design.glyphs.custom
    )
    lit = {digit for digit, _ in no_points(sighting.lit)}
    dark = [names for digit, names in text_lamps(design, text).items() if names and digit not in lit]
    if project.meter is None or not dark or not all(names >= set(SEGMENTS) for names in dark):
        return ()
    meter, sink, supply = project.meter, project.parts.sink, project.parts.supply
    volts, logic = plain_number(supply.nominal_v), plain_number(design.power.logic_v)
    return (
        replace(
            first,
            level="caution",
            code="full-digit-dark",
            text=f"All of a digit lit takes {engineering(meter.digit_a, 'A')} through {meter.outputs} "
            f"outputs and turns {plain_number(meter.digit_sink_w, 3)} W to heat in the sinks. "
            + _within(project),
            value=round(1000 * _output_a(project), 1),
            limit=round(1000 * sink.max_output_a, 1),
            unit="mA",
            source=sink.source,
            remedy=f"Measure both rails, {volts} V and {logic} V, at the far digit while 8 is shown. If one "
            "sags: a supply that folds back, a thin ground that LEDs and logic share, resistors missing or "
            "too small, or the regulator of the logic. If 1 is dark too, look at the plug of the digit.",
        ),
    )


def _within(project: Project) -> str:
    """Whether the sinks stand all of a digit, output by output, and their heat."""
    sink, heats, output_a = project.parts.sink, project.heats, _output_a(project)
    package_a, junction_c = max(heat.all_on_a for heat in heats), max(heat.all_on_c for heat in heats)
    package = f"{engineering(sink.max_package_a, 'A')} that" if sink.max_package_a else "not"
    limits = f"{engineering(sink.max_output_a, 'A')} is the limit of each output, {package} of the package"
    warmth = f", and the junction reaches {junction_c:.0f} °C of {sink.max_junction_c:.0f}"
    fits = (
        output_a <= sink.max_output_a
        and (not sink.max_package_a or package_a <= sink.max_package_a)
        and (not sink.max_junction_c or junction_c <= sink.max_junction_c)
    )
    return (
        f"At most {engineering(output_a, 'A')} flow in one output{warmth if sink.max_junction_c else ''}: "
        f"{'inside its limits' if fits else 'beyond its limits, which comes first'}. {limits}."
    )


def _output_a(project: Project) -> float:
    """The most that flows in one output, A."""
    return max(circuit.highest_a for circuit in project.circuits.values())


def _glow(project: Project, first: Finding) -> tuple[Finding, ...]:
    """What a glow adds to inverted bytes: the strings then hang on pins of the logic."""
    power, supply_v = project.design.power, project.parts.supply.nominal_v
    left_v = supply_v - power.logic_v
    if left_v <= 0:
        return ()
    volts, logic, left = (plain_number(v, 3) for v in (supply_v, power.logic_v, left_v))
    return (
        replace(
            first,
            level="note",
            code="glow-from-logic-pins",
            text=f"If what should be dark glows faintly, cathodes touch a logic pin: at {logic} V the pin is "
            f"off for the logic, and {volts} − {logic} = {left} V still stand across the string.",
            value=left_v,
            limit=0.0,
            unit="V",
            remedy=f"Put a sink between the pin and the string that stands {volts} V when it is off, and "
            "then send the bytes as the table has them.",
        ),
    )
