"""Areas, offsets and distances against closed formulas and against a general-purpose geometry library."""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from segkit.errors import InputError
from segkit.geometry import polygon
from segkit.geometry.polygon import Outline
from segkit.geometry.segment import ENDS, segment_outline

HEXAGON = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
BENT: Outline = ((0, 0), (40, 0), (40, 30), (30, 30), (30, 10), (10, 10), (10, 30), (0, 30))
SQUARE: Outline = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))


def inputs(row: dict[str, str]) -> dict[str, float]:
    return {key: float(value) for key, value in (pair.split("=") for pair in row["inputs"].split())}


def regular_polygon_area(*, sides: float, across_flats_mm: float) -> float:
    corner = across_flats_mm / 2 / math.cos(math.pi / sides)
    turns = [2 * math.pi * i / sides for i in range(int(sides))]
    return polygon.area(tuple((corner * math.cos(t), corner * math.sin(t)) for t in turns))


def kerf_left(*, insert_mm: float, kerf_mm: float) -> float:
    square = polygon.translate(tuple((x * insert_mm, y * insert_mm) for x, y in SQUARE), dx_mm=3, dy_mm=4)
    left, _, right, _ = polygon.bounds([polygon.offset(square, distance_mm=-kerf_mm / 2)])
    return right - left


COMPUTED = {
    "regular_polygon_area": regular_polygon_area,
    "pointed_area": lambda **size: polygon.area(segment_outline(ends="pointed", **size)),
    "blunt_area": lambda **size: polygon.area(segment_outline(ends="blunt", **size)),
    "rounded_area": lambda **size: polygon.area(segment_outline(ends="rounded", **size)),
    "pointed_perimeter": lambda **size: polygon.perimeter(segment_outline(ends="pointed", **size)),
    "pointed_corner_sum": lambda **size: sum(
        math.tan(t / 2) for t in polygon.turning_angles(segment_outline(ends="pointed", **size))
    ),
    "pointed_offset_area": lambda distance_mm, **size: polygon.area(
        polygon.offset(segment_outline(ends="pointed", **size), distance_mm=distance_mm)
    ),
    "point_kerf": kerf_left,
}


def test_published_values(published):
    rows = [row for row in published("geometry") if row["what"] in COMPUTED]
    assert {row["what"] for row in rows} == set(COMPUTED)
    for row in rows:
        value = COMPUTED[row["what"]](**inputs(row))
        printed, tolerance = float(row["published"]), float(row["tolerance"])
        assert value == pytest.approx(printed, abs=tolerance), f"{row}: ours is {value}"


@given(
    ends=st.sampled_from(ENDS),
    length=st.floats(40, 400),
    share=st.floats(0.1, 0.9),
    slant=st.floats(-30, 30),
    turn=st.floats(-180, 180),
    move=st.tuples(st.floats(-500, 500), st.floats(-500, 500)),
)
def test_moves_agree_with_the_library(ends, length, share, slant, turn, move):
    plain = segment_outline(length_mm=length, stroke_mm=length * share, ends=ends)
    ours = polygon.shear(plain, slant_deg=slant)
    ours = polygon.translate(
        polygon.rotate(ours, angle_deg=turn, about=(7, -3)), dx_mm=move[0], dy_mm=move[1]
    )
    theirs = affinity.skew(shapely.Polygon(plain), xs=slant, origin=(0, 0))
    theirs = affinity.translate(affinity.rotate(theirs, turn, origin=(7, -3)), *move)
    assert shapely.Polygon(ours).equals_exact(theirs, 1e-9)
    assert polygon.area(ours) == pytest.approx(theirs.area, rel=1e-9)
    assert polygon.area(ours) == pytest.approx(polygon.area(plain), rel=1e-9), (
        "neither shear nor turn changes it"
    )
    assert polygon.perimeter(ours) == pytest.approx(theirs.length, rel=1e-9)
    assert polygon.bounds([ours]) == pytest.approx(theirs.bounds, abs=1e-9)
    assert polygon.signed_area(ours) > 0
    assert theirs.exterior.is_ccw


@given(
    ends=st.sampled_from(ENDS),
    stroke=st.floats(8, 60),
    slant=st.floats(-30, 30),
    distance=st.floats(-2, 5).filter(lambda d: abs(d) > 1e-3),
)
def test_offset_agrees_with_the_library_and_the_closed_formula(ends, stroke, slant, distance):
    plain = polygon.shear(segment_outline(length_mm=5 * stroke, stroke_mm=stroke, ends=ends), slant_deg=slant)
    ours = polygon.offset(plain, distance_mm=distance)
    theirs = shapely.Polygon(plain).buffer(distance, join_style="mitre", mitre_limit=50)
    assert len(ours) == len(plain)
    assert shapely.Polygon(ours).symmetric_difference(theirs).area < 1e-6 * theirs.area
    corners = sum(math.tan(turn / 2) for turn in polygon.turning_angles(plain))
    closed = polygon.area(plain) + polygon.perimeter(plain) * distance + corners * distance**2
    assert polygon.area(ours) == pytest.approx(closed, rel=1e-9)
    back = polygon.offset(ours, distance_mm=-distance)
    assert shapely.Polygon(back).equals_exact(shapely.Polygon(plain), 1e-6)


@pytest.mark.parametrize("distance", [-11, -11.0001, -20, -200])
def test_offset_that_swallows_the_piece_is_refused_where_the_library_is_silent(distance):
    assert shapely.Polygon(HEXAGON).buffer(distance, join_style="mitre").is_empty
    with pytest.raises(InputError, match=r"swallows an edge of a piece of 120\.00 by 22\.00 mm"):
        polygon.offset(HEXAGON, distance_mm=distance)


def test_offset_keeps_the_whole_piece_up_to_the_middle():
    thin = polygon.offset(HEXAGON, distance_mm=-10.9)
    assert polygon.area(thin) == pytest.approx(
        shapely.Polygon(HEXAGON).buffer(-10.9, join_style="mitre").area, rel=1e-9
    )


@pytest.mark.parametrize("distance", [3, -3])
def test_offset_of_a_bent_outline(distance):
    theirs = shapely.Polygon(BENT).buffer(distance, join_style="mitre")
    assert (
        shapely.Polygon(polygon.offset(BENT, distance_mm=distance)).symmetric_difference(theirs).area < 1e-9
    )


@pytest.mark.parametrize("distance", [-5, -6, 10, 12])
def test_offset_that_closes_a_bent_outline_is_refused(distance):
    with pytest.raises(InputError):
        polygon.offset(BENT, distance_mm=distance)


def test_validity():
    assert polygon.is_valid(HEXAGON)
    assert polygon.is_valid(BENT)
    assert not polygon.is_valid(((0, 0), (1, 1), (1, 0), (0, 1))), "edges cross"
    assert not polygon.is_valid(((0, 0), (1, 1), (2, 2))), "no area"
    assert not polygon.is_valid(((0, 0), (1, 1)))


@given(
    st.lists(st.tuples(st.floats(0, 300), st.floats(0, 300)), min_size=2, max_size=12, unique=True),
    st.floats(0.5, 120),
)
def test_near_pairs_finds_what_looking_at_every_pair_finds(places, within):
    outlines = [polygon.translate(HEXAGON, dx_mm=x, dy_mm=y) for x, y in places]
    shapes = [shapely.Polygon(outline) for outline in outlines]
    expected = {
        (i, j): shapes[i].distance(shapes[j])
        for i in range(len(shapes))
        for j in range(i + 1, len(shapes))
        if abs(shapes[i].distance(shapes[j]) - within) > 1e-9 and shapes[i].distance(shapes[j]) < within
    }
    found = polygon.near_pairs(outlines, within_mm=within)
    assert {(web.first, web.second): web.width_mm for web in found} == pytest.approx(expected, abs=1e-12)
    widths = [web.width_mm for web in found]
    assert all(later > earlier - 1e-9 for earlier, later in itertools.pairwise(widths))


def test_distances_and_overlap():
    far = polygon.translate(HEXAGON, dx_mm=0, dy_mm=25)
    assert polygon.distance(HEXAGON, far) == 3.0
    assert polygon.distance_when_moved(HEXAGON, HEXAGON)(0, 25) == 3.0
    assert polygon.distances([(HEXAGON, far), (HEXAGON, HEXAGON)]) == (3.0, 0.0)
    assert polygon.overlap_area(HEXAGON, far) == 0.0
    half = polygon.translate(SQUARE, dx_mm=0.5, dy_mm=0.0)
    assert polygon.overlap_area(SQUARE, half) == pytest.approx(0.5)
    assert polygon.near_pairs([HEXAGON], within_mm=5) == ()


@given(st.floats(-70, 70), st.floats(-20, 20))
def test_clearance_of_a_point(x, y):
    shape = shapely.Polygon(HEXAGON)
    edge = shape.exterior.distance(shapely.Point(x, y))
    inside = shape.contains(shapely.Point(x, y))
    assert polygon.clearance(HEXAGON, (x, y)) == pytest.approx(edge if inside else -edge, abs=1e-9)
    if edge > 1e-9:
        assert polygon.contains(HEXAGON, (x, y)) == inside


@given(st.floats(0.5, 500))
def test_a_circle_keeps_within_the_flattening(diameter):
    dot = polygon.circle((10, 20), diameter_mm=diameter)
    radius = diameter / 2
    assert all(math.dist(point, (10, 20)) == pytest.approx(radius) for point in dot)
    chord = math.dist(dot[0], dot[1])
    assert radius - math.sqrt(radius**2 - chord**2 / 4) <= polygon.FLATTENING_MM + 1e-12
    assert polygon.area(dot) == pytest.approx(
        math.pi * radius**2, rel=max(2.6e-2 if diameter < 2 else 0, 0.03 / diameter)
    )


def test_quarter_turns_are_exact():
    assert polygon.rotate(((3.0, 1.0),), angle_deg=90) == ((-1.0, 3.0),)
    assert polygon.rotate(((3.0, 1.0),), angle_deg=-90) == ((1.0, -3.0),)
    assert polygon.rotate(((3.0, 1.0),), angle_deg=180) == ((-3.0, -1.0),)
