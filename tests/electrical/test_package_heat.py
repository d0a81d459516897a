from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.driver import sink_drop
from segkit.electrical.package_heat import OutputLoad, package_heat, pulsed_load
from segkit.errors import InputError
from segkit.working import evaluate
from tests.electrical.conftest import DARLINGTON


def test_eight_outputs_of_a_digit_with_its_mean(darlington):
    """Worked by hand: 8 x 0.1 A x 1.1 V = 0.88 W; half of it at 0.9 V = 0.36 W; 85 K/W by 1.47 W at 25 C."""
    made = package_heat(darlington, [OutputLoad(0.1, 0.1, 0.5)] * 8, name="chip 1")
    theta = (150 - 25) / 1.47
    assert made.all_on_w == pytest.approx(0.88)
    assert made.all_on_c == pytest.approx(50 + 0.88 * theta)
    assert made.mean_w == pytest.approx(0.36)
    assert made.mean_c == pytest.approx(50 + 0.36 * theta)
    assert [one.code for one in made.findings] == ["sink-warm"]  # 125 C is the limit, 80 % of the way is 110
    assert made.findings[0].level == "caution"


def test_a_cool_package_is_silent_and_a_hot_one_is_told_elsewhere(darlington):
    assert package_heat(darlington, [OutputLoad(0.02, 0.02, 0.7)] * 8, name="cool").findings == ()
    assert package_heat(darlington, [OutputLoad(0.3, 0.3, 0.7)] * 8, name="hot").findings == ()


def test_a_constant_current_sink_takes_what_the_string_leaves(steady):
    made = package_heat(steady, [OutputLoad(0.02, 0.02, 1.0, left_v=4.0)] * 8, name="chip 1")
    assert made.all_on_w == made.mean_w == pytest.approx(8 * 0.02 * 4)


def test_a_register_alone_counts_with_its_worst_drop(register_alone):
    made = package_heat(register_alone, [OutputLoad(0.006, 0.006, 1.0)] * 8, name="chip 1")
    assert made.mean_w == pytest.approx(8 * 0.006 * 0.4)


@given(st.lists(st.tuples(st.floats(0.001, 0.1), st.floats(0, 1)), min_size=1, max_size=8))
def test_the_mean_is_never_above_everything_lit(outputs):
    loads = [OutputLoad(current_a, 1.1 * current_a, share) for current_a, share in outputs]
    made = package_heat(DARLINGTON, loads, name="chip 1")
    assert made.mean_w <= made.all_on_w
    for line in made.lines:
        ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs})
        assert ours == pytest.approx(line.value, rel=1e-6)


def test_pulses_that_a_maker_allows_stay_within_its_junction(rows, darlington):
    """The maker's own package: 1.47 W at 25 C, junction 150 C; eight outputs on together at 85 C."""
    for row in rows("array pulse"):
        amps, duty = row["given"]["amps"], row["given"]["duty"]
        ours = pulsed_load(darlington, output_a=amps, outputs=8, duty=duty, ambient_c=85)
        printed = float(row["published"])
        assert 100 < ours.junction_c < printed, f"{row}: printed limit {printed}, ours {ours.junction_c}"


def test_a_published_duty_limit_is_met_in_a_band(darlington):
    """Equivalent array: 8 x 500 mA at 23 % duty. The page gives no air temperature; 70 C with 55 K/W and
    150 C is an inference, so a band of 20 % about the budget of 1.45 W, with the typical drop carried on.
    """
    drop_v = sink_drop(darlington, current_a=0.5).typical_v
    cooler = replace(darlington, budget_w=0.0)
    ours = pulsed_load(cooler, output_a=0.5, outputs=8, duty=0.23, ambient_c=70, left_v=drop_v).heat_w
    budget_w = (150 - 70) / 55
    assert 0.8 * budget_w < ours < 1.2 * budget_w, (budget_w, ours)


def test_heat_is_the_mean_and_limits_hold_at_the_peak(darlington):
    rest, full = (pulsed_load(darlington, output_a=0.3, outputs=8, duty=duty) for duty in (0.2, 1.0))
    assert rest.heat_w == pytest.approx(0.2 * full.heat_w)
    assert not rest.findings
    assert [one.code for one in full.findings] == ["sink-heat"]
    too_much = pulsed_load(darlington, output_a=0.6, outputs=1, duty=0.01)
    assert [one.code for one in too_much.findings] == ["sink-output-limit"]


def test_more_outputs_than_there_are(darlington):
    with pytest.raises(InputError):
        package_heat(darlington, [OutputLoad(0.01, 0.01, 1.0)] * 9, name="chip 1")
