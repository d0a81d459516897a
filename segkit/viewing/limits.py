"""What can be asked for at all: the range of each input of this stage, and the refusal of the rest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.units import plain_number


@dataclass(frozen=True)
class Bound:
    """The range of one input.

    Attributes:
        low, high: smallest and largest value.
        unit: unit of both; empty for a ratio.
        remedy: what to do when the value is outside.
        below: True if ``high`` itself is refused too.
    """

    low: float
    high: float
    unit: str
    remedy: str
    below: bool = False

    def problem(self, value: float, *, key: str = "") -> Problem | None:
        """What is wrong with ``value``, or None."""
        if self.low <= value <= self.high and not (self.below and value == self.high):
            return None
        return Problem(
            text="out of range.",
            key=key,
            value=self._with_unit(value),
            limit=self._text(),
            remedy=self.remedy,
        )

    def _text(self) -> str:
        joint = "to below" if self.below else "to"
        return f"{self._with_unit(self.low)} {joint} {self._with_unit(self.high)}"

    def _with_unit(self, value: float) -> str:
        return f"{plain_number(value)} {self.unit}".rstrip()


_ASIDE = "An angle is counted from straight in front of the board; from 90 deg on, its face is out of sight."
_SHARE = "Write it as a share between 0 and 1."
_SIZE = "Measure it on the drawing, in mm."

BOUNDS: Mapping[str, Bound] = {
    "distance_m": Bound(0.2, 2000, "m", "Give the distance of the farthest reader."),
    "height_mm": Bound(2, 20_000, "mm", "Give the height of the digit itself."),
    "eyesight": Bound(10, 400, "", "Write eyesight as 20/40 or 6/12; 20/20 is normal."),
    "angle_deg": Bound(0, 90, "deg", _ASIDE, below=True),
    "vertical_angle_deg": Bound(0, 90, "deg", _ASIDE, below=True),
    "stroke_ratio": Bound(0.02, 0.3, "", "The stroke is a share of the height, 0.14 for a usual digit."),
    "width_ratio": Bound(0.2, 2, "", "The width is a share of the height, 0.55 for a usual digit."),
    "baseline_m": Bound(0, 100, "m", "Give the height of the digits' foot above the floor."),
    "width_mm": Bound(1, 20_000, "mm", _SIZE),
    "stroke_mm": Bound(0.1, 5000, "mm", _SIZE),
    "spacing_mm": Bound(0, 20_000, "mm", _SIZE),
    "gap_mm": Bound(0, 1000, "mm", _SIZE),
    "recess_mm": Bound(0, 5000, "mm", _SIZE),
    "opening_mm": Bound(0.1, 5000, "mm", _SIZE),
    "ambient_lx": Bound(1e-4, 130_000, "lx", "Full sun is about 100 000 lx, a moonless night 0.002 lx."),
    "lit_cd_m2": Bound(0, 1e7, "cd/m2", "Give the luminance of the lit segment."),
    "reflectance": Bound(0, 1, "", _SHARE),
    "background_reflectance": Bound(0.001, 1, "", "Matt black is about 0.05; nothing is blacker than 0.001."),
    "face_reflectance": Bound(0.001, 1, "", "Matt black is about 0.05; nothing is blacker than 0.001."),
    "unlit_reflectance": Bound(0.001, 1, "", "An opal diffuser is about 0.5; nothing is blacker than 0.001."),
    "area_m2": Bound(0, 1000, "m2", "Give the area of the whole board."),
    "frequency_hz": Bound(0.01, 1e8, "Hz", "Give the frequency at which the light goes on and off."),
    "modulation_percent": Bound(0, 100, "%", "On/off dimming is 100 %, steady light 0 %."),
    "frame_rate_hz": Bound(1, 10_000, "Hz", "A usual camera takes 24 to 60 frames a second."),
    "exposure_s": Bound(1e-6, 10, "s", "A usual exposure is 1/50 s to 1/2000 s."),
}


def accept(name: str, value: float) -> float:
    """``value`` if it is in the range of the input ``name``.

    Args:
        name: key of ``BOUNDS``.
        value: in the unit of the bound.

    Raises:
        InputError: outside; the key is left empty for the caller to fill in.

    Example:
        >>> accept("angle_deg", 30.0)
        30.0
    """
    if problem := BOUNDS[name].problem(value):
        raise InputError(problem)
    return value


def check(**values: float | None) -> None:
    """Refuse all values that are out of range, together; None is not looked at.

    Args:
        values: name (key of ``BOUNDS``) to value in the unit of the bound.

    Raises:
        InputError: one problem for each value that is out of range.

    Example:
        >>> check(distance_m=24.0, angle_deg=30.0, baseline_m=None)
    """
    given = ((name, value) for name, value in values.items() if value is not None)
    problems = [p for name, value in given if (p := BOUNDS[name].problem(value, key=name))]
    if problems:
        raise InputError(problems)
