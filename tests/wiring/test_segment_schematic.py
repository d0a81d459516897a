"""The schematic of a segment names every part as the lists do."""

import re
from dataclasses import replace

import pytest
from hypothesis import given

from segkit.wiring.harness import Harness
from segkit.wiring.segment_schematic import MOST_STRINGS, circuits_alike, segment_schematic
from tests.wiring import boards
from tests.wiring.drawn import on_page, words


@boards.some_sheets
@given(whole=boards.anything)
def test_parts_of_the_segment_have_the_references_of_the_circuit(whole: Harness) -> None:
    page = segment_schematic(whole)
    assert on_page(page)
    found = set(words(page))
    for strings in circuits_alike(whole.plan):
        shown = strings if len(strings) <= MOST_STRINGS else strings[: MOST_STRINGS - 1]
        assert {led.ref for string in shown for led in string.leds} <= found
        assert {string.element for string in shown if string.resistor} <= found
        if len(shown) < len(strings):
            assert f"… {len(strings)} strings in all" in found
    refs = {part.ref for part in whole.circuit.components}
    assert {word for word in found if re.fullmatch(r"[DRUQC]\d+\w*", word)} <= refs


def test_values_are_those_of_the_parts() -> None:
    whole = boards.wired("8")
    values = {part.ref: part.value for part in whole.circuit.components}
    found = words(segment_schematic(whole))
    for string in whole.plan.strings_of(1, "a"):
        assert found[found.index(string.resistor) + 1] == values[string.resistor]


def test_the_voltages_add_up_to_the_supply() -> None:
    (text,) = (word for word in words(segment_schematic(boards.wired("8"))) if " V = " in word)
    supply, leds, sink, rest = (float(v) for v in re.findall(r"([\d.]+) V", text))
    assert supply == 12
    assert leds + sink + rest == pytest.approx(12, abs=0.05)


def test_what_the_common_lead_takes_is_in_the_sum() -> None:
    behind = replace(boards.wired("8"), plan=replace(boards.wired("8").plan, lost_v=0.7))
    (text,) = (word for word in words(segment_schematic(behind)) if " V = " in word)
    assert "0.7 V in the common lead" in text
    supply, *rest = (float(v) for v in re.findall(r"([\d.]+) V", text))
    assert sum(rest) == pytest.approx(supply, abs=0.05)


@pytest.mark.parametrize(("where", "said"), [("digit", "each digit"), ("board", "the board")])
def test_what_the_common_lead_takes_is_drawn_between_plus_and_the_rail(where: str, said: str) -> None:
    free = boards.wired("8")
    behind = replace(free, plan=replace(free.plan, lost_v=0.7, lost_in=where))
    assert not [word for word in words(segment_schematic(free)) if "part in plus" in word]
    (text,) = (word for word in words(segment_schematic(behind)) if "part in plus" in word)
    assert f"part in plus of {said}" in text
    assert "takes 0.7 V" in text
    assert {"+12 V", "X1 pole 1"} <= set(words(segment_schematic(behind)))


def test_one_drawing_for_each_circuit_that_differs() -> None:
    assert len(circuits_alike(boards.wired("8").plan)) == 1
    assert len(circuits_alike(boards.wired("8.8", dot=3).plan)) == 2


@pytest.mark.parametrize(("driver", "said"), [("logic-mosfet", "Q11"), ("power-register-8", "U11")])
def test_the_sink_is_the_one_of_the_design(driver: str, said: str) -> None:
    assert said in words(segment_schematic(boards.wired("8", driver=driver)))


def test_which_level_lights() -> None:
    for driver, level in (("darlington-sink-8", "A 1"), ("register-direct-hc595", "A 0")):
        text = " ".join(words(segment_schematic(boards.wired("8", driver=driver))))
        assert f"{level} at the register output lights" in text


def test_the_table_counts_the_strings() -> None:
    whole = boards.wired("8")
    found = words(segment_schematic(whole))
    row = found[found.index("heat in it") + 1 :][:3]
    strings = whole.plan.circuits["upright"].strings
    assert row[:2] == [str(len(strings)), str(strings[0].leds)]
