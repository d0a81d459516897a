"""The worksheet lines of a digit height and of a reading distance."""

from __future__ import annotations

from segkit.viewing.criteria import Criterion, View
from segkit.working import Given, Line


def _inputs(view: View, first: Given) -> dict[str, tuple[Given, ...]]:
    """Inputs of the eye limit and of the comfort angle."""
    eye, vertical = Given("X", view.eyesight, "", "eyesight 20/X"), view.vertical_angle_deg
    down = Given("v", vertical, "deg", "vertical angle off axis")
    return {
        "eye": (
            first, eye, Given("s", view.stroke_ratio, "", "stroke to height"),
            Given("a", view.angle_deg, "deg", "horizontal angle off axis"), down,
        ),
        "comfort": (first, Given("A", view.comfort_arcmin, "arcmin", "comfort angle for 20/20"), eye, down),
    }  # fmt: skip


_TAN_EYE, _NARROW = "tan(radians(X/20/60))", "s*min(cos(radians(a)), cos(radians(v)))"
_TAN_COMFORT = "tan(radians(A*max(1, X/20)/60)/2)"


def height_lines(view: View, distance_m: float, criteria: tuple[Criterion, ...]) -> tuple[Line, ...]:
    """Working of a digit height for ``distance_m``; ``criteria`` start with eye limit and comfort."""
    given = _inputs(view, Given("D", distance_m, "m", "reading distance"))
    eye, comfort = criteria[0].height_mm, criteria[1].height_mm
    return (
        Line("viewing.eye_limit", "Eye limit of segmented numerals", "H_eye", eye, "mm",
             f"1000*D*{_TAN_EYE}/({_NARROW})", given["eye"], "snellen-chart"),
        Line("viewing.comfort_height", "Height by the comfort angle", "H_comfort", comfort, "mm",
             f"2000*D*{_TAN_COMFORT}/cos(radians(v))", given["comfort"], "faa-hf-std-001"),
        Line("viewing.digit_height", "Digit height", "H", max(eye, comfort), "mm", "max(H_eye, H_comfort)",
             (Given("H_eye", eye, "mm", "eye limit"), Given("H_comfort", comfort, "mm", "comfort angle")),
             "arithmetic"),
    )  # fmt: skip


def distance_lines(view: View, height_mm: float, criteria: tuple[Criterion, ...]) -> tuple[Line, ...]:
    """Working of a reading distance for ``height_mm``; ``criteria`` start with eye limit and comfort."""
    given = _inputs(view, Given("H", height_mm, "mm", "digit height"))
    eye, comfort = criteria[0].distance_m, criteria[1].distance_m
    return (
        Line("viewing.eye_distance", "Distance of the eye limit", "D_eye", eye, "m",
             f"H/1000*{_NARROW}/{_TAN_EYE}", given["eye"], "snellen-chart"),
        Line("viewing.comfort_distance", "Distance of the comfort angle", "D_comfort", comfort, "m",
             f"H/2000*cos(radians(v))/{_TAN_COMFORT}", given["comfort"], "faa-hf-std-001"),
        Line("viewing.reading_distance", "Reading distance", "D", min(eye, comfort), "m",
             "min(D_eye, D_comfort)",
             (Given("D_eye", eye, "m", "eye limit"), Given("D_comfort", comfort, "m", "comfort angle")),
             "arithmetic"),
    )  # fmt: skip
