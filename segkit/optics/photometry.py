"""Candela, lumen, lux and candela per square metre; the eye's curve; the lobe of an LED."""

from __future__ import annotations

import math

from segkit.catalog.part import Led
from segkit.errors import InputError, Problem
from segkit.findings import Finding

#: Luminous efficacy of 540 THz light (555 nm in air), lm/W, fixed by the definition of the candela.
PEAK_EFFICACY_LM_PER_W = 683.0

#: Widest and narrowest full beam angle that the lobe model is used for, degrees.
BEAM_RANGE_DEG = (1.0, 179.0)

#: Narrowest beam that a pocket is solved for: exponent, and full angle in degrees (m = 284 at 8 degrees).
NARROWEST_EXPONENT, NARROWEST_DEG = 300.0, 8.0

#: Full angles below this are rarer than a half angle printed in the place of a full one (common practice).
SUSPECT_ANGLE_DEG = 15.0

#: The same for an LED with a diffused body.
SUSPECT_DIFFUSED_DEG = 35.0

#: V(lambda) of the 1924 observer from 380 nm in steps of 5 nm.
_V_START_NM, _V_STEP_NM = 380, 5
_V = (
    0.000039, 0.000064, 0.00012, 0.000217, 0.000396, 0.00064, 0.00121, 0.00218, 0.004, 0.0073,
    0.0116, 0.01684, 0.023, 0.0298, 0.038, 0.048, 0.06, 0.0739, 0.09098, 0.1126,
    0.13902, 0.1693, 0.20802, 0.2586, 0.323, 0.4073, 0.503, 0.6082, 0.71, 0.7932,
    0.862, 0.91485, 0.954, 0.9803, 0.99495, 1.0, 0.995, 0.9786, 0.952, 0.9154,
    0.87, 0.8163, 0.757, 0.6949, 0.631, 0.5668, 0.503, 0.4412, 0.381, 0.321,
    0.265, 0.217, 0.175, 0.1382, 0.107, 0.0816, 0.061, 0.04458, 0.032, 0.0232,
    0.017, 0.01192, 0.00821, 0.005723, 0.004102, 0.002929, 0.002091, 0.001484, 0.001047, 0.00074,
    0.00052, 0.0003611, 0.0002492, 0.0001719, 0.00012, 0.0000848, 0.00006, 0.0000424, 0.00003, 0.0000212,
    0.000015,
)  # fmt: skip


def lobe_exponent(full_angle_deg: float) -> float:
    """Exponent m of the lobe ``I(a) = I0 cos(a)^m`` from the full angle at half intensity.

    Formula: ``m = -ln 2 / ln cos(full/2)``. Side lobes of domed LEDs are not in the model.

    Args:
        full_angle_deg: full angle between the two directions of half intensity, 1 to 179 degrees.

    Raises:
        InputError: the angle is outside 1 to 179 degrees.

    Sources: moreno-2006.

    Example:
        >>> round(lobe_exponent(120), 3), round(lobe_exponent(30), 3)
        (1.0, 19.994)
    """
    low, high = BEAM_RANGE_DEG
    if not low <= full_angle_deg <= high:
        raise InputError(
            Problem(
                "no full beam angle of an LED.",
                key="full_angle_deg",
                value=f"{full_angle_deg:g} deg",
                limit=f"{low:g} to {high:g} deg",
                remedy="Give the full angle at half intensity; twice the value if the data sheet says ±.",
            )
        )
    return -math.log(2) / math.log(math.cos(math.radians(full_angle_deg / 2)))


def refuse_beam(exponent: float) -> None:
    """Raise InputError for a beam too narrow for a light box; both readings of its angle are named.

    Args:
        exponent: m of ``lobe_exponent``, 0 to 300.

    Raises:
        InputError: the exponent is outside its range.

    Example:
        >>> refuse_beam(lobe_exponent(8))
    """
    if 0 <= exponent <= NARROWEST_EXPONENT:
        return
    if not exponent > 0:
        raise InputError(
            Problem(
                "no beam of an LED.",
                key="pocket.led.angle",
                value=f"lobe exponent {exponent:.4g}",
                limit=f"0 to {NARROWEST_EXPONENT:g}",
                remedy="Give the full angle at half intensity, below 180 deg.",
            )
        )
    full = 2 * math.degrees(math.acos(2 ** (-1 / exponent)))
    raise InputError(
        Problem(
            "the beam is too narrow to light a pocket.",
            key="pocket.led.angle",
            value=f"{full:.2g} deg",
            limit=f"full angle of {NARROWEST_DEG:g} deg or more",
            remedy=f"If the data sheet says ±{full:.2g} deg, that is the half angle: enter {2 * full:.2g} "
            "deg. If it is the full angle, take an LED with a wider beam.",
        )
    )


def intensity(*, axis_cd: float, angle_deg: float, exponent: float) -> float:
    """Intensity [cd] at an angle off the axis: ``I0 cos(a)^m``, nothing at 90 degrees and beyond.

    Args:
        axis_cd: intensity on the axis, cd.
        angle_deg: angle from the axis, degrees.
        exponent: m of ``lobe_exponent``.

    Example:
        >>> round(intensity(axis_cd=2.0, angle_deg=15, exponent=lobe_exponent(30)), 6)
        1.0
    """
    if abs(angle_deg) >= 90:
        return 0.0
    return float(axis_cd * math.cos(math.radians(angle_deg)) ** exponent)


def lobe_flux(*, axis_cd: float, exponent: float) -> float:
    """Flux [lm] of the whole lobe: ``2 pi I0 / (m + 1)``.

    Args:
        axis_cd: intensity on the axis, cd.
        exponent: m of ``lobe_exponent``.

    Example:
        >>> round(lobe_flux(axis_cd=5.0, exponent=lobe_exponent(60)), 2)
        5.4
    """
    return 2 * math.pi * axis_cd / (exponent + 1)


def cone_flux(*, axis_cd: float, full_angle_deg: float) -> float:
    """Flux [lm] by the shop formula ``2 pi (1 - cos(full/2)) I0``, only to show how far off it is.

    It takes the beam for a cone of even intensity: 28 % too low for a 30 degree LED, right for 120.

    Args:
        axis_cd: intensity on the axis, cd.
        full_angle_deg: full angle at half intensity, 1 to 179 degrees.

    Example:
        >>> true = lobe_flux(axis_cd=1.0, exponent=lobe_exponent(30))
        >>> round(cone_flux(axis_cd=1.0, full_angle_deg=30) / true - 1, 3)
        -0.285
    """
    return 2 * math.pi * (1 - math.cos(math.radians(full_angle_deg / 2))) * axis_cd


def diffuse_luminance(*, illuminance_lx: float, factor: float) -> float:
    """Luminance [cd/m2] of a matt surface or a diffusing sheet: ``L = factor E / pi``.

    Args:
        illuminance_lx: light that falls on it, lx.
        factor: reflectance (light from the viewer's side) or transmittance (from behind), 0 to 1.

    Sources: lambert-surface.

    Example:
        >>> round(diffuse_luminance(illuminance_lx=1000, factor=0.5))
        159
    """
    return factor * illuminance_lx / math.pi


def beam_width(*, gap_mm: float, full_angle_deg: float) -> float:
    """Width [mm] of the half-intensity cone of one LED on a sheet: ``2 z tan(full/2)``.

    Args:
        gap_mm: height of the sheet above the tip, mm.
        full_angle_deg: full angle at half intensity, 1 to 179 degrees.

    Example:
        >>> round(beam_width(gap_mm=15, full_angle_deg=120))
        52
    """
    return 2 * gap_mm * math.tan(math.radians(full_angle_deg / 2))


def photopic(wavelength_nm: float) -> float:
    """Sensitivity V of the eye in daylight, 0 to 1; 0 outside 380 to 780 nm.

    The table of the 1924 observer in steps of 5 nm, interpolated in the logarithm.

    Args:
        wavelength_nm: wavelength, nm.

    Sources: cie-v-lambda.

    Example:
        >>> photopic(555), photopic(470), photopic(1000)
        (1.0, 0.09098, 0.0)
    """
    place = (wavelength_nm - _V_START_NM) / _V_STEP_NM
    if not 0 <= place <= len(_V) - 1:
        return 0.0
    lower = min(int(place), len(_V) - 2)
    part = place - lower
    if part == 0:
        return _V[lower]
    return math.exp((1 - part) * math.log(_V[lower]) + part * math.log(_V[lower + 1]))


def lumens_per_watt(wavelength_nm: float) -> float:
    """Lumens in one watt of light of one wavelength: ``683 V``.

    Args:
        wavelength_nm: wavelength, nm.

    Sources: cie-v-lambda.

    Example:
        >>> round(lumens_per_watt(625), 1), round(lumens_per_watt(660), 1)
        (219.2, 41.7)
    """
    return PEAK_EFFICACY_LM_PER_W * photopic(wavelength_nm)


def led_flux(led: Led, *, current_a: float) -> float:
    """Flux [lm] of one LED at a current, by the lobe and intensity in proportion to the current.

    Real LEDs give a little less than in proportion above their test current (heat) and a little more
    below. An LED without an intensity figure gets its flux from its radiant power and V(lambda).

    Args:
        led: catalogue row.
        current_a: current through it, A, above 0.

    Raises:
        InputError: the row has neither an intensity nor a radiant power, the current is not above 0 or
            the beam angle is none.
    """
    _refuse_current(current_a)
    exponent = lobe_exponent(led.full_angle_deg)
    if led.intensity_cd > 0 and led.intensity_current_a > 0:
        axis_cd = led.intensity_cd * current_a / led.intensity_current_a
        return lobe_flux(axis_cd=axis_cd, exponent=exponent)
    return led_radiant_power(led, current_a=current_a) * lumens_per_watt(led.wavelength_nm)


def led_radiant_power(led: Led, *, current_a: float) -> float:
    """Radiant power [W] of one LED at a current, in proportion to the current.

    Without a figure in the row it comes from the flux: ``P = flux / (683 V)``.

    Args:
        led: catalogue row.
        current_a: current through it, A, above 0.

    Raises:
        InputError: the row has no radiant power and no intensity at a wavelength the eye sees.
    """
    _refuse_current(current_a)
    if led.radiant_power_w > 0 and led.test_current_a > 0:
        return led.radiant_power_w * current_a / led.test_current_a
    efficacy = lumens_per_watt(led.wavelength_nm)
    if not (led.intensity_cd > 0 and led.intensity_current_a > 0 and efficacy > 0):
        raise InputError(
            Problem(
                f'the LED "{led.id}" has no figure for its light at {led.wavelength_nm:g} nm.',
                key="led",
                remedy="Give its intensity with the current it was measured at, or its radiant power.",
            )
        )
    return led_flux(led, current_a=current_a) / efficacy


def angle_note(led: Led) -> Finding | None:
    """A note when the beam angle looks like a half angle, with both readings; None otherwise.

    Args:
        led: catalogue row with an intensity.

    Raises:
        InputError: the beam angle is outside 1 to 179 degrees.
    """
    full = led.full_angle_deg
    diffused = "diffused" in f"{led.id} {led.name}".lower()
    limit = SUSPECT_DIFFUSED_DEG if diffused else SUSPECT_ANGLE_DEG
    if full >= limit:
        lobe_exponent(full)
        return None
    as_full, as_half = (
        lobe_flux(axis_cd=led.intensity_cd or 1.0, exponent=lobe_exponent(angle))
        for angle in (full, 2 * full)
    )
    return Finding(
        level="note",
        code="half-angle-given",
        subject="LED",
        text=f"The beam angle {full:g} deg of {led.name} looks like a half angle. Read as the full angle it "
        f"gives {as_full:.2g} lm at its test current; read as ±{full:g} deg (full angle {2 * full:g} deg) "
        f"{as_half:.2g} lm. The full angle is what was counted with.",
        value=full,
        limit=limit,
        unit="deg",
        source="common-practice",
        remedy=f"Look in the data sheet: if it says ±{full:g} deg, enter {2 * full:g} deg.",
    )


def _refuse_current(current_a: float) -> None:
    if not 0 < current_a <= 10:
        raise InputError(
            Problem(
                "no current for one LED.",
                key="current",
                value=f"{current_a * 1000:g} mA",
                limit="above 0, up to 10 A",
                remedy="Give the current through one LED, such as 15 mA.",
            )
        )
