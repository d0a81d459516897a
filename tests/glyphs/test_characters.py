"""Characters against the truth tables of decoder chips and the usual hex set."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.errors import InputError
from segkit.glyphs.characters import (
    CHARACTERS,
    DIGITS,
    EVERY_CHARACTER,
    LETTERS,
    UNSHOWN,
    Style,
    drawn_as,
    in_order,
    lookalikes,
    near_alikes,
    ordered,
    plain_text,
    segments_of,
    unshown,
)

Published = Callable[[str], list[dict[str, str]]]
PLAIN = Style(six="plain", nine="plain")
STYLES = {"ls47": PLAIN, "4511": PLAIN, "ls247": Style(), "4544": Style(), "hex": Style()}


def test_decoder_truth_tables(published: Published) -> None:
    rows = [row for row in published("glyphs") if row["what"].removeprefix("decoder ") in STYLES]
    assert len(rows) == 56
    for row in rows:
        style = STYLES[row["what"].removeprefix("decoder ")]
        assert "".join(segments_of(row["inputs"], style)) == row["published"], row


def test_published_ls47_rows_add_up(published: Published) -> None:
    """Guards the typing of the table: its lit segments over codes 0 to 15 are 64."""
    rows = published("glyphs")
    lit = sum(len(r["published"]) for r in rows if r["what"] in ("decoder ls47", "decoder ls47 sign"))
    total = next(r["published"] for r in rows if r["what"].startswith("decoder ls47 lit"))
    assert lit == int(total)


def test_twenty_letters_in_either_case(published: Published) -> None:
    count = next(
        row["published"] for row in published("glyphs") if row["what"] == "letters that can be shown"
    )
    alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    shown = [letter for letter in alphabet if drawn_as(letter)]
    assert len(shown) == int(count) == len(LETTERS)
    assert "".join(letter.upper() for letter in LETTERS) == "".join(shown)
    assert unshown(alphabet) == tuple(UNSHOWN)
    assert unshown(alphabet.lower()) == tuple(UNSHOWN.lower())
    assert all(letter in CHARACTERS for letter in LETTERS)


def test_both_cases_differ_where_both_are_drawn() -> None:
    both = [c for c in CHARACTERS if c.isupper() and c.lower() in CHARACTERS]
    assert both == ["A", "C", "E", "G", "H", "I", "L", "O", "U"]
    assert all(segments_of(c) != segments_of(c.lower()) for c in both if c not in "IL")
    assert segments_of("B") == segments_of("b")
    assert segments_of("s") == segments_of("S")


def test_every_character_is_all_that_can_be_shown() -> None:
    printable = [chr(code) for code in range(32, 127)]
    assert [c for c in EVERY_CHARACTER if c.isascii()] == [c for c in printable if drawn_as(c)]
    assert set(EVERY_CHARACTER) >= {*DIGITS, *LETTERS, *LETTERS.swapcase(), "°"}


def test_segments_come_in_standard_order_and_once() -> None:
    for char in (*CHARACTERS, *"679"):
        segments = segments_of(char)
        assert segments == in_order(segments) == ordered("".join(segments))


@pytest.mark.parametrize(
    ("six", "seven", "nine", "expected"),
    [
        ("tail", "plain", "tail", "acdefg abc abcdfg"),
        ("plain", "tail", "plain", "cdefg abcf abcfg"),
    ],
)
def test_styles(six: str, seven: str, nine: str, expected: str) -> None:
    style = Style(six=six, seven=seven, nine=nine)  # type: ignore[arg-type]
    assert " ".join("".join(segments_of(digit, style)) for digit in "679") == expected


def test_wrong_style_names_every_fault() -> None:
    with pytest.raises(InputError) as caught:
        Style(six="tails", nine="")  # type: ignore[arg-type]
    assert [problem.key for problem in caught.value.problems] == ["six", "nine"]


def test_lookalikes_follow_the_style() -> None:
    used = DIGITS + "OISGbqgl"
    assert lookalikes(used) == (("0", "O"), ("1", "I", "l"), ("5", "S"), ("9", "g"))
    assert lookalikes(used, PLAIN) == (("0", "O"), ("1", "I", "l"), ("5", "S"), ("6", "b"), ("9", "q"))
    assert lookalikes(DIGITS) == lookalikes(DIGITS, PLAIN) == ()
    assert lookalikes("bB sS") == ()


def test_pairs_one_segment_apart(published: Published) -> None:
    styles = {"tail tail plain": Style(), "plain plain plain": PLAIN}
    rows = [row for row in published("glyphs") if row["what"] == "pairs one segment apart"]
    assert len(rows) == 2
    for row in rows:
        pairs = [f"{one}-{other}" for one, other, _ in near_alikes(DIGITS, styles[row["inputs"]])]
        assert pairs == row["published"].split()


def test_segmented_digits_of_unicode(published: Published) -> None:
    rows = [row for row in published("glyphs") if row["what"] == "segmented digit"]
    assert len(rows) == 10
    for row in rows:
        char = chr(int(row["inputs"], 16))
        assert plain_text(char) == row["published"]
        assert segments_of(char) == segments_of(row["published"])


def test_own_glyphs_come_first() -> None:
    assert segments_of("M", custom={"M": "geca"}) == ("a", "c", "e", "g")
    assert segments_of("8", custom={"8": "a d g"}) == ("a", "d", "g")
    with pytest.raises(InputError, match="no segment of a digit"):
        segments_of("M", custom={"M": "axh"})


def test_unshown_character_names_the_letters_that_can() -> None:
    with pytest.raises(InputError) as caught:
        segments_of("W")
    message = str(caught.value)
    assert "W cannot be shown" in message
    assert " ".join(LETTERS) in message
