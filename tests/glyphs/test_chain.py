"""A chain as bits, and what faults do to them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import register
from segkit.firmware.wiring import frame_of, planned
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import (
    Chain,
    bytes_reversed,
    inverted,
    moved,
    no_points,
    one_early,
    one_late,
    straight_chain,
)
from segkit.glyphs.segments import ALL
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import channel_map

BITS = st.lists(st.booleans(), min_size=16, max_size=16).map(tuple)


@given(
    st.sampled_from(["8", "88:88", "8.8.8", "8.:8"]),
    st.permutations(ALL).map(tuple),
    st.sampled_from(("high", "low")),
    st.sampled_from(("left", "right")),
    st.data(),
)
def test_the_bytes_are_those_that_the_firmware_sends(layout, order, active, first, data) -> None:
    chips = channel_map(lamps=lamps(layout), register=register("hc595"), order=order, first_digit=first)
    wiring = planned(chips, active)
    chain = Chain(layout, tuple(one.lights for row in wiring.rows for one in row), active)
    lit = frozenset(data.draw(st.sets(st.sampled_from(lamps(layout)))))
    assert chain.sent(chain.bits(lit)) == frame_of(wiring, lit)
    assert chain.lit(chain.bits(lit)) == lit


@given(BITS)
def test_what_is_done_twice_is_undone(bits: tuple[bool, ...]) -> None:
    for fault in (bytes_reversed, inverted):
        assert fault(fault(bits)[0]) == (bits,)
    assert any(bits[1:] == back[1:] for late in one_early(bits) for back in one_late(late))
    for late in one_late(bits):
        assert late[1:] == bits[:-1]
    for early in one_early(bits):
        assert early[:-1] == bits[1:]


@pytest.mark.parametrize(("layout", "colon"), [("88:88", (3, "colon")), ("8.:8", (2, "dp"))])
def test_digits_move_with_their_bytes(layout: str, colon: tuple[int, str]) -> None:
    chain = straight_chain(layout, order=parse_order("dp g f e d c b a"))
    digits = chain.digits
    back = dict(zip(digits, digits[::-1], strict=True))
    (one,) = moved(chain, frozenset({(1, "a"), (1, "dp")} & chain.lamps), back)
    assert (len(digits), "a") in one
    assert colon not in one


def test_points_are_left_out() -> None:
    assert no_points([(1, "a"), (1, "dp"), (2, "colon")]) == {(1, "a")}


def test_a_digit_that_no_output_lights_is_still_a_digit() -> None:
    order = parse_order("dp g f e d c b a")
    chain = straight_chain("888", order=order)
    dead = Chain("888", (*chain.places[:8], *[()] * 8, *chain.places[16:]))
    assert dead.digits == (1, 2, 3)
    assert set(dead.chip_of) == {1, 3}
    (shown,) = moved(dead, frozenset({(1, "a"), (2, "b")}), {1: 3, 2: 2, 3: 1})
    assert shown == {(3, "a")}
