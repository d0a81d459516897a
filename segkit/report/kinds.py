"""The solved light of each kind of segment, as ``check`` and the build book print it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from segkit.optics.placement import Lighting
from segkit.optics.spread import FLUX_SIGMA, PLACE_SIGMA_MM
from segkit.project import Project
from segkit.units import plain_number

CAPTION = (
    "Solved for matt surfaces, before anything is cut. Evenness is the darkest spot over the mean light on "
    "the sheet; “as built” is what 19 of 20 segments reach when LEDs of one bag differ "
    f"({100 * FLUX_SIGMA:.0f} % sigma) and holes are off ({PLACE_SIGMA_MM:g} mm sigma), “alike” the dimmest "
    "over the brightest segment of the kind that 19 of 20 boards reach. Not modelled: LED bodies and holes, "
    "side lobes, spread inside the sheet, light leaking between pockets, heat."
)


@dataclass(frozen=True)
class KindRow:
    """One kind of segment, as text."""

    kind: str
    leds: str
    places: str
    luminance: str
    evenness: str
    built: str
    low_share: str
    alike: str
    efficiency: str
    unlit: str


def kind_rows(project: Project) -> tuple[KindRow, ...]:
    """The light of each kind of segment, in the order of the board."""
    return tuple(_row(project, lighting) for lighting in project.lightings.values())


def kind_numbers(project: Project) -> list[dict[str, Any]]:
    """The same as numbers, for programs; None where the diffuser does not go on."""
    return [
        {
            "kind": lighting.kind,
            "leds": lighting.count,
            "rows": lighting.rows,
            "pitch_mm": lighting.pitch_mm,
            "places_mm": lighting.places_mm,
            "luminance_cd_m2": project.luminance[lighting.kind],
            "evenness": lighting.evenness if lighting.front else None,
            "low_share": lighting.low_share if lighting.front else None,
            "evenness_built": lighting.spread.evenness if lighting.spread else None,
            "segment_ratio": lighting.spread.ratio if lighting.spread else None,
            "efficiency": lighting.efficiency,
            "unlit_reflectance": lighting.unlit_reflectance,
        }
        for lighting in project.lightings.values()
    ]


def _row(project: Project, lighting: Lighting) -> KindRow:
    low, expected, high = project.luminance[lighting.kind]
    drawn = lighting.spread
    return KindRow(
        kind=lighting.kind,
        leds=str(lighting.count),
        places=_places(lighting),
        luminance=f"{plain_number(expected, 3)} ({plain_number(low, 2)} to {plain_number(high, 2)})"
        if lighting.front
        else "none",
        evenness=f"{lighting.evenness:.2f}" if lighting.front else "",
        built=f"{drawn.evenness:.2f}" if drawn else "",
        low_share=f"{lighting.low_share:.2f}" if lighting.front else "",
        alike=f"{drawn.ratio:.2f}" if drawn and drawn.segments > 1 else "",
        efficiency=f"{100 * lighting.efficiency:.0f} %" if lighting.front else "",
        unlit=f"{100 * lighting.unlit_reflectance:.0f} %",
    )


def _places(lighting: Lighting) -> str:
    """How the LEDs stand, shortly."""
    outlines = len(lighting.places_mm)
    each = len(lighting.places_mm[0])
    apart = f", {plain_number(lighting.pitch_mm, 3)} mm apart" if lighting.pitch_mm else ""
    in_each = f" in each of {outlines} dots" if outlines > 1 else ""
    if each == 1:
        return f"in the middle{in_each}"
    if lighting.kind.endswith(("point", "colon")):
        return f"{'a pair' if each == 2 else f'a ring of {each}'}{apart}{in_each}"
    return f"{lighting.rows} row{'s' if lighting.rows > 1 else ''}{apart}{in_each}"
