"""Frames through a simulated chain: what is meant to be lit is lit, whatever the order."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import registers
from segkit.errors import InputError
from segkit.glyphs.bitmask import mask
from segkit.glyphs.segments import ALL
from segkit.glyphs.text import fit, lamps
from segkit.wiring.channel_map import ChannelMap, channel_map
from segkit.wiring.shift_register import Chain, bits, frame, lines, lit_by
from segkit.working import evaluate

Published = Callable[[str], list[dict[str, str]]]
ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")
actives = st.sampled_from(("high", "low"))


def board(layout: str, order: tuple[str, ...] = ORDER, first: str = "left") -> ChannelMap:
    return channel_map(
        lamps=lamps(layout),
        register=registers()["hc595"],
        order=order,
        first_digit=first,  # type: ignore[arg-type]
    )


def test_function_table_of_the_register(published: Published) -> None:
    values = {row["what"]: row["published"] for row in published("wiring")}
    names = [f"Q{letter}" for letter in "ABCDEFGH"]
    chain = Chain.powered_on(1).shifted((1, 0, 0, 0, 0, 0, 0, 0)).latched()
    lit = [name for bit, name in enumerate(names) if chain.level(chip=1, bit=bit)]
    assert lit == [values["first of eight bits comes to rest in"]]
    chain = Chain.powered_on(1).shifted((0, 0, 0, 0, 0, 0, 0, 1)).latched()
    lit = [name for bit, name in enumerate(names) if chain.level(chip=1, bit=bit)]
    assert lit == [values["last of eight bits comes to rest in"]]
    four = Chain.powered_on(4).shifted(bits(bytes([0xFF, 0, 0, 0]))).latched()
    chips = [chip for chip in range(1, 5) if four.level(chip=chip, bit=0)]
    assert chips == [int(values["first byte comes to rest in chip"])]


def test_outputs_hold_garbage_until_the_latch() -> None:
    garbage = (1, 0, 1, 1, 0, 0, 1, 0)
    chain = Chain.powered_on(1, outputs=garbage).shifted((0,) * 8)
    assert chain.outputs == garbage
    assert chain.cleared().outputs == garbage
    assert chain.latched().outputs == (0,) * 8


@given(
    st.sampled_from(("88:88", "88.8", "8.8.:8.8.", "8")),
    st.permutations(ALL).map(tuple),
    st.sampled_from(("left", "right")),
    actives,
    st.data(),
)
def test_round_trip(
    layout: str, order: tuple[str, ...], first: str, active: str, data: st.DataObject
) -> None:
    channels = board(layout, order, first)
    lit = data.draw(st.sets(st.sampled_from(lamps(layout))))
    sent = frame(channels, lit, active=active)  # type: ignore[arg-type]
    assert len(sent) == channels.chips
    chain = Chain.powered_on(channels.chips).shifted(bits(sent)).latched()
    assert lit_by(channels, chain, active=active) == lit  # type: ignore[arg-type]


@given(st.sets(st.sampled_from(lamps("88:88"))), actives)
def test_place_in_the_stream_is_the_place_in_the_map(lit: set[tuple[int, str]], active: str) -> None:
    channels = board("88:88")
    stream = bits(frame(channels, lit, active=active))  # type: ignore[arg-type]
    for channel in channels.channels:
        on = (channel.digit, channel.segment) in lit
        assert stream[channel.place] == (on if active == "high" else not on)


def test_bytes_of_a_time_are_its_masks_with_the_last_digit_first() -> None:
    fitted = fit("12:45", layout="88:88")
    sent = frame(board("88:88"), fitted.lit)
    masks = [mask([n for n in names if n != "colon"], ORDER) for names in fitted.digits]
    masks[1] |= 0x80  # the colon sits on the point of digit 2
    assert list(sent) == masks[::-1]
    assert list(frame(board("88:88", first="right"), fitted.lit)) == masks


def test_a_frame_for_the_other_end_shows_the_digits_reversed() -> None:
    left, right = board("8888"), board("8888", first="right")
    chain = Chain.powered_on(4).shifted(bits(frame(right, fit("1234", layout="8888").lit))).latched()
    assert lit_by(left, chain) == set(fit("4321", layout="8888").lit)


def test_a_byte_too_many_does_not_harm_but_one_too_few_rotates() -> None:
    channels = board("8888")
    sent = frame(channels, fit("1234", layout="8888").lit)
    before = Chain.powered_on(4).shifted(bits(sent)).latched()
    assert lit_by(channels, before.shifted(bits(b"\x00" + sent)).latched()) == lit_by(channels, before)
    short = before.shifted(bits(sent[:3])).latched()
    assert lit_by(channels, short) == set(fit("2341", layout="8888").lit)


def test_lamps_that_are_not_there() -> None:
    with pytest.raises(InputError, match="dp of digit 1"):
        frame(board("88:88"), [(1, "dp"), (1, "a")])


def test_working_evaluates() -> None:
    channels = board("8.8.:8.8.")
    found = {line.name: line for line in lines(channels)}
    assert found["wiring.frame_bits"].value == 40
    assert found["wiring.spare_outputs"].value == len(channels.spares) == 7
    for line in found.values():
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6)
