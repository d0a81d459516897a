"""A pocket under a fluorescent sheet: worked out in watts, then turned into the sheet's own light."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from segkit.catalog.part import Sheet
from segkit.findings import Finding
from segkit.optics import diffuser as sheets
from segkit.optics import photometry
from segkit.optics.built import (
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
from segkit.optics.pocket import Pocket, PocketLight
from segkit.units import plain_number
from segkit.working import Given, Line

GLOW_NOTE = "estimate, a bracket and no value: self-absorption and fading of the dye are not modelled"

#: Near-ultraviolet at the eye that is no hazard for longer than 1000 s, W/m2 (iec-62471).
LONG_UV_W_M2 = 10.0


@dataclass(frozen=True, eq=False)
class GlowingLight:
    """What a fluorescent sheet makes of the LEDs' light.

    Attributes:
        luminance_cd_m2: low, expected (the middle of the bracket), high.
        taken: share of the LEDs' light that the sheet takes up.
        light: of the pocket in the LED's own light; the luminance follows its map.
        lines, findings: working, and what is to be said.
    """

    luminance_cd_m2: tuple[float, float, float]
    taken: float
    light: PocketLight
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...] = ()


def pockets_in_led_light(built: Built) -> tuple[Pocket, ...]:
    """The pocket as the LED's own light meets it: darkest, expected and whitest walls.

    Args:
        built: the pocket.
    """
    pocket = replace(
        pocket_of(built), diffuser_reflectance=sheets.SURFACE_REFLECTANCE, diffuser_transmittance=0.0
    )
    return tuple(
        with_walls(pocket, wall=wall, back=back)
        for wall, back in zip(
            _in_its_light(built, built.walls), _in_its_light(built, built.back), strict=True
        )
    )


def fluorescent_light(built: Built, light: PocketLight) -> GlowingLight:
    """Luminance of a fluorescent sheet; the pocket is solved again in the LED's own light.

    Args:
        built: the pocket.
        light: its light in the sheet's own colour, for what leaves backwards and returns.
    """
    power = photometry.led_radiant_power(built.led, current_a=built.current_a)
    pockets = pockets_in_led_light(built)
    area, count = pockets[1].front_area_mm2, len(built.places)
    signal, _ = sheets.through_front(built.front)
    lights = [light_of(built, each) for each in pockets]
    low, expected, high = (each.front_per_flux * count * power / area * 1e6 for each in lights)
    glow = sheets.fluorescent_glow(
        irradiance_w_m2=(low, expected, high),
        excitation_nm=built.led.wavelength_nm,
        emission_nm=built.diffuser.emission_nm,
        cavity_reflectance=light.cavity_reflectance,
    )
    lowest, _ = lowest_of(built.led)
    ends = tuple(signal * value for value in glow.luminance_cd_m2)
    band = (lowest * ends[0], ends[1], ends[2])
    absorbed, leaks = glow.factors[0], _leaks(built, signal=signal, irradiance_w_m2=(expected, high))
    lines = (
        *share_lines(built, lights[1], pocket=pockets[1], leaving=absorbed, taken=True),
        _watts_line(built, light_on_sheet=lights[1].front_per_flux, power_w=power, irradiance_w_m2=expected),
        _glow_line(built, glow, signal=signal, irradiance_w_m2=expected),
        *_glow_ends(built, expected_cd_m2=band[1], excitation=(low / expected, high / expected)),
        *leaks,
    )
    told = (_bracket(), *((leak_finding(built.kind, leaks[1].value),) if leaks else ()))
    findings = tuple(finding for finding in told if finding)
    return GlowingLight(band, absorbed * lights[1].front_per_flux, lights[1], lines, findings)


def _leaks(built: Built, *, signal: float, irradiance_w_m2: tuple[float, float]) -> tuple[Line, ...]:
    """Violet that comes through the sheet, as expected and at most; nothing for LEDs well seen."""
    if not sheets.near_ultraviolet(built.led):
        return ()
    ends = (("", "", sheets.ABSORBED[1]), ("_high", ", at most", sheets.ABSORBED[0]))
    return tuple(
        Line(
            name=named(f"violet_leak{end}", built.kind),
            title=f"violet of the LEDs that comes through the sheet, at its surface{words}",
            symbol=f"E_v{end}",
            value=signal * irradiance * (1 - absorbed) * (1 - sheets.SURFACE_REFLECTANCE),
            unit="W/m2",
            formula="T*E_x*(1 - a)*(1 - r)",
            inputs=(
                Given("T", signal, "", "transmission of the front, 1 for none"),
                Given("E_x", irradiance, "W/m2", "excitation on the sheet"),
                Given("a", absorbed, "", "share taken up"),
                Given("r", sheets.SURFACE_REFLECTANCE, "", "reflectance of the sheet's surface"),
            ),
            source="fluorescence-model",
            note="an order of magnitude; further away it is far less",
        )
        for (end, words, absorbed), irradiance in zip(ends, irradiance_w_m2, strict=True)
    )


def leak_finding(kind: str, most_w_m2: float) -> Finding | None:
    """A caution where more violet may come through than an eye close to the sheet should get for long.

    Args:
        kind: ``Segment.kind``.
        most_w_m2: at the surface of the sheet, at most, W/m2.

    Sources: iec-62471 (10 W/m2 beyond 1000 s).

    Example:
        >>> leak_finding("upright", 2.0) is None, leak_finding("upright", 20.0).limit
        (True, 10.0)
    """
    if most_w_m2 <= LONG_UV_W_M2:
        return None
    return Finding(
        level="caution",
        code="violet-leak",
        subject=f"{kind} segments",
        text=f"Up to {plain_number(most_w_m2, 2)} W/m² of the LEDs' violet may come through the sheet; an "
        f"eye right at it should not get more than {LONG_UV_W_M2:g} W/m² for longer than a quarter of an "
        "hour.",
        value=round(most_w_m2, 3),
        limit=LONG_UV_W_M2,
        unit="W/m2",
        source="iec-62471",
        remedy="Take less current or fewer LEDs, or lay a sheet that stops violet over the front; keep eyes "
        "half a metre away at least while it is lit. This is an order of magnitude, no test of safety.",
    )


def _bracket() -> Finding:
    """That the glow is a bracket, and what daylight does to it; in the same words for all kinds."""
    (low, high), (least, _, most) = sheets.YIELD_TIMES_ESCAPE, sheets.ABSORBED
    apart = high / low * most / least
    return Finding(
        level="note",
        code="glow-is-a-bracket",
        subject="diffuser",
        text="How bright a fluorescent sheet glows is known only between a low and a high value, "
        f"{apart:.0f} times apart or more; contrasts are counted with the middle. In daylight the sheet also "
        "glows when it is off, so unlit segments look brighter than counted.",
        value=None,
        limit=None,
        source="fluorescence-model",
        remedy="Light one piece before you cut them all, and look at it lit and unlit in the light it must "
        "be read in.",
    )


def _in_its_light(built: Built, sheet: Sheet) -> tuple[float, ...]:
    """Reflectance of walls or back in the LED's light: low, expected, high."""
    if sheets.near_ultraviolet(built.led):
        return sheets.reflectance_at_400(sheet)
    return tuple(sheet.reflectance + step for step in (-WALL_SPREAD, 0.0, WALL_SPREAD))


def _watts_line(built: Built, *, light_on_sheet: float, power_w: float, irradiance_w_m2: float) -> Line:
    violet = sheets.near_ultraviolet(built.led)
    walls = ", walls as at 400 nm" if violet else ""
    return Line(
        name=named("irradiance", built.kind),
        title="mean excitation on the back of the sheet",
        symbol="E_x",
        value=irradiance_w_m2,
        unit="W/m2",
        formula="k*n*P/A*1000000",
        inputs=(
            Given("k", light_on_sheet, "", f"light on the sheet per light of the LEDs{walls}"),
            Given("n", len(built.places), "", "LEDs in one outline"),
            Given("P", power_w, "W", "radiant power of one LED"),
            Given("A", pocket_of(built).front_area_mm2, "mm2", "area of the outline"),
        ),
        source="white-at-400" if violet else "radiosity",
        note=SOLVED_NOTE,
    )


def _glow_line(built: Built, glow: sheets.Glow, *, signal: float, irradiance_w_m2: float) -> Line:
    absorbed, yields, shift, weight, gain = glow.factors
    return Line(
        name=named("luminance", built.kind),
        title="mean luminance of the glowing segment, middle of the bracket",
        symbol="L",
        value=signal * glow.luminance_cd_m2[1],
        unit="cd/m2",
        formula="T*683*V*E_x*a*q*s*(1 + g)/pi",
        inputs=(
            Given("T", signal, "", "transmission of the front, 1 for none"),
            Given("V", weight, "", "sensitivity of the eye to the sheet's light"),
            Given("E_x", irradiance_w_m2, "W/m2", "excitation on the sheet"),
            Given("a", absorbed, "", "share taken up"),
            Given("q", yields, "", "quantum yield times escape by the front, 0.08 to 0.35"),
            Given("s", shift, "", "wavelength of the LED over that of the sheet"),
            Given("g", gain, "", "share of the backward light that returns"),
        ),
        source="fluorescence-model",
        note=GLOW_NOTE,
    )


def _glow_ends(built: Built, *, expected_cd_m2: float, excitation: tuple[float, float]) -> tuple[Line, ...]:
    """Both ends of the bracket: LED, excitation, absorption and yield at the ends of their ranges."""
    lowest, _ = lowest_of(built.led)
    taken, yields = sheets.ABSORBED, sheets.YIELD_TIMES_ESCAPE
    middle = math.sqrt(yields[0] * yields[1])
    parts = (
        ("low", lowest, excitation[0], taken[0] / taken[1], yields[0] / middle),
        ("high", 1.0, excitation[1], taken[2] / taken[1], yields[1] / middle),
    )
    return tuple(
        Line(
            name=named(f"luminance_{end}", built.kind),
            title=f"{end} end of the mean luminance",
            symbol=f"L_{end}",
            value=expected_cd_m2 * bins * walls * absorbed * out,
            unit="cd/m2",
            formula="L*b*w*a*q",
            inputs=(
                Given("L", expected_cd_m2, "cd/m2", "middle of the bracket"),
                Given("b", bins, "", "light of the LED against the typical one"),
                Given("w", walls, "", "excitation with the walls at the end of their range"),
                Given("a", absorbed, "", "share taken up against the expected one"),
                Given("q", out, "", "yield times escape against the middle"),
            ),
            source="fluorescence-model",
            note=GLOW_NOTE,
        )
        for end, bins, walls, absorbed, out in parts
    )
