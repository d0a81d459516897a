"""``segkit check``: numbers and findings of a design, writing nothing."""

from __future__ import annotations

import shlex
import sys

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, numbers, solved

EXAMPLE = "segkit check fixtures/designs/boules_court.toml"


def check(file: DesignFile, as_json: AsJson = False) -> None:
    """Work out a design and say what would not do; writes nothing. Exit 1 if something says stop."""
    from segkit.findings import stops
    from segkit.report.glance import glance, verdict

    project = solved(file)
    stopped = stops(project.findings)
    if as_json:
        output.print_json(
            {
                "ok": not stopped,
                "findings": [finding.as_dict() for finding in project.findings],
                "numbers": numbers(project),
            }
        )
    else:
        output.print_table(
            ("number", "value", "NAME for segkit why"),
            [(row.name, row.value, row.ask) for row in glance(project)],
            title=project.design.display.title,
        )
        output.print_findings(project.findings)
        sys.stdout.write(f"\n{verdict(project)}\n")
        sys.stdout.write(f"Ask for the working of a number with: segkit why {shlex.quote(str(file))} NAME\n")
    raise typer.Exit(output.STOPPED if stopped else output.GOOD)
