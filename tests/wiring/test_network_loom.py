"""Wires from networks along the plus ring: one to each string, none that runs back on itself."""

import pytest

from segkit.wiring.run import without_detours
from tests.wiring import boards


@pytest.mark.parametrize("carries", ["supply", "segments"])
def test_each_string_has_a_wire_of_its_own_along_the_ring(carries) -> None:
    alone, networked = (boards.wired("8.8.", carries=carries, networked=word) for word in (False, True))
    for digit, wiring in networked.digits.items():
        ring = [run.route for run in alone.digits[digit].runs if run.group == "plus"]
        rail = {point for route in ring for point in route}
        feeds = [run for run in wiring.runs if run.group == "plus" and run.make == "wire" and run.string]
        strings = [string for string in networked.plan.strings_of(digit) if string.network]
        assert len(feeds) == len(strings)
        assert {run.start for run in feeds} == {(string.resistor, string.own_pin) for string in strings}
        for run in feeds:
            assert set(run.route[1:-4]) <= rail
            assert without_detours(run.route) == run.route


def test_the_strip_brings_plus_to_every_supply_pin_of_the_networks() -> None:
    whole = boards.wired("88", networked=True)
    for digit, wiring in whole.digits.items():
        links = [run for run in wiring.runs if run.make == "card"]
        fed = {(string.resistor, string.feed_pin) for string in whole.plan.strings_of(digit)}
        assert links[0].start == (f"X{digit}", "1")
        assert {run.end for run in links} == fed
        assert all(run.route == () and run.net == "LED_PLUS" for run in links)


def test_a_single_resistor_among_networks_gets_plus_from_the_connector() -> None:
    whole = boards.wired("8.8", dot=1, networked=True)  # the point is the only one of its value
    (string,) = (string for string in whole.plan.strings_of(1, "dp"))
    assert not string.network
    (run,) = (run for run in whole.digits[1].runs if run.end == (string.resistor, "1"))
    assert (run.start, run.net) == (("X1", "1"), "LED_PLUS")
