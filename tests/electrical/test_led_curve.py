from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from segkit.electrical.led_curve import (
    THERMAL_V,
    curve_of,
    string_current_a,
    through_point,
)
from segkit.errors import InputError
from tests.electrical.conftest import published_curve

PARAMETERS = ("saturation_a", "emission", "series_ohm")


def test_curve_reproduces_published_parameter_sets(rows, agrees):
    for row in rows("curve voltage"):
        curve = published_curve(**{name: row["given"][name] for name in PARAMETERS})
        agrees(row, curve.voltage_v(row["given"]["current_a"]))


def test_point_and_slope_come_close_to_published_curves(rows):
    """A curve through one point with the slope there finds the others of the published sets to 50 mV.

    The junction's share of the slope (0.6) is the only guess; the sets have 0.24 to 0.98.
    """
    for row in rows("curve voltage"):
        true = published_curve(**{name: row["given"][name] for name in PARAMETERS})
        slope = row["given"]["emission"] * THERMAL_V / 0.02 + row["given"]["series_ohm"]
        ours = through_point(vf_v=true.voltage_v(0.02), test_current_a=0.02, slope_ohm=slope)
        if row["given"]["current_a"] >= 0.01:
            assert ours.voltage_v(row["given"]["current_a"]) == pytest.approx(
                float(row["published"]), abs=0.05
            )


@given(st.floats(1.5, 4.0), st.floats(0.002, 0.1), st.floats(0.5, 30))
def test_curve_passes_through_its_point_with_its_slope(vf_v, test_current_a, slope_ohm):
    assume(slope_ohm * test_current_a < 0.5 * vf_v)
    curve = through_point(vf_v=vf_v, test_current_a=test_current_a, slope_ohm=slope_ohm)
    step = test_current_a * 1e-5
    assert curve.voltage_v(test_current_a) == pytest.approx(vf_v, rel=1e-9)
    rise = curve.voltage_v(test_current_a + step) - curve.voltage_v(test_current_a - step)
    # I/(I + Is) of the junction's slope is lost; it matters only for curves near a plain resistor
    assert rise / (2 * step) == pytest.approx(slope_ohm, rel=0.12)


@given(st.integers(1, 10), st.floats(0.1, 20), st.floats(5, 5000))
def test_solved_current_balances_the_loop(leds, headroom_v, resistance_ohm):
    curve = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=6)
    drive_v = leds * 2.0 + headroom_v
    current_a = string_current_a(curve, leds=leds, drive_v=drive_v, resistance_ohm=resistance_ohm)
    across = leds * curve.voltage_v(current_a) + current_a * resistance_ohm
    assert across == pytest.approx(drive_v, rel=1e-9)
    assert current_a > 0


def test_shop_formula_is_exact_at_the_data_sheet_current_only():
    curve = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=6)
    at_point = string_current_a(curve, leds=4, drive_v=11.0, resistance_ohm=150)
    assert at_point == pytest.approx(0.020, rel=1e-9)
    thin = string_current_a(curve, leds=4, drive_v=9.0, resistance_ohm=150)
    assert 1.1 < thin / ((9.0 - 8.0) / 150) < 1.5  # little headroom: the formula is far off


def test_nothing_flows_without_drive():
    curve = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=6)
    assert string_current_a(curve, leds=2, drive_v=-0.3, resistance_ohm=100) == 0
    assert string_current_a(curve, leds=2, drive_v=2.5, resistance_ohm=100) < 1e-4
    fixed = through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=0)
    assert string_current_a(fixed, leds=2, drive_v=3.9, resistance_ohm=100) == 0
    assert curve.voltage_v(0.0) == 0.0


def test_warmth_and_bins_move_the_voltage(red):
    assert curve_of(red, temperature_c=125).voltage_v(0.02) == pytest.approx(1.8)
    assert curve_of(red, vf_v=2.6).voltage_v(0.02) == pytest.approx(2.6)
    white = replace(red, vf_v=3.0, vf_temperature_v_per_k=-0.003)
    assert curve_of(white, temperature_c=125).voltage_v(0.02) == pytest.approx(
        2.7
    )  # published -3 mV/K example


def test_unusable_figures_are_refused():
    with pytest.raises(InputError, match="do not describe an LED"):
        through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=400)
    with pytest.raises(InputError, match="do not describe an LED"):
        through_point(vf_v=0.0, test_current_a=0.02, slope_ohm=6)
    with pytest.raises(InputError, match="above 0 ohm"):
        string_current_a(
            through_point(vf_v=2.0, test_current_a=0.02, slope_ohm=6), leds=1, drive_v=5, resistance_ohm=0
        )
