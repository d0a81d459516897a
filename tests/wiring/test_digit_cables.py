"""Where the wires reach each digit, and the cables that follow from it."""

from dataclasses import replace

import pytest

from segkit.wiring.digit_cables import digit_cables_m, digits_of, places_m
from segkit.wiring.harness import harness
from tests.wiring import boards


@pytest.mark.parametrize(("nearest", "order"), [("left", 1), ("right", -1)])
def test_the_cable_of_each_digit_reaches_it_along_the_board(nearest, order) -> None:
    whole = harness(replace(boards.plan("888", carries="segments", cable="cat5e"), nearest=nearest))
    cores = [w.run for w in whole.wires if w.run.group == "cable"]
    digits = whole.plan.digits[::order]
    near, *others = [{run.beyond_mm for run in cores if run.digit == digit} for digit in digits]
    assert near == {3000.0}
    at = [whole.digits[digit].layout.connector_at[0] for digit in digits]
    for lengths, x in zip(others, at[1:], strict=True):
        (length,) = lengths  # all cores of a cable alike
        assert length == pytest.approx(3000 + abs(x - at[0]))


def test_points_and_colons_belong_to_the_digit_on_their_left() -> None:
    board = boards.plan("8.8:8").board
    assert [len(digit) for digit in digits_of(board)] == [8, 8, 7]
    assert places_m(board)[0] == 0 < places_m(board)[1] < places_m(board)[2]


def test_one_digit_has_the_length_asked_for() -> None:
    board = boards.plan("8").board
    assert digit_cables_m(board, length_m=2.5, nearest="right") == {1: 2.5}
