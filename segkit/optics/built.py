"""One pocket as it is built: outline, LEDs, sheets; and what the lines of working share."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sheet
from segkit.geometry.polygon import Outline, Point
from segkit.optics import photometry
from segkit.optics.pocket import Pocket, PocketLight
from segkit.optics.solver import pocket_light
from segkit.working import Given, Line

#: Reflectance of walls as built against the catalogue's: this much lower or higher.
WALL_SPREAD = 0.05

#: Transmittance of a diffuser of the same name from another maker: this share lower or higher.
DIFFUSER_SPREAD = 0.10

#: Lowest over typical intensity where the row gives no lowest one.
DEFAULT_LOWEST = 0.7

SOLVED_NOTE = (
    "solved with matt surfaces; LED bodies and holes, side lobes, spread in the sheet, light leaking between "
    "pockets and heat are not modelled"
)


@dataclass(frozen=True)
class Built:
    """One pocket as built: geometry, LED, current and sheets.

    Attributes:
        kind: ``Segment.kind``, for the names of the lines.
        outline, places: corners and LEDs in one frame, mm.
        depth_mm: from the back to the diffuser.
        led, current_a: part and current through one LED.
        walls, diffuser, front: sheets.
        reflector: sheet or lining of the back inside the pocket; that of the walls if None.
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
    reflector: Sheet | None = None

    @property
    def back(self) -> Sheet:
        """What the back of the pocket looks like."""
        return self.reflector or self.walls


def named(what: str, kind: str) -> str:
    """Name of a worksheet line of a kind of segment.

    Example:
        >>> named("leds", "small upright")
        'optics.leds.small-upright'
    """
    return f"optics.{what}.{kind.replace(' ', '-')}"


def pocket_of(built: Built) -> Pocket:
    """Geometry and materials of the pocket in visible light."""
    return Pocket(
        outline=built.outline,
        depth_mm=built.depth_mm,
        tip_mm=built.led.tip_mm,
        wall_reflectance=built.walls.reflectance,
        back_reflectance=built.back.reflectance,
        diffuser_reflectance=built.diffuser.reflectance,
        diffuser_transmittance=built.diffuser.transmittance,
    )


def light_of(built: Built, pocket: Pocket) -> PocketLight:
    """The light of the LEDs in a pocket."""
    exponent = photometry.lobe_exponent(built.led.full_angle_deg)
    return pocket_light(pocket, places=built.places, exponent=exponent)


def with_walls(pocket: Pocket, *, wall: float, back: float) -> Pocket:
    """The pocket with other reflectances, kept between 0 and 0.97."""
    low, high = (max(0.0, min(0.97, share)) for share in (wall, back))
    return replace(pocket, wall_reflectance=low, back_reflectance=high)


def lowest_of(led: Led) -> tuple[float, str]:
    """Lowest over typical intensity, and its source."""
    if led.intensity_cd > 0 and led.intensity_min_cd > 0:
        return min(1.0, led.intensity_min_cd / led.intensity_cd), led.source
    return DEFAULT_LOWEST, "led-bins"


def share_lines(
    built: Built, light: PocketLight, *, pocket: Pocket, leaving: float, taken: bool = False
) -> tuple[Line, ...]:
    """Working of the light that reaches the diffuser, and of what of it leaves.

    Args:
        built: the pocket, for the name.
        light: how its light goes.
        pocket: what the light was worked out with.
        leaving: share of the light on the diffuser that comes out of it or that it takes up, 0 to 1.
        taken: whether the sheet takes it up to glow by it, instead of giving it on.
    """
    does = "takes up to glow by it" if taken else "gives on"
    falling = Line(
        name=named("front_share", built.kind),
        title="light on the back of the diffuser per light of the LEDs, all bounces counted",
        symbol="k",
        value=light.front_per_flux,
        unit="",
        formula="(1 - w - b)/(1 - rho)",
        inputs=(
            Given("w", light.wall_loss, "", "share of the LEDs' light that ends in the walls, solved"),
            Given("b", light.back_loss, "", "share that ends in the back, solved"),
            Given("rho", pocket.diffuser_reflectance, "", "reflectance of the diffuser"),
        ),
        source="radiosity",
        note=f"{SOLVED_NOTE}; {100 * light.direct_share:.0f} % of the light meets the diffuser first",
    )
    out = Line(
        name=named("efficiency", built.kind),
        title=f"share of the LEDs' light that the diffuser {does}",
        symbol="eta",
        value=leaving * light.front_per_flux,
        unit="",
        formula="a*k" if taken else "tau*k",
        inputs=(
            Given("a" if taken else "tau", leaving, "", f"share of the light on it that the sheet {does}"),
            Given("k", light.front_per_flux, "", "light on it per light of the LEDs"),
        ),
        source="fluorescence-model" if taken else "radiosity",
        note="far less of it comes out as light of the sheet" if taken else "before a tinted front",
    )
    return falling, out
