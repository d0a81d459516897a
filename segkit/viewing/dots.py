"""Rows of light points: from where on they are seen as one line."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.units import length, plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

NARROWEST_MM = 6.0  # no nearer can bulbs of 3 to 5 mm be set (common-practice)


@dataclass(frozen=True)
class Merging:
    """From where on the points of each kind of segment run together.

    Attributes:
        distance_m: by kind; kinds of a single point are not in it.
        lines, findings: working and verdict.
    """

    distance_m: Mapping[str, float]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def merge_distance(*, pitch_mm: float, eyesight: float = 20.0) -> float:
    """Distance [m] from which points in a row run together: ``p/tan(X/20 arcmin)``, 3438 p for 20/20.

    Args:
        pitch_mm: from point to point, mm, above 0.
        eyesight: X of 20/X, 10 to 400.

    Raises:
        InputError: eyesight out of its range.

    Sources: dots-merge, snellen-chart.

    Example:
        >>> round(merge_distance(pitch_mm=10.0), 2), round(merge_distance(pitch_mm=10.0, eyesight=40.0), 2)
        (34.38, 17.19)
    """
    limits.check(eyesight=eyesight)
    return pitch_mm / 1000 / math.tan(math.radians(eyesight / 20 / 60))


def merging(pitch_mm: Mapping[str, float], *, distance_m: float, eyesight: float = 20.0) -> Merging:
    """From where on the points run together, against the distance of the farthest reader.

    Args:
        pitch_mm: from point to point, by kind of segment; 0 for a single point.
        distance_m: of the reader, 0.2 to 2000 m.
        eyesight: X of 20/X, 10 to 400.

    Raises:
        InputError: a value out of its range.

    Sources: dots-merge, snellen-chart.

    Example:
        >>> seen = merging({"upright": 20.0, "point": 0.0}, distance_m=30.0, eyesight=40.0)
        >>> round(seen.distance_m["upright"], 1), [finding.code for finding in seen.findings]
        (34.4, ['bulbs-seen-singly'])
    """
    limits.check(distance_m=distance_m)
    rows = {kind: pitch for kind, pitch in pitch_mm.items() if pitch > 0}
    found = {kind: merge_distance(pitch_mm=pitch, eyesight=eyesight) for kind, pitch in rows.items()}
    lines = tuple(
        Line(
            f"viewing.merge.{kind.replace(' ', '-')}", f"distance from which the bulbs run together, {kind}",
            "D_m", found[kind], "m", "p/1000/tan(radians(X/20/60))",
            (Given("p", pitch, "mm", "from bulb to bulb"), Given("X", eyesight, "", "eyesight 20/X")),
            "dots-merge", f"{plain_number(merge_distance(pitch_mm=pitch), 3)} m for 20/20",
        )
        for kind, pitch in rows.items()
    )  # fmt: skip
    return Merging(found, lines, _judge(rows, found, distance_m, eyesight))


def _judge(
    rows: Mapping[str, float], found: Mapping[str, float], distance_m: float, eyesight: float
) -> tuple[Finding, ...]:
    """One note on the widest pitch, where the farthest reader still sees single points."""
    widest = max(rows, key=rows.__getitem__, default=None)
    if widest is None or found[widest] <= distance_m * (1 + 1e-9):
        return ()
    resolved_mm = distance_m * 1000 * math.tan(math.radians(eyesight / 20 / 60))
    text = (
        f"From {length(1000 * distance_m)} with 20/{plain_number(eyesight, 3)} the bulbs of the {widest}, "
        f"{plain_number(rows[widest], 3)} mm apart, may still be told apart; from "
        f"{plain_number(found[widest], 3)} m on they are one line for certain. Digits of points can be read; "
        "the luminance worked out is the mean over a segment."
    )
    least = math.floor(10 * resolved_mm) / 10
    remedy = f"For unbroken lines set the bulbs {plain_number(least, 3)} mm apart at most (make.bulb_pitch)."
    if least < NARROWEST_MM:
        remedy = "Unbroken lines from so near take light pockets behind a diffuser."
    return (
        Finding(
            "note", "bulbs-seen-singly", "lit segments", text, round(distance_m, 2),
            round(found[widest], 2), "m", "dots-merge", remedy,
        ),
    )  # fmt: skip
