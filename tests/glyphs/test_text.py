"""Texts in their places; what cannot be fitted is named, all of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.glyphs.characters import in_order, segments_of, unshown
from segkit.glyphs.text import OTHER_WORDS, checked_layout, expand, fit, lamps, other_words


def digits(text: str, layout: str) -> list[str]:
    return ["".join(names) for names in fit(text, layout=layout).digits]


def glyph(char: str, *extra: str) -> str:
    return "".join(in_order((*segments_of(char), *extra)))


def test_a_time_with_its_colon_and_without() -> None:
    with_colon = [glyph("1"), glyph("2", "colon"), glyph("4"), glyph("5")]
    assert digits("12:45", "88:88") == with_colon
    assert digits("1245", "88:88") == [glyph(char) for char in "1245"]


def test_flush_right_and_aligned_at_the_colon() -> None:
    assert digits("9:05", "88:88") == ["", glyph("9", "colon"), glyph("0"), glyph("5")]
    assert digits("9: 5", "88:88") == digits("9:5", "88:88") == ["", glyph("9", "colon"), "", glyph("5")]
    assert digits("7", "88.8") == ["", "", glyph("7")]


def test_points_and_decimal_commas() -> None:
    tenths = ["", glyph("1", "dp"), glyph("5")]
    assert digits("1.5", "88.8") == digits("1,5", "88.8") == tenths
    assert digits("12.", "88.8") == [glyph("1"), glyph("2", "dp"), ""]


def test_two_scores_with_space_between() -> None:
    assert digits("13 07", "88 88") == [glyph(char) for char in "1307"]
    assert digits("13 7", "88 88") == [glyph("1"), glyph("3"), "", glyph("7")]
    assert digits("1307", "88 88") == digits("13 07", "88 88")


def test_small_digits_and_a_point_before_a_colon() -> None:
    assert digits("9:05", "8:oo") == [glyph("9", "colon"), glyph("0"), glyph("5")]
    assert digits("1.:2", "8.:8") == [glyph("1", "dp", "colon"), glyph("2")]


def test_lit_lamps_are_on_the_board() -> None:
    layout = "88:88.8"
    assert set(fit("12:34.5", layout=layout).lit) <= set(lamps(layout))
    assert set(fit("88:88.8", layout=layout).lit) == set(lamps(layout))


@given(st.text("0123456789-", min_size=1, max_size=6), st.integers(0, 3))
def test_every_short_enough_text_fits_flush_right(text: str, more: int) -> None:
    fitted = fit(text, layout="8" * (len(text) + more))
    assert fitted.digits == ((),) * more + tuple(segments_of(char) for char in text)


def test_all_faults_of_a_text_at_once() -> None:
    with pytest.raises(InputError) as caught:
        fit("HOME:12", layout="8888")
    texts = [problem.text for problem in caught.value.problems]
    assert texts == [
        "M cannot be shown on seven segments.",
        "the board has no colon at that place.",
        "too long: it needs 6 digits and the board has 4.",
    ]


@pytest.mark.parametrize(
    ("text", "layout", "message"),
    [
        ("12345", "88:88", "needs 5 digits and the board has 4"),
        ("123:45", "88:88", "needs 5 digits"),
        ("1.5", "88", "no point"),
        ("12:45", "88.88", "no colon"),
        ("KM", "88", "K and M cannot"),
        ("1:2", "88:88:88x", "unknown mark x"),
        ("1", ":88", "no digit of its own"),
        ("1", "8..8", "no digit of its own"),
        ("1", " ", "has no digit"),
    ],
)
def test_refusals(text: str, layout: str, message: str) -> None:
    with pytest.raises(InputError, match=message):
        fit(text, layout=layout)


def test_layouts_that_can_be_built() -> None:
    for layout in ("8", "88:88", "8.8", "8.:8", "8:.8", "88 88", "oo:oo", "8 :8"):
        assert checked_layout(layout) == layout
    assert len(lamps("88:88")) == 4 * 7 + 1


def test_ranges_and_words() -> None:
    assert "".join(expand("0-9 A-F")) == "0123456789ABCDEF"
    assert "".join(expand("3 - 1")) == "3-1"
    assert "".join(expand("13-07")) == "13-07"
    assert "".join(expand("GUEST GO")) == "GUESTO"


@pytest.mark.parametrize("text", ["9-0", "0-F", "A-f", "", "   "])
def test_refused_ranges(text: str) -> None:
    with pytest.raises(InputError):
        expand(text)


def test_every_offered_word_can_be_shown_and_is_needed() -> None:
    for word, other in OTHER_WORDS.items():
        assert unshown(other) == (), other
        assert word == "ZERO" or unshown(word), word


def test_words_that_say_the_same() -> None:
    assert other_words("home") == "Instead of home, HOST can be shown."
    assert other_words("XK") == ""
