"""The light and the eye that ``segkit show`` is asked for: its options, and what it says about them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from segkit.cli import output
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.preview.views import Reader
    from segkit.project import Project
    from segkit.report.pictures import Lighted


def asked_view(out: Path | None, texts: dict[str, str | None]) -> dict[str, Any]:
    """The options of light and eye as numbers; None for those left out.

    Args:
        out: picture file, or None for the terminal.
        texts: ``light``, ``distance``, ``angle`` and ``eyesight`` as typed.

    Returns:
        by the same names: lx, m, degrees, X of 20/X.

    Raises:
        InputError: everything that is wrong with them and with ``out``, together.
    """
    from segkit.units import ANGLE, LENGTH, parse
    from segkit.viewing.legibility import parse_eyesight
    from segkit.viewing.limits import accept
    from segkit.viewing.luminance import parse_light

    readers = {
        "light": parse_light,
        "distance": lambda text: accept("distance_m", parse(text, LENGTH) / 1000),
        "angle": lambda text: accept("angle_deg", parse(text, ANGLE)),
        "eyesight": parse_eyesight,
    }
    problems = _misplaced(out, texts)
    values: dict[str, Any] = {}
    try:
        values = output.gather(**{name: (texts[name], reader) for name, reader in readers.items()})
    except InputError as error:
        problems += error.problems
    if problems:
        raise InputError(problems)
    return values


def _misplaced(out: Path | None, texts: dict[str, str | None]) -> list[Problem]:
    """What is wrong with the file's kind, and options that show nothing with the others as they are."""
    problems = []
    suffix = out.suffix.lower() if out else ""
    better = str(out.with_suffix(".png")) if out else "lit.png"
    if out and suffix not in (".svg", ".png"):
        text, remedy = "pictures are .svg or .png.", f'Write "{better}".'
        problems.append(Problem(text, key="--out", value=str(out), limit=".svg, .png", remedy=remedy))
    elif suffix != ".png":
        where = "an .svg has flat colours" if out else "the terminal has one brightness"
        problems += [
            Problem(f"{where}, so this shows in a .png only.", key=f"--{name}", value=f'"{text}"',
                    remedy=f"Add --out {better}, or leave --{name} out." if not out else f'Write "{better}".')
            for name, text in texts.items() if text is not None
        ]  # fmt: skip
    if texts["eyesight"] is not None and texts["distance"] is None:
        text, remedy = "close up every eye sees it sharply.", 'Add a distance, such as --distance "24 m".'
        problems.append(Problem(text, key="--eyesight", value=f'"{texts["eyesight"]}"', remedy=remedy))
    return problems


def reader_of(project: Project, asked: dict[str, Any]) -> Reader | None:
    """Who looks from afar; None where no distance is asked for.

    Args:
        project: whose eyesight holds where none is asked for.
        asked: from ``asked_view``.
    """
    from segkit.preview.views import Reader
    from segkit.viewing.legibility import parse_eyesight

    if asked["distance"] is None:
        return None
    eyes = asked["eyesight"] or parse_eyesight(project.design.reading.eyesight)
    return Reader(asked["distance"], eyes, asked["angle"] or 0.0)


def numbers_of(named: Lighted, reader: Reader | None, angle_deg: float) -> dict[str, Any]:
    """The view as numbers, for programs.

    Args:
        named: the light.
        reader: who looks from afar; None close up.
        angle_deg: to the right of the board's axis.
    """
    return {
        "ambient_lx": named.light.ambient_lx,
        "drive": named.light.drive,
        "angle_deg": angle_deg,
        "distance_m": reader.distance_m if reader else None,
        "eyesight": reader.eyesight if reader else None,
        "blur_mm": _blur_mm(reader) if reader else None,
    }


def _blur_mm(reader: Reader) -> float:
    from segkit.preview.eye import blur_mm

    return blur_mm(distance_m=reader.distance_m, eyesight=reader.eyesight or 20.0)


def _exposed(project: Project) -> str:
    if project.parts.bare:
        return "exposed for the mean over a segment, in strong light for white paper; the bulbs are brighter"
    return "with the true ratios of its luminances"


def sentence(out: Path, project: Project, named: Lighted, reader: Reader | None, angle_deg: float) -> str:
    """What a picture file shows, for people.

    Args:
        out: the file.
        project: what it is of.
        named, reader, angle_deg: as for ``numbers_of``.
    """
    from segkit.units import length, plain_number

    side = f", {plain_number(angle_deg)}° to the right" if angle_deg else ""
    first = f"{out} shows the board lit. Light on it: {named.label}."
    if not any(lit for _, lit, _ in project.luminance.values()):
        return f"{first} No light of its own could be worked out: segkit check says why."
    if reader is None:
        return f"{first} Seen close up{side}, {_exposed(project)}."
    eyes = plain_number(reader.eyesight or 20.0, 3)
    blur, stroke = plain_number(_blur_mm(reader), 2), plain_number(project.board.shape.stroke_mm, 3)
    return (
        f"{first} Seen by 20/{eyes} eyes from {length(1000 * reader.distance_m)}{side}: "
        f"they blur it by {blur} mm on the board, where a segment is {stroke} mm wide."
    )
