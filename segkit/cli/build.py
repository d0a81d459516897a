"""``segkit build``: everything into a folder, whole or not at all."""

from __future__ import annotations

import sys
from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, progress, solved
from segkit.errors import InputError, Problem

EXAMPLE = "segkit build fixtures/designs/boules_court.toml --out out"


def build(
    file: DesignFile,
    out: Annotated[
        Path,
        typer.Option(metavar="FOLDER", help="Folder to build into; the design gets its own folder there."),
    ] = Path("out"),
    as_json: AsJson = False,
) -> None:
    """Write cut files, pictures, glyph tables, channel map, parts list and the build book."""
    from segkit.design.levers import levers
    from segkit.findings import stops
    from segkit.outputs import project_files, write
    from segkit.report.glance import verdict

    _refuse_nameless(file)
    project = solved(file)
    progress("Drawing and writing ...")
    try:
        folder = out / project.name
        written = write(project_files(project), folder, name=project.name, stamp=project.stamp)
    except InputError as error:
        raise error.at(key="--out") from None
    finally:
        progress("")
    stopped = stops(project.findings)
    if as_json:
        output.print_json(
            {
                "files": [(folder / name).as_posix() for name in written],
                "ok": not stopped,
                "findings": [finding.as_dict() for finding in project.findings],
            }
        )
    else:
        keys = partial(levers, bare=project.parts.bare)
        output.print_findings(project.findings, keys, notes=False)
        sys.stdout.write(f"\n{verdict(project)}\n{len(written)} files in {folder}. Start with:\n")
        sys.stdout.write(f"  {folder / 'report' / 'build_book.html'}\n")
    raise typer.Exit(output.STOPPED if stopped else output.GOOD)


def _refuse_nameless(file: Path) -> None:
    """The design's folder has the name of its file: ``..toml`` would take the place of all others."""
    if file.stem.startswith("."):
        text = "this file has no name to give to the output folder."
        remedy = "Name it as in boules.toml."
        raise InputError(Problem(text, key="FILE", value=str(file), remedy=remedy))
