import pytest

from segkit.catalog import reader
from segkit.electrical.source import supply_like


def test_a_row_of_the_catalogue_comes_back_as_it_is():
    row, made = reader.supply("lead-acid-12v-7ah"), supply_like("lead-acid", volts=12.0)
    assert (made.min_v, made.max_v, made.capacity_ah) == (row.min_v, row.max_v, row.capacity_ah)


@pytest.mark.parametrize("source", ["mains-adapter", "lead-acid", "lithium", "cells"])
def test_another_voltage_swings_in_proportion(source):
    one, two = supply_like(source, volts=12.0), supply_like(source, volts=48.0)
    assert one.min_v <= 12.0 <= one.max_v
    assert two.min_v < 48.0 < two.max_v
    assert source.split("-")[0] in two.name or source == "cells"


def test_what_was_given_is_kept_and_an_adapter_has_no_capacity():
    made = supply_like("lithium", volts=12.8, current_a=5.0, capacity_ah=20.0)
    assert (made.max_current_a, made.capacity_ah) == (5.0, 20.0)
    assert supply_like("mains-adapter", volts=12.0, capacity_ah=20.0).capacity_ah == 0.0
