from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Circle, Path
from segkit.errors import InputError
from segkit.fabrication.seams import CLEAR_MM, holes_on, page_count, seams


@given(st.floats(30, 3000), st.floats(60, 400), st.floats(4, 40))
def test_fewest_pages_cover_and_one_less_does_not(extent: float, window: float, overlap: float) -> None:
    count = page_count(extent, window_mm=window, overlap_mm=overlap)
    assert count * window - (count - 1) * overlap >= extent - 1e-6
    assert count == 1 or (count - 1) * window - (count - 2) * overlap < extent


@given(st.floats(200, 1500), st.floats(100, 280), st.lists(st.integers(0, 1500), max_size=40))
def test_every_page_shows_no_more_than_its_window(extent: float, window: float, holes: list[int]) -> None:
    shapes = [Circle((x, 50), 2.5) for x in holes]
    found = seams(shapes, extent_mm=extent, window_mm=window, overlap_mm=10, upright=True)
    assert len(found) == page_count(extent, window_mm=window, overlap_mm=10) - 1
    edges = (0.0, *found, extent)
    for number, (left, right) in enumerate(itertools.pairwise(edges)):
        shown = right - left + (5 if number else 0) + (5 if number < len(found) else 0)
        assert 0 < shown <= window + 1e-6


def test_holes_are_kept_clear_of_where_there_is_room() -> None:
    """Holes every 12 mm over a metre: each seam lies between two."""
    holes = [Circle((x, 50.0), 2.5) for x in range(6, 1000, 12)]
    found = seams(holes, extent_mm=1000, window_mm=190, overlap_mm=10, upright=True)
    assert sum(holes_on(holes, x, upright=True) for x in found) == 0
    assert all(min(abs(x - c.centre[0]) for c in holes) >= 2.5 + CLEAR_MM - 1e-9 for x in found)


def test_an_edge_along_a_seam_is_kept_clear_of() -> None:
    edges = [Path(((x, 0.0), (x, 300.0)), closed=False) for x in range(90, 110)]
    (at,) = seams(edges, extent_mm=200, window_mm=120, overlap_mm=10, upright=True)
    assert not 90 - CLEAR_MM < at < 109 + CLEAR_MM


def test_no_better_choice_is_missed() -> None:
    """Every pair of places is tried on a board small enough for that."""
    holes = [Circle((x, 9.0), 3.0) for x in (60, 70, 83, 92, 130, 141, 150, 163)]
    found = seams(holes, extent_mm=220, window_mm=95, overlap_mm=10, upright=True)
    crossed = sum(abs(c.centre[0] - x) <= 4.5 for c in holes for x in found)
    best = math.inf
    for one, other in itertools.combinations(range(221), 2):
        if one <= 90 and other - one <= 85 and 220 - other <= 90:
            best = min(best, sum(abs(c.centre[0] - x) <= 4.5 for c in holes for x in (one, other)))
    assert crossed == best


def test_across_is_the_same_turned() -> None:
    upright = seams([Circle((100, 50), 3)], extent_mm=200, window_mm=110, overlap_mm=10, upright=True)
    assert upright == seams(
        [Circle((50, 100), 3)], extent_mm=200, window_mm=110, overlap_mm=10, upright=False
    )


def test_a_page_that_shows_only_overlap_is_refused() -> None:
    with pytest.raises(InputError, match="no room for an overlap"):
        page_count(100, window_mm=20, overlap_mm=20)
