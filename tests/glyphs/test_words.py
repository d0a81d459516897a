"""How well a text can be read.

The pairs of digits that one segment tells apart are those of the handbook table of seven-segment codes in
the fixtures; upside-down readings are common practice (the calculator words of the seventies).
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations

import pytest

from segkit.glyphs.bitmask import parse_order, segments_from
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Style, segments_of
from segkit.glyphs.readings import turned
from segkit.glyphs.words import number_slips, upside_down, word_findings

Published = Callable[[str], list[dict[str, str]]]


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("0", "0"), ("1", "1"), ("2", "2"), ("5", "5"), ("6", "9"), ("8", "8"), ("9", "6"), ("3", "E"), ("4", "h"),
        ("16", "91"), ("619", "619"), ("0.7", "L0"), ("ESS", "553"), ("F", ""), ("", ""),
    ],
)  # fmt: skip
def test_upside_down(text: str, read: str) -> None:
    """3 turns into an E, 4 into an h, 7 into an L: what one reads is named, what none reads is empty."""
    assert upside_down(text) == read


def test_twice_turned_is_as_before() -> None:
    for char in DIGITS:
        assert turned(turned(segments_of(char))) == segments_of(char)


def test_slips_of_a_number_are_the_pairs_one_bit_apart(published: Published) -> None:
    """Against the published codes: a slip is there exactly where two codes differ by one bit."""
    codes = {
        r["inputs"]: int(r["published"], 16)
        for r in published("glyphs")
        if r["what"] == "mask dp g f e d c b a"
    }
    order = parse_order("dp g f e d c b a")
    wanted = set()
    for one, other in combinations(DIGITS, 2):
        apart = codes[one] ^ codes[other]
        if apart.bit_count() == 1:
            (segment,) = segments_from(apart, order)
            for here, there in ((one, other), (other, one)):
                fault = "dark" if codes[here] & apart else "stuck"
                wanted.add((here, segment, fault, there))
    assert len(wanted) == 14
    found = {(DIGITS[s.place - 1], s.segment, s.fault, s.reads[s.place - 1]) for s in number_slips(DIGITS)}
    assert found == wanted


def test_slips_keep_the_rest_of_the_text() -> None:
    assert {slip.reads for slip in number_slips("-7.5")} == {"-1.5", "-7.9", "-7.6"}
    assert number_slips("2") == ()


def codes_of(text: str, style: Style = DEFAULT_STYLE) -> list[tuple[str, str]]:
    characters = tuple(dict.fromkeys(text.replace(" ", "").replace(":", "")))
    return [(finding.code, finding.subject) for finding in word_findings(text, characters, style)]


def test_letters_near_digits_in_use() -> None:
    assert codes_of("b6") == [("nearly-alike", "b ~ 6")]
    assert codes_of("9q") == [("nearly-alike", "9 ~ q")]
    assert codes_of("b6", Style(six="plain")) == [], "then they are the same, which is another verdict"
    assert codes_of("HELLO") == []


def test_a_number_that_reads_upside_down() -> None:
    assert codes_of("61 90")[-1] == ("reads-upside-down", '"61 90"')
    assert codes_of("ESS") == [("reads-upside-down", '"ESS"')]
    assert codes_of("69") == [], "it reads the same"
    assert codes_of("16:45") == [], "an h in it shows that something is wrong"
