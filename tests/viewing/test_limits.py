import math

import pytest

from segkit.errors import InputError
from segkit.viewing.limits import BOUNDS, accept, check


def test_both_ends_are_accepted_and_beyond_is_not():
    for name, bound in BOUNDS.items():
        assert accept(name, bound.low) == bound.low
        step = abs(bound.high) * 1e-6 + 1e-9
        for value in (bound.low - step, bound.high + step, math.nan, math.inf, -math.inf):
            with pytest.raises(InputError):
                accept(name, value)


def test_ninety_degrees_is_out_of_sight():
    assert accept("angle_deg", 89.99) == 89.99
    with pytest.raises(InputError, match=r"90 deg: out of range\. Allowed: 0 deg to below 90 deg"):
        accept("angle_deg", 90.0)


def test_all_faults_are_named_together():
    with pytest.raises(InputError) as caught:
        check(distance_m=-1.0, eyesight=40.0, angle_deg=120.0, baseline_m=None)
    assert [problem.key for problem in caught.value.problems] == ["distance_m", "angle_deg"]
    assert all(problem.limit and problem.remedy and problem.value for problem in caught.value.problems)


def test_accept_leaves_the_key_to_the_caller():
    with pytest.raises(InputError) as caught:
        accept("height_mm", 0.0)
    assert str(caught.value.at(key="--height")).startswith("--height = 0 mm: out of range.")
