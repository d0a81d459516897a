"""Where LEDs can stand: rows and rings inside the outline, with room for their bodies."""

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics import view_factor
from segkit.optics.patterns import (
    MOST_ROWS,
    crowded,
    pattern,
    plans,
    room_for,
    row_offsets,
    row_range,
    units,
)
from segkit.optics.stations import BETWEEN_BODIES_MM, ROOM_AROUND_MM, Bay, bay_of

LENGTHS, STROKES = st.floats(60, 300), st.floats(10, 50)


def leaning(length_mm: float, stroke_mm: float, lean_mm: float) -> Bay:
    half, side = length_mm / 2, stroke_mm / 2
    corners = ((-half, -side), (half, -side + lean_mm), (half, side + lean_mm), (-half, side))
    middle = lean_mm / 2
    return Bay(tuple((x, y - middle) for x, y in corners), length_mm, False)


@given(
    length=LENGTHS, stroke=STROKES, body=st.floats(3, 8), total=st.integers(1, 16),
    rows=st.integers(1, MOST_ROWS), lean=st.none() | st.floats(-15, 15),
)  # fmt: skip
def test_bodies_have_room_everywhere(length, stroke, body, total, rows, lean, make_bar):
    bay = (
        bay_of(make_bar(length_mm=length, stroke_mm=stroke))
        if lean is None
        else leaning(length, stroke, lean)
    )
    for plan in plans(bay, total=total, rows=rows, body_mm=body):
        assert plan.total == total
        assert list(plan.reaches_mm) == sorted(plan.reaches_mm, reverse=True)
        for reach in (plan.reaches_mm[0], plan.reaches_mm[-1]):
            places = pattern(bay, plan, reach_mm=reach, body_mm=body).places
            assert len(places) == total
            if stroke >= body + 2 * ROOM_AROUND_MM + 2 * abs(lean or 0):
                room = min(view_factor.clearance(bay.outline, place) for place in places)
                assert room >= body / 2 + ROOM_AROUND_MM - 1e-3
            for one, other in combinations(places, 2):
                assert math.dist(one, other) >= body + BETWEEN_BODIES_MM - 2e-3


@given(diameter=st.floats(10, 90), body=st.floats(3, 6), total=st.integers(1, 14))
def test_rings_have_room_everywhere(diameter, body, total, make_dots):
    bay = bay_of(make_dots(diameter))
    for plan in plans(bay, total=total, rows=1, body_mm=body):
        for reach in plan.reaches_mm:
            places = pattern(bay, plan, reach_mm=reach, body_mm=body).places
            assert len(places) == total
            if total > 1:
                assert (
                    min(view_factor.clearance(bay.outline, p) for p in places)
                    >= body / 2 + ROOM_AROUND_MM - 1e-3
                )
            for one, other in combinations(places, 2):
                assert math.dist(one, other) >= body + BETWEEN_BODIES_MM - 1e-3
    assert plans(bay, total=total, rows=2, body_mm=body) == ()


@given(length=LENGTHS, stroke=STROKES, total=st.integers(1, 14), rows=st.integers(1, MOST_ROWS))
def test_rows_look_the_same_from_both_ends(length, stroke, total, rows, make_bar):
    bay = bay_of(make_bar(length_mm=length, stroke_mm=stroke))
    for plan in plans(bay, total=total, rows=rows, body_mm=5):
        places = pattern(bay, plan, reach_mm=plan.reaches_mm[-1], body_mm=5).places
        key = {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in places}
        assert {(round(-x, 3) + 0.0, y) for x, y in key} == key


def test_the_wire_runs_to_and_fro(make_bar):
    bay = bay_of(make_bar())
    plan = plans(bay, total=6, rows=2, body_mm=5)[0]
    chosen = pattern(bay, plan, reach_mm=40.0, body_mm=5)
    assert chosen.rows == 2
    assert chosen.pitch_mm == pytest.approx(40)
    assert [round(x) for x, _ in chosen.places] == [-40, 0, 40, 40, 0, -40]
    assert [y for _, y in chosen.places] == [-3, -3, -3, 3, 3, 3]
    assert chosen.words.startswith("two rows of 3, 40.0 mm apart")


def test_a_pointed_end_keeps_the_body_off_both_edges(make_bar):
    # 45 degree tip: a body of 2.5 mm radius with 1.2 mm of room stands 3.7 * sqrt 2 from the tip
    low, high = row_range(bay_of(make_bar()), offset_mm=0.0, body_mm=5)
    assert high == pytest.approx(60 - 3.7 * math.sqrt(2), abs=1e-4)
    assert low == pytest.approx(-high)
    shorter = row_range(bay_of(make_bar()), offset_mm=4.0, body_mm=5)
    assert shorter[1] == pytest.approx(high - 4, abs=1e-4)


def test_rows_that_do_not_go_in(make_bar):
    assert row_offsets(bay_of(make_bar(stroke_mm=12)), rows=2, body_mm=5) == ()
    assert row_offsets(bay_of(make_bar(stroke_mm=6)), rows=1, body_mm=5) == ((0.0,),)
    assert len(row_offsets(bay_of(make_bar(stroke_mm=40)), rows=4, body_mm=5)[0]) == 4
    assert plans(bay_of(make_bar(stroke_mm=6)), total=3, rows=1, body_mm=5) == ()


@pytest.mark.parametrize("rows", [1, 2, 3])
def test_room_is_what_the_plans_can_fill(rows, make_bar):
    bay = bay_of(make_bar(length_mm=90, stroke_mm=30))
    room = room_for(bay, rows=rows, body_mm=5)
    fills = [n for n in range(1, room + 6) if plans(bay, total=n, rows=rows, body_mm=5)]
    assert max(fills) <= room
    assert max(fills) >= room - 2


def test_zigzag_and_ring_shapes(make_bar, make_dots):
    bay = bay_of(make_bar())
    zigzag = pattern(bay, plans(bay, total=5, rows=2, body_mm=5)[0], reach_mm=40.0, body_mm=5)
    assert sorted(round(x) for x, y in zigzag.places if y < 0) == [-20, 20]
    assert sorted(round(x) for x, y in zigzag.places if y > 0) == [-40, 0, 40]
    dot = bay_of(make_dots(60))
    middles = [plan.counts[1] for plan in plans(dot, total=6, rows=1, body_mm=5)]
    assert middles == [0, 1]
    plan = plans(dot, total=6, rows=1, body_mm=5)[1]
    assert units(plan)[-1] == (0.0, 0.0)
    assert "a ring of 5" in pattern(dot, plan, reach_mm=20, body_mm=5).words


def test_more_than_go_in_stand_evenly_all_the_same(make_bar, make_dots):
    chosen = crowded(bay_of(make_bar()), total=30, body_mm=5)
    assert len(chosen.places) == 30
    assert chosen.pitch_mm == pytest.approx(chosen.places[1][0] - chosen.places[0][0], abs=1e-3)
    assert len(crowded(bay_of(make_dots(20)), total=9, body_mm=5).places) == 9
    assert crowded(bay_of(make_bar()), total=1, body_mm=5).places == ((0.0, 0.0),)
