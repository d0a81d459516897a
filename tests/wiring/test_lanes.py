"""Leads on their way to the rails: a lane of its own for each, and clear of the LEDs that it passes."""

import math
from itertools import combinations

import pytest

from segkit.wiring.digit_layout import DigitLayout
from segkit.wiring.lanes import plus_ends, rail_point, stub
from tests.wiring import boards


def layout_and_plan(rows: int):
    whole = boards.wired("8", bar=8 * rows, rows=rows)
    return whole.digits[1].layout, whole.plan


@pytest.mark.parametrize("rows", [1, 2, 3])
def test_each_end_of_a_string_has_its_own_place_on_the_rail(rows: int) -> None:
    layout, plan = layout_and_plan(rows)
    for name in layout.bars:
        for plus in (True, False):
            ends = [
                rail_point(layout, string.leds[0 if plus else -1], plus=plus)
                for string in plan.strings_of(1, name)
            ]
            assert all(math.dist(one, other) > 0.5 for one, other in combinations(ends, 2)), (name, plus)


def _clear_mm(layout: DigitLayout, name: str, way, own) -> float:
    """Smallest distance of a way's first stretch, off the rail, from the middles of the other LEDs."""
    (x1, y1), (x2, y2) = way[0], way[1]
    found = []
    for other in layout.leds[name]:
        if other.ref == own.ref:
            continue
        length2 = (x2 - x1) ** 2 + (y2 - y1) ** 2
        along = (
            0.0
            if length2 == 0
            else ((other.at[0] - x1) * (x2 - x1) + (other.at[1] - y1) * (y2 - y1)) / length2
        )
        along = min(1.0, max(0.0, along))
        found.append(math.dist(other.at, (x1 + along * (x2 - x1), y1 + along * (y2 - y1))))
    return min(found)


@pytest.mark.parametrize("rows", [2, 3])
def test_a_way_past_another_row_runs_between_its_leds(rows: int) -> None:
    layout, plan = layout_and_plan(rows)
    for name in layout.bars:
        for string in plan.strings_of(1, name):
            for led, plus in ((string.leds[0], True), (string.leds[-1], False)):
                assert _clear_mm(layout, name, stub(layout, led, plus=plus), led) > 2.5, (led.ref, plus)


def test_a_resistor_lies_between_the_rail_and_its_first_led() -> None:
    layout, plan = layout_and_plan(1)
    for string in plan.strings_of(1, "a"):
        rail, end = plus_ends(layout, string)
        anode = string.leds[0].anode
        assert rail == rail_point(layout, string.leds[0], plus=True)
        assert 0 < math.dist(rail, end) < math.dist(rail, anode)
