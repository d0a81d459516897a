"""Interlocking columns against the closed formula and against measured distances."""

from __future__ import annotations

import itertools
import math

import pytest

from segkit.fabrication.bottom_left import Placed
from segkit.fabrication.columns import in_columns, in_regions, kinds_of
from segkit.geometry.polygon import bounds, near_pairs
from segkit.geometry.segment import segment_outline

FLAT = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")


def nearest(made: tuple[Placed, ...]) -> float:
    return near_pairs([piece.outline for piece in made], within_mm=20)[0].width_mm


def test_pitch_of_columns_is_the_closed_formula() -> None:
    """For 45 degree ends: X = L + g*sqrt(2) - p/2, with p = w + g."""
    made = in_columns(kinds_of([FLAT] * 28, [(0, 90)] * 28, spacing_mm=3), width_mm=600, spacing_mm=3)
    assert made is not None
    lefts = sorted({round(bounds([piece.outline])[0], 6) for piece in made})
    steps = [b - a for a, b in itertools.pairwise(lefts)]
    assert steps == pytest.approx([120 + 3 * math.sqrt(2) - 25 / 2] * 4)
    left, bottom, right, top = bounds([piece.outline for piece in made])
    assert (right - left, top - bottom) == pytest.approx((566.97, 147.0), abs=0.005)
    assert nearest(made) == pytest.approx(3.0, abs=1e-6)


def test_near_the_bound_that_no_packing_beats() -> None:
    """Each piece grown by half the spacing takes A + P*g/2 + pi*g^2/4 of a large sheet."""
    count = 700
    made = in_columns(kinds_of([FLAT] * count, [(0, 90)] * count, spacing_mm=3), width_mm=3000, spacing_mm=3)
    assert made is not None
    area, edge = 2398.0, 258.2254
    bound = count * (area + edge * 1.5 + math.pi * 9 / 4) / 3000
    assert bound < bounds([piece.outline for piece in made])[3] < 1.06 * bound


def test_what_is_left_of_the_width_is_filled_with_standing_pieces() -> None:
    made = in_columns(kinds_of([FLAT] * 28, [(0, 90)] * 28, spacing_mm=3), width_mm=300, spacing_mm=3)
    assert made is not None
    assert sum(piece.angle_deg == 90 for piece in made) == 4
    assert len({piece.index for piece in made}) == 28
    assert nearest(made) >= 3 - 1e-6


def test_two_lengths_share_a_column_of_the_longer() -> None:
    short = segment_outline(length_mm=110, stroke_mm=22, ends="pointed")
    shapes = [FLAT] * 12 + [short] * 16
    made = in_columns(kinds_of(shapes, [(0,)] * 28, spacing_mm=3), width_mm=600, spacing_mm=3)
    assert made is not None
    assert len(made) == 28
    assert nearest(made) >= 3 - 1e-6


def test_regions_keep_their_distance() -> None:
    short = segment_outline(length_mm=100, stroke_mm=22, ends="pointed")
    shapes = [FLAT] * 30 + [short] * 41
    kinds = kinds_of(shapes, [(0, 90)] * 71, spacing_mm=3)
    ways = [*in_regions(kinds, width_mm=500, spacing_mm=3)]
    assert ways
    for made in ways:
        assert sorted(piece.index for piece in made) == [*range(71)]
        assert nearest(made) >= 3 - 1e-6
        left, bottom, right, _ = bounds([piece.outline for piece in made])
        assert left >= 3 - 1e-6
        assert bottom >= 3 - 1e-6
        assert right <= 497 + 1e-6


def test_what_does_not_fit_gives_nothing() -> None:
    assert in_columns(kinds_of([FLAT], [(0,)], spacing_mm=3), width_mm=100, spacing_mm=3) is None
    low = in_columns(
        kinds_of([FLAT] * 9, [(0,)] * 9, spacing_mm=3), width_mm=130, spacing_mm=3, highest_mm=99
    )
    assert low is None
