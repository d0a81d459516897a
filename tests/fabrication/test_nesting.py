from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from segkit.fabrication.nesting import Nest, Piece, lying_along_x, nested, stacks
from segkit.geometry.segment import segment_outline


def block(width: float, height: float, label: str = "1a") -> Piece:
    return Piece(label, ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)))


def boxes(nest: Nest) -> list[shapely.Geometry]:
    return [shapely.Polygon(piece.outline) for piece in nest.pieces]


@settings(max_examples=12, phases=[Phase.explicit, Phase.generate])
@given(st.lists(st.tuples(st.floats(5, 120), st.floats(5, 60)), min_size=1, max_size=20), st.floats(0.5, 6))
def test_pieces_keep_their_distance_and_stay_on_their_sheets(
    sizes: list[tuple[float, float]], spacing: float
) -> None:
    nest = nested(
        [block(w, h, f"{i}a") for i, (w, h) in enumerate(sizes)],
        width_mm=300,
        height_mm=200,
        spacing_mm=spacing,
    )
    placed = boxes(nest)
    assert sorted(piece.label for piece in nest.pieces) == sorted(f"{i}a" for i in range(len(sizes)))
    assert not nest.too_large
    for one, other in itertools.combinations(placed, 2):
        assert one.distance(other) >= spacing - 1e-6
    frames = [shapely.box(*frame).buffer(1e-6) for frame in nest.sheets]
    for piece in placed:
        assert sum(frame.contains(piece.buffer(spacing - 1e-6, join_style="mitre")) for frame in frames) == 1
    across, up = (200, 300) if nest.turned else (300, 200)
    for left, bottom, right, top in nest.sheets:
        assert top - bottom <= up + 1e-6
        assert right - left <= across + 1e-6
    assert min(frame[1] for frame in nest.sheets) == pytest.approx(0, abs=1e-9)


def test_pieces_keep_their_shape() -> None:
    hexagon = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
    nest = nested([Piece("1a", hexagon)] * 3, width_mm=600, height_mm=400, spacing_mm=3)
    assert [shape.area for shape in boxes(nest)] == pytest.approx([120 * 22 - 22**2 / 2] * 3)


def test_a_long_piece_turns_the_sheet() -> None:
    assert nested([block(350, 20)], width_mm=300, height_mm=400, spacing_mm=3).too_large == ()


def test_pieces_larger_than_the_sheet_are_named() -> None:
    nest = nested([block(450, 20, "1a"), block(20, 20, "1dp")], width_mm=300, height_mm=400, spacing_mm=3)
    assert nest.too_large == ("1a",)
    assert len(nest.pieces) == 2


def test_a_standing_segment_is_laid_down_and_a_dot_left() -> None:
    lying = segment_outline(length_mm=90, stroke_mm=20, ends="blunt")
    standing = tuple((-y, x) for x, y in lying)
    turned = lying_along_x(standing, ((0, -45), (0, 45)))
    assert shapely.Polygon(turned).bounds == pytest.approx((-45, -10, 45, 10))
    assert lying_along_x(standing, ((3, 3), (3, 3))) == standing


def test_with_a_grain_every_piece_runs_as_on_the_board() -> None:
    """The grain runs along the longer side of the sheet; pieces keep their place to it, whichever way it lies."""
    up = segment_outline(length_mm=80, stroke_mm=20, ends="pointed")
    standing = tuple((-y, x) for x, y in up)
    pieces = [Piece(f"{n}b", standing) for n in range(6)] + [Piece(f"{n}a", up) for n in range(4)]
    for grain in ("up", "across"):
        nest = nested(pieces, width_mm=300, height_mm=200, spacing_mm=3, grain=grain)
        along_x = not nest.turned  # the longer side lies across then
        for piece in nest.pieces:
            left, bottom, right, top = shapely.Polygon(piece.outline).bounds
            lies = right - left > top - bottom
            runs_up = piece.label.endswith("b") == (grain == "up")
            assert lies == (runs_up if along_x else not runs_up), (grain, piece.label)


def test_the_same_sheet_again_and_the_share_that_is_used() -> None:
    hexagon = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
    nest = nested([Piece(f"{n}a", hexagon) for n in range(200)], width_mm=600, height_mm=400, spacing_mm=3)
    first = [p for p in nest.pieces if p.outline[0][1] > nest.sheets[0][1]]
    second = [p for p in nest.pieces if nest.sheets[1][1] < p.outline[0][1] < nest.sheets[1][3]]
    assert len(first) == len(second) > 70
    frames = sum((right - left) * (top - bottom) for left, bottom, right, top in nest.sheets)
    assert len(nest.pieces) * shapely.Polygon(hexagon).area / frames > 0.75


def test_stacks_name_the_pieces_that_are_alike() -> None:
    hexagon = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
    other = segment_outline(length_mm=100, stroke_mm=22, ends="pointed")
    pieces = [Piece("1a", hexagon), Piece("1b", other), Piece("1d", hexagon)]
    assert stacks(pieces) == (("1a", "1d"), ("1b",))
