"""Evenness and equality of segments as they are built, against a published study and against plain redrawing."""

import math
import random

import pytest

from segkit.optics import spread as module
from segkit.optics.pocket import Pocket
from segkit.optics.solver import light_columns, mean_per_led
from segkit.optics.spread import spread, spread_lines
from segkit.working import evaluate

BAR = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
FIVE = tuple((x, 0.0) for x in (-49.0, -24.5, 0.0, 24.5, 49.0))
M_60 = -math.log(2) / math.log(math.cos(math.radians(30)))
DEEP = Pocket(BAR, 35, 6, 0.85, 0.85, 0.40, 0.50)


@pytest.fixture
def only(monkeypatch):
    def switch(*, flux, place):
        monkeypatch.setattr(module, "FLUX_SIGMA", flux)
        monkeypatch.setattr(module, "PLACE_SIGMA_MM", place)
        spread.cache_clear()
        return spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=28)

    yield switch
    spread.cache_clear()


def test_published_study(only):
    # study of pockets, 5 LEDs of 60 deg at 35 mm: 0.88 without spread; bins alone 0.72 at the 5th percentile
    # (ours 0.74, of 400 draws); places alone 0.83 in the mean, hence a little less at the 5th percentile
    bins, places = only(flux=0.15, place=1e-9), only(flux=1e-9, place=1.0)
    assert bins.evenness == pytest.approx(0.72, abs=0.03)
    assert 0.76 < places.evenness < 0.83
    nothing = only(flux=1e-9, place=1e-9)
    assert nothing.evenness == pytest.approx(0.88, abs=0.01)
    assert nothing.ratio == pytest.approx(1, abs=1e-6)


def test_slopes_against_maps_solved_at_the_moved_places():
    # independent: every board solved anew at its own places, with another generator of random numbers
    drawn, dice = [], random.Random(3)
    for _ in range(150):
        moved = [(x + dice.gauss(0, 1), y + dice.gauss(0, 1)) for x, y in FIVE]
        light = sum(
            max(0.1, dice.gauss(1, 0.15)) * column
            for column in light_columns(DEEP, places=moved, exponent=M_60)
        )
        drawn.append(light.min() / light.mean())
    ours = spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=28)
    assert ours.evenness == pytest.approx(sorted(drawn)[7], abs=0.03)


def test_narrow_spots_against_maps_solved_at_the_moved_places():
    # LEDs of 15 and 30 deg 9 mm under the sheet: the spots are no wider than the holes' error
    near, places = Pocket(BAR, 15, 6, 0.85, 0.85, 0.40, 0.50), tuple((x, 0.0) for x in range(-50, 51, 10))
    for full in (15, 30):
        m = -math.log(2) / math.log(math.cos(math.radians(full / 2)))
        drawn, dice = [], random.Random(3)
        for _ in range(40):
            moved = [(x + dice.gauss(0, 1), y + dice.gauss(0, 1)) for x, y in places]
            light = sum(
                max(0.1, dice.gauss(1, 0.15)) * column
                for column in light_columns(near, places=moved, exponent=m)
            )
            drawn.append(light.min() / light.mean())
        ours = spread(near, places=places, exponent=m, outlines=1, segments=14)
        assert ours.evenness == pytest.approx(sorted(drawn)[2], abs=0.03), full
        assert 0 < ours.ratio < 1


def test_segments_against_plain_redrawing():
    dice = random.Random(5)
    share = mean_per_led(DEEP, places=FIVE, exponent=M_60)
    ratios = []
    for _ in range(400):
        board = [sum(max(0.1, dice.gauss(1, 0.15)) * s for s in share) for _ in range(28)]
        ratios.append(min(board) / max(board))
    ours = spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=28)
    assert ours.ratio == pytest.approx(sorted(ratios)[20], abs=0.025)


def test_more_leds_or_outlines_even_out_and_more_segments_differ_more():
    few = spread(DEEP, places=FIVE[1:4], exponent=M_60, outlines=1, segments=28)
    many = spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=28)
    assert few.ratio < many.ratio
    two = spread(DEEP, places=FIVE, exponent=M_60, outlines=2, segments=28)
    assert many.ratio < two.ratio
    wall = spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=280)
    assert wall.ratio < many.ratio
    assert spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=1).ratio == 1


def test_the_same_every_time_and_an_led_at_the_wall_stays_inside():
    at_wall = ((-40.0, 9.0), (40.0, -9.0))
    one = spread(DEEP, places=at_wall, exponent=M_60, outlines=1, segments=4)
    spread.cache_clear()
    assert spread(DEEP, places=at_wall, exponent=M_60, outlines=1, segments=4) == one
    assert 0 < one.evenness < 1


def test_the_working_can_be_checked():
    lines = spread_lines("small upright", spread(DEEP, places=FIVE, exponent=M_60, outlines=1, segments=7))
    assert [line.name for line in lines] == [
        "optics.evenness_built.small-upright",
        "optics.segment_ratio.small-upright",
    ]
    for line in lines:
        assert evaluate(line.formula, {each.symbol: each.value for each in line.inputs}) == pytest.approx(
            line.value
        )
