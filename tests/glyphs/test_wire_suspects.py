"""Faults of wires and outputs."""

from __future__ import annotations

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import straight_chain
from segkit.glyphs.suspects import suspects
from segkit.glyphs.text import fit
from segkit.glyphs.wire_suspects import crossed, dark_digits, one_segment, seen_from_behind

CHAIN = straight_chain("888", order=parse_order("dp g f e d c b a"))
FULL = frozenset(fit("888", layout="888").lit)


def test_one_broken_thing_counts_less_than_two() -> None:
    dark = {one.faults for one in suspects(CHAIN, [1, 3]) if one.code == "segment-dark"}
    assert dark == {2}
    assert {one.faults for one in suspects(CHAIN, [1, 3]) if one.code == "byte-reversed"} == {1, 2}


def test_the_same_segment_everywhere_is_looked_for_in_the_table_first() -> None:
    everywhere, two = (
        next(one for one in one_segment(CHAIN, wrong) if one.code == "segment-dark")
        for wrong in ((1, 2, 3), (1, 2))
    )
    assert "its bit in the table" in everywhere.remedy
    assert "its bit in the table" not in two.remedy
    assert everywhere.shows(FULL)[0] == {lamp for lamp in FULL if lamp[1] != "a"}


def test_what_is_crossed_mirrored_or_turned_lights_as_many() -> None:
    for one in (*crossed(CHAIN, [2]), *seen_from_behind(CHAIN, [2])):
        (shown,) = one.shows(frozenset(fit("124", layout="888").lit))
        assert len(shown) == 2 + 5 + 4, one.text


def test_digits_that_are_right_are_not_suspected_of_being_dark() -> None:
    assert list(dark_digits(CHAIN, ())) == []
    (one,) = dark_digits(CHAIN, (2,))
    assert one.shows(FULL)[0] == frozenset(fit("8 8", layout="888").lit)
