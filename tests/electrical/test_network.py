from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import networks
from segkit.electrical.network import (
    COMMON,
    Place,
    by_value,
    network_findings,
    network_plans,
    pin_plan,
)

DIGIT = tuple(Place(f"digit 1 {name}", 150.0, 0.056) for name in "abcdefg")
ALL = tuple(networks().values())


def test_a_digit_of_seven_alike_takes_one_bussed_network_of_eight_pins():
    """56 mW in each of 7: 0.39 W, 0.79 W with the margin, of 1 W that the package takes at 70 °C."""
    best = network_plans(DIGIT, ALL)[0]
    assert (best.network, best.packages, best.spare) == ("sip-bussed-8", 1, 0)
    assert best.fit.package_share == pytest.approx(2 * 7 * 0.056 / 1.0)
    assert best.fit.limited_by == "package"
    assert [(pin.pin, pin.goes_to) for pin in best.pins[:3]] == [
        (1, COMMON),
        (2, "digit 1 a"),
        (3, "digit 1 b"),
    ]
    assert best.solder_joints == 8
    assert "8 joints instead of 14" in best.reason


def test_an_isolated_network_is_held_by_its_resistors():
    warm = tuple(replace(place, heat_w=0.09) for place in DIGIT)
    plans = {plan.network: plan for plan in network_plans(warm, ALL)}
    assert not plans["sip-bussed-8"].fit.fits  # 1.26 W with the margin in a package of 1 W
    isolated = plans["sip-isolated-14"]
    assert isolated.fit.fits
    assert isolated.fit.limited_by == "element"
    assert isolated.fit.element_share == pytest.approx(2 * 0.09 / 0.20)
    best = network_plans(warm, ALL)[0]
    assert best.fit.fits
    assert best.packages == 1


def test_too_warm_for_any_network():
    hot = tuple(replace(place, heat_w=0.15) for place in DIGIT)
    plans = network_plans(hot, ALL)
    assert not any(plan.fit.fits for plan in plans)
    (finding,) = network_findings(plans, hot)
    assert (finding.level, finding.code) == ("caution", "network-no-fit")
    assert "150 mW a resistor is 150%" in finding.text  # 2 x 0.15 W of the 0.20 W that one resistor may take


def test_a_network_has_one_value():
    mixed = (*DIGIT, Place("digit 1 point", 330.0, 0.05))
    assert network_plans(mixed, ALL) == ()
    (finding,) = network_findings((), mixed)
    assert finding.code == "network-mixed-values"
    assert "150, 330 ohm" in finding.text
    assert {ohm: len(mine) for ohm, mine in by_value(mixed).items()} == {150.0: 7, 330.0: 1}


def test_values_that_shops_do_not_keep_are_said():
    assert network_findings(network_plans(DIGIT, ALL), DIGIT) == ()
    odd = tuple(replace(place, ohm=160.0) for place in DIGIT)
    (finding,) = network_findings(network_plans(odd, ALL), odd)
    assert (finding.code, finding.level) == ("network-value", "note")
    assert "180 ohm" in finding.remedy
    assert network_findings((), ()) == ()


@given(st.integers(1, 60), st.sampled_from(ALL))
def test_every_string_has_one_pin_of_its_own(count, network):
    names = [f"string {number}" for number in range(count)]
    pins = pin_plan(network, names)
    assert [pin.goes_to for pin in pins if pin.goes_to.startswith("string")] == names
    assert len({(pin.package, pin.pin) for pin in pins}) == len(pins)
    assert max(pin.pin for pin in pins) <= network.pins
    assert len(pins) == network.pins * max(pin.package for pin in pins)
    if network.circuit == "isolated":  # each string is fed through the pin beside it
        at = {(pin.package, pin.pin): pin.goes_to for pin in pins}
        assert all(at[pin.package, pin.pin - 1] == COMMON for pin in pins if pin.goes_to in names)
