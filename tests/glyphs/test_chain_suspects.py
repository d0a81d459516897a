"""Faults of the chain."""

from __future__ import annotations

import pytest

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import straight_chain
from segkit.glyphs.chain_suspects import digit_order, whole_bytes
from segkit.glyphs.text import fit

ORDER = parse_order("dp g f e d c b a")


def texts(layout: str, meant: str) -> dict[str, list[str]]:
    """What each fault of the order of digits makes of a text, as text."""
    chain = straight_chain(layout, order=ORDER)
    back = {frozenset(fit(str(n).zfill(4), layout=layout).lit): str(n).zfill(4) for n in range(10000)}
    found: dict[str, list[str]] = {}
    for one in digit_order(chain):
        (shown,) = one.shows(frozenset(fit(meant, layout=layout).lit))
        found.setdefault(one.code, []).append(back[shown])
    return found


def test_digits_in_other_places_as_written_down_by_hand() -> None:
    found = texts("8888", "1234")
    assert sorted(found["digits-rotated"]) == ["2341", "3412", "4123"]
    assert found["digits-reversed"] == ["4321"]
    assert sorted(found["digits-exchanged"]) == ["1243", "1324", "1432", "2134", "3214", "4231"]


@pytest.mark.parametrize(("layout", "codes"), [("8", set()), ("88", {"digits-reversed"})])
def test_a_short_board_has_no_two_names_for_one_thing(layout: str, codes: set[str]) -> None:
    assert {one.code for one in digit_order(straight_chain(layout, order=ORDER))} == codes


def test_bytes_of_some_digits_can_be_reversed_alone() -> None:
    chain = straight_chain("88", order=ORDER)
    every, some = (one for one in whole_bytes(chain, [2]) if one.code == "byte-reversed")
    meant = frozenset(fit("11", layout="88").lit)
    assert every.shows(meant)[0] == {(1, "f"), (1, "g"), (2, "f"), (2, "g")}
    assert some.shows(meant)[0] == {(1, "b"), (1, "c"), (2, "f"), (2, "g")}
    assert "turn the plug" in some.remedy
