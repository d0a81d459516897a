import math

import eseries
import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.preferred import (
    FUSES_A,
    RATINGS_W,
    SERIES,
    SUPPLIES_A,
    WORKSHEET_FUNCTIONS,
    in_series,
    nearest,
    next_down,
    next_size,
    next_up,
    scaled,
    series_values,
)
from segkit.errors import InputError
from segkit.working import evaluate

VALUES = st.floats(min_value=1e-2, max_value=1e8, allow_nan=False)
NAMES = st.sampled_from(SERIES)


def outside(name):
    """The series by a general-purpose package of its own origin."""
    return tuple(eseries.series(getattr(eseries, name)))


def test_lists_as_printed(rows):
    for row in rows("series"):
        printed = tuple(int(word) for word in row["published"].split())
        assert series_values(row["given"]["series"]) == printed


@pytest.mark.parametrize("name", SERIES)
def test_lists_agree_with_an_independent_package(name):
    ours = series_values(name)
    assert len(ours) == int(name[1:])
    assert ours == outside(name)


def test_the_one_exception_of_the_fine_series():
    assert round(100 * 10 ** (185 / 192)) == 919
    assert series_values("E192")[185] == 920
    others = [round(100 * 10 ** (i / 192)) for i in range(192) if i != 185]
    assert [value for i, value in enumerate(series_values("E192")) if i != 185] == others


def test_coarse_series_do_not_follow_the_rule_at_eight_places():
    rule = [round(10 * 10 ** (i / 24)) for i in range(24)]
    differ = [value for value, ruled in zip(series_values("E24"), rule, strict=True) if value != ruled]
    assert differ == [27, 30, 33, 36, 39, 43, 47, 82]


@pytest.mark.parametrize(
    ("coarse", "fine"), [("E3", "E6"), ("E6", "E12"), ("E12", "E24"), ("E48", "E96"), ("E96", "E192")]
)
def test_series_nest(coarse, fine):
    assert set(series_values(coarse)) < set(series_values(fine))


def test_shop_values_absent_from_the_one_percent_series():
    # A remark of the trade: stock of E96 lacks 120, 180, 220, 270 and so on.
    missing = [value for value in series_values("E24") if not in_series(value, "E96")]
    assert missing == [12, 16, 18, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 82, 91]


def test_next_up_as_in_the_worked_strings(rows):
    for row in rows("next up"):
        assert next_up(**row["given"]) == float(row["published"])


@given(VALUES, NAMES)
def test_next_up_agrees_with_the_package(value, name):
    assert next_up(value, name) == pytest.approx(
        eseries.find_greater_than_or_equal(getattr(eseries, name), value), rel=1e-8
    )


@given(VALUES, NAMES)
def test_rounding_stays_within_one_step(value, name):
    above, below = next_up(value, name), next_down(value, name)
    assert below <= value * (1 + 1e-9)
    assert above >= value * (1 - 1e-9)
    assert in_series(above, name)
    assert in_series(below, name)
    widest = max(
        b / a for a, b in zip(outside(name), (*outside(name)[1:], 10 * outside(name)[0]), strict=True)
    )
    assert above / value <= widest * (1 + 1e-9)
    assert nearest(value, name) in (above, below)
    assert abs(nearest(value, name) - value) <= min(above - value, value - below) + 1e-9 * value


@given(st.sampled_from(series_values("E24")), st.integers(-3, 6))
def test_a_member_stays_itself(digits, power):
    value = scaled(digits, power)
    assert next_up(value) == next_down(value) == nearest(value) == value
    assert next_up(value * (1 + 1e-12)) == value  # rounding of binary numbers costs no step


@pytest.mark.parametrize("value", [0.0, -15.0, math.inf, math.nan])
def test_no_resistor_without_a_positive_value(value):
    with pytest.raises(InputError, match="positive"):
        next_up(value)


def test_unknown_series_names_the_nearest():
    with pytest.raises(InputError, match='Did you mean "E24"'):
        series_values("E25")


def test_next_size():
    assert next_size(0.176 * 2, RATINGS_W) == 0.5
    assert next_size(0.25, RATINGS_W) == 0.25
    assert next_size(99, SUPPLIES_A) == math.inf
    for sizes in (RATINGS_W, SUPPLIES_A, FUSES_A):
        assert list(sizes) == sorted(set(sizes))


def test_formulas_may_use_the_roundings():
    assert (
        evaluate(
            "next_up_e24((V - Vd - n*Vf)/I)",
            {"V": 12, "Vd": 1.1, "n": 4, "Vf": 2, "I": 0.02},
            WORKSHEET_FUNCTIONS,
        )
        == 150
    )
    assert evaluate("next_rating(2*P)", {"P": 0.165}, WORKSHEET_FUNCTIONS) == 0.5
    assert evaluate("next_up_e96(x)", {"x": 145.1}, WORKSHEET_FUNCTIONS) == 147
    assert evaluate("next_supply(max(I, 1))", {"I": 2.1}, WORKSHEET_FUNCTIONS) == 2.5
    assert evaluate("next_fuse(I)", {"I": 2.1}, WORKSHEET_FUNCTIONS) == 2.5
