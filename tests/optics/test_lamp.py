"""The working of the LED alone."""

import pytest

from segkit.optics.lamp import led_lines
from segkit.working import evaluate


@pytest.mark.parametrize("current_a", [0.002, 0.015, 0.03])
def test_lines_evaluate(red, violet, current_a):
    for led, names in (
        (red, ["optics.lobe_exponent", "optics.flux", "optics.shop_flux"]),
        (violet, ["optics.lobe_exponent", "optics.radiant_power"]),
    ):
        lines = led_lines(led, current_a=current_a)
        assert [line.name for line in lines] == names
        for line in lines:
            value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
            assert value == pytest.approx(line.value, rel=1e-9)


def test_shop_formula_says_how_far_off_it_is(make_led):
    # 30 degrees: 28.5 % too low
    line = led_lines(make_led(full_angle_deg=30), current_a=0.02)[2]
    assert "-28 % off" in line.note or "-29 % off" in line.note


def test_flux_line_counts_from_the_current_of_the_intensity(make_led):
    line = led_lines(make_led(intensity_current_a=0.002), current_a=0.02)[1]
    assert line.value == pytest.approx(10 * 0.5 * 1.0798, rel=1e-4)
