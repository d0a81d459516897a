"""Digit height from distance, eyesight and angle; how far a height reads; a builder's own height judged."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from segkit.errors import InputError, Problem, nearest
from segkit.findings import CUT_PARTS, Finding
from segkit.units import length, plain_number
from segkit.viewing import limits
from segkit.viewing.criteria import INCH_M, SELLERS_RATIO, Criterion, View, at_distance, at_height
from segkit.viewing.height_lines import distance_lines, height_lines
from segkit.working import Line

#: Visual angle of the digit's height for a reader with 20/20, in arcmin (faa-hf-std-001, iso-9241-3).
COMFORT: Mapping[str, float] = {
    "minimum": 16.0,  # ISO 9241-3 minimum; below it single characters read slower
    "comfortable": 20.0,  # start of the range ISO 9241-3 prefers, 20' to 22'
    "generous": 24.0,  # top of the range 16' to 24' of HF-STD-001; for glances and tired eyes
}

_NUMERATORS = (20.0, 6.0, 5.0, 4.0)  # test distances in use: 20 ft; 6, 5 and 4 m
_CLOSE_ENOUGH = 0.995  # a height rounded to whole mm is not worth a finding


@dataclass(frozen=True)
class HeightAnswer:
    """How tall the digits must be.

    Attributes:
        height_mm: the height to build, mm.
        criteria: every rule at this distance, eye limit and comfort first; the chosen one is marked.
        lines: the worksheet lines.
        findings: verdicts.
    """

    height_mm: float
    criteria: tuple[Criterion, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class DistanceAnswer:
    """How far a height reads.

    Attributes:
        distance_m: the distance to count on, m.
        criteria: every rule for this height; the chosen one is marked.
        lines: the worksheet lines.
        findings: verdicts.
    """

    distance_m: float
    criteria: tuple[Criterion, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def parse_eyesight(text: str) -> float:
    """X of 20/X from an eye-chart fraction or a decimal acuity.

    Args:
        text: ``20/40`` (feet), ``6/12``, ``5/10`` or ``4/8`` (metres), or decimal ``0.5``.

    Returns:
        X: 20 for normal sight, 40 for a reader who needs everything twice as large. X = 20 * b / a.

    Raises:
        InputError: not an eyesight, or outside 20/10 to 20/400.

    Sources: snellen-chart.

    Example:
        >>> parse_eyesight("20/40"), parse_eyesight("6/12"), parse_eyesight("0.5")
        (40.0, 40.0, 40.0)
    """
    number = r"(\d+(?:\.\d+)?)"
    fraction = re.fullmatch(rf"{number}\s*/\s*{number}", text.strip())
    decimal = re.fullmatch(r"\d*\.\d+", text.strip())
    above, below = (float(fraction[1]), float(fraction[2])) if fraction else (1.0, 0.0)
    if decimal and float(text) > 0:
        eyesight = 20 / float(text)
    elif above in _NUMERATORS and below > 0:
        eyesight = 20 * below / above
    else:
        remedy = "Write it as an eye chart does: 20/20 is normal, 20/40 half as sharp (6/12 in metres)."
        raise InputError(Problem(text="not an eyesight.", value=f'"{text}"', remedy=remedy))
    return limits.accept("eyesight", eyesight)


def _view(
    *,
    eyesight: float,
    angle_deg: float,
    vertical_angle_deg: float,
    stroke_ratio: float,
    comfort: str,
    baseline_m: float | None,
    **size: float,
) -> View:
    problems: list[Problem] = []
    try:
        limits.check(
            **size, eyesight=eyesight, angle_deg=angle_deg, vertical_angle_deg=vertical_angle_deg,
            stroke_ratio=stroke_ratio, baseline_m=baseline_m,
        )  # fmt: skip
    except InputError as error:
        problems += error.problems
    if comfort not in COMFORT:
        remedy = nearest(comfort, list(COMFORT))
        problems.append(Problem("no such comfort.", key="comfort", value=f'"{comfort}"', remedy=remedy))
    if problems:
        raise InputError(problems)
    return View(eyesight, COMFORT[comfort], angle_deg, vertical_angle_deg, stroke_ratio, baseline_m)


def digit_height(
    *,
    distance_m: float,
    eyesight: float = 40.0,
    angle_deg: float = 0.0,
    vertical_angle_deg: float = 0.0,
    stroke_ratio: float = 0.14,
    comfort: str = "comfortable",
    baseline_m: float | None = None,
) -> HeightAnswer:
    """Digit height for a reading distance, with every published rule beside it.

    The height is the taller of two: the comfort angle, scaled by the reader's eyesight, and the eye limit
    of segmented numerals. Seven pairs of digits (0-8, 1-7, 3-9, 5-6, 5-9, 6-8, 8-9) differ by a single
    segment, so one stroke must be seen as lit or not.

        comfort = 2 D tan(A max(1, X/20) / 2) / cos(vertical)
        eye limit = D tan(X/20) / (stroke_ratio * min(cos(angle), cos(vertical)))

    Args:
        distance_m: distance of the farthest reader, 0.2 to 2000 m.
        eyesight: X of 20/X, 10 to 400; see ``parse_eyesight``.
        angle_deg: reader's horizontal angle off the board's axis, 0 to below 90 degrees.
        vertical_angle_deg: the same up or down.
        stroke_ratio: stroke to height, 0.02 to 0.3.
        comfort: key of ``COMFORT``.
        baseline_m: foot of the digits above the floor, m, where building codes are to be asked.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: faa-hf-std-001, iso-9241-3, snellen-chart, faa-one-in-200, mutcd-2009, ada-703-5-5,
    cbc-11b-703-8-4, jis-s-0032.

    Example:
        >>> round(digit_height(distance_m=24.0).height_mm, 1)
        279.3
    """
    view = _view(
        distance_m=distance_m, eyesight=eyesight, angle_deg=angle_deg, vertical_angle_deg=vertical_angle_deg,
        stroke_ratio=stroke_ratio, comfort=comfort, baseline_m=baseline_m,
    )  # fmt: skip
    criteria = at_distance(view, distance_m=distance_m)
    chosen = next(row for row in criteria if row.chosen)
    lines = height_lines(view, distance_m, criteria)
    return HeightAnswer(chosen.height_mm, criteria, lines, _remarks(view, criteria))


def reading_distance(
    *,
    height_mm: float,
    eyesight: float = 40.0,
    angle_deg: float = 0.0,
    vertical_angle_deg: float = 0.0,
    stroke_ratio: float = 0.14,
    comfort: str = "comfortable",
    baseline_m: float | None = None,
) -> DistanceAnswer:
    """How far a digit height reads, by every published rule; the reverse of ``digit_height``.

    The distance is the nearer of two: that of the comfort angle and that of the eye limit.

        comfort = H cos(vertical) / (2 tan(A max(1, X/20) / 2))
        eye limit = H stroke_ratio min(cos(angle), cos(vertical)) / tan(X/20)

    Args:
        height_mm: digit height, 2 to 20 000 mm.
        eyesight, angle_deg, vertical_angle_deg, stroke_ratio, comfort, baseline_m: as ``digit_height``.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: as ``digit_height``.

    Example:
        >>> round(reading_distance(height_mm=300.0).distance_m, 1)
        25.8
    """
    view = _view(
        height_mm=height_mm, eyesight=eyesight, angle_deg=angle_deg, vertical_angle_deg=vertical_angle_deg,
        stroke_ratio=stroke_ratio, comfort=comfort, baseline_m=baseline_m,
    )  # fmt: skip
    criteria = at_height(view, height_mm=height_mm)
    chosen = next(row for row in criteria if row.chosen)
    lines = distance_lines(view, height_mm, criteria)
    return DistanceAnswer(chosen.distance_m, criteria, lines, _remarks(view, criteria))


def judge_height(
    *,
    height_mm: float,
    distance_m: float,
    eyesight: float = 40.0,
    angle_deg: float = 0.0,
    vertical_angle_deg: float = 0.0,
    stroke_ratio: float = 0.14,
    comfort: str = "comfortable",
    what: str = "digit",
) -> tuple[Finding, ...]:
    """Verdict on a builder's own height: stop below the eye limit, caution below the chosen comfort.

    A height within 0.5 % of either passes, so that one rounded to whole millimetres does.

    Args:
        height_mm: the builder's height, 2 to 20 000 mm.
        distance_m, eyesight, angle_deg, vertical_angle_deg, stroke_ratio, comfort: as ``digit_height``.
        what: ``digit``, or ``small digit`` where a board has two sizes.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: as ``digit_height``; sign-sellers-50 for the remark on that rule.

    Example:
        >>> [f.code for f in judge_height(height_mm=60.0, distance_m=24.0)]
        ['too-small-to-read', 'only-sellers-rule']
    """
    view = _view(
        height_mm=height_mm, distance_m=distance_m, eyesight=eyesight, angle_deg=angle_deg,
        vertical_angle_deg=vertical_angle_deg, stroke_ratio=stroke_ratio, comfort=comfort, baseline_m=None,
    )  # fmt: skip
    criteria = at_distance(view, distance_m=distance_m)
    limit, chosen = criteria[0], next(row for row in criteria if row.chosen)
    who = f"a reader with {eyesight_text(eyesight)} at {length(1000 * distance_m)}"
    if height_mm < limit.height_mm * _CLOSE_ENOUGH:
        return (_too_small(height_mm, limit, chosen, who, what), *_sellers(height_mm, distance_m, what))
    if height_mm < chosen.height_mm * _CLOSE_ENOUGH:
        return (_below_comfort(height_mm, chosen, comfort, who, what), *_sellers(height_mm, distance_m, what))
    return ()


def eyesight_text(eyesight: float) -> str:
    """``20/40`` for 40.0."""
    return f"20/{plain_number(eyesight, 3)}"


def _too_small(height_mm: float, limit: Criterion, chosen: Criterion, who: str, what: str) -> Finding:
    return Finding(
        "stop", "too-small-to-read", f"{what} height",
        f"{length(height_mm)} is below the eye limit of {length(limit.height_mm)} for {who}: one segment is "
        "too thin to be seen as lit or not, so 8 looks like 0, 9 like 3.",
        height_mm, round(limit.height_mm, 2), "mm", limit.source,
        f"Build the {what}s at least {length(chosen.height_mm)} tall, or bring the readers nearer.",
        CUT_PARTS,
    )  # fmt: skip


def _below_comfort(height_mm: float, chosen: Criterion, comfort: str, who: str, what: str) -> Finding:
    return Finding(
        "caution", "below-comfort", f"{what} height",
        f'{length(height_mm)} can be read, but is below the {length(chosen.height_mm)} that "{comfort}" asks '
        f"for with {who}.",
        height_mm, round(chosen.height_mm, 2), "mm", chosen.source,
        f"Build the {what}s {length(chosen.height_mm)} tall, or accept slower reading.",
    )  # fmt: skip


def _sellers(height_mm: float, distance_m: float, what: str) -> tuple[Finding, ...]:
    sellers_mm, road_mm = 1000 * distance_m / SELLERS_RATIO, 1000 * distance_m / 360
    if not sellers_mm * (1 - 1e-9) <= height_mm < road_mm * (1 - 1e-9):
        return ()
    text = (
        f"{length(height_mm)} meets only the 50 ft per inch that sign sellers quote "
        f"({length(sellers_mm)} here), but even road signs take 30 ft per inch ({length(road_mm)})."
    )
    return (
        Finding(
            "note", "only-sellers-rule", f"{what} height", text, height_mm, round(road_mm, 2), "mm",
            "sign-sellers-50", "Do not size a board by that rule.",
        ),
    )  # fmt: skip


def _remarks(view: View, criteria: tuple[Criterion, ...]) -> tuple[Finding, ...]:
    found: list[Finding] = []
    if criteria[0].chosen:
        limit, comfort = criteria[0], criteria[1]
        text = (
            "The stroke, not comfort, sets the size: seen from this side one stroke of "
            f"{plain_number(view.stroke_ratio, 3)} of the height narrows to "
            f"{plain_number(view.stroke_ratio * view.stroke_foreshortening, 2)} of it."
        )
        found.append(Finding(
            "note", "stroke-sets-size", "digit height", text,
            round(limit.arcmin, 2), round(comfort.arcmin, 2), "arcmin", limit.source,
            "A bolder stroke, or a second board for the readers at the side, allows less.",
        ))  # fmt: skip
    if view.baseline_m is not None and view.baseline_m < 40 * INCH_M * (1 - 1e-9):
        found.append(Finding(
            "note", "code-starts-higher", "building codes",
            f"The ADA and California tables start with characters 1.016 m (40 in) above the floor; "
            f"{length(1000 * view.baseline_m)} is below, so neither is shown.",
            view.baseline_m, 1.016, "m", "ada-703-5-5",
            "Ask the local authority which rule binds your board.",
        ))  # fmt: skip
    return tuple(found)
