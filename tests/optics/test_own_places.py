"""Places of the builder's own: refused outside, judged inside."""

import pytest

from segkit.optics.own_places import own_pattern, place_findings, place_problems
from segkit.optics.stations import bay_of


def told(places, segment, led):
    found = place_findings(
        places, subject="x segments", bay=bay_of(segment), stroke_mm=segment.stroke_mm, led=led
    )
    return {finding.code: finding for finding in found}


def test_outside_is_refused_with_its_key(make_bar):
    kinds = {"small upright": make_bar(kind="small upright"), "upright": make_bar(kind="upright")}
    problems = place_problems(
        kinds,
        {"small upright": ((0.0, 0.0), (61.0, 0.0)), "upright": ((0.0, 11.0),), "point": ((0.0, 0.0),)},
    )
    assert [problem.key for problem in problems] == [
        "pocket.places.small-upright", "pocket.places.upright", "pocket.places.point",
    ]  # fmt: skip
    assert "LED 2" in str(problems[0])
    assert "1.0 mm outside" in str(problems[1])
    assert place_problems(kinds, {"upright": ((-50.0, 0.0), (50.0, 0.0))}) == []
    assert [p.key for p in place_problems(kinds, {"upright": ()})] == ["pocket.places.upright"]


@pytest.mark.parametrize(("apart", "level"), [(4.0, "stop"), (5.5, "caution"), (6.0, None), (20.0, None)])
def test_bodies_in_each_other(apart, level, make_bar, red):
    found = told(((0.0, 0.0), (apart, 0.0)), make_bar(), red).get("leds-too-close")
    assert (found.level if found else None) == level
    if found:
        assert found.holds == (("back_board",) if level == "stop" else ())


@pytest.mark.parametrize(("across", "level"), [(8.0, "stop"), (7.0, "caution"), (6.0, None), (0.0, None)])
def test_bodies_at_a_wall(across, level, make_bar, red):
    codes = told(((0.0, across),), make_bar(), red)
    found = codes.get("led-at-wall")
    assert (found.level if found else None) == level
    assert ("light-near-wall" in codes) == (across > 5)


def test_pattern_of_own_places():
    two = own_pattern(((-10.0, -4.0), (10.0, 4.0)))
    assert (two.rows, round(two.pitch_mm, 2)) == (2, 21.54)
    assert own_pattern(((3.0, 0.0),)).pitch_mm == 0
