"""What one suspect is made of."""

from __future__ import annotations

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import straight_chain
from segkit.glyphs.suspect import only
from segkit.glyphs.suspects import suspects
from segkit.glyphs.text import fit

CHAIN = straight_chain("888", order=parse_order("dp g f e d c b a"))
MEANT = frozenset(fit("123", layout="888").lit)


def test_a_fault_of_one_digit_is_no_fault_of_the_others() -> None:
    dark_and_more = only([2], lambda _: (frozenset({(1, "g"), (2, "g")}),))
    (shown,) = dark_and_more(MEANT)
    assert shown == frozenset(fit("1-3", layout="888").lit)


def test_faults_of_some_digits_leave_the_others_alone() -> None:
    for one in suspects(CHAIN, [2]):
        if "digit 2" in one.text and "exchanged, the rest" not in one.text:
            for lit in one.shows(MEANT):
                assert {lamp for lamp in lit if lamp[0] != 2} == {lamp for lamp in MEANT if lamp[0] != 2}
