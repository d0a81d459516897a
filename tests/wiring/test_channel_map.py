"""The channel map against the pin tables of the parts."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import registers, sinks
from segkit.errors import InputError
from segkit.glyphs.segments import ALL
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import ChannelMap, channel_map

Published = Callable[[str], list[dict[str, str]]]
ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")
LAYOUTS = ("88:88", "88.8", "88 88", "8.:8.:8.", "8.8.:8.8.", "8", "88:88:88", "8:.8:.8:.")
REGISTER = registers()["hc595"]
DARLINGTON = sinks()["darlington-sink-8"]


def chain(layout: str, **changes: object) -> ChannelMap:
    given = {"lamps": lamps(layout), "register": REGISTER, "sink": DARLINGTON, "order": ORDER, **changes}
    return channel_map(**given)  # type: ignore[arg-type]


def seat(channels: ChannelMap, digit: int, segment: str) -> tuple[int, str]:
    (found,) = (c for c in channels.channels if (c.digit, c.segment) == (digit, segment))
    return found.chip, found.output


def test_pins_of_the_data_sheets(published: Published) -> None:
    rows = published("wiring")
    register = {row["inputs"]: int(row["published"]) for row in rows if row["what"] == "595 pin"}
    sink = {int(row["inputs"]): int(row["published"]) for row in rows if row["what"] == "sink output pin"}
    channels = chain("8.8.").channels
    assert len(channels) == 16
    for channel in channels:
        assert channel.pin == register[channel.output]
        assert channel.sink_pin == sink[channel.bit + 1]


def test_first_bit_belongs_to_the_last_chip(published: Published) -> None:
    values = {row["what"]: row["published"] for row in published("wiring")}
    channels = chain("88:88")
    (first,) = (c for c in channels.channels if c.place == 0)
    (last,) = (c for c in channels.channels if c.place == 31)
    assert (first.chip, first.output) == (4, values["first of eight bits comes to rest in"])
    assert (last.chip, last.output) == (1, values["last of eight bits comes to rest in"])
    assert channels.chips == int(values["registers for four digits"])


@given(st.sampled_from(LAYOUTS), st.permutations(ALL).map(tuple), st.sampled_from(("left", "right")))
def test_every_output_and_every_lamp_once(layout: str, order: tuple[str, ...], first: str) -> None:
    channels = chain(layout, order=order, first_digit=first)
    outputs = [(c.chip, c.output) for c in channels.channels]
    assert len(set(outputs)) == len(outputs) == 8 * channels.chips
    assert sorted(c.place for c in channels.channels) == list(range(8 * channels.chips))
    driven = [(c.digit, c.segment) for c in channels.channels if c.segment]
    assert sorted(driven) == sorted(lamps(layout))
    assert len(channels.spares) == 8 * channels.chips - len(lamps(layout))
    for c in channels.channels:
        if c.segment in ALL:
            assert order[7 - c.bit] == c.segment


def test_first_digit_left_or_right() -> None:
    assert seat(chain("888"), 1, "a") == (1, "QA")
    assert seat(chain("888", first_digit="right"), 1, "a") == (3, "QA")
    assert seat(chain("888", first_digit="right"), 3, "a") == (1, "QA")


def test_where_the_colon_goes() -> None:
    assert seat(chain("88:88"), 2, "colon") == (2, "QH")  # its own digit has no point
    assert seat(chain("8.:8"), 1, "colon") == (2, "QH")  # the next digit has none
    assert seat(chain("88.:8."), 2, "colon") == (1, "QH")  # only the digit before has none
    extra = chain("8.8.:8.8.")
    assert (extra.chips, seat(extra, 2, "colon")) == (5, (5, "QA"))


def test_a_colon_does_not_take_the_place_another_colon_needs() -> None:
    channels = chain("8.:8:8")
    assert seat(channels, 2, "colon") == (2, "QH")
    assert seat(channels, 1, "colon") == (3, "QH")


def test_no_sink_pin_without_a_separate_array() -> None:
    for sink in (None, sinks()["logic-mosfet"], sinks()["register-direct-hc595"]):
        assert {c.sink_pin for c in chain("8.", sink=sink).channels} == {0}
    power = registers()["power-register-8"]
    channels = chain("8.", register=power, sink=sinks()["power-register-8"]).channels
    assert {c.sink_pin for c in channels} == {0}
    assert [c.output for c in channels] == list(power.output_names)


def test_seven_output_array() -> None:
    seven = sinks()["darlington-sink-7"]
    order = ("g", "f", "e", "dp", "d", "c", "b", "a")
    pins = [c.sink_pin for c in chain("8", sink=seven, order=order).channels]
    assert pins == [*seven.output_pins[:4], 0, *seven.output_pins[4:]]
    codes = [f.code for f in chain("8", sink=seven).findings]
    assert "sink-array-too-narrow" not in codes
    (narrow,) = (f for f in chain("8.", sink=seven).findings if f.code == "sink-array-too-narrow")
    assert (narrow.value, narrow.limit) == (8.0, 7.0)


def test_findings_name_the_first_digit_and_the_dark_start() -> None:
    findings = {f.code: f for f in chain("88:88").findings}
    assert "Chip 1, next to the controller, drives digit 1" in findings["chain-order"].text
    assert "byte for chip 4 is sent first" in findings["chain-order"].text
    assert "not the outputs" in findings["dark-at-power-on"].text
    assert "pin 13" in findings["dark-at-power-on"].remedy


def test_all_faults_at_once() -> None:
    with pytest.raises(InputError) as caught:
        channel_map(
            lamps=[(1, "a"), (1, "a"), (1, "h"), (0, "b")],
            register=replace(REGISTER, outputs=16),
            order=("a", "b"),
            first_digit="up",  # type: ignore[arg-type]
        )
    keys = [problem.key for problem in caught.value.problems]
    assert keys == ["lamps", "lamps", "order", "register", "first_digit"]
    with pytest.raises(InputError, match="nothing to drive"):
        channel_map(lamps=[], register=REGISTER, order=ORDER)
