"""What is wrong with a board that shows something else than it should, by its own wiring and numbers."""

from __future__ import annotations

from dataclasses import replace

from segkit.errors import InputError
from segkit.findings import Finding
from segkit.glyphs.chain import Chain
from segkit.glyphs.symptoms import diagnose_board
from segkit.project import Project, text_lamps
from segkit.units import plain_number


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
    glow = _glow(project, found[0]) if "logic-inverted" in {one.code for one in found} else ()
    return (*found, *glow)


def chain_of(project: Project) -> Chain:
    """The board as the bits see it: as planned, or as the walk test found it.

    Args:
        project: a solved design.
    """
    wiring = project.flash.driver.wiring
    places = tuple(output.lights for row in wiring.rows for output in row)
    return Chain(project.design.display.layout, places, wiring.active)


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
