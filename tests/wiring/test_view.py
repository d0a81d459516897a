"""From the board to the page, and mirrored."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.wiring.view import View, view_of

points = st.lists(
    st.tuples(st.floats(-900, 900), st.floats(-900, 900)), min_size=2, max_size=9, unique=True
).filter(lambda found: max(x for x, _ in found) - min(x for x, _ in found) > 1)


@given(found=points)
def test_all_points_fit_the_field(found) -> None:
    view = view_of(found, left_mm=10, foot_mm=20, wide_mm=200, high_mm=100)
    for x, y in view.path(found):
        assert 10 - 1e-6 <= x <= 210 + 1e-6
        assert 20 - 1e-6 <= y <= 120 + 1e-6


@given(found=points)
def test_from_behind_left_and_right_change_places_and_twice_is_the_original(found) -> None:
    view = view_of(found, left_mm=10, foot_mm=20, wide_mm=200, high_mm=100)
    for (x, y), (front_x, front_y) in zip(view.path(found), view.turned().path(found), strict=True):
        assert x + front_x == pytest.approx(2 * 110)
        assert y == front_y
    assert view.turned().turned() == view


def test_outlines_stay_closed() -> None:
    view = View(2.0, (0, 0), (50, 50))
    assert view.outline([(0, 0), (1, 0), (1, 1)]).points == ((50, 50), (48, 50), (48, 52))
    assert view.outline([(0, 0), (1, 0), (1, 1)]).closed
