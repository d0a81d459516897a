"""The published rules for the height of a numeral, side by side, each usable both ways.

Every rule has the same form: a smallest height up to some distance, then a fixed growth per metre.

    height = base + slope * max(0, distance - start)        distance = start + (height - base) / slope
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from segkit.units import FOOT_MM, INCH_MM, plain_number

FOOT_M = FOOT_MM / 1000
INCH_M = INCH_MM / 1000
SELLERS_RATIO = 600.0  # distance to height of the 50 ft per inch that sign sellers quote; never a rule here

JIS_POINT_MM = 0.35146
JIS_SLOPE, JIS_BASE = 6.4, 3.0  # points: sans-serif kana and Arabic numerals
JIS_BODY_TO_DIGIT = 0.7  # a digit fills about this much of the type body

_Rows = tuple[tuple[float, float, float], ...]
_ADA_ROWS: _Rows = ((40, 0.625, 6), (70, 2, 15), (120, 3, 21))  # baseline above [in], base [in], start [ft]
_CALIFORNIA_ROWS: _Rows = ((40, 2, 10), (70, 3, 15), (120, 4, 20))


@dataclass(frozen=True)
class View:
    """Who reads, and from which side.

    Attributes:
        eyesight: X of 20/X; 20 is normal, 40 needs everything twice as large.
        comfort_arcmin: visual angle of the digit for a reader with 20/20, in arcmin.
        angle_deg: horizontal angle off the board's axis, degrees.
        vertical_angle_deg: vertical angle off the board's axis, degrees.
        stroke_ratio: stroke to digit height.
        baseline_m: foot of the digits above the floor, m; None if no building code is asked about.
    """

    eyesight: float
    comfort_arcmin: float
    angle_deg: float = 0.0
    vertical_angle_deg: float = 0.0
    stroke_ratio: float = 0.14
    baseline_m: float | None = None

    @property
    def mar_arcmin(self) -> float:
        """Minimum angle of resolution: 1' at 20/20, X/20 at 20/X."""
        return self.eyesight / 20

    @property
    def foreshortening(self) -> float:
        """Apparent height over true height."""
        return math.cos(math.radians(self.vertical_angle_deg))

    @property
    def stroke_foreshortening(self) -> float:
        """Apparent over true width of the worse stroke: uprights narrow sideways, horizontals from above."""
        return min(math.cos(math.radians(self.angle_deg)), self.foreshortening)


@dataclass(frozen=True)
class Rule:
    """One rule.

    Attributes:
        name: short name for people and programs.
        source: key into ``sources.toml``.
        remark: what it was made for.
        slope_mm_per_m: growth of the height with distance.
        base_mm: smallest height.
        start_m: distance up to which the smallest height does.
        applies_from_m: distance from which the rule applies at all.
    """

    name: str
    source: str
    remark: str
    slope_mm_per_m: float
    base_mm: float = 0.0
    start_m: float = 0.0
    applies_from_m: float = 0.0

    def height_mm(self, distance_m: float) -> float:
        """Height for a distance."""
        return self.base_mm + self.slope_mm_per_m * max(0.0, distance_m - self.start_m)

    def distance_m(self, height_mm: float) -> float:
        """Distance up to which a height does; 0 if it is below the smallest height."""
        if height_mm < self.base_mm * (1 - 1e-9):
            return 0.0
        return self.start_m + max(0.0, height_mm - self.base_mm) / self.slope_mm_per_m


@dataclass(frozen=True)
class Criterion:
    """What one rule says.

    Attributes:
        name: the rule.
        arcmin: visual angle of the digit's height that it leads to; 0 where ``distance_m`` is 0.
        height_mm: height that it asks for (or the height that was given).
        source: key into ``sources.toml``.
        chosen: whether the answer follows this one.
        remark: what the rule was made for.
        distance_m: distance that was given (or how far the height reads; 0 if nowhere).
    """

    name: str
    arcmin: float
    height_mm: float
    source: str
    chosen: bool
    remark: str
    distance_m: float


def at_distance(view: View, *, distance_m: float) -> tuple[Criterion, ...]:
    """Height that each rule asks for at ``distance_m`` [m]; of eye limit and comfort the taller is chosen."""
    rules = [rule for rule in rules_for(view) if distance_m >= rule.applies_from_m]
    rows = [_criterion(rule, view, distance_m, rule.height_mm(distance_m)) for rule in rules]
    return _marked(rows, max(rows[:2], key=lambda row: row.height_mm))


def at_height(view: View, *, height_mm: float) -> tuple[Criterion, ...]:
    """How far ``height_mm`` [mm] reads by each rule; of eye limit and comfort the nearer is chosen."""
    rules = [rule for rule in rules_for(view) if rule.distance_m(height_mm) >= rule.applies_from_m]
    rows = [_criterion(rule, view, rule.distance_m(height_mm), height_mm) for rule in rules]
    return _marked(rows, min(rows[:2], key=lambda row: row.distance_m))


def _marked(rows: list[Criterion], chosen: Criterion) -> tuple[Criterion, ...]:
    return tuple(replace(row, chosen=row is chosen) for row in rows)


def _criterion(rule: Rule, view: View, distance_m: float, height_mm: float) -> Criterion:
    seen = height_mm * view.foreshortening / 2000
    arcmin = 60 * math.degrees(2 * math.atan(seen / distance_m)) if distance_m > 0 else 0.0
    return Criterion(rule.name, arcmin, height_mm, rule.source, False, rule.remark, distance_m)


def rules_for(view: View) -> tuple[Rule, ...]:
    """All rules that apply to a view: the eye limit first, the comfort angle second, then the rest."""
    minutes = plain_number(view.mar_arcmin, 3)
    factor = max(1.0, view.mar_arcmin)
    shown = view.stroke_ratio * view.stroke_foreshortening
    scaled = f"{plain_number(view.comfort_arcmin)}′ for 20/20" + (
        f", times {plain_number(factor, 3)}" if factor > 1 else ""
    )
    return (
        Rule(
            "eye limit", "snellen-chart", f"one stroke just fills the {minutes}′ this eye resolves",
            1000 * math.tan(math.radians(view.mar_arcmin / 60)) / shown,
        ),
        _by_angle("comfort", view.comfort_arcmin * factor, "faa-hf-std-001", scaled, view),
        _by_angle("ISO 9241-3 minimum", 16, "iso-9241-3", "screens, for 20/20", view),
        _by_angle("ISO 9241-3 preferred from", 20, "iso-9241-3", "screens, for 20/20", view),
        _by_angle("ISO 9241-3 preferred to", 22, "iso-9241-3", "screens, for 20/20", view),
        Rule("1/200 of the distance", "faa-one-in-200", "panels, seen straight on", 1000 / 200),
        Rule("road sign, 30 ft per inch", "mutcd-2009", "drivers; a short word", INCH_MM / (30 * FOOT_M)),
        jis_rule(view),
        *_code_rules(view),
    )  # fmt: skip


def _by_angle(name: str, arcmin: float, source: str, remark: str, view: View) -> Rule:
    slope = 2000 * math.tan(math.radians(arcmin / 60) / 2) / view.foreshortening
    return Rule(name, source, remark, slope)


def jis_points(
    *, distance_m: float, acuity: float, slope: float = JIS_SLOPE, base: float = JIS_BASE
) -> float:
    """Smallest legible type size in points (of ``JIS_POINT_MM``): P = a S + b, with S = D / V.

    Args:
        distance_m: reading distance, m.
        acuity: decimal acuity V, 1.0 for 20/20, 0.5 for 20/40.
        slope: a, points per metre, by typeface and kind of character.
        base: b, points.

    Sources: jis-s-0032 (default coefficients, from memory), sagawa-kurakata-2013 (form and worked example).

    Example:
        >>> round(jis_points(distance_m=0.5, acuity=0.4, slope=8.1, base=3.4), 1)
        13.5
    """
    return slope * distance_m / acuity + base


def jis_rule(view: View) -> Rule:
    """The JIS threshold as a digit height: points of type body, of which a digit fills about 0.7."""
    mm_per_point = JIS_POINT_MM * JIS_BODY_TO_DIGIT
    base = jis_points(distance_m=0.0, acuity=20 / view.eyesight)
    slope = jis_points(distance_m=1.0, acuity=20 / view.eyesight) - base
    remark = "threshold for print, from memory; not a comfortable size"
    return Rule("JIS S 0032 threshold", "jis-s-0032", remark, slope * mm_per_point, base * mm_per_point)


def _code_rules(view: View) -> tuple[Rule, ...]:
    if view.baseline_m is None or view.baseline_m / INCH_M < 40 - 1e-9:
        return ()
    inches = view.baseline_m / INCH_M
    ada = _code_row("ADA 703.5.5", "ada-703-5-5", "fixed signs in buildings", _ADA_ROWS, 1 / 8, inches)
    name, key = "California 11B-703.8.4", "cbc-11b-703-8-4"
    california = _code_row(name, key, "variable message signs", _CALIFORNIA_ROWS, 1 / 5, inches)
    seating = Rule(
        f"{name}, seating", key, "exception for assembly seating, views of 100 ft and more",
        INCH_MM / (30 * FOOT_M), 8 * INCH_MM, 240 * FOOT_M, 100 * FOOT_M,
    )  # fmt: skip
    return ada, california, seating


def _code_row(name: str, key: str, remark: str, rows: _Rows, growth: float, inches: float) -> Rule:
    """The row of the highest band that ``inches`` reaches; ``growth`` is in inches per foot."""
    band = max(i for i, row in enumerate(rows) if i == 0 or inches > row[0] + 1e-9)
    _, base, start = rows[band]
    return Rule(name, key, remark, growth * INCH_MM / FOOT_M, base * INCH_MM, start * FOOT_M)
