"""How far a board must be dimmed at night, by the darkness of its surroundings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.errors import InputError, Problem, nearest
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

#: Environmental zones, in plain words.
ZONES: Mapping[str, str] = {
    "E0": "protected dark sky",
    "E1": "dark countryside",
    "E2": "village or outskirts",
    "E3": "suburb or small town",
    "E4": "town centre",
}

#: Highest luminance anywhere on a sign at night, cd/m2: (up to 10 m2, above); plg05-2015, table 4.
_CEILINGS: Mapping[str, tuple[float, float]] = {
    "E0": (0.0, 0.0),
    "E1": (100.0, 0.0),
    "E2": (400.0, 200.0),
    "E3": (600.0, 300.0),
    "E4": (600.0, 300.0),
}
_SMALL_M2 = 10.0


@dataclass(frozen=True)
class NightLimit:
    """Ceiling at night and the dimming that meets it.

    Attributes:
        ceiling_cd_m2: highest luminance at night, cd/m2; 0 means switched off.
        share: dimming, as a share of full luminance, 0 to 1.
        lines: the worksheet lines.
        findings: verdicts.
    """

    ceiling_cd_m2: float
    share: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def night_limit(*, lit_cd_m2: float, zone: str = "E2", area_m2: float = 1.0) -> NightLimit:
    """Night ceiling of a zone and the share of full luminance that meets it.

        share = min(1, ceiling / L)

    Args:
        lit_cd_m2: luminance of a lit segment at full drive (the brightest spot counts), cd/m2, above 0.
        zone: key of ``ZONES``.
        area_m2: area of the board; above 10 m2 the ceilings are lower.

    Raises:
        InputError: unknown zone, or a value out of its range.

    Sources: plg05-2015. Local rules may ask for less.

    Example:
        >>> night_limit(lit_cd_m2=8000.0, zone="E2").share
        0.05
    """
    limits.check(lit_cd_m2=lit_cd_m2, area_m2=area_m2)
    if zone not in ZONES:
        raise InputError(
            Problem("no such zone.", key="zone", value=f'"{zone}"', remedy=nearest(zone, list(ZONES)))
        )
    ceiling = _CEILINGS[zone][area_m2 > _SMALL_M2]
    share = min(1.0, ceiling / lit_cd_m2) if lit_cd_m2 > 0 else 1.0
    return NightLimit(
        ceiling, share, _lines(ceiling, share, lit_cd_m2, zone), _judge(ceiling, share, lit_cd_m2, zone)
    )


def _lines(ceiling: float, share: float, lit_cd_m2: float, zone: str) -> tuple[Line, ...]:
    if lit_cd_m2 == 0:
        return ()
    line = Line(
        "viewing.night_share", "Dimming at night", "n", share, "", "min(1, Lmax/L)",
        (
            Given("Lmax", ceiling, "cd/m2", f"night ceiling, zone {zone}, {ZONES[zone]}"),
            Given("L", lit_cd_m2, "cd/m2", "luminance at full drive"),
        ),
        "plg05-2015",
    )  # fmt: skip
    return (line,)


def _judge(ceiling: float, share: float, lit_cd_m2: float, zone: str) -> tuple[Finding, ...]:
    if share >= 1:
        return ()
    text = (
        f"At night {plain_number(lit_cd_m2, 3)} cd/m² dazzles: public lighting guidance allows "
        f"{plain_number(ceiling)} in zone {zone} ({ZONES[zone]})."
    )
    remedy = f"Dim to {plain_number(100 * share, 2)} % at night, and check the local rule."
    if ceiling == 0:
        text = f"In zone {zone} ({ZONES[zone]}) guidance allows no sign of this size lit at night."
        remedy = "Switch the board off at night, and check the local rule."
    return (
        Finding(
            "note", "dim-at-night", "lit segments", text, round(lit_cd_m2, 2), ceiling, "cd/m2",
            "plg05-2015", remedy,
        ),
    )  # fmt: skip
