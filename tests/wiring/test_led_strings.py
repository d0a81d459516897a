"""LEDs in the order of the current: none lost, plus where the cut sheet marks it."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given

from segkit.errors import InputError
from segkit.fabrication.marks import polarity_marks
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import LEAD_PITCH_MM, PlacedLed, as_wired, placed_strings, plus_side
from segkit.wiring.plan import Plan
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
            marks = polarity_marks(led.at, axis, hole_mm=5.0, free_mm=math.inf, turned=led.turned)
            (x1, y1), (x2, y2) = marks[0].points
            cross = ((x1 + x2) / 2, (y1 + y2) / 2)
            assert math.dist(cross, led.anode) < math.dist(cross, led.cathode)
            assert math.dist(led.anode, led.cathode) == pytest.approx(LEAD_PITCH_MM)


def test_the_current_enters_a_row_at_its_plus_end_so_that_links_are_short() -> None:
    for string in boards.wired().plan.strings:
        for one, other in zip(string.leds, string.leds[1:], strict=False):
            if one.outline == other.outline and string.segment in "abcdefg":
                assert math.dist(one.cathode, other.anode) < math.dist(one.anode, other.cathode)


def test_in_two_rows_the_current_enters_each_led_at_its_plus() -> None:
    """However the places are listed: the second row backwards."""
    for string in boards.wired("8", bar=12, rows=2).plan.strings:
        for one, other in pairwise(string.leds):
            assert math.dist(one.cathode, other.anode) < math.dist(one.anode, other.cathode)


def _links_mm(leds: Sequence[Sequence[PlacedLed]]) -> list[float]:
    return [math.dist(a.cathode, b.anode) for string in leds for a, b in pairwise(string)]


def _row_by_row(plan: Plan, name: str) -> list[list[PlacedLed]]:
    """The strings of a segment were every row begun at its plus end and no LED turned."""
    strings = plan.strings_of(1, name)
    segment = next(s for s in plan.board.segments if s.name == name)
    (ux, uy), (mx, my) = plus_side(segment.axes[0]), segment.axes[0][0]
    half = LEAD_PITCH_MM / 2
    leds = sorted(
        (
            replace(
                led, anode=(led.at[0] + half * ux, led.at[1] + half * uy),
                cathode=(led.at[0] - half * ux, led.at[1] - half * uy),
            )
            for string in strings
            for led in string.leds
        ),
        key=lambda led: (
            round(ux * (led.at[1] - my) - uy * (led.at[0] - mx)),
            -(ux * led.at[0] + uy * led.at[1]),
        ),
    )  # fmt: skip
    found, start = [], 0
    for string in strings:
        found.append(leds[start : start + len(string.leds)])
        start += len(string.leds)
    return found


@pytest.mark.parametrize("slant_deg", [0.0, 9.0])
@pytest.mark.parametrize(("bar", "rows"), [(8, 1), (12, 2), (14, 2), (24, 3), (30, 3), (28, 4), (20, 4)])
@pytest.mark.parametrize("driver", ["darlington-sink-8", "logic-mosfet"])
def test_links_there_and_back_are_no_longer_than_row_by_row(
    bar: int, rows: int, slant_deg: float, driver: str
) -> None:
    """No link is longer than the way to the next LED of the row or of the row beside it."""
    plan = boards.plan("8", bar=bar, rows=rows, slant_deg=slant_deg, driver=driver)
    for segment in plan.board.segments:
        if segment.name not in "abcdefg":
            continue
        strings = [string.leds for string in plan.strings_of(1, segment.name)]
        ours, old = _links_mm(strings), _links_mm(_row_by_row(plan, segment.name))
        assert sum(ours) <= sum(old) + 1e-6
        pitch, apart = segment.length_mm * rows / bar, 0.5 * segment.stroke_mm
        assert max(ours, default=0.0) <= max(pitch, apart) + LEAD_PITCH_MM


def test_a_long_way_back_is_spared() -> None:
    """Thirty LEDs in three rows, divided where strings run over from row to row."""
    plan = boards.plan("8", bar=30, rows=3, driver="logic-mosfet")
    strings = [string.leds for string in plan.strings_of(1, "b")]
    turned = [led for leds in strings for led in leds if led.turned]
    assert turned
    assert sum(_links_mm(strings)) < 0.9 * sum(_links_mm(_row_by_row(plan, "b")))


def test_the_back_board_marks_the_plus_of_turned_leds_where_they_are_soldered() -> None:
    plan = boards.plan("8", bar=30, rows=3, driver="logic-mosfet")
    spots = as_wired(boards.places(plan.board, bar=30, dot=3, rows=3), plan.strings)
    turned = {led.at for string in plan.strings for led in string.leds if led.turned}
    assert turned == {place.at for place in spots if place.turned}


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
