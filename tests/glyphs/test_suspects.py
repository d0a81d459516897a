"""The suspects themselves: what each would show."""

from __future__ import annotations

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import straight_chain
from segkit.glyphs.suspects import pairs, suspects
from segkit.glyphs.text import fit

CHAIN = straight_chain("888", order=parse_order("dp g f e d c b a"))
MEANT = frozenset(fit("123", layout="888").lit)


def test_each_code_says_what_to_do_and_changes_something() -> None:
    every = [*suspects(CHAIN, [2]), *pairs(CHAIN)]
    texts = [one.text for one in every]
    assert len(set(texts)) == len(texts)
    texts_meant = [str(number) for number in range(100, 1000, 7)]
    every_meant = [frozenset(fit(text, layout="888").lit) for text in texts_meant]
    for one in every:
        assert one.remedy.endswith("."), one.code
        assert any(lit != meant for meant in every_meant for lit in one.shows(meant)), one


def test_faults_of_some_digits_leave_the_others_alone() -> None:
    for one in suspects(CHAIN, [2]):
        if "digit 2" in one.text and "exchanged, the rest" not in one.text:
            for lit in one.shows(MEANT):
                assert {lamp for lamp in lit if lamp[0] != 2} == {lamp for lamp in MEANT if lamp[0] != 2}


def test_one_broken_thing_counts_less_than_two() -> None:
    dark = {one.faults for one in suspects(CHAIN, [1, 3]) if one.code == "segment-dark"}
    assert dark == {2}
    assert {one.faults for one in suspects(CHAIN, [1, 3]) if one.code == "byte-reversed"} == {1, 2}
