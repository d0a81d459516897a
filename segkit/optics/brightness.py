"""Mean luminance of a lit segment and reflectance of the unlit one, each with its band and its working."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.optics import diffuser as sheets
from segkit.optics import photometry
from segkit.optics.built import (
    DIFFUSER_SPREAD,
    SOLVED_NOTE,
    WALL_SPREAD,
    Built,
    light_of,
    lowest_of,
    named,
    pocket_of,
    share_lines,
    with_walls,
)
from segkit.optics.glow import fluorescent_light
from segkit.optics.pocket import SOLVER_MISS, PocketLight, plain_cavity, unlit_reflectance
from segkit.working import Given, Line

ON_THE_BACK = "mean light on the back of the diffuser"


@dataclass(frozen=True)
class Brightness:
    """What the eye gets.

    Attributes:
        luminance_cd_m2: low, expected, high.
        unlit_reflectance: of the segment when off, through the front if there is one.
        efficiency: share of the LEDs' light that the diffuser gives on; for a fluorescent sheet, the share
            that it takes up.
        light: of the pocket that the luminance follows; for a fluorescent sheet in the LED's own light.
        lines, findings: working, and what is to be said.
    """

    luminance_cd_m2: tuple[float, float, float]
    unlit_reflectance: float
    efficiency: float
    light: PocketLight
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...] = ()


def brightness(built: Built) -> Brightness:
    """Luminance and unlit reflectance of one pocket; fluorescent where LED and sheet go together.

    Args:
        built: the pocket; its tip height below its depth.

    Raises:
        InputError: as in ``solver.pocket_light`` and ``photometry.led_flux``.
    """
    light = light_of(built, pocket_of(built))
    unlit, unlit_line = _unlit(built, light)
    if sheets.excites(built.led, built.diffuser):
        glow = fluorescent_light(built, light)
        lines = (*glow.lines, unlit_line)
        return Brightness(glow.luminance_cd_m2, unlit, glow.taken, glow.light, lines, glow.findings)
    luminance, lines = _scattered(built, light)
    efficiency = built.diffuser.transmittance * light.front_per_flux
    return Brightness(luminance, unlit, efficiency, light, (*lines, unlit_line))


def _unlit(built: Built, light: PocketLight) -> tuple[float, Line]:
    _, twice = sheets.through_front(built.front)
    rho, tau, returned = built.diffuser.reflectance, built.diffuser.transmittance, light.cavity_reflectance
    value = twice * unlit_reflectance(
        diffuser_reflectance=rho, diffuser_transmittance=tau, cavity_reflectance=returned
    )
    glow = "; a fluorescent sheet also glows in daylight" if sheets.fluoresces(built.diffuser) else ""
    mirror = "; the glossy front mirrors about 4 % of what stands before it on top" if built.front else ""
    line = Line(
        name=named("unlit_reflectance", built.kind),
        title="reflectance of the unlit segment, seen from outside",
        symbol="R_off",
        value=value,
        unit="",
        formula="T**2*(rho + tau**2*Rc/(1 - rho*Rc))",
        inputs=(
            Given("T", math.sqrt(twice), "", "transmission of the front, 1 for none"),
            Given("rho", rho, "", "reflectance of the diffuser"),
            Given("tau", tau, "", "transmittance of the diffuser"),
            Given("Rc", returned, "", "share of light sent into the pocket that returns"),
        ),
        source="radiosity",
        note=f"solved{glow}{mirror}",
    )
    return value, line


def _scattered(built: Built, light: PocketLight) -> tuple[tuple[float, float, float], tuple[Line, ...]]:
    """Luminance of a diffusing sheet: ``T tau E / pi``."""
    flux = photometry.led_flux(built.led, current_a=built.current_a)
    area = pocket_of(built).front_area_mm2
    count = len(built.places)
    signal, _ = sheets.through_front(built.front)
    tau = built.diffuser.transmittance
    lux = light.front_per_flux * count * flux / area * 1e6
    value = signal * photometry.diffuse_luminance(illuminance_lx=lux, factor=tau)
    band, band_lines = _band(built, light, value)
    lines = (
        *share_lines(built, light, pocket=pocket_of(built), leaving=built.diffuser.transmittance),
        _illuminance_line(built, light, flux_lm=flux, value_lx=lux),
        _plain_line(built, count * flux),
        _luminance_line(built, signal=signal, illuminance_lx=lux, value_cd_m2=value),
    )
    return band, (*lines, *band_lines)


def _illuminance_line(built: Built, light: PocketLight, *, flux_lm: float, value_lx: float) -> Line:
    return Line(
        name=named("illuminance", built.kind),
        title=ON_THE_BACK,
        symbol="E",
        value=value_lx,
        unit="lx",
        formula="k*n*Phi/A*1000000",
        inputs=(
            Given("k", light.front_per_flux, "", "light on the diffuser per light of the LEDs"),
            Given("n", len(built.places), "", "LEDs in one outline"),
            Given("Phi", flux_lm, "lm", "light of one LED"),
            Given("A", pocket_of(built).front_area_mm2, "mm2", "area of the outline"),
        ),
        source="radiosity",
        note=SOLVED_NOTE,
    )


def _luminance_line(built: Built, *, signal: float, illuminance_lx: float, value_cd_m2: float) -> Line:
    return Line(
        name=named("luminance", built.kind),
        title="mean luminance of the lit segment",
        symbol="L",
        value=value_cd_m2,
        unit="cd/m2",
        formula="T*tau*E/pi",
        inputs=(
            Given("T", signal, "", "transmission of the front, 1 for none"),
            Given("tau", built.diffuser.transmittance, "", "transmittance of the diffuser"),
            Given("E", illuminance_lx, "lx", ON_THE_BACK),
        ),
        source="lambert-surface",
        note=SOLVED_NOTE,
    )


def _plain_line(built: Built, flux_lm: float) -> Line:
    """The sphere rule beside our own figure, so that it can be seen how far off it is."""
    pocket = pocket_of(built)
    area, wall, rd = pocket.front_area_mm2, pocket.wall_area_mm2, pocket.diffuser_reflectance
    rho_w, rho_b = pocket.wall_reflectance, pocket.back_reflectance
    value = plain_cavity(
        flux_lm=flux_lm,
        front_area_mm2=area,
        wall_area_mm2=wall,
        back_area_mm2=area,
        wall_reflectance=rho_w,
        back_reflectance=rho_b,
        diffuser_reflectance=rd,
    )
    return Line(
        name=named("plain_cavity", built.kind),
        title="the same by the integrating-sphere rule, to compare with",
        symbol="E_0",
        value=value,
        unit="lx",
        formula="Phi/(A*(1 - rho_d) + W*(1 - rho_w) + A*(1 - rho_b))*1000000",
        inputs=(
            Given("Phi", flux_lm, "lm", "light of all LEDs in one outline"),
            Given("A", area, "mm2", "area of the outline"),
            Given("W", wall, "mm2", "area of the walls"),
            Given("rho_d", rd, "", "reflectance of the diffuser"),
            Given("rho_w", rho_w, "", "reflectance of the walls"),
            Given("rho_b", rho_b, "", "reflectance of the back"),
        ),
        source="sphere-sum",
        note="not used: it is 16 to 36 % too low in a white pocket, since the diffuser is met first",
    )


def _band(
    built: Built, light: PocketLight, value: float
) -> tuple[tuple[float, float, float], tuple[Line, ...]]:
    """Low and high luminance from LED bins, walls, diffuser and the miss of the method."""
    pocket = pocket_of(built)
    darker, whiter = (
        light_of(
            built,
            with_walls(pocket, wall=pocket.wall_reflectance + step, back=pocket.back_reflectance + step),
        ).front_per_flux
        / light.front_per_flux
        for step in (-WALL_SPREAD, WALL_SPREAD)
    )
    lowest, bin_source = lowest_of(built.led)
    parts = (
        ("low", lowest, darker, 1 - DIFFUSER_SPREAD, 1 - SOLVER_MISS),
        ("high", 1.0, whiter, 1 + DIFFUSER_SPREAD, 1 + SOLVER_MISS),
    )
    ends = [value * bins * walls * sheet * miss for _, bins, walls, sheet, miss in parts]
    lines = tuple(
        Line(
            name=named(f"luminance_{end}", built.kind),
            title=f"{end} end of the mean luminance",
            symbol=f"L_{end}",
            value=ends[index],
            unit="cd/m2",
            formula="L*b*w*d*c",
            inputs=(
                Given("L", value, "cd/m2", "expected mean luminance"),
                Given("b", bins, "", "intensity of the LED against the typical one"),
                Given(
                    "w", walls, "", f"walls and back {WALL_SPREAD:g} {'darker' if end == 'low' else 'whiter'}"
                ),
                Given("d", sheet, "", "diffuser of another make"),
                Given("c", miss, "", "miss of the method against a tracing of photons"),
            ),
            source=bin_source if end == "low" else "pocket-study",
            note="what bins, walls and sheets of another make leave open",
        )
        for index, (end, bins, walls, sheet, miss) in enumerate(parts)
    )
    return (ends[0], value, ends[1]), lines
