"""What the wiring follows from: homes of chips, currents, poles of connectors."""

import pytest

from segkit.wiring.plan import CHAIN_POLES, CONNECTOR_PINS, POLES, card_connector, connector
from tests.wiring import boards


def test_poles_are_plus_then_the_segments_in_order() -> None:
    assert list(CONNECTOR_PINS.items()) == [
        ("a", 2), ("b", 3), ("c", 4), ("d", 5), ("e", 6), ("f", 7), ("g", 8), ("dp", 9), ("colon", 10),
    ]  # fmt: skip
    assert max(CONNECTOR_PINS.values()) == POLES
    assert CHAIN_POLES.index("0 V") == 1  # beside the supply, and a ground before the signals


def test_names_of_connectors() -> None:
    assert connector(3) == "X3"
    assert [card_connector(2, what) for what in "IOPS"] == ["X2I", "X2O", "X2P", "X2S"]


def test_each_card_is_at_the_digit_it_lights() -> None:
    for first in ("left", "right"):
        plan = boards.wired("88:88", first_digit=first).plan
        homes = [plan.home(chip) for chip in plan.chips]
        assert homes == ([1, 2, 3, 4] if first == "left" else [4, 3, 2, 1])
        assert all(plan.card_of(plan.home(chip)) == chip for chip in plan.chips)


def test_a_chip_for_what_did_not_fit_has_a_home_but_is_no_digits_card() -> None:
    plan = boards.wired("8.:8.", dot=1).plan
    assert plan.channels.chips == 3
    assert plan.home(3) == 1
    assert plan.card_of(1) == 1


def test_currents_add_up() -> None:
    plan = boards.wired("8.8").plan
    one = sum(plan.current_a(1, name) for name in ("a", "b", "c", "d", "e", "f", "g", "dp"))
    assert plan.current_a(1) == pytest.approx(one)
    assert plan.total_a == pytest.approx(plan.current_a(1) + plan.current_a(2))
    assert len(plan.strings_of(1)) == sum(
        len(plan.strings_of(1, s.name)) for s in plan.board.segments if s.digit == 1
    )
