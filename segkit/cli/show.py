"""``segkit show``: the lit board, as a picture file or in the terminal."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, solved
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.preview.lit import Lit
    from segkit.project import Project

EXAMPLE = 'segkit show fixtures/designs/pool_lap_clock.toml "12:45"'
_WIDEST = 100


def show(
    file: DesignFile,
    text: Annotated[
        str | None,
        typer.Argument(
            metavar="TEXT", help="Text to show; the sample of the design if left out.", show_default=False
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Picture file to write, .svg or .png; the terminal if left out."),
    ] = None,
    width: Annotated[
        int | None, typer.Option(metavar="COLUMNS", help="Columns in the terminal.", min=16, max=400)
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Draw the board with a text lit, in the terminal or into a picture file."""
    from segkit.preview.colours import lit_colour
    from segkit.project import text_lamps

    if out is not None and out.suffix.lower() not in (".svg", ".png"):
        remedy = f'Write "{out.with_suffix(".png")}".'
        raise InputError(
            Problem(
                "pictures are .svg or .png.", key="--out", value=str(out), limit=".svg, .png", remedy=remedy
            )
        )
    project = solved(file)
    sample = project.design.display.sample if text is None else text
    try:
        lit = text_lamps(project.design, sample)
    except InputError as error:
        raise error.at(key="TEXT") from None
    colour = lit_colour(project.parts.led.colour, emission_nm=project.parts.diffuser.emission_nm)
    if out is not None:
        _write(out, project, lit, colour)
    if as_json:
        rows = [{"digit": digit, "segments": sorted(names)} for digit, names in lit.items()]
        output.print_json({"text": sample, "lit": rows, "file": str(out) if out else None})
    elif out is not None:
        sys.stdout.write(f"{out} shows the board lit.\n")
    else:
        _draw(project, lit, colour, width)


def _write(out: Path, project: Project, lit: Lit, colour: str) -> None:
    from segkit.drawing.svg import svg_text
    from segkit.preview.lit import lit_drawing, lit_png
    from segkit.preview.picture import pixels_per_mm

    if out.suffix.lower() == ".svg":
        title = f"{project.design.display.title}, lit"
        content = svg_text(
            lit_drawing(project.board, lit, colour=colour, title=title, stamp=project.stamp)
        ).encode()
    else:
        content = lit_png(project.board, lit, colour=colour, pixels_per_mm=pixels_per_mm(project.board))
    try:
        out.write_bytes(content)
    except OSError as error:
        text = f"the picture cannot be written: {error.strerror}."
        raise InputError(Problem(text, key="--out", value=str(out), remedy="Choose another place.")) from None


def _draw(project: Project, lit: Lit, colour: str, width: int | None) -> None:
    from segkit.preview.terminal import terminal_text

    coloured = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
    columns = width or min(_WIDEST, shutil.get_terminal_size((80, 24)).columns - 1)
    plain = not (sys.stdout.encoding or "").lower().startswith("utf")
    drawn = terminal_text(project.board, lit, width=columns, colour=coloured, lit_colour=colour, plain=plain)
    sys.stdout.write(drawn + "\n")
