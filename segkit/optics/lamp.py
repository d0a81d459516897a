"""The working of the LED alone: lobe, light, and the shop formula beside it."""

from __future__ import annotations

from segkit.catalog.part import Led
from segkit.optics import photometry
from segkit.working import Given, Line


def led_lines(led: Led, *, current_a: float) -> tuple[Line, ...]:
    """Working of the LED alone: lobe, flux, and the shop formula beside it.

    Args:
        led: catalogue row.
        current_a: current through it, A.
    """
    exponent = photometry.lobe_exponent(led.full_angle_deg)
    beam = Given("a", led.full_angle_deg, "deg", "full angle at half intensity")
    lobe = Line(
        "optics.lobe_exponent", "exponent of the LED's lobe", "m", exponent, "",
        "-ln(2)/ln(cos(radians(a/2)))", (beam,), "moreno-2006", "side lobes of domed LEDs are not modelled",
    )  # fmt: skip
    if led.intensity_cd <= 0 or led.intensity_current_a <= 0:
        return lobe, _power_line(led, current_a=current_a)
    axis = (
        Given("I0", led.intensity_cd, "cd", "intensity on the axis"),
        Given("I", current_a, "A", "current"),
        Given("It", led.intensity_current_a, "A", "current of the intensity figure"),
    )
    flux = Line(
        "optics.flux", "light of one LED", "Phi", photometry.led_flux(led, current_a=current_a), "lm",
        "2*pi*I0*I/It/(m + 1)", (*axis, Given("m", exponent, "", "exponent of the lobe")), "moreno-2006",
        "estimate: in proportion to the current; heat takes some of it at high current",
    )  # fmt: skip
    axis_cd = led.intensity_cd * current_a / led.intensity_current_a
    cone = photometry.cone_flux(axis_cd=axis_cd, full_angle_deg=led.full_angle_deg)
    shop = Line(
        "optics.shop_flux", "the same by the shop's cone formula, to compare with", "Phi_0", cone, "lm",
        "2*pi*(1 - cos(radians(a/2)))*I0*I/It", (beam, *axis), "common-practice",
        f"not used: {100 * (cone / flux.value - 1):.0f} % off, since a beam has no sharp edge",
    )  # fmt: skip
    return lobe, flux, shop


def _power_line(led: Led, *, current_a: float) -> Line:
    return Line(
        "optics.radiant_power", "radiant power of one LED", "P",
        photometry.led_radiant_power(led, current_a=current_a), "W", "P0*I/It",
        (
            Given("P0", led.radiant_power_w, "W", "radiant power at the test current"),
            Given("I", current_a, "A", "current"),
            Given("It", led.test_current_a, "A", "test current"),
        ),
        led.source, "estimate: in proportion to the current",
    )  # fmt: skip
