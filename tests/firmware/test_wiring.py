"""The wiring as firmware sees it, against the stage that plans it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import registers
from segkit.errors import InputError
from segkit.firmware.wiring import by_digit, frame_of, lit_by_frame, planned, written
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import channel_map
from segkit.wiring.shift_register import Chain, bits, frame, lit_by

LAYOUTS = ("8", "88:88", "8.:8.8", "88 88")
ORDERS = ("dp g f e d c b a", "a b c d e f g dp", "c dp a g b f e d")


@pytest.mark.parametrize("layout", LAYOUTS)
@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("active", ["high", "low"])
@pytest.mark.parametrize("first", ["left", "right"])
def test_frames_are_those_of_the_planned_chain(layout: str, order: str, active: str, first: str) -> None:
    chain = channel_map(
        lamps=lamps(layout),
        register=registers()["hc595"],
        order=parse_order(order),
        first_digit=first,  # type: ignore[arg-type]
    )
    wiring = planned(chain, active)  # type: ignore[arg-type]
    assert wiring.lamps == set(lamps(layout))
    assert [row[0].chip for row in wiring.rows] == list(range(chain.chips, 0, -1))
    for lit in ([], [(1, "a")], lamps(layout), lamps(layout)[::2]):
        sent = frame_of(wiring, lit)
        assert sent == frame(chain, lit, active=active)  # type: ignore[arg-type]
        assert lit_by_frame(wiring, sent) == set(lit)
        shifted = Chain.powered_on(chain.chips).shifted(bits(sent)).latched()
        assert lit_by(chain, shifted, active=active) == set(lit)  # type: ignore[arg-type]


@given(st.sets(st.sampled_from(lamps("8.:8.8"))))
def test_a_frame_read_back(lit: set[tuple[int, str]]) -> None:
    chain = channel_map(lamps=lamps("8.:8.8"), register=registers()["hc595"], order=parse_order(ORDERS[0]))
    wiring = planned(chain, "low")
    assert lit_by_frame(wiring, frame_of(wiring, lit)) == lit
    assert {(digit, name) for digit, names in by_digit(lit).items() for name in names} == lit


def test_a_frame_of_another_length_is_refused() -> None:
    chain = channel_map(lamps=lamps("88"), register=registers()["hc595"], order=parse_order(ORDERS[0]))
    with pytest.raises(InputError, match="1 bytes for a chain of 2 chips"):
        lit_by_frame(planned(chain, "high"), b"\0")


def test_lamps_as_written() -> None:
    assert written([(1, "dp"), (1, "a"), (2, "colon")]) == "1a+1dp+2colon"
