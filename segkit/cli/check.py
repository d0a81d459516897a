"""``segkit check``: numbers and findings of a design, writing nothing."""

from __future__ import annotations

import shlex
import sys
from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, numbers, solved
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.findings import Finding
    from segkit.project import Project
    from segkit.report.circuit_rows import CircuitRow
    from segkit.report.kinds import KindRow
    from segkit.report.lights import LightRow

EXAMPLE = "segkit check fixtures/designs/boules_court.toml"
_BOTH = 'Add --seen "...", which is what the board showed.'


def check(
    file: DesignFile,
    seen: Annotated[
        str | None,
        typer.Option(
            metavar="TEXT",
            help='What the finished board showed, such as "4123"; lit segments in brackets where it is no '
            'character, "[fg] [bdeg dp]", and "[]" for a dark digit. The fault is named.',
        ),
    ] = None,
    meant: Annotated[
        str | None,
        typer.Option(metavar="TEXT", help="What it should have shown; the sample of the design if left out."),
    ] = None,
    notes: Annotated[
        bool, typer.Option("--notes", help="Say of each note, too, what to do and where it comes from.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Work out a design and say what would not do; writes nothing. Exit 1 if something says stop."""
    from segkit.findings import stops
    from segkit.report.sighted import sighted

    if meant is not None and seen is None:
        raise InputError(Problem("nothing is said of what was seen.", key="--meant", remedy=_BOTH))
    project = solved(file)
    sights = () if seen is None else sighted(project, meant=meant or "", seen=seen)
    if as_json:
        output.print_json(_as_dict(project, sights))
    else:
        if sights:
            _print_sights(sights)
        else:
            _print_project(project, notes=notes)
        sys.stdout.write(f"Ask for the working of a number with: segkit why {shlex.quote(str(file))} NAME\n")
    raise typer.Exit(output.STOPPED if stops(project.findings) else output.GOOD)


def _as_dict(project: Project, sights: Sequence[Finding]) -> dict[str, Any]:
    from segkit.design.levers import levers
    from segkit.findings import stops
    from segkit.report.circuit_rows import circuit_numbers
    from segkit.report.kinds import kind_numbers
    from segkit.report.lights import light_numbers
    from segkit.report.meter_tables import meter_numbers

    bare = project.parts.bare
    return {
        "ok": not stops(project.findings),
        "findings": [
            {**one.as_dict(), "keys": levers(one, bare=bare)} for one in (*sights, *project.findings)
        ],
        "numbers": numbers(project),
        "light": kind_numbers(project),
        "lights": light_numbers(project),
        "circuits": circuit_numbers(project),
        "meter": meter_numbers(project),
    }


def _print_sights(sights: Sequence[Finding]) -> None:
    sys.stdout.write("What the board shows, the likeliest fault first\n")
    output.print_findings(sights)
    sys.stdout.write("\n")


def _print_project(project: Project, *, notes: bool) -> None:
    from segkit.design.levers import levers
    from segkit.report.circuit_rows import circuit_rows
    from segkit.report.glance import glance, verdict
    from segkit.report.kinds import kind_rows
    from segkit.report.lights import light_rows

    output.print_table(
        ("number", "value", "NAME for segkit why"),
        [(row.name, row.value, row.ask) for row in glance(project)],
        title=project.design.display.title,
    )
    (_print_bulbs if project.parts.bare else _print_kinds)(kind_rows(project))
    _print_lights(light_rows(project))
    _print_circuits(circuit_rows(project))
    keys = partial(levers, bare=project.parts.bare)
    output.print_findings(project.findings, keys, notes=notes)
    if not notes and any(one.level == "note" for one in project.findings):
        sys.stdout.write("What to do about a note: add --notes, or look into the build book.\n")
    sys.stdout.write(f"\n{verdict(project)}\n")


def _print_kinds(rows: Sequence[KindRow]) -> None:
    columns = ("segment", "LEDs", "cd/m²", "even", "as built", "alike", "light used", "unlit")
    output.print_table(
        columns,
        [
            (row.kind, row.leds, row.luminance, row.evenness, row.built, row.alike, row.efficiency, row.unlit)
            for row in rows
        ],
        title="even: darkest over mean light, as built: what 19 of 20 reach, alike: dimmest over brightest",
    )


def _print_bulbs(rows: Sequence[KindRow]) -> None:
    output.print_table(
        ("segment", "bulbs", "where they stand", "cd/m²", "run together from", "unlit"),
        [(row.kind, row.leds, row.places, row.luminance, row.merges, row.unlit) for row in rows],
        title="mean over the segment; evenness and light used are those of a pocket, and there is none",
    )


def _print_lights(rows: Sequence[LightRow]) -> None:
    if not rows:
        return
    columns = ("in this light", "lux", "drive", "lit", "unlit", "face", "lit:unlit", "lit:face", "verdict")
    output.print_table(
        columns,
        [
            (row.light, row.lux, row.drive, row.lit, row.unlit, row.face, row.against_unlit, row.against_face,
             row.verdict)
            for row in rows
        ],
        title="Luminances in cd/m², with the light that is sent back",
        right=columns[1:-1],
    )  # fmt: skip


def _print_circuits(rows: Sequence[CircuitRow]) -> None:
    columns = ("segment", "strings", "resistor in each", "current", "at most")
    output.print_table(
        columns,
        [(row.kind, row.strings, row.resistors, row.current, row.highest) for row in rows],
        title="What lights a segment",
        right=columns[3:],
    )
