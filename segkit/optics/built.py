"""One pocket as it is built: outline, LEDs, sheets; and what the lines of working share."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sheet
from segkit.geometry.polygon import Outline, Point
from segkit.optics import photometry
from segkit.optics.pocket import Pocket, PocketLight, cavity_estimate
from segkit.working import Given, Line

#: Reflectance of walls as built against the catalogue's: this much lower or higher.
WALL_SPREAD = 0.05

#: Transmittance of a diffuser of the same name from another maker: this share lower or higher.
DIFFUSER_SPREAD = 0.10

#: Lowest over typical intensity where the row gives no lowest one.
DEFAULT_LOWEST = 0.7

ESTIMATE_NOTE = (
    "estimate: mean of the segment by a sum over six zones; LED bodies, side lobes, spread in the sheet, "
    "light leaking between pockets and heat are not modelled"
)


@dataclass(frozen=True)
class Built:
    """One pocket as built: geometry, LED, current and sheets.

    Attributes:
        kind: ``Segment.kind``, for the names of the lines.
        outline, places: corners and LEDs in one frame, mm.
        depth_mm: from the back to the diffuser.
        led, current_a: part and current through one LED.
        walls, diffuser, front: sheets; the back has the reflectance of the walls.
    """

    kind: str
    outline: Outline
    places: tuple[Point, ...]
    depth_mm: float
    led: Led
    current_a: float
    walls: Sheet
    diffuser: Sheet
    front: Sheet | None


def named(what: str, kind: str) -> str:
    """Name of a worksheet line of a kind of segment.

    Example:
        >>> named("leds", "small upright")
        'optics.leds.small-upright'
    """
    return f"optics.{what}.{kind.replace(' ', '-')}"


def pocket_of(built: Built) -> Pocket:
    """Geometry and materials of the pocket, the back with the walls' reflectance."""
    return Pocket(
        outline=built.outline,
        depth_mm=built.depth_mm,
        tip_mm=built.led.tip_mm,
        wall_reflectance=built.walls.reflectance,
        back_reflectance=built.walls.reflectance,
        diffuser_reflectance=built.diffuser.reflectance,
        diffuser_transmittance=built.diffuser.transmittance,
    )


def light_of(built: Built, pocket: Pocket, wall_reflectance: float | None = None) -> PocketLight:
    """The pocket's light, with other walls if asked."""
    if wall_reflectance is not None:
        share = max(0.0, min(0.97, wall_reflectance))
        pocket = replace(pocket, wall_reflectance=share, back_reflectance=share)
    exponent = photometry.lobe_exponent(built.led.full_angle_deg)
    return cavity_estimate(pocket, places=built.places, exponent=exponent)


def lowest_of(led: Led) -> tuple[float, str]:
    """Lowest over typical intensity, and its source."""
    if led.intensity_cd > 0 and led.intensity_min_cd > 0:
        return min(1.0, led.intensity_min_cd / led.intensity_cd), led.source
    return DEFAULT_LOWEST, "led-bins"


def share_line(built: Built, light: PocketLight, *, diffuser_reflectance: float) -> Line:
    """Working of the light that reaches the diffuser.

    Args:
        built: the pocket, for the name.
        light: how its light goes.
        diffuser_reflectance: that the light was worked out with.
    """
    return Line(
        name=named("front_share", built.kind),
        title="light on the back of the diffuser per light of the LEDs, all bounces counted",
        symbol="k",
        value=light.front_per_flux,
        unit="",
        formula="(s + (1 - s)*e)/(1 - rho*Rc)",
        inputs=(
            Given("s", light.direct_share, "", "share that meets the diffuser first"),
            Given("e", light.wall_share, "", "share of the rest that comes by walls and back"),
            Given("rho", diffuser_reflectance, "", "reflectance of the diffuser"),
            Given("Rc", light.cavity_reflectance, "", "share of the light sent back that returns"),
        ),
        source="view-factor-handbook",
        note=f"{ESTIMATE_NOTE}; within {100 * light.miss:.0f} % of a full calculation on a reference pocket",
    )
