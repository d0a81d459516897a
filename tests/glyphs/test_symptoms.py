"""Faults named by what a board shows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import register
from segkit.errors import InputError
from segkit.firmware.wiring import planned
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.chain import Chain, Lit, straight_chain
from segkit.glyphs.characters import DIGITS
from segkit.glyphs.sighting import spelled
from segkit.glyphs.suspects import pairs, suspects
from segkit.glyphs.symptoms import diagnose, diagnose_board
from segkit.glyphs.text import fit, lamps
from segkit.wiring.channel_map import channel_map

ORDER = parse_order("dp g f e d c b a")
WIRED = channel_map(lamps=lamps("88:8.8"), register=register("hc595"), order=ORDER)
CLOCK = Chain(
    "88:8.8",
    tuple(output.lights for row in planned(WIRED, "high").rows for output in row),
)


def codes(chain: Chain, text: str, seen: str) -> list[str]:
    return [finding.code for finding in diagnose_board(chain, text, seen)]


def lit(text: str, chain: Chain) -> Lit:
    return frozenset(fit(text, layout=chain.layout).lit)


@pytest.mark.parametrize(
    ("text", "seen", "codes", "words"),
    [
        ("1234", "4123", ["digits-rotated"], "one place too far to the right"),
        ("3210", "2103", ["digits-rotated"], "one place too far to the left"),
        ("1234", "3412", ["digits-rotated"], "2 places too far"),
        ("1234", "4321", ["digits-reversed"], "order of the chain"),
        ("12:34", "43:21", ["digits-reversed"], "order of the chain"),
        ("1234", "1324", ["digits-exchanged"], "digits 2 and 3 are exchanged"),
        ("18", "16", ["segment-dark"], "segment b stays dark in digit 2"),
        ("88", "66", ["segment-dark"], "segment b stays dark in every digit"),
        ("10", "78", ["not-recognised"], "no single fault"),
        ("11", "77", ["segment-stuck"], "segment a is lit"),
        ("1234", "12 4", ["digit-dark"], "nothing is lit in digit 3"),
        ("12", "12", ["as-meant"], "what was meant"),
    ],
)
def test_diagnoses(text: str, seen: str, codes: list[str], words: str) -> None:
    found = diagnose(text, seen)
    assert [finding.code for finding in found] == codes
    assert words in found[0].text.lower()


@given(st.text(DIGITS, min_size=4, max_size=4).filter(lambda text: len(set(text)) == 4))
def test_rotations_are_told_from_reversals(text: str) -> None:
    assert [f.code for f in diagnose(text, text[-1] + text[:-1])] == ["digits-rotated"]
    assert [f.code for f in diagnose(text, text[::-1])] == ["digits-reversed"]


@pytest.mark.parametrize("seen", ["123", "", "12345", "12M4"])
def test_refused_sightings(seen: str) -> None:
    with pytest.raises(InputError):
        diagnose("1234", seen)


# --- whole bytes -----------------------------------------------------------------------------------------


def test_reversed_bytes_by_their_published_fingerprint(published) -> None:
    rows = [row for row in published("glyphs") if row["what"] == "order reversed, lights"]
    assert len(rows) == 4
    seen = "".join(f"[{row['published']}]" for row in rows)
    first = diagnose("".join(row["inputs"] for row in rows), seen)[0]
    assert first.code == "byte-reversed"
    assert "0x60 where 0x06" in first.text


def test_inverted_bytes_name_the_bytes_and_the_polarity() -> None:
    # 0x06 XOR 0xFF = 0xF9: a d e f g and the point.
    (found,) = diagnose("1", "[adefg dp]")
    assert found.code == "logic-inverted"
    assert "0xF9 where 0x06 is meant, and lights a d e f g and the point" in found.text
    assert "flip nothing" in found.remedy
    (found,) = diagnose("1", "[adefg dp]", active="low")
    assert "0x06 where 0xF9" in found.text
    assert "flip the bytes once" in found.remedy


def test_one_bit_late_or_early_carries_the_neighbours_bit_over() -> None:
    # Worked by hand in the order a dp g f e d c b. Digit 2 is sent first: 3 is 10100111, then 1, 00000011.
    # Late: ?1010011 lights (a) b c f dp; 10000001, led by the last 1 of the 3, lights a b.
    # Early: 01001110, ended by the first 0 of the 1, lights c d e dp; 0000011? lights c d (b).
    chain = straight_chain("8.8.", order=parse_order("a dp g f e d c b"))
    assert codes(chain, "13", "[ab][bcf dp]") == ["bit-late"]
    assert codes(chain, "13", "[ab][abcf dp]") == ["bit-late"]
    assert "bit-late" not in codes(chain, "13", "[b][bcf dp]")
    assert codes(chain, "13", "[cd][cde dp]") == ["bit-early"]
    assert codes(chain, "13", "[bcd][cde dp]") == ["bit-early"]
    assert "bit-early" not in codes(chain, "13", "[cd][bcde dp]")


@given(st.text(DIGITS, min_size=4, max_size=4), st.data())
def test_every_fault_is_among_what_explains_its_own_picture(text: str, data: st.DataObject) -> None:
    wrong = data.draw(st.lists(st.sampled_from(CLOCK.digits), min_size=1, unique=True).map(sorted))
    every = [*suspects(CLOCK, wrong), *pairs(CLOCK)]
    suspect = data.draw(st.sampled_from(every))
    meant = lit(text, CLOCK)
    outcome = data.draw(st.sampled_from(suspect.shows(meant)))
    found = codes(CLOCK, text, spelled(outcome, layout=CLOCK.layout))
    assert found != ["not-recognised"]
    if outcome == meant:
        assert found == ["as-meant"]


def test_points_and_colons_count_where_they_are_named() -> None:
    assert codes(CLOCK, "12:34", "12:34") == ["as-meant"]
    assert codes(CLOCK, "12:34", "1234")[0] == "segment-dark"
    assert codes(CLOCK, "12:3.4", "12:34")[0] == "segment-dark"
    assert codes(CLOCK, "1234", "12[abcdg dp]4")[0] == "segment-stuck"


def test_two_faults_at_once_are_found_where_one_will_not_do() -> None:
    # Least significant bit first of the whole stream: digits and bits both reversed.
    chain = straight_chain("8.8.", order=ORDER)
    (found,) = diagnose_board(chain, "12", "[bdeg dp][fg]")
    assert found.code == "two-faults"
    assert "reversed order" in found.text


def test_likely_ones_come_first_and_a_second_text_tells_them_apart() -> None:
    found = diagnose("8", "[bcdefg]")
    assert [one.code for one in found] == ["segment-dark", "byte-reversed", "bit-early", "tells-apart"]
    last = found[-1]
    assert last.level == "note"
    assert last.text.startswith('Show "1" next')
    # 0x06 right, reversed 0x60 (f g), early 0x0C or 0x0D (c d, or a c d).
    assert '"1": segment a' in last.text
    assert '"[fg]": each byte' in last.text
    assert '"[cd]" or "[acd]": every output' in last.text


def test_two_wires_exchanged_as_drawn_by_hand() -> None:
    # a and f exchanged: 2 (a b d e g) lights b d e f g, 7 (a b c) lights b c f.
    (every,) = diagnose("27", "[bdefg][bcf]")
    assert every.code == "pair-swapped"
    assert "Segment a and segment f are exchanged in every digit" in every.text
    (one,) = diagnose("22", "2[bdefg]")
    assert (one.code, "in digit 2" in one.text) == ("pair-swapped", True)


def test_dark_at_the_end_of_the_chain_points_at_its_wires() -> None:
    # The leftmost digit stands next to the controller.
    (end,) = diagnose("1234", "12  ")
    (middle,) = diagnose("1234", "1  4")
    assert "last along the chain" in end.remedy
    assert "last along the chain" not in middle.remedy


def test_wired_from_behind_is_seen_as_a_mirror() -> None:
    assert [one.code for one in diagnose("1238", "[ef]538")] == ["digits-mirrored"]
    assert [one.code for one in diagnose("1267", "[ef]29[def]")] == ["digits-turned"]


@given(st.text(DIGITS, min_size=1, max_size=4))
def test_any_text_seen_as_meant_is_as_meant(text: str) -> None:
    assert codes(CLOCK, text, text) == ["as-meant"]


def test_digits_that_nobody_looked_at_say_nothing() -> None:
    # Flipped bytes light the two digits on the left as well; nothing is said of them.
    assert codes(straight_chain("8888", order=ORDER), "12", "[adefg] [cf]") == ["logic-inverted"]
    assert codes(straight_chain("8888", order=ORDER), "  12", "[] [] [adefg] [cf]") == ["not-recognised"]


def test_a_mark_in_the_text_fixes_the_place_of_what_stands_before_it() -> None:
    # On 88:8.8 the 1 of "1:2" is digit 2, though only two digits are spoken of.
    assert codes(CLOCK, "1:2", "7:2") == ["segment-stuck"]
    assert codes(CLOCK, "1:2", "[bc colon] [abdeg]") == ["as-meant"]


def test_points_alone_are_not_explained_by_what_leaves_the_digits_as_they_are() -> None:
    chain = straight_chain("8.8.8.", order=ORDER)
    assert codes(chain, "1.2.3", "123.") == ["not-recognised"]
