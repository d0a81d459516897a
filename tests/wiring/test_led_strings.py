"""LEDs in the order of the current: none lost, plus where the cut sheet marks it."""

import math
from dataclasses import replace

import pytest
from hypothesis import given

from segkit.errors import InputError
from segkit.fabrication.marks import polarity_marks
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import LEAD_PITCH_MM, placed_strings, plus_side
from tests.wiring import boards


@boards.some_boards
@given(whole=boards.anything)
def test_every_led_is_in_one_string_at_its_own_hole(whole: Harness) -> None:
    plan = whole.plan
    leds = [led for string in plan.strings for led in string.leds]
    assert len({led.ref for led in leds}) == len(leds)
    assert len({led.at for led in leds}) == len(leds)
    for segment in plan.board.segments:
        own = plan.strings_of(segment.digit, segment.name)
        counts = [string.leds for string in plan.circuits[segment.kind].strings]
        assert [len(string.leds) for string in own] == counts
        assert [led.number for string in own for led in string.leds] == list(range(1, sum(counts) + 1))


@boards.some_boards
@given(whole=boards.anything)
def test_plus_is_where_the_cut_sheet_of_the_back_board_marks_it(whole: Harness) -> None:
    axes = {(s.digit, s.name): s.axes for s in whole.plan.board.segments}
    for string in whole.plan.strings:
        for led in string.leds:
            axis = axes[led.digit, led.segment][led.outline]
            marks = polarity_marks(led.at, axis, hole_mm=5.0, free_mm=math.inf)
            (x1, y1), (x2, y2) = marks[0].points
            cross = ((x1 + x2) / 2, (y1 + y2) / 2)
            assert math.dist(cross, led.anode) < math.dist(cross, led.cathode)
            assert math.dist(led.anode, led.cathode) == pytest.approx(LEAD_PITCH_MM)


def test_the_current_enters_a_row_at_its_plus_end_so_that_links_are_short() -> None:
    for string in boards.wired().plan.strings:
        for one, other in zip(string.leds, string.leds[1:], strict=False):
            if one.outline == other.outline and string.segment in "abcdefg":
                assert math.dist(one.cathode, other.anode) < math.dist(one.anode, other.cathode)


def test_in_two_rows_each_row_is_entered_at_its_plus_end() -> None:
    """However the places are listed: the second row backwards."""
    for string in boards.wired("8", bar=12, rows=2).plan.strings:
        steps = [
            (b.at[0] - a.at[0], b.at[1] - a.at[1]) for a, b in zip(string.leds, string.leds[1:], strict=False)
        ]
        for (dx, dy), led in zip(steps, string.leds, strict=False):
            along = (led.cathode[0] - led.anode[0]) * dx + (led.cathode[1] - led.anode[1]) * dy
            assert along > 0


def test_plus_points_up_or_to_the_right() -> None:
    assert plus_side(((0, 0), (-3, 5))) == pytest.approx((-3 / math.sqrt(34), 5 / math.sqrt(34)))
    assert plus_side(((9, 0), (0, 0))) == (1.0, 0.0)


def test_an_led_too_few_is_refused_with_the_segment() -> None:
    plan = boards.plan("8")
    spots = boards.places(plan.board, bar=7, dot=1)
    with pytest.raises(InputError, match="segment a of digit 1 has 7 LEDs, its strings 8"):
        placed_strings(plan.board, spots, plan.circuits)


def test_a_string_without_resistor_has_no_reference() -> None:
    plan = boards.plan("8")
    circuits = {
        kind: replace(c, strings=tuple(replace(s, chosen_ohm=0.0) for s in c.strings))
        for kind, c in plan.circuits.items()
    }
    spots = boards.places(plan.board, bar=8, dot=1)
    assert {string.resistor for string in placed_strings(plan.board, spots, circuits)} == {""}
