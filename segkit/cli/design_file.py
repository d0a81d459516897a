"""What the commands on a design file share: reading and solving it, and its numbers as a table."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.units import plain_number

if TYPE_CHECKING:
    from segkit.project import Project

DesignFile = Annotated[Path, typer.Argument(help="Design file (TOML).", metavar="FILE", show_default=False)]
AsJson = Annotated[bool, typer.Option("--json", help="Answer as JSON, for programs.")]


def solved(file: Path) -> Project:
    """The project of a design file; on a terminal says that it is at work.

    Raises:
        InputError: as ``read_design`` and ``solve``, with the file's name filled in.
    """
    from segkit.design.reader import read_design
    from segkit.errors import InputError
    from segkit.project import solve

    design = read_design(file)
    progress(f"Working out {design.display.title} ...")
    try:
        return solve(design, name=file.stem)
    except InputError as error:
        raise error.at(file=str(file)) from None
    finally:
        progress("")


def progress(text: str) -> None:
    """One line of progress on stderr, only where a person watches; an empty text clears it."""
    if sys.stderr.isatty():
        sys.stderr.write(f"\r\033[K{text}")
        sys.stderr.flush()


def numbers(project: Project) -> dict[str, dict[str, Any]]:
    """Every number of the worksheet by name: value, unit, title."""
    return {
        line.name: {"value": line.value, "unit": line.unit, "title": line.title} for line in project.lines
    }


def amount(value: float, unit: str) -> str:
    """A number with its unit for a table."""
    return f"{plain_number(value, 4)} {unit}".rstrip()
