"""Clipping against a general-purpose geometry library."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Circle, Path, Text
from segkit.fabrication.clip import clipped
from segkit.fabrication.layers import tool_path_mm

WINDOW = (10.0, 20.0, 60.0, 50.0)
points = st.lists(st.tuples(st.integers(0, 80), st.integers(0, 80)), min_size=2, max_size=8, unique=True)


@given(points)
def test_length_inside_is_that_of_an_independent_library(corners: list[tuple[int, int]]) -> None:
    path = Path(tuple((x + 0.37, y + 0.41) for x, y in corners), closed=False)
    inside = shapely.LineString(path.points).intersection(shapely.box(*WINDOW))
    expected = sum(
        shapely.LineString(edge).intersection(shapely.box(*WINDOW)).length
        for edge in zip(path.points, path.points[1:], strict=False)
    )
    made = clipped([path], WINDOW)
    assert tool_path_mm(made) == pytest.approx(expected, abs=1e-6)
    assert bool(made) == (inside.length > 0)
    for piece in made:
        assert isinstance(piece, Path)
        assert shapely.box(*WINDOW).buffer(1e-9).contains(shapely.LineString(piece.points))


def test_an_outline_that_starts_inside_comes_out_in_one_line() -> None:
    made = clipped([Path(((30, 30), (70, 30), (70, 40), (30, 40)))], WINDOW)
    assert len(made) == 1
    assert made[0].points == ((60, 40), (30, 40), (30, 30), (60, 30))  # type: ignore[union-attr]


def test_a_circle_inside_stays_a_circle_and_one_across_is_an_arc() -> None:
    whole, cut = Circle((30, 30), 5), Circle((60, 30), 5)
    made = clipped([whole, cut], WINDOW)
    assert made[0] == whole
    assert tool_path_mm(made[1:]) == pytest.approx(math.pi * 5, abs=0.005)
    assert all(math.dist(p, (60, 30)) == pytest.approx(5, abs=0.002) for p in made[1].points)  # type: ignore[union-attr]


def test_outside_and_texts_are_left_out() -> None:
    assert clipped([Circle((5, 5), 2), Text((30, 30), "x", 3)], WINDOW) == ()
