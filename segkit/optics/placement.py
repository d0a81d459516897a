"""How many LEDs a segment gets, and where."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.geometry.polygon import Point
from segkit.working import Line


@dataclass(frozen=True)
class Lighting:
    """The light of one kind of segment.

    Attributes:
        kind: ``Segment.kind``.
        led: catalogue id.
        count: LEDs in one segment (both dots together for a colon).
        stations_mm: for each outline of the segment, positions along its axis from the middle
            (0 = the middle; positive towards the second end of the axis), rising.
        pitch_mm: distance between neighbours; 0 for one LED an outline.
        gap_mm: clear height from the LED's tip to the diffuser.
        luminance_cd_m2: mean luminance of the lit diffuser: low, expected, high.
        unlit_reflectance: of the segment as seen from outside when it is off.
        method: ``cavity estimate`` now; the pocket solver will say ``solved``.
        lines, findings: working and verdicts.
    """

    kind: str
    led: str
    count: int
    stations_mm: tuple[tuple[float, ...], ...]
    pitch_mm: float
    gap_mm: float
    luminance_cd_m2: tuple[float, float, float]
    unlit_reflectance: float
    method: str
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class LedPlace:
    """One LED on the board, as seen from the front."""

    digit: int
    segment: str
    number: int
    at: Point


LightingByKind = Mapping[str, Lighting]
