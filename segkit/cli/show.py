"""``segkit show``: the lit board, as a picture file or in the terminal."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output
from segkit.cli.design_file import AsJson, DesignFile, solved
from segkit.cli.show_view import asked_view, numbers_of, reader_of, sentence
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.preview.lit import Lit
    from segkit.preview.views import Reader
    from segkit.project import Project
    from segkit.report.pictures import Lighted

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
    light: Annotated[
        str | None,
        typer.Option(
            metavar="LIGHT",
            help='For a .png: night, dusk, overcast, shade, sun or "4000 lx"; the design\'s if left out.',
            show_default=False,
        ),
    ] = None,
    distance: Annotated[
        str | None,
        typer.Option(
            metavar="DISTANCE",
            help="For a .png: as a reader sees it from there, such as 24m or 72 ft; close up if left out.",
            show_default=False,
        ),
    ] = None,
    angle: Annotated[
        str | None,
        typer.Option(
            metavar="ANGLE",
            help="For a .png: how far to the right of the board's axis it is looked at from.",
            show_default=False,
        ),
    ] = None,
    eyesight: Annotated[
        str | None,
        typer.Option(
            metavar="EYES",
            help="With --distance: 20/20, 20/40, 6/12; the design's if left out.",
            show_default=False,
        ),
    ] = None,
    width: Annotated[
        int | None, typer.Option(metavar="COLUMNS", help="Columns in the terminal.", min=16, max=400)
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Draw the board with a text lit, in the terminal or into a picture file, in any light, from anywhere."""
    asked = asked_view(out, {"light": light, "distance": distance, "angle": angle, "eyesight": eyesight})
    from segkit.preview.colours import lit_colour
    from segkit.project import text_lamps
    from segkit.sight import glow_nm

    project = solved(file)
    sample = project.design.display.sample if text is None else text
    try:
        lit = text_lamps(project.design, sample)
    except InputError as error:
        raise error.at(key="TEXT") from None
    colour = lit_colour(project.parts.led.colour, emission_nm=glow_nm(project.parts))
    answer: dict[str, Any] = {
        "text": sample,
        "lit": [{"digit": digit, "segments": sorted(names)} for digit, names in lit.items()],
        "file": str(out) if out else None,
    }
    said = ""
    if out is not None and out.suffix.lower() == ".svg":
        from segkit.drawing.svg import svg_text
        from segkit.report.pictures import flat

        _write(out, svg_text(flat(project, lit, colour=colour)).encode())
        said = f"{out} shows the board lit, in flat colours."
    elif out is not None:
        from segkit.report.pictures import lighted

        named, reader = lighted(project, light or ""), reader_of(project, asked)
        _write(out, _seen(project, lit, named, reader, asked["angle"] or 0.0))
        answer |= numbers_of(named, reader, asked["angle"] or 0.0)
        said = sentence(out, project, named, reader, asked["angle"] or 0.0)
    if as_json:
        output.print_json(answer)
    elif said:
        output.say(said)
    else:
        _draw(project, lit, colour, width)


def _seen(project: Project, lit: Lit, named: Lighted, reader: Reader | None, angle_deg: float) -> bytes:
    from segkit.preview.sheet import png
    from segkit.preview.views import PICTURE_PX, by_readers, close_up
    from segkit.report.pictures import subject_of

    subject = subject_of(project, lit)
    if reader is None:
        return png(close_up(subject, named.light, width_px=PICTURE_PX, angle_deg=angle_deg))
    (picture,) = by_readers(subject, named.light, [reader], width_px=PICTURE_PX)
    return png(picture)


def _write(out: Path, content: bytes) -> None:
    try:
        out.write_bytes(content)
    except OSError as error:
        text = f"the picture cannot be written: {error.strerror}."
        raise InputError(Problem(text, key="--out", value=str(out), remedy="Choose another place.")) from None


def _draw(project: Project, lit: Lit, colour: str, width: int | None) -> None:
    from segkit.preview.terminal import columns_for, terminal_text

    coloured = sys.stdout.isatty() and not os.environ.get("NO_COLOR")
    columns = width or min(_WIDEST, shutil.get_terminal_size((80, 24)).columns - 1)
    plain = not (sys.stdout.encoding or "").lower().startswith("utf")
    bulbs = project.places if project.parts.bare else ()
    drawn = terminal_text(
        project.board, lit, width=columns, colour=coloured, lit_colour=colour, plain=plain,
        bulbs=bulbs, bulb_mm=project.parts.led.body_mm,
    )  # fmt: skip
    sys.stdout.write(drawn + "\n")
    if bulbs and columns < (needed := columns_for(project.board, bulbs)):
        counts = ", ".join(f"{one.count} in {kind}" for kind, one in project.lightings.items())
        output.say(f"Each bar stands for bulbs: {counts}. Drawn one by one from --width {needed} on.")
