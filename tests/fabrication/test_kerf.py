from __future__ import annotations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.fabrication.kerf import around_kept, inside_hole, inside_opening, moved_edge
from segkit.geometry.segment import segment_outline

SQUARE_50 = ((0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0))


def removed(points: tuple[tuple[float, float], ...], kerf_mm: float) -> shapely.Geometry:
    """What a round tool takes away along a closed line: an independent library draws its track."""
    return shapely.LinearRing(points).buffer(kerf_mm / 2, quad_segs=32)


def test_insert_and_hole_of_the_same_size_come_out_the_same_size() -> None:
    """Both drawn at 50 mm with a kerf of 0.2: uncorrected, the insert would be 49.8 and the hole 50.2."""
    insert = shapely.Polygon(around_kept(SQUARE_50, kerf_mm=0.2).points)
    kept = insert - removed(around_kept(SQUARE_50, kerf_mm=0.2).points, 0.2)
    hole = shapely.Polygon(inside_opening(SQUARE_50, kerf_mm=0.2).points)
    opened = hole | removed(inside_opening(SQUARE_50, kerf_mm=0.2).points, 0.2)
    assert kept.bounds == pytest.approx((0, 0, 50, 50), abs=1e-9)
    assert opened.bounds == pytest.approx((0, 0, 50, 50), abs=1e-9)
    plain = shapely.Polygon(SQUARE_50) - removed(SQUARE_50, 0.2)
    assert plain.bounds == pytest.approx((0.1, 0.1, 49.9, 49.9), abs=1e-9), (
        "without correction 0.2 mm are lost"
    )


@given(
    st.floats(40, 300),
    st.floats(8, 35),
    st.sampled_from(("pointed", "blunt", "rounded")),
    st.floats(0.05, 3.0),
)
def test_the_finished_piece_is_the_one_that_was_drawn(
    length: float, stroke: float, ends: str, kerf: float
) -> None:
    outline = segment_outline(length_mm=length, stroke_mm=stroke, ends=ends)
    line = around_kept(outline, kerf_mm=kerf).points
    kept = shapely.Polygon(line) - removed(line, kerf)
    drawn = shapely.Polygon(outline)
    assert kept.symmetric_difference(drawn).area < 0.002 * drawn.area


@given(st.floats(0.1, 4.0))
def test_area_of_a_grown_piece_is_that_of_the_closed_formula(by: float) -> None:
    """Mitred offset of a convex outline: A + P*d + d^2*sum(tan(turn/2)); here 4 turns of 45 and 2 of 90 degrees."""
    outline = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
    area = 120 * 22 - 22**2 / 2
    perimeter = 2 * (120 - 22) + 4 * 11 * 2**0.5
    tangents = 4 * (2**0.5 - 1) + 2
    grown = shapely.Polygon(moved_edge(outline, outward_mm=by)).area
    assert grown == pytest.approx(area + perimeter * by + by**2 * tangents, rel=1e-9)


def test_without_kerf_nothing_moves() -> None:
    assert around_kept(SQUARE_50, kerf_mm=0.0).points == SQUARE_50
    assert inside_opening(SQUARE_50, kerf_mm=0.0).points == SQUARE_50


def test_an_opening_that_the_kerf_swallows_is_refused() -> None:
    small = ((0.0, 0.0), (3.0, 0.0), (3.0, 3.0), (0.0, 3.0))
    with pytest.raises(InputError, match="swallows"):
        inside_opening(small, kerf_mm=3.2)


def test_a_hole_is_bored_to_its_size() -> None:
    assert inside_hole((1, 2), diameter_mm=5.2, kerf_mm=0.2).radius_mm == pytest.approx(2.5)
    assert inside_hole((1, 2), diameter_mm=5.0, kerf_mm=0.0).radius_mm == 2.5
    with pytest.raises(InputError, match="not wider than the cut of 6 mm"):
        inside_hole((1, 2), diameter_mm=5.0, kerf_mm=6.0)
