from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.driver import package_load, sink_drop
from segkit.electrical.sink_choice import most_each_a, sink_rows
from segkit.errors import InputError

ARRAY = reader.sink("darlington-sink-8")


def test_the_most_that_all_may_carry_as_published(darlington, rows, agrees):
    # (125 - 50)/55/8/1.1 = 155 mA by the stated resistance; the cautious maker's 85 K/W gives less.
    for row in rows("budget ma_per_output"):
        g = row["given"]
        fixed = replace(
            darlington, drop_points=((0.0, g["volt"], g["volt"]),), theta_ja_k_per_w=g["theta"], budget_w=0.0,
            max_junction_c=g["junction_c"],
        )  # fmt: skip
        agrees(row, 1000 * most_each_a(fixed, on=int(g["outputs"]), ambient_c=g["ambient_c"]))


@given(st.integers(1, 8), st.floats(0, 90))
def test_at_the_most_the_junction_is_at_its_limit_or_another_limit_holds(on, ambient_c):
    most_a = most_each_a(ARRAY, on=on, ambient_c=ambient_c)
    load = package_load(ARRAY, outputs_a=(most_a,) * on, ambient_c=ambient_c)
    assert load.junction_c <= 125 * (1 + 1e-6)
    if most_a < ARRAY.max_output_a * 0.999:
        assert load.junction_c == pytest.approx(125, rel=1e-3)


def test_limits_of_a_register_alone(register_alone):
    assert most_each_a(register_alone, on=8, ambient_c=25) == pytest.approx(0.070 / 8)
    assert most_each_a(register_alone, on=1, ambient_c=25) == pytest.approx(0.035)


def test_rows_go_from_one_output_to_all(darlington):
    rows = sink_rows(darlington, current_a=0.04)
    assert [row.on for row in rows] == list(range(1, 9))
    worst_v = sink_drop(darlington, current_a=0.04).worst_v
    assert rows[-1].load.heat_w == pytest.approx(8 * 0.04 * worst_v)
    assert all(one.most_a > other.most_a for one, other in pairwise(rows))


def test_a_constant_current_sink_takes_the_rest(steady):
    rows = sink_rows(steady, current_a=0.02, spare_v=3.0)
    assert rows[-1].load.heat_w == pytest.approx(8 * 0.02 * 3.0)
    with pytest.raises(InputError, match="takes what the LEDs leave"):
        sink_rows(steady, current_a=0.02)


def test_what_it_does_not_have_is_refused(darlington):
    with pytest.raises(InputError, match=r"8 output"):
        most_each_a(darlington, on=9)
    with pytest.raises(InputError):
        sink_rows(darlington, current_a=0)
