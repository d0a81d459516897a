"""Kinds of segment held against each other: counts for equal brightness, and what difference remains."""

from __future__ import annotations

from collections.abc import Mapping

from segkit.findings import Finding
from segkit.optics import solver
from segkit.optics.equalise import Need, equalised
from segkit.optics.row import Row
from segkit.optics.search import MOST_LEDS

#: Mean luminance of one kind over another above which the difference shows.
UNEQUAL_ABOVE = 1.3


def balanced(rows: Mapping[str, Row], *, outlines: Mapping[str, int]) -> dict[str, int]:
    """LEDs in an outline of each kind so that all kinds are about equally bright.

    Kinds whose count or places are the builder's keep them.

    Args:
        rows: by kind, as even light alone asks for them; clear height above 0.
        outlines: outlines of each kind on the board.

    Sources: pocket-study.
    """
    return equalised(
        {
            kind: Need(
                least=row.count,
                most=max(row.count, min(row.most, MOST_LEDS)) if row.chosen_by == "search" else row.count,
                per_led=per_led(row),
                outlines=outlines[kind],
            )
            for kind, row in rows.items()
        }
    )


def per_led(row: Row) -> float:
    """What one LED adds to the mean light on the diffuser, in lx for an LED of 1 lm.

    Args:
        row: the LEDs.
    """
    each = solver.mean_per_led(row.pocket, places=row.pattern.places, exponent=row.exponent)
    return float(each.mean()) / row.pocket.front_area_mm2 * 1e6


def unequal(mean_cd_m2: Mapping[str, float]) -> tuple[str, Finding] | None:
    """The darkest kind and what is to be said, when the brightest is far brighter.

    Args:
        mean_cd_m2: mean luminance by kind.

    Example:
        >>> kind, finding = unequal({"upright": 100.0, "point": 300.0})
        >>> kind, finding.remedy[:43]
        ('upright', 'Give the point about 33 % of the current wi')
    """
    if not mean_cd_m2:
        return None
    bright, dark = max(mean_cd_m2, key=mean_cd_m2.__getitem__), min(mean_cd_m2, key=mean_cd_m2.__getitem__)
    if mean_cd_m2[dark] <= 0 or mean_cd_m2[bright] / mean_cd_m2[dark] <= UNEQUAL_ABOVE:
        return None
    ratio = mean_cd_m2[bright] / mean_cd_m2[dark]
    return dark, Finding(
        level="caution",
        code="unequal-brightness",
        subject=f"{dark} segments",
        text=f"At the same current the {bright} ({mean_cd_m2[bright]:.0f} cd/m2) comes out {ratio:.1f} times "
        f"as bright as the {dark} ({mean_cd_m2[dark]:.0f} cd/m2), having more light for its area.",
        value=ratio,
        limit=UNEQUAL_ABOVE,
        source="common-practice",
        remedy=f"Give the {bright} about {100 / ratio:.0f} % of the current with a larger resistor, or "
        "change the number of LEDs.",
    )
