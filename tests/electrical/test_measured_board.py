"""The board as a meter finds it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.electrical.corners import nominal_a
from tests.electrical.boards import LOST, made


def test_nominal_current_is_that_of_the_string_stage() -> None:
    board = made()
    circuit = board.circuits["bar"]
    assert nominal_a(board.led, board.at(circuit), leds=4, resistance_ohm=220) == pytest.approx(
        circuit.strings[0].current_a
    )


def test_the_rail_loses_nothing_where_the_sinks_stand_with_the_controller() -> None:
    board = made(lost=(LOST,))
    assert board.on_the_rail == (LOST,)
    assert replace(board, at_far_digit=False).on_the_rail == ()
    assert board.lost_v == pytest.approx(0.2)


def test_wires_that_lose_everything_leave_something_to_reckon_with() -> None:
    board = made(lost=(replace(LOST, value=40.0),))
    assert board.lost_v == pytest.approx(0.9 * 12)
    assert board.total_lowest_a == pytest.approx(board.logic_a)


def test_the_lowest_current_is_below_the_typical_one() -> None:
    board = made(low=11.0)
    circuit = board.circuits["bar"]
    assert 0 < board.lowest_a(circuit) < circuit.current_a
    assert board.total_lowest_a == pytest.approx(board.logic_a + 7 * board.lowest_a(circuit))
