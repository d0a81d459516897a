"""The parts that a design names."""

import pytest

from segkit.design.chosen import chosen_parts
from segkit.design.reader import design_from_text
from segkit.electrical.led_curve import curve_of


def chosen(text: str):
    return chosen_parts(design_from_text(text))


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ('supply = "12 V"', 11.4, 12.6),  # regulated adapter, 5 %: common practice
        ('supply = "12 V"\nsource = "lead-acid"', 11.0, 13.8),
        ('supply = "24 V"\nsource = "lead-acid"', 22.0, 27.6),
        ('supply = "12 V"\nrange = "10.5 V to 15 V"', 10.5, 15.0),
    ],
)
def test_how_far_the_supply_swings(text: str, low: float, high: float) -> None:
    supply = chosen(f"[power]\n{text}").supply
    assert (supply.min_v, supply.max_v) == pytest.approx((low, high))


def test_capacity_only_of_batteries() -> None:
    assert chosen('[power]\nsource = "lead-acid"\nbattery = "18 Ah"').supply.capacity_ah == 18
    assert chosen('[power]\nbattery = "18 Ah"').supply.capacity_ah == 0


def test_an_adapter_without_stated_current_is_not_judged_by_it() -> None:
    assert chosen("").supply.max_current_a == 0
    assert chosen('[power]\nsupply_current = "1 A"').supply.max_current_a == 1


def test_own_led_gets_bins_and_a_slope() -> None:
    led = chosen('[pocket.led]\ncolour = "red"\nvf = "2 V"\nintensity = "500 mcd"').led
    assert (led.vf_min_v, led.vf_v, led.vf_max_v) == pytest.approx((1.8, 2.0, 2.3))
    assert led.slope_ohm > 0


def test_own_led_with_points_of_its_curve() -> None:
    points = "1.78 V at 2 mA, 1.92 V at 10 mA, 2.01 V at 20 mA"
    led = chosen(f'[pocket.led]\ncolour = "red"\nvf = "2 V"\nintensity = "500 mcd"\npoints = "{points}"').led
    assert led.vf_v == pytest.approx(2.01, abs=0.005)
    assert curve_of(led).voltage_v(0.002) == pytest.approx(1.78, abs=0.005)
    assert led.vf_max_v - led.vf_v == pytest.approx(0.3)


def test_a_power_register_is_driver_and_register() -> None:
    parts = chosen('[power]\ndriver = "power-register-8"')
    assert parts.register.id == parts.sink.id == "power-register-8"


def test_walls_are_opaque_by_lining_or_by_grid() -> None:
    painted = '[pocket]\nwalls = "white-paint"\n[make]\n'
    assert chosen(painted + 'grid = "foam-board-5mm"').walls.opaque is False
    assert chosen(painted + 'grid = "mdf-6mm"').walls.opaque is True
    assert chosen('[pocket]\nwalls = "aluminium-tape"').walls.opaque is True


def test_a_register_that_drives_the_segments_itself_is_the_register() -> None:
    parts = chosen('[power]\ndriver = "register-direct-hct595"\nregister = "hc595"')
    assert (parts.register.id, parts.sink.id) == ("hct595", "register-direct-hct595")
    assert chosen('[power]\ndriver = "power-register-8"').register.id == "power-register-8"
    assert chosen('[power]\nregister = "hct595"').register.id == "hct595"


def test_the_back_inside_a_pocket_is_as_the_walls_if_none_is_named() -> None:
    assert chosen('[pocket]\nwalls = "black-paint"').reflector.id == "black-paint"
    parts = chosen('[pocket]\nwalls = "black-paint"\nreflector = "aluminium-tape"')
    assert (parts.walls.id, parts.reflector.id) == ("black-paint", "aluminium-tape")
    assert parts.reflector.source in parts.sources()
