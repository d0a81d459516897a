from dataclasses import replace

import pytest

from segkit.electrical.drift import drift
from segkit.electrical.equal_light import Lit, equal_light
from segkit.working import evaluate

KINDS = (Lit("upright", 4, 100.0), Lit("colon", 2, 100.0))
BATTERY = {"supply_v": 12.0, "supply_min_v": 11.0, "supply_max_v": 13.8}


def apart(led, sink, kinds=KINDS, supply=BATTERY, in_series=4):
    made = equal_light(kinds, led=led, sink=sink, current_a=0.015, in_series=in_series, **supply)
    return drift(kinds, {one.kind: one for one in made.circuits}, led=led, sink=sink, **supply)


def test_strings_of_four_fade_before_strings_of_two(shop_led, darlington):
    """Worked by hand, 0.9 V and 2.0 V fixed: 4 in series leave 3.1 V of 12 and 2.1 of 11: 0.68; 2 leave
    7.1 and 6.1: 0.86; at 13.8 V 4.9 over 3.1: 1.58 and 8.9 over 7.1: 1.25.
    """
    made = apart(shop_led(2.0), darlington)
    assert made.low == pytest.approx({"upright": 2.1 / 3.1, "colon": 6.1 / 7.1})
    assert made.high == pytest.approx({"upright": 4.9 / 3.1, "colon": 8.9 / 7.1})


def test_a_wide_supply_drives_unequal_strings_apart(red, darlington):
    made = apart(red, darlington)
    assert made.ratio_high > 1.1
    wide = apart(red, darlington, supply={"supply_v": 12.0, "supply_min_v": 10.0, "supply_max_v": 14.4})
    finding, swing = wide.findings
    assert swing.code == "wide-swing"
    assert (finding.level, finding.code) == ("caution", "kinds-drift-apart")
    assert finding.value == pytest.approx(max(wide.ratio_low, wide.ratio_high), abs=0.001)
    assert not apart(
        red, darlington, supply={"supply_v": 12.0, "supply_min_v": 11.9, "supply_max_v": 12.1}
    ).findings


def test_equal_strings_stay_equal(red, darlington):
    made = apart(red, darlington, kinds=(KINDS[0], Lit("colon", 8, 100.0)))
    assert made.ratio_low == pytest.approx(1.0, abs=0.02)
    assert made.ratio_high == pytest.approx(1.0, abs=0.02)


def test_what_differs_anyway_is_not_told_twice(red, darlington):
    kinds = (KINDS[0], Lit("colon", 4, 40.0, leads=False))
    assert "kinds-drift-apart" not in {one.code for one in apart(red, darlington, kinds=kinds).findings}


def test_a_kind_that_goes_dark(shop_led, darlington):
    supply = {"supply_v": 12.0, "supply_min_v": 8.5, "supply_max_v": 12.6}
    made = apart(shop_led(2.0), darlington, supply=supply)
    assert made.low["upright"] == 0
    assert made.findings[0].value == "dark"


def test_one_kind_has_nothing_to_differ_from(red, darlington):
    steady = {"supply_v": 12.0, "supply_min_v": 11.6, "supply_max_v": 12.4}
    made = apart(red, darlington, kinds=KINDS[:1], supply=steady)
    assert (made.ratio_low, made.ratio_high, made.lines, made.findings) == (1.0, 1.0, (), ())


def test_light_that_changes_much_is_told_once_for_the_kind_that_changes_most(shop_led, darlington):
    """By hand, 2.0 V and 0.9 V fixed: four in series go as 2.1 to 4.9 V, 2.3 times; two as 6.1 to 8.9, 1.5."""
    (swing,) = (one for one in apart(shop_led(2.0), darlington).findings if one.code == "wide-swing")
    assert swing.value == pytest.approx(4.9 / 2.1, abs=0.001)
    assert swing.subject == "upright: string of 4"
    assert "Put 3 instead of 4" in swing.remedy


def test_each_formula_gives_its_value(red, darlington):
    lines = apart(replace(red, slope_ohm=9.0), darlington).lines
    assert [line.name for line in lines] == [
        "electrical.equal_ratio_lowest",
        "electrical.equal_ratio_highest",
    ]
    for line in lines:
        assert evaluate(line.formula, {one.symbol: one.value for one in line.inputs}) == pytest.approx(
            line.value
        )
