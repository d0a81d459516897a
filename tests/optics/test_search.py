"""Fewest LEDs for even light: published layouts, symmetry, and no smaller number left out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.optics import solver
from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.search import best_layout, row_bound, rows_allowed
from segkit.optics.stations import Bay, bay_of


def white(hexagon, depth, tip=6.0):
    return Pocket(hexagon, depth, tip, 0.85, 0.85, 0.40, 0.50)


def bar(hexagon):
    return Bay(hexagon, 120, False)


def level(pocket, places, exponent):
    light = solver.light_columns(pocket, places=places, exponent=exponent).mean(axis=0)
    return float(light.min() / light.mean())


def test_published_counts_of_one_row(rows, hexagon):
    # published for cells 1 mm from the edge; evenness is known to 0.015, so a count may change where the
    # published layout just reaches the value
    for inputs, row in rows("count on a bar"):
        exponent, printed = lobe_exponent(inputs["full_angle_deg"]), int(row["published"])
        pocket = white(hexagon, inputs["depth_mm"], inputs["tip_mm"])

        def fewest(asked, pocket=pocket, exponent=exponent):
            found = best_layout(bar(hexagon), pocket, exponent, body_mm=5, evenness=asked, rows=1)
            return len(found.pattern.places) if found.met else 99

        ours = [fewest(inputs["evenness"] + step) for step in (-0.015, 0.015)]
        assert ours[0] <= printed <= ours[1], f"{row['inputs']}: printed {printed}, ours {ours}"


def test_published_bounds_of_one_row(rows, agree, hexagon):
    for inputs, row in rows("row bound"):
        pocket = white(hexagon, inputs["depth_mm"], inputs["tip_mm"])
        exponent = lobe_exponent(inputs["full_angle_deg"])
        agree(row, row_bound(bar(hexagon), pocket, exponent, body_mm=5, rows=1))


def test_where_one_row_is_enough(rows, hexagon):
    # published evenness is known to 0.015: 60 degrees at 25 mm just misses 0.8 there and just reaches it here
    for inputs, row in rows("one row"):
        pocket = white(hexagon, inputs["depth_mm"], inputs["tip_mm"])
        enough = row["published"] == "yes"
        asked = inputs["evenness"] + (-0.015 if enough else 0.015)
        exponent = lobe_exponent(inputs["full_angle_deg"])
        found = best_layout(bar(hexagon), pocket, exponent, body_mm=5, evenness=asked, rows=1)
        assert found.met == enough, f"{row['inputs']}: printed {row['published']}, ours {found.evenness:.3f}"


@pytest.mark.parametrize(("full", "depth", "rows"), [(30, 25, 1), (60, 25, 1), (30, 25, 2), (30, 25, 3)])
def test_no_layout_beats_the_bound(full, depth, rows, hexagon):
    pocket, exponent = white(hexagon, depth), lobe_exponent(full)
    bound = row_bound(bar(hexagon), pocket, exponent, body_mm=5, rows=rows)
    for count in range(1, 13):
        found = best_layout(
            bar(hexagon), pocket, exponent, body_mm=5, evenness=0.95, rows=rows, least=count, most=count
        )
        assert len(found.pattern.places) == count
        assert found.evenness <= bound + 0.02


def test_more_rows_reach_what_one_cannot(hexagon):
    pocket, exponent = white(hexagon, 25), lobe_exponent(30)
    bounds = [row_bound(bar(hexagon), pocket, exponent, body_mm=5, rows=rows) for rows in (1, 2, 3)]
    assert bounds[0] < 0.5 < bounds[1] < 1
    one = best_layout(bar(hexagon), pocket, exponent, body_mm=5, evenness=0.7, rows=1)
    free = best_layout(bar(hexagon), pocket, exponent, body_mm=5, evenness=0.7)
    assert not one.met
    assert one.bound == pytest.approx(bounds[0])
    assert free.pattern.rows > 1
    assert free.evenness > one.evenness + 0.1


@settings(max_examples=15)
@given(
    full=st.sampled_from((30, 60, 90, 120)), depth=st.sampled_from((20, 25, 35)),
    asked=st.floats(0.4, 0.8), rows=st.sampled_from((None, 1, 2)),
)  # fmt: skip
def test_fewest_is_fewest_and_what_it_says(full, depth, asked, rows, hexagon):
    pocket, exponent = white(hexagon, depth), lobe_exponent(full)
    found = best_layout(bar(hexagon), pocket, exponent, body_mm=5, evenness=asked, rows=rows)
    places = found.pattern.places
    assert found.evenness == pytest.approx(level(pocket, places, exponent), abs=0.03)
    if found.met:
        assert found.evenness == pytest.approx(level(pocket, places, exponent), abs=1e-9)
        for fewer in range(1, len(places)):
            less = best_layout(
                bar(hexagon), pocket, exponent, body_mm=5, evenness=asked, rows=rows, least=fewer, most=fewer
            )
            assert not less.met
    mirrored = {(round(-x, 3) + 0.0, round(y, 3) + 0.0) for x, y in places}
    assert mirrored == {(round(x, 3) + 0.0, round(y, 3) + 0.0) for x, y in places}


@pytest.mark.parametrize("diameter", [16, 24, 60])
def test_dots(diameter, make_dots):
    bay = bay_of(make_dots(diameter))
    pocket = Pocket(bay.outline, 25, 6, 0.85, 0.85, 0.40, 0.50)
    found = best_layout(bay, pocket, lobe_exponent(60), body_mm=5, evenness=0.7)
    assert found.met
    assert found.pattern.rows == 1
    if diameter == 16:
        assert found.pattern.places == ((0.0, 0.0),)
    assert rows_allowed(bay, rows=3, body_mm=5) == (1,)
