"""Stroke, openings, spacing and gap of a digit against what the eye asks for."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.units import length, plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

THINNEST, BOLDEST = 1 / 12, 1 / 6  # stroke to height, iso-9241-3
_FUZZ = 1e-9


@dataclass(frozen=True)
class Proportions:
    """Verdict on the proportions of a digit.

    Attributes:
        gap_shows_m: distance within which the gap between segments can be seen, m.
        lines: the worksheet lines.
        findings: verdicts.
    """

    gap_shows_m: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def judge_proportions(
    *,
    height_mm: float,
    width_mm: float,
    stroke_mm: float,
    spacing_mm: float,
    gap_mm: float,
    distance_m: float,
    eyesight: float = 40.0,
    cut_out: bool = True,
) -> Proportions:
    """Stroke, inner openings, digit spacing and segment gap, each against its rule.

        stroke / height: 1/12 to 1/6        inner opening: at least one stroke
        digit spacing: at least one stroke  gap shows within gap / tan(X/20 arcmin)

    A gap narrower than the reader resolves costs no legibility: it need only be as wide as the web of
    board must be to survive cutting.

    Args:
        height_mm, width_mm: outside of the digit, mm.
        stroke_mm: width of a segment, mm.
        spacing_mm: clear space between two digits, mm.
        gap_mm: space between neighbouring segments, mm.
        distance_m: distance of the farthest reader, m.
        eyesight: X of 20/X.
        cut_out: False for a board of holes, where no board stands between segments: nothing on the gap.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: iso-9241-3, dod-hdbk-791, snellen-chart; common-practice for the inner opening.

    Example:
        >>> made = judge_proportions(height_mm=280.0, width_mm=154.0, stroke_mm=39.0, spacing_mm=60.0,
        ...     gap_mm=5.0, distance_m=24.0)
        >>> round(made.gap_shows_m, 1), [f.code for f in made.findings]
        (8.6, ['gap-free'])
    """
    limits.check(
        height_mm=height_mm, width_mm=width_mm, stroke_mm=stroke_mm, spacing_mm=spacing_mm, gap_mm=gap_mm,
        distance_m=distance_m, eyesight=eyesight,
    )  # fmt: skip
    across, upright = width_mm - 2 * stroke_mm, (height_mm - 3 * stroke_mm) / 2
    shows_m = gap_mm / 1000 / math.tan(math.radians(eyesight / 20 / 60))
    findings = (
        *_judge_stroke(stroke_mm, height_mm),
        *_judge_opening(min(across, upright), stroke_mm),
        *_judge_spacing(spacing_mm, stroke_mm),
        *(_judge_gap(gap_mm, shows_m, distance_m, eyesight) if cut_out else ()),
    )
    lines = _lines(height_mm, width_mm, stroke_mm, gap_mm, shows_m, eyesight)
    return Proportions(shows_m, lines if cut_out else lines[:-1], findings)


def _lines(
    height_mm: float, width_mm: float, stroke_mm: float, gap_mm: float, shows_m: float, eyesight: float
) -> tuple[Line, ...]:
    height, width = Given("H", height_mm, "mm", "digit height"), Given("W", width_mm, "mm", "digit width")
    stroke = Given("T", stroke_mm, "mm", "stroke")
    opening = min(width_mm - 2 * stroke_mm, (height_mm - 3 * stroke_mm) / 2)
    return (
        Line("viewing.stroke_ratio", "Stroke to height", "s", stroke_mm / height_mm, "", "T/H",
             (stroke, height), "iso-9241-3"),
        Line("viewing.inner_opening", "Narrower side of the openings inside an 8", "o", opening, "mm",
             "min(W - 2*T, (H - 3*T)/2)", (width, height, stroke), "arithmetic"),
        Line("viewing.gap_shows", "Distance within which the gap can be seen", "D_gap", shows_m, "m",
             "g/1000/tan(radians(X/20/60))",
             (Given("g", gap_mm, "mm", "gap between segments"), Given("X", eyesight, "", "eyesight 20/X")),
             "snellen-chart"),
    )  # fmt: skip


def _judge_stroke(stroke_mm: float, height_mm: float) -> tuple[Finding, ...]:
    ratio = stroke_mm / height_mm
    if THINNEST * (1 - _FUZZ) <= ratio <= BOLDEST * (1 + _FUZZ):
        return ()
    thin = ratio < THINNEST
    limit = THINNEST if thin else BOLDEST
    text = (
        f"A stroke of {plain_number(stroke_mm, 3)} mm is 1/{plain_number(1 / ratio, 3)} of the height; "
        "numerals read well with 1/12 to 1/6."
    )
    remedy = f"Make it {'at least' if thin else 'at most'} {length(limit * height_mm)}."
    return (
        Finding(
            "caution", "thin-stroke" if thin else "bold-stroke", "stroke", text, stroke_mm,
            round(limit * height_mm, 3), "mm", "iso-9241-3", remedy,
        ),
    )  # fmt: skip


def _judge_opening(opening_mm: float, stroke_mm: float) -> tuple[Finding, ...]:
    if opening_mm >= stroke_mm * (1 - _FUZZ):
        return ()
    found = f"only {plain_number(opening_mm, 3)} mm wide" if opening_mm > 0 else "gone"
    text = (
        f"The opening inside an 8 is {found}; narrower than the stroke of "
        f"{plain_number(stroke_mm, 3)} mm it fills with light, and 8 looks like a block."
    )
    return (
        Finding(
            "caution", "closed-opening", "digit", text, round(opening_mm, 3), stroke_mm, "mm",
            "common-practice", "Make the stroke thinner or the digit larger.",
        ),
    )  # fmt: skip


def _judge_spacing(spacing_mm: float, stroke_mm: float) -> tuple[Finding, ...]:
    if spacing_mm >= stroke_mm * (1 - _FUZZ):
        return ()
    text = (
        f"{plain_number(spacing_mm, 3)} mm between digits is less than one stroke "
        f"({plain_number(stroke_mm, 3)} mm): neighbouring digits run together."
    )
    return (
        Finding(
            "caution", "tight-spacing", "digit spacing", text, spacing_mm, stroke_mm, "mm", "iso-9241-3",
            f"Leave at least {length(stroke_mm)} between digits.",
        ),
    )  # fmt: skip


def _judge_gap(gap_mm: float, shows_m: float, distance_m: float, eyesight: float) -> tuple[Finding, ...]:
    if gap_mm == 0:
        return ()
    resolved_mm = gap_mm * distance_m / shows_m
    who = f"20/{plain_number(eyesight, 3)} from {length(1000 * distance_m)}"
    near = length(10 * round(100 * shows_m))  # to the centimetre: eyes differ by more
    gap = f"The {plain_number(gap_mm, 3)} mm gap between segments"
    if gap_mm < resolved_mm:
        code = "gap-free"
        text = f"{gap} cannot be seen with {who}, so it costs no legibility; it shows nearer than {near}."
        remedy = "Make it as wide as the board between two pockets must be to survive cutting."
    else:
        code = "gap-shows"
        text = f"{gap} can be seen with {who}: digits look made of pieces up to {near}."
        remedy = f"Below {plain_number(resolved_mm, 2)} mm it would vanish there; a matter of taste."
    return (
        Finding(
            "note", code, "segment gap", text, gap_mm, round(resolved_mm, 3), "mm", "snellen-chart", remedy
        ),
    )  # fmt: skip
