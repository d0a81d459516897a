"""``segkit new``: a commented design file to start from."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Annotated

import typer

from segkit.cli import output
from segkit.errors import InputError, Problem

EXAMPLE = 'segkit new boules.toml --title "Boules court scoreboard"'


def new(
    file: Annotated[
        Path | None, typer.Argument(metavar="FILE", help="Design file to make, ending in .toml.")
    ] = None,
    title: Annotated[str, typer.Option(metavar="TEXT", help="Title of the display.")] = "My display",
    force: Annotated[bool, typer.Option("--force", help="Write over a file that is there.")] = False,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of a design file, for editors, and stop.")
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Answer as JSON.")] = False,
) -> None:
    """Write a commented design file with every key and its default."""
    if schema:
        from segkit.design.schema import Design

        output.print_json(Design.model_json_schema(by_alias=True))
        return
    path = _usable(file, title, force=force)
    from segkit.design.template import template_text

    try:
        with path.open("w" if force else "x", encoding="utf-8", newline="\n") as target:
            target.write(template_text(title))
    except OSError as error:
        text = f"the file cannot be written: {error.strerror}."
        raise InputError(Problem(text, file=str(path), remedy="Choose another place.")) from None
    if as_json:
        output.print_json({"file": str(path)})
        return
    sys.stdout.write(f"{path} is made. Change it to suit, then look at it with: segkit check {path}\n")


def _usable(file: Path | None, title: str, *, force: bool) -> Path:
    problems = []
    if file is None:
        remedy = "Name the file to make, as in: segkit new boules.toml"
        problems.append(Problem("the name of the file is missing.", key="FILE", remedy=remedy))
    elif file.suffix != ".toml":
        text, remedy = "a design file ends in .toml.", f'Write "{file.with_suffix(".toml")}".'
        problems.append(Problem(text, key="FILE", value=str(file), remedy=remedy))
    elif file.exists() and not force:
        text, remedy = (
            "there is such a file already; it was left as it is.",
            "Choose another name, or add --force.",
        )
        problems.append(Problem(text, file=str(file), remedy=remedy))
    if not 1 <= len(title) <= 80 or not title.isprintable():
        limit, remedy = "1 to 80 printable characters", "Choose a shorter one in a single line."
        problems.append(
            Problem(
                "this title cannot be used.",
                key="--title",
                value=json.dumps(title),
                limit=limit,
                remedy=remedy,
            )
        )
    if problems or file is None:
        raise InputError(problems)
    return file
