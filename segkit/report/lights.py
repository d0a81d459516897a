"""In which light the board can be read, as ``check`` and the build book print it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from segkit.project import Project
from segkit.sources import source
from segkit.units import plain_number
from segkit.viewing.all_lights import InLight
from segkit.viewing.contrast import percent_down, rounded_up

CAPTION = (
    "The dimmest kind of segment at the current that flows; each luminance with the light that the surface "
    "sends back. Contrast 3:1 is the least, 6:1 good, 10:1 best. The mirror image in a glossy front and the "
    "glow of a fluorescent sheet in daylight come on top."
)

#: The same for push-in bulbs.
BARE_CAPTION = (
    "The dimmest kind of segment at the current that flows, towards the reader, as the mean over its area; "
    "each luminance with the light that the face sends back. Contrast 3:1 is the least, 6:1 good, 10:1 best; "
    "where the bulbs are seen one by one, each stands out more. The mirror image in a glossy "
    "front comes on top."
)


def lights_caption(project: Project) -> str:
    """What must be said with the lights of a project."""
    return BARE_CAPTION if project.parts.bare else CAPTION


@dataclass(frozen=True)
class LightRow:
    """One light, as text; ``needs`` says what would make it readable."""

    light: str
    lux: str
    drive: str
    lit: str
    unlit: str
    face: str
    against_unlit: str
    against_face: str
    asked: str
    verdict: str
    limit: str
    needs: str


def light_rows(project: Project) -> tuple[LightRow, ...]:
    """The board in each light, dark to bright; none where there is no light to judge."""
    return tuple(_row(light) for light in project.lights)


def light_numbers(project: Project) -> list[dict[str, Any]]:
    """The same as numbers, for programs."""
    return [
        {
            "light": light.name,
            "ambient_lx": light.ambient_lx,
            "drive": light.share,
            "lit_cd_m2": light.lit_cd_m2,
            "unlit_cd_m2": light.unlit_cd_m2,
            "face_cd_m2": light.face_cd_m2,
            "contrast_unlit": light.against_unlit,
            "contrast_face": light.against_face,
            "asked_cd_m2": light.asked_cd_m2,
            "verdict": light.verdict,
            "limit": light.limit,
            "source": light.source,
        }
        for light in project.lights
    ]


def _row(light: InLight) -> LightRow:
    return LightRow(
        light=light.name,
        lux=plain_number(light.ambient_lx, 3),
        drive=f"{plain_number(100 * light.share, 2)} %" if light.share else "off",
        lit=plain_number(light.lit_cd_m2, 3),
        unlit=plain_number(light.unlit_cd_m2, 2),
        face=plain_number(light.face_cd_m2, 2),
        against_unlit=_ratio(light.against_unlit),
        against_face=_ratio(light.against_face),
        asked=plain_number(light.asked_cd_m2, 2),
        verdict=light.verdict if light.share else "switch off at night",
        limit=f"{plain_number(light.limit)}:1, {source(light.source).short}",
        needs=_needs(light),
    )


def _ratio(ratio: float) -> str:
    """A contrast, rounded down so that it never reaches a limit that it misses.

    Example:
        >>> _ratio(2.99), _ratio(247.3)
        ('2.9:1', '247:1')
    """
    return f"{math.floor(10 * ratio) / 10:.1f}:1" if ratio < 10 else f"{math.floor(ratio)}:1"


def _needs(light: InLight) -> str:
    if light.cure is None:
        return ""
    ways = [f"{rounded_up(light.cure.luminance_cd_m2)} cd/m²"]
    ways.append(f"tint of {percent_down(light.cure.tint)}")
    if light.cure.face:
        ways.append(f"face of {percent_down(light.cure.face)}")
    return " or ".join(ways)
