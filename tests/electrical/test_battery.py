import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.battery import Use, exponent_of, needed_ah, peukert_exponent, peukert_h, runtime
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.working import evaluate

LEAD, LITHIUM, CELLS = (
    reader.supply(id_) for id_ in ("lead-acid-12v-7ah", "lithium-iron-4-cell", "aa-8-cells")
)


def codes(found):
    return {finding.code: finding for finding in found.findings}


def test_times_as_published(rows, agrees):
    for row in rows("peukert h"):
        agrees(row, peukert_h(**row["given"]))


def test_exponent_from_two_ratings_as_published(rows, agrees):
    for row in rows("peukert exponent"):
        agrees(row, peukert_exponent(**row["given"]))


def test_lithium_by_its_energy(rows, agrees):
    from dataclasses import replace

    for row in rows("lithium h"):
        g = row["given"]
        pack = replace(LITHIUM, capacity_ah=g["capacity_ah"], nominal_v=g["nominal_v"])
        agrees(row, runtime(pack, mean_a=g["current_a"], all_on_a=g["current_a"]).hours)


def test_what_cells_lose_inside(rows, agrees):
    for row in rows("cells sag_v"):
        found = runtime(CELLS, mean_a=0.5, all_on_a=row["given"]["current_a"])
        (line,) = (line for line in found.lines if line.name == "electrical.cells_sag")
        agrees(row, line.value)
    sag = codes(found)["cells-sag"]
    assert sag.limit == 1.2
    assert "10.5 V of 12 V" in sag.text
    assert "cells-sag" not in codes(runtime(CELLS, mean_a=0.1, all_on_a=0.2))


@given(st.floats(0.05, 5.0), st.floats(0.5, 40.0), st.sampled_from([LEAD, LITHIUM]))
def test_the_capacity_that_is_named_lasts_as_long_as_was_asked(current_a, wanted_h, battery):
    from dataclasses import replace

    use = Use(wanted_h=wanted_h, usable=0.8)
    capacity_ah = needed_ah(battery, current_a=current_a, use=use)
    lasts = runtime(replace(battery, capacity_ah=capacity_ah), mean_a=current_a, all_on_a=current_a, use=use)
    assert lasts.hours == pytest.approx(wanted_h)


def test_too_short_a_battery_names_one_that_lasts():
    found = runtime(LEAD, mean_a=1.0, all_on_a=1.4, use=Use(wanted_h=10))
    short = codes(found)["battery-too-short"]
    assert short.limit == 10
    assert "12 Ah" in short.remedy  # 11.2 Ah by the law turned round
    assert "battery-too-short" not in codes(runtime(LEAD, mean_a=0.1, all_on_a=1.4, use=Use(wanted_h=10)))


def test_half_of_a_battery_lasts_half_as_long():
    full, half = (runtime(LEAD, mean_a=0.5, all_on_a=0.9, use=Use(usable=u)).hours for u in (1.0, 0.5))
    assert half == pytest.approx(full / 2)


@pytest.mark.parametrize("battery", [LEAD, LITHIUM, CELLS], ids=lambda row: row.type)
def test_each_formula_gives_its_value(battery):
    found = runtime(battery, mean_a=0.4, all_on_a=0.7, use=Use(usable=0.9, exponent=1.15))
    assert found.hours > found.full_h > 0
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_an_adapter_has_no_hours_and_nothing_is_refused():
    assert runtime(reader.supply("adapter-12v-2a"), mean_a=1, all_on_a=1).hours == 0
    with pytest.raises(InputError):
        runtime(LEAD, mean_a=0, all_on_a=1)
    with pytest.raises(InputError):
        peukert_h(capacity_ah=0, current_a=1)
    with pytest.raises(InputError, match="two ratings"):
        peukert_exponent(first_a=5, first_h=20, second_a=5, second_h=3)


def test_below_its_rated_current_a_battery_gives_its_rating_no_more():
    gentle = runtime(LEAD, mean_a=0.1, all_on_a=0.2)
    assert gentle.hours == pytest.approx(70)  # 7 Ah over 0.1 A; the law alone would promise 90 h
    assert peukert_h(capacity_ah=7, current_a=0.1) > 89
    assert needed_ah(LEAD, current_a=0.1, use=Use(wanted_h=70)) == pytest.approx(7)


def test_two_ratings_are_read_as_the_data_sheet_prints_them():
    """5 A for 20 h and 20 A for 3 h: ln(20/3)/ln(4) = 1.3685, with either first."""
    for text in ("5 A for 20 h, 20 A for 3 h", "20 A for 180 min, 5000 mA for 20 h"):
        assert exponent_of(text) == pytest.approx(math.log(20 / 3) / math.log(4))


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("5 A for 20 h", "two ratings"),
        ("5 A, 20 h, 20 A, 3 h", "two ratings"),
        ("5 for 20 h, 20 A for 3", "unit"),
        ("5 A for 20 h, 5 A for 3 h", "different currents"),
    ],
)
def test_what_is_no_pair_of_ratings_is_refused(text, says):
    with pytest.raises(InputError, match=says):
        exponent_of(text)
