import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import led
from segkit.electrical.led_curve import curve_of
from segkit.electrical.led_fit import fitted, parse_points, with_points
from segkit.errors import InputError
from tests.electrical.conftest import published_curve

CURRENTS = (0.001, 0.010, 0.020, 0.030)


def test_published_curves_come_out_of_their_points(rows):
    """Published diode parameters give voltages at four currents; the fit finds the curve again.

    The voltages are printed to 1 mV, which leaves the series resistance open by a tenth of an ohm or so.
    """
    models = {}
    for row in rows("curve voltage"):
        parameters = tuple(value for name, value in row["given"].items() if name != "current_a")
        models.setdefault(parameters, []).append((row["given"]["current_a"], float(row["published"])))
    assert len(models) >= 5
    for points in models.values():
        fit = fitted(points)
        for current_a, printed in points:
            ours = fit.curve.voltage_v(current_a)
            assert ours == pytest.approx(printed, abs=0.002), f"printed {printed}, ours {ours}, rounding"


@given(st.floats(1.5, 8), st.floats(0, 12), st.integers(-22, -8))
def test_exact_points_give_the_curve_back(emission, ohm, power):
    true = published_curve(saturation_a=10.0**power, emission=emission, series_ohm=ohm)
    fit = fitted([(current_a, true.voltage_v(current_a)) for current_a in CURRENTS])
    assert fit.worst_v < 1e-5  # ln(I/Is + 1) for ln(I/Is)
    assert fit.curve.series_ohm == pytest.approx(ohm, abs=2e-3)
    assert fit.curve.voltage_v(0.005) == pytest.approx(true.voltage_v(0.005), abs=2e-5)


def test_two_points_are_met_and_the_slope_is_split():
    fit = fitted([(0.002, 1.8), (0.020, 2.0)])
    assert fit.worst_v < 1e-9
    slope_ohm = fit.curve.junction_v / 0.020 + fit.curve.series_ohm
    assert fit.curve.junction_v / 0.020 == pytest.approx(0.6 * slope_ohm)


def test_a_resistance_below_zero_is_left_out():
    fit = fitted([(0.001, 1.80), (0.010, 2.00), (0.030, 2.04)])
    assert fit.curve.series_ohm == 0


def test_a_catalogue_led_takes_the_builders_points():
    measured = [(0.002, 1.78), (0.010, 1.92), (0.020, 2.01)]
    fitted_led = with_points(led("red-5mm-diffused"), measured)
    for current_a, volt in measured:
        assert curve_of(fitted_led).voltage_v(current_a) == pytest.approx(volt, abs=0.005)
    plain = led("red-5mm-diffused")
    assert fitted_led.vf_max_v - fitted_led.vf_v == pytest.approx(plain.vf_max_v - plain.vf_v)


@pytest.mark.parametrize(
    "points",
    [
        (),
        ((0.02, 2.0),),
        ((0.02, 2.0), (0.02, 2.1)),
        ((0.01, 2.1), (0.02, 2.0)),
        ((0.0, 1.0), (0.02, 2.0)),
        ((0.001, 1.7), (0.01, 2.6), (0.02, 2.0), (0.03, 2.7)),
    ],
)
def test_points_of_no_led(points):
    with pytest.raises(InputError):
        fitted(points)


def test_points_as_people_write_them():
    assert parse_points("2.01 V at 20 mA,1780 mV at 2 mA") == ((0.02, 2.01), (0.002, 1.78))
    for text in ("2 V", "2 V at 20", "2 V at 20 mA", "much at 2 mA, 2 V at 20 mA"):
        with pytest.raises(InputError):
            parse_points(text)
