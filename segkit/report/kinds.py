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

#: The same for push-in bulbs.
BARE_CAPTION = (
    "Bare bulbs: the light of all bulbs of a segment towards the reader over the area of the segment, with "
    "that of the dimmest and of typical bulbs in brackets. It is what the eye takes for luminance from where "
    "the bulbs run together; nearer, they are points far brighter than that. Evenness, share of light used "
    "and light of unlit neighbours are not given: they belong to a pocket and its diffuser, and there is "
    "neither. An unlit segment reflects what the face reflects. Not modelled: side lobes, heat."
)


def kinds_caption(project: Project) -> str:
    """What must be said with the light of the kinds of a project."""
    return BARE_CAPTION if project.parts.bare else CAPTION


@dataclass(frozen=True)
class KindRow:
    """One kind of segment, as text; what a board of push-in bulbs has not, or a pocket, is empty."""

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
    merges: str = ""


def kind_rows(project: Project) -> tuple[KindRow, ...]:
    """The light of each kind of segment, in the order of the board."""
    return tuple(_row(project, lighting) for lighting in project.lightings.values())


def kind_numbers(project: Project) -> list[dict[str, Any]]:
    """The same as numbers, for programs; None where the diffuser does not go on, or there is none."""
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
            **({"merges_from_m": project.merging.distance_m.get(lighting.kind)} if lighting.dots else {}),
        }
        for lighting in project.lightings.values()
    ]


def _row(project: Project, lighting: Lighting) -> KindRow:
    low, expected, high = project.luminance[lighting.kind]
    drawn, merges_m = lighting.spread, project.merging.distance_m.get(lighting.kind)
    return KindRow(
        kind=lighting.kind,
        leds=str(lighting.count),
        places=_places(lighting),
        luminance=f"{plain_number(expected, 3)} ({plain_number(low, 2)} to {plain_number(high, 2)})"
        if lighting.front or lighting.dots
        else "none",
        evenness=_shown(lighting.evenness, lighting),
        built=f"{drawn.evenness:.2f}" if drawn else "",
        low_share=_shown(lighting.low_share, lighting),
        alike=f"{drawn.ratio:.2f}" if drawn and drawn.segments > 1 else "",
        efficiency=f"{100 * lighting.efficiency:.0f} %" if lighting.front and lighting.efficiency else "",
        unlit=f"{100 * lighting.unlit_reflectance:.0f} %",
        merges=f"{plain_number(merges_m, 3)} m" if merges_m else "",
    )


def _shown(share: float | None, lighting: Lighting) -> str:
    return f"{share:.2f}" if lighting.front and share is not None else ""


def _places(lighting: Lighting) -> str:
    """How the LEDs stand, shortly."""
    outlines = len(lighting.places_mm)
    each = len(lighting.places_mm[0])
    apart = f", {plain_number(lighting.pitch_mm, 3)} mm apart" if lighting.pitch_mm else ""
    in_each = f" in each of {outlines} dots" if outlines > 1 else ""
    if each == 1:
        return f"in the middle{in_each}"
    if lighting.dots:
        return f"in a row{apart}"
    if lighting.kind.endswith(("point", "colon")):
        return f"{'a pair' if each == 2 else f'a ring of {each}'}{apart}{in_each}"
    return f"{lighting.rows} row{'s' if lighting.rows > 1 else ''}{apart}{in_each}"
