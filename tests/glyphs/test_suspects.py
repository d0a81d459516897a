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


def test_two_at_once_are_both_told() -> None:
    for one in pairs(CHAIN):
        assert one.code == "two-faults"
        assert "; and " in one.text
        assert one.faults == 2
