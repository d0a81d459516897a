"""``segkit why``: one number's working and source."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, amount, solved
from segkit.errors import InputError, Problem, nearest

if TYPE_CHECKING:
    from segkit.findings import Finding
    from segkit.project import Project
    from segkit.working import Line

EXAMPLE = "segkit why fixtures/designs/boules_court.toml digit_height"


def why(
    file: DesignFile,
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="NAME",
            help="Name of a number or code of a finding, or the end of one; left out: lists them.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Show the formula, the inputs and the source of one number of a design."""
    project = solved(file)
    if name is None:
        _list(project, as_json)
        return
    lines, findings = matching(project, name)
    if as_json:
        output.print_json(
            {"lines": [_as_dict(line) for line in lines], "findings": [f.as_dict() for f in findings]}
        )
        return
    for line in lines:
        _explain(line)
    output.print_findings(findings)


def _list(project: Project, as_json: bool) -> None:
    if as_json:
        output.print_json({"names": [line.name for line in project.lines]})
        return
    rows = [(line.name, amount(line.value, line.unit), line.title) for line in project.lines]
    output.print_table(("name", "value", "what it is"), rows, right=("value",))


def matching(project: Project, name: str) -> tuple[list[Line], list[Finding]]:
    """The worksheet lines and findings that a name, or the end of one, stands for.

    Raises:
        InputError: nothing has that name; with the nearest one.
    """
    wanted = name.strip().lower().replace("-", "_").replace(" ", "_")

    def fits(candidate: str) -> bool:
        known = candidate.lower().replace("-", "_")
        return known == wanted or f".{known}.".find(f".{wanted}.") >= 0

    lines = [line for line in project.lines if fits(line.name)]
    findings = [finding for finding in project.findings if fits(finding.code)]
    if not lines and not findings:
        known = [line.name for line in project.lines] + [finding.code for finding in project.findings]
        tails = [part for line in project.lines for part in line.name.split(".")[1:2]]
        text = "no number and no finding of this design has that name."
        remedy = nearest(wanted, sorted({*known, *tails})) if len(wanted) > 1 else ""
        hint = "List them with: segkit why FILE"
        raise InputError(Problem(text, key="NAME", value=f'"{name}"', remedy=f"{_short(remedy)}{hint}"))
    return lines, findings


def _short(remedy: str) -> str:
    return f"{remedy} " if remedy.startswith("Did") else ""


def _explain(line: Line) -> None:
    from segkit.sources import source
    from segkit.working import typeset, written_out

    sys.stdout.write(f"{line.title}: {amount(line.value, line.unit)}   [{line.name}]\n")
    sys.stdout.write(f"  {line.symbol} = {typeset(line.formula)}\n  {written_out(line)}\n")
    for given in line.inputs:
        meaning = f"  {given.meaning}" if given.meaning else ""
        sys.stdout.write(f"    {given.symbol} = {amount(given.value, given.unit)}{meaning}\n")
    sys.stdout.write(f"  source: {source(line.source).cited()}\n")
    if line.note:
        sys.stdout.write(f"  note: {line.note}\n")
    sys.stdout.write("\n")


def _as_dict(line: Line) -> dict[str, Any]:
    from segkit.working import written_out

    return {
        "name": line.name,
        "title": line.title,
        "symbol": line.symbol,
        "value": line.value,
        "unit": line.unit,
        "formula": line.formula,
        "written_out": written_out(line),
        "inputs": [
            {"symbol": g.symbol, "value": g.value, "unit": g.unit, "meaning": g.meaning} for g in line.inputs
        ],
        "source": line.source,
        "note": line.note,
    }
