"""``segkit size``: digit height from a reading distance, and how far a height reads."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output

if TYPE_CHECKING:
    from segkit.findings import Finding
    from segkit.viewing.criteria import Criterion
    from segkit.viewing.legibility import DistanceAnswer, HeightAnswer

EXAMPLE = 'segkit size "24 m" --eyesight 20/40 --angle "30 deg" --light dusk'

_USUAL_WIDTH = "0.55"
_SHOWN_COLOURS = ("white", "amber", "green", "red")


def size(
    distance: Annotated[
        str | None,
        typer.Argument(
            metavar="DISTANCE",
            help="Distance of the farthest reader, such as 22m or 72 ft.",
            show_default=False,
        ),
    ] = None,
    height: Annotated[
        str | None,
        typer.Option(
            metavar="LENGTH", help="A digit height, such as 300mm: asks how far it reads.", show_default=False
        ),
    ] = None,
    eyesight: Annotated[
        str,
        typer.Option(
            metavar="EYES", help="Weakest eyes that should read it, as on an eye chart: 20/20, 20/40, 6/12."
        ),
    ] = "20/40",
    angle: Annotated[
        str, typer.Option(metavar="ANGLE", help="How far to the side the reader stands.")
    ] = "0 deg",
    vertical_angle: Annotated[
        str, typer.Option(metavar="ANGLE", help="How far above or below the reader is.")
    ] = "0 deg",
    light: Annotated[
        str | None,
        typer.Option(
            metavar="LIGHT",
            help='Light on the board: night, dusk, overcast, shade, sun or "4000 lx"; adds how bright to be.',
            show_default=False,
        ),
    ] = None,
    comfort: Annotated[
        str, typer.Option(metavar="WORD", help="minimum, comfortable or generous.")
    ] = "comfortable",
    stroke: Annotated[
        str, typer.Option(metavar="SHARE", help="Width of a segment as a share of the height.")
    ] = "0.14",
    width: Annotated[
        str, typer.Option(metavar="SHARE", help="Width of a digit as a share of the height.")
    ] = _USUAL_WIDTH,
    baseline: Annotated[
        str | None,
        typer.Option(
            metavar="LENGTH",
            help="Foot of the digits above the floor, where a building code applies: adds its rows.",
            show_default=False,
        ),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """How tall digits must be to be read from a distance; with --height, how far a height reads."""
    from segkit.findings import stops

    given = _read(
        distance, height=height, eyesight=eyesight, angle=angle, vertical_angle=vertical_angle,
        light=light, comfort=comfort, stroke=stroke, width=width, baseline=baseline,
    )  # fmt: skip
    answer = _answer(given)
    _refuse_giants(given, answer)
    findings = _findings(given, answer)
    if as_json:
        output.print_json(_as_dict(given, answer, findings))
    else:
        _print(given, answer, findings)
    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


def _read(distance: str | None, **texts: str | None) -> dict[str, Any]:
    """Every option parsed and held against its range; all faults in one error."""
    from segkit.errors import InputError, Problem
    from segkit.units import ANGLE, LENGTH, parse
    from segkit.viewing.legibility import COMFORT, parse_eyesight
    from segkit.viewing.limits import accept

    readers: dict[str, Callable[[str], Any]] = {
        "height": lambda text: accept("height_mm", parse(text, LENGTH)),
        "eyesight": parse_eyesight,
        "angle": lambda text: accept("angle_deg", parse(text, ANGLE)),
        "vertical_angle": lambda text: accept("vertical_angle_deg", parse(text, ANGLE)),
        "light": _light,
        "comfort": lambda text: _one_of(text, tuple(COMFORT)),
        "stroke": lambda text: accept("stroke_ratio", _share(text)),
        "width": lambda text: accept("width_ratio", _share(text)),
        "baseline": lambda text: accept("baseline_m", parse(text, LENGTH) / 1000),
    }
    problems: list[Problem] = []
    values: dict[str, Any] = {}
    try:
        values["distance"] = (
            None if distance is None else accept("distance_m", parse(distance, LENGTH) / 1000)
        )
    except InputError as error:
        problems += error.at(key="DISTANCE").problems
    try:
        values |= output.gather(**{name: (texts[name], reader) for name, reader in readers.items()})
    except InputError as error:
        problems += error.problems
    if (distance is None) == (texts["height"] is None):
        both = (
            "neither a distance nor --height is" if distance is None else "both a distance and --height are"
        )
        remedy = 'Give one of them: segkit size "24 m", or segkit size --height "300 mm".'
        problems.insert(0, Problem(f"{both} given.".capitalize(), remedy=remedy))
    if problems:
        raise InputError(problems)
    return values


def _light(text: str) -> float:
    from segkit.viewing.luminance import parse_light

    return parse_light(text)


def _one_of(text: str, known: tuple[str, ...]) -> str:
    from segkit.errors import InputError, Problem, nearest

    word = text.strip().lower()
    if word not in known:
        raise InputError(Problem("not known.", value=f'"{text}"', remedy=nearest(word, known)))
    return word


def _share(text: str) -> float:
    """A share written as 0.14, 14 % or 1/7."""
    from segkit.errors import InputError, Problem
    from segkit.units import PERCENT, parse

    above, slash, below = text.partition("/")
    try:
        return parse(text, PERCENT) if "%" in text else float(above) / (float(below) if slash else 1.0)
    except (ValueError, ZeroDivisionError):
        remedy = "Write it as 0.14, 14 % or 1/7 of the height."
        raise InputError(Problem("not a share of the height.", value=f'"{text}"', remedy=remedy)) from None


def _answer(given: dict[str, Any]) -> HeightAnswer | DistanceAnswer:
    from segkit.viewing.legibility import digit_height, reading_distance

    options = {
        "eyesight": given["eyesight"],
        "angle_deg": given["angle"],
        "vertical_angle_deg": given["vertical_angle"],
        "stroke_ratio": given["stroke"],
        "comfort": given["comfort"],
        "baseline_m": given["baseline"],
    }
    if given["height"] is None:
        return digit_height(distance_m=given["distance"], **options)
    return reading_distance(height_mm=given["height"], **options)


def _findings(given: dict[str, Any], answer: HeightAnswer | DistanceAnswer) -> tuple[Finding, ...]:
    if not given["angle"] and not given["vertical_angle"] and given["width"] == float(_USUAL_WIDTH):
        return answer.findings  # a usual digit seen straight on
    from segkit.viewing.off_axis import off_axis

    height_mm = _chosen(answer).height_mm
    seen = off_axis(
        width_mm=given["width"] * height_mm,
        height_mm=height_mm,
        angle_deg=given["angle"],
        vertical_angle_deg=given["vertical_angle"],
    )
    return answer.findings + seen.findings


def _refuse_giants(given: dict[str, Any], answer: HeightAnswer | DistanceAnswer) -> None:
    """Beyond a certain size this is no board but a building, and nothing here holds for it."""
    from segkit.errors import InputError, Problem
    from segkit.units import length, plain_number
    from segkit.viewing.limits import BOUNDS

    height_mm = _chosen(answer).height_mm
    most_mm = min(BOUNDS["height_mm"].high, BOUNDS["width_mm"].high / given["width"])
    if height_mm > most_mm:
        text = f"the digits would have to be {length(height_mm)} tall."
        distance = f"{plain_number(_chosen(answer).distance_m)} m"
        raise InputError(
            Problem(text, key="DISTANCE", value=distance, limit=f"digits up to {length(most_mm)}",
                    remedy="Bring the readers closer, or ask for sharper eyes and a smaller angle.")
        )  # fmt: skip


def _chosen(answer: HeightAnswer | DistanceAnswer) -> Criterion:
    return next(row for row in answer.criteria if row.chosen)


def _as_dict(
    given: dict[str, Any], answer: HeightAnswer | DistanceAnswer, findings: tuple[Finding, ...]
) -> dict[str, Any]:
    chosen = _chosen(answer)
    data: dict[str, Any] = {
        "height_mm": chosen.height_mm,
        "distance_m": chosen.distance_m,
        "eyesight": given["eyesight"],
        "comfort": given["comfort"],
        "chosen": chosen.name,
        "criteria": [
            {
                "name": row.name,
                "arcmin": row.arcmin,
                "height_mm": row.height_mm,
                "distance_m": row.distance_m,
                "source": row.source,
                "chosen": row.chosen,
                "remark": row.remark,
            }
            for row in answer.criteria
        ],
        "findings": [finding.as_dict() for finding in findings],
    }
    if given["light"] is not None:
        data["light"] = {"ambient_lx": given["light"], "asked_cd_m2": _asked(given["light"])}
    return data


def _asked(ambient_lx: float) -> dict[str, float]:
    from segkit.viewing.luminance import COLOUR_FACTORS, asked_luminance

    return {name: asked_luminance(ambient_lx=ambient_lx, colour=name).cd_m2 for name in COLOUR_FACTORS}


def _print(
    given: dict[str, Any], answer: HeightAnswer | DistanceAnswer, findings: tuple[Finding, ...]
) -> None:
    from segkit.units import length, plain_number

    chosen = _chosen(answer)
    height, distance = length(chosen.height_mm), length(1000 * chosen.distance_m)
    who = f"a reader with 20/{plain_number(given['eyesight'], 3)} eyesight"
    reverse = given["height"] is not None
    first = f"{height} reads up to {distance} away" if reverse else f"{height} tall"
    output.say(f"{first} for {who}{'' if reverse else f' {distance} away'}.\n")
    output.print_table(
        ("", "rule", "digit angle", "reads to" if reverse else "height", "made for"),
        [_row(row, reverse) for row in answer.criteria],
        right=("digit angle",),
    )
    if given["light"] is not None:
        _print_light(given["light"])
    output.print_findings(findings)
    if findings:
        output.say("")
    output.say(_next_step(chosen, reverse))


def _row(row: Criterion, reverse: bool) -> tuple[str, ...]:
    from segkit.units import length, plain_number

    far = length(1000 * row.distance_m) if row.distance_m else "nowhere"
    angle = f"{plain_number(row.arcmin, 3)}′" if row.arcmin else "–"
    return ("→" if row.chosen else "", row.name, angle, far if reverse else length(row.height_mm), row.remark)


def _print_light(ambient_lx: float) -> None:
    from segkit.units import plain_number
    from segkit.viewing.luminance import light_text

    asked = _asked(ambient_lx)
    colours = ", ".join(f"{plain_number(asked[name], 2)} {name}" for name in _SHOWN_COLOURS)
    output.say(
        f"In this light, {light_text(ambient_lx)}, road signs are asked for about {colours} [cd/m²]; "
        "from memory of the road-sign standard's brightest class, so a generous aim.\n"
    )


def _next_step(chosen: Criterion, reverse: bool) -> str:
    from segkit.units import plain_number

    distance = plain_number(chosen.distance_m, 3)
    if reverse:
        return f'Next: segkit size {distance}m --angle "30 deg", for readers at the side.'
    start = f'Next: segkit new board.toml, and under [reading] distance = "{distance} m"'
    return f"{start}; the height follows from it."
