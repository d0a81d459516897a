"""Counts for equal brightness, held against a trial of all counts."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics.equalise import EQUAL_WITHIN, Need, equalised

NEEDS = st.builds(
    lambda least, more, per_led, outlines: Need(least, least + more, per_led, outlines),
    st.integers(1, 4), st.integers(0, 6), st.floats(1, 20), st.integers(1, 28),
)  # fmt: skip


def rank(needs, counts):
    lights = [count * need.per_led for count, need in zip(counts, needs, strict=True)]
    total = sum(count * need.outlines for count, need in zip(counts, needs, strict=True))
    return max(max(lights) / min(lights), EQUAL_WITHIN), total


@given(needs=st.lists(NEEDS, min_size=1, max_size=3))
def test_no_other_counts_are_better(needs):
    found = equalised({str(index): need for index, need in enumerate(needs)})
    ours = rank(needs, [found[str(index)] for index in range(len(needs))])
    best = min(rank(needs, counts) for counts in product(*(range(n.least, n.most + 1) for n in needs)))
    assert ours[0] == pytest.approx(best[0])
    assert ours[1] <= best[1] or ours[0] < best[0] + 1e-9


def test_counts_that_are_fixed_stay():
    found = equalised({"upright": Need(8, 8, 10, 28), "point": Need(1, 6, 20, 4)})
    assert found == {"upright": 8, "point": 4}


def test_no_kind_no_count():
    assert equalised({}) == {}
