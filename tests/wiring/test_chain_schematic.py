"""The schematic of the chain."""

import itertools
import re

import pytest
from hypothesis import given

from segkit.wiring.chain_schematic import chain_schematic
from segkit.wiring.harness import Harness
from tests.wiring import boards
from tests.wiring.drawn import on_page, texts, words


@boards.some_sheets
@given(whole=boards.anything)
def test_references_are_those_of_the_circuit(whole: Harness) -> None:
    page = chain_schematic(whole)
    assert on_page(page)
    refs = {part.ref for part in whole.circuit.components}
    assert {word for word in words(page) if re.fullmatch(r"[RUQC]\d+", word)} <= refs


@pytest.mark.parametrize("driver", boards.DRIVES)
def test_every_pin_of_the_first_card_is_numbered(driver: str) -> None:
    whole = boards.wired("8.8", driver=driver)
    found = words(chain_schematic(whole))
    pins = {pin for net in whole.circuit.nets for ref, pin in net.pins if ref in ("U11", "U12")}
    said = set(re.findall(r"\d+", " ".join(found)))
    assert {pin for pin in pins if pin.isdecimal()} <= said


def test_it_stays_dark_at_power_on() -> None:
    text = " ".join(words(chain_schematic(boards.wired("8"))))
    assert "R1 holds output-enable high" in text
    assert "C11" in text


def test_a_chain_of_one_has_no_way_out() -> None:
    found = words(chain_schematic(boards.wired("8")))
    assert "X1O" not in found
    assert "stays free: last card" in found
    assert "X1O" in words(chain_schematic(boards.wired("8.8")))


def test_spare_outputs_are_marked() -> None:
    assert words(chain_schematic(boards.wired("8"))).count("spare, stays free") == 1


def test_names_of_two_arrays_on_a_card_keep_apart() -> None:
    """Eight outputs on arrays of seven: every word of the second array clear of those of the first."""
    page = chain_schematic(boards.wired("8.8", driver="darlington-sink-7"))
    named = [t for t in texts(page) if "darlington-sink-7" in t.text or "stays free: clamp" in t.text]
    assert len(named) == 4
    for one, other in itertools.combinations(named, 2):
        assert abs(one.at[1] - other.at[1]) > 2.5 or abs(one.at[0] - other.at[0]) > 12, (one, other)


@pytest.mark.parametrize(
    ("digits", "said"),
    [(8, ""), (9, "Card 8 is left out here."), (11, "Cards 8 to 10 are left out here.")],
)
def test_cards_that_are_not_drawn_are_named(digits: int, said: str) -> None:
    found = words(chain_schematic(boards.wired("8" * digits, bar=1)))
    assert said in " ".join(found)
    assert ("…" in found) == bool(said)
    assert f"card {digits}" in found
