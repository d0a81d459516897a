from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from segkit.fabrication.bottom_left import bottom_left
from segkit.geometry.polygon import circle
from segkit.geometry.segment import segment_outline


@settings(max_examples=12, phases=[Phase.explicit, Phase.generate])
@given(
    st.lists(st.tuples(st.floats(40, 120), st.floats(8, 30), st.sampled_from(("pointed", "blunt", "rounded"))),
             min_size=1, max_size=9),
    st.floats(0.5, 6),
)  # fmt: skip
def test_pieces_keep_their_distance(sizes: list[tuple[float, float, str]], spacing: float) -> None:
    shapes = [
        segment_outline(length_mm=length, stroke_mm=stroke, ends=ends) for length, stroke, ends in sizes
    ]
    every = range(len(shapes))
    made = bottom_left(shapes, order=every, angles=[(0, 90)] * len(shapes), width_mm=260, spacing_mm=spacing)
    placed = [shapely.Polygon(piece.outline) for piece in made]
    assert sorted(piece.index for piece in made) == [*every]
    for one, other in itertools.combinations(placed, 2):
        assert one.distance(other) >= spacing - 1e-6
    for piece in made:
        left, bottom, right, _ = shapely.Polygon(piece.outline).bounds
        assert left >= spacing - 1e-6
        assert bottom >= spacing - 1e-6
        assert right <= 260 - spacing + 1e-6
        assert shapely.Polygon(piece.outline).area == pytest.approx(
            shapely.Polygon(shapes[piece.index]).area, abs=1e-3
        )


def test_a_dot_goes_into_the_notch_between_pieces_that_lie_already() -> None:
    bar = segment_outline(length_mm=80, stroke_mm=20, ends="pointed")
    dot = circle((0, 0), diameter_mm=12)
    shapes = [bar, bar, dot]
    made = bottom_left(shapes, order=(0, 1, 2), angles=[(0,)] * 3, width_mm=180, spacing_mm=2, top_share=0.5)
    top = max(y for piece in made for _, y in piece.outline)
    assert top < 20 + 2 + 12, "not above the bars, but in the notch"


def test_too_wide_is_left_out() -> None:
    assert (
        bottom_left([((0, 0), (50, 0), (50, 9))], order=(0,), angles=[(0,)], width_mm=40, spacing_mm=1) == ()
    )
