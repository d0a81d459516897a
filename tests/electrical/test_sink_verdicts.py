import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.sink_verdicts import current_findings, junction_findings, voltage_findings
from tests.electrical.conftest import DARLINGTON


def test_an_absolute_limit_is_no_working_value(register_alone):
    """8 x 8 mA are 64 mA of 70: it survives, but its output voltage is stated up to 6 mA only."""
    (beyond,) = current_findings(register_alone, [0.008] * 8)
    assert (beyond.level, beyond.code, beyond.value, beyond.limit) == (
        "caution",
        "register-beyond-drive",
        8,
        6,
    )
    assert current_findings(register_alone, [0.006] * 8) == ()


def test_eight_times_twenty_through_one_register(register_alone):
    """160 mA through 70 mA: 2.3 times; 5 V and 2.0 V LEDs: 510 ohm would do, 47 mA with everything lit."""
    (over,) = current_findings(register_alone, [0.020] * 8, drive_v=3.0)
    assert (over.level, over.code) == ("stop", "register-overload")
    assert "2.29 times" in over.text
    assert "510 ohm, 47 mA" in over.remedy


def test_one_output_too_strong(darlington):
    (over,) = current_findings(darlington, [0.6])
    assert (over.code, over.limit) == ("sink-output-limit", 500)


@given(st.lists(st.floats(0.0, 0.5), min_size=1, max_size=8))
def test_an_array_has_no_limit_but_its_outputs_and_heat(currents):
    assert current_findings(DARLINGTON, currents) == ()


def test_off_outputs_stand_the_supply(steady):
    (high,) = voltage_findings(steady, supply_max_v=25.2)
    assert (high.level, high.code, high.limit) == ("stop", "sink-voltage", 17)
    assert voltage_findings(steady, supply_max_v=17) == ()


def test_a_hot_junction_names_the_heat_that_is_allowed(darlington):
    (hot,) = junction_findings(darlington, heat_w=1.5, junction_c=132.5, ambient_c=50, theta_k_per_w=55)
    assert hot.level == "stop"
    assert f"{(125 - 50) / 55:.2f} W" in hot.text
    assert not junction_findings(darlington, heat_w=1.0, junction_c=105, ambient_c=50, theta_k_per_w=55)


def test_limits_in_words_with_a_remedy(register_alone, darlington, steady):
    found = [
        *current_findings(register_alone, [0.04]), *current_findings(darlington, [0.6]),
        *voltage_findings(steady, supply_max_v=30),
    ]  # fmt: skip
    assert len(found) == 3
    for one in found:
        assert one.remedy
        assert one.source
        assert one.value != pytest.approx(one.limit)
