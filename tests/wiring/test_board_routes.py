"""Wires between supply, controller, cards and digits."""

import math

import pytest
from hypothesis import given

from segkit.wiring.board_routes import BOX_MM, NO_CORE, board_runs, card_links, card_refs, stations
from segkit.wiring.colours import SIGNAL_CODES, code_of
from segkit.wiring.harness import Harness, harness
from segkit.wiring.plan import CHAIN_POLES
from tests.wiring import boards


def layouts(whole: Harness):
    return {digit: wiring.layout for digit, wiring in whole.digits.items()}


@pytest.mark.parametrize("first", ["left", "right"])
def test_six_wires_from_the_controller_and_on_from_card_to_card(first) -> None:
    whole = boards.wired("88:88", first_digit=first)
    runs = [run for run in board_runs(whole.plan, whole.circuit, layouts(whole)) if run.group == "chain"]
    assert len(runs) == 6 * 4
    for n, run in enumerate(runs):
        chip, pole = n // 6 + 1, n % 6
        start = ("A0", CHAIN_POLES[pole]) if chip == 1 else (f"X{chip - 1}O", str(pole + 1))
        assert (run.start, run.end) == (start, (f"X{chip}I", str(pole + 1)))
        assert run.code == SIGNAL_CODES[CHAIN_POLES[pole]]


def test_cards_sit_behind_their_digits_and_the_entry_under_the_first() -> None:
    whole = boards.wired("88 88")
    at, plan = stations(whole.plan, layouts(whole)), whole.plan
    assert [at.cards[chip] for chip in plan.chips] == [
        whole.digits[digit].layout.connector_at for digit in (1, 2, 3, 4)
    ]
    for point in (at.entry, at.controller):
        assert 0 < point[0] < plan.board.width_mm
        assert 0 < point[1] < plan.board.margin_mm
    assert abs(at.entry[0] - at.cards[1][0]) < plan.board.shape.width_mm / 2


def test_the_supply_cable_has_the_length_asked_for() -> None:
    whole = boards.wired("8")
    cores = [w for w in whole.wires if w.run.group == "cable"]
    assert [(w.run.beyond_mm, w.size.id) for w in cores] == [(3000.0, "hook-up-0-75mm2")] * 2


@pytest.mark.parametrize("cable", boards.CABLES)
def test_cores_of_a_digits_cable_have_the_colours_of_that_cable(cable: str) -> None:
    whole = harness(boards.plan("8.8", carries="segments", cable=cable))
    part = whole.plan.cable
    for digit, lamps in ((1, 8), (2, 7)):
        cores = [w.run for w in whole.wires if w.run.group == "cable" and w.run.digit == digit]
        codes = [run.code for run in cores]
        assert len(cores) == lamps + 1
        if part.cores > 1:
            known = [code_of(colour) for colour in part.colours]
            assert codes == ([*known, NO_CORE])[: lamps + 1]
        assert cores[0].end == (f"X{digit}", "1")
        assert all(run.route[0][1] == 0 for run in cores)


def test_in_the_driver_box_wires_have_a_length_of_their_own() -> None:
    whole = boards.wired("8.8", carries="segments")
    boxed = [w.run for w in whole.wires if w.run.group in ("chain", "supply")]
    assert {(run.route, run.beyond_mm) for run in boxed} == {((), BOX_MM)}


@boards.some_boards
@given(whole=boards.anything)
def test_a_part_is_on_one_card_at_most_and_links_stay_on_it(whole: Harness) -> None:
    cards = [card_refs(whole.plan, chip) for chip in whole.plan.chips]
    for n, one in enumerate(cards):
        assert all(one.isdisjoint(other) for other in cards[:n])
    for run in card_links(whole.plan, whole.circuit):
        assert any({run.start[0], run.end[0]} <= card for card in cards)


def test_a_colon_on_another_card_gets_a_wire_of_its_own() -> None:
    whole = boards.wired("8.:8.", dot=1)
    (wire,) = (w.run for w in whole.wires if w.run.start == ("X3S", "1.10"))
    assert wire.end == ("X1", "10")
    assert wire.group == "segment"
    assert wire.route_mm >= math.dist(wire.route[0], wire.route[-1]) + wire.beyond_mm > 0


def test_one_card_more_sits_in_the_upper_cell_of_the_digit_it_helps() -> None:
    whole = boards.wired("8.:8.", dot=1)
    layout = whole.digits[1].layout
    x, y = whole.stations.cards[3]
    assert layout.bars["g"].rail_at(0, plus=False)[1] < y < layout.bars["a"].rail_at(0, plus=False)[1]
    assert x == pytest.approx(layout.bars["g"].middle[0])
