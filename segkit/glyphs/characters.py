"""Characters that seven segments can show, in the styles that are in use, and which of them look alike."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from segkit.errors import InputError, Problem
from segkit.glyphs.segments import POINT, SEGMENTS

Tail = Literal["tail", "plain"]
TAILS: tuple[Tail, ...] = ("tail", "plain")
DIGITS = "0123456789"


@dataclass(frozen=True)
class Style:
    """How 6, 7 and 9 are drawn; no standard fixes it.

    Attributes:
        six: ``tail`` with the top bar a, ``plain`` without (then it equals the letter b).
        seven: ``tail`` with the upper left f, ``plain`` with three segments.
        nine: ``tail`` with the bottom bar d, ``plain`` without (then it equals the letter q).

    Raises:
        InputError: another word than ``tail`` or ``plain``.
    """

    six: Tail = "tail"
    seven: Tail = "plain"
    nine: Tail = "tail"

    def __post_init__(self) -> None:
        given = {"six": self.six, "seven": self.seven, "nine": self.nine}
        bad = [
            Problem("not a way to draw it.", key=key, value=f'"{value}"', limit="tail or plain")
            for key, value in given.items()
            if value not in TAILS
        ]
        if bad:
            raise InputError(bad)


DEFAULT_STYLE = Style()

#: Tailed digits, keyed by the attribute of Style, then by the choice.
_STYLED: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "6": ("six", {"tail": "acdefg", "plain": "cdefg"}),
    "7": ("seven", {"tail": "abcf", "plain": "abc"}),
    "9": ("nine", {"tail": "abcdfg", "plain": "abcfg"}),
}

#: Everything else. A letter stands in the case(s) in which it can be told; the other case borrows it.
CHARACTERS: Mapping[str, str] = {
    "0": "abcdef", "1": "bc", "2": "abdeg", "3": "abcdg", "4": "bcfg", "5": "acdfg", "8": "abcdefg",
    "A": "abcefg", "b": "cdefg", "C": "adef", "d": "bcdeg", "E": "adefg", "F": "aefg", "G": "acdef",
    "H": "bcefg", "I": "bc", "J": "bcde", "L": "def", "n": "ceg", "O": "abcdef", "P": "abefg", "q": "abcfg",
    "r": "eg", "S": "acdfg", "t": "defg", "U": "bcdef", "Y": "bcdfg",
    "a": "abcdeg", "c": "deg", "e": "abdefg", "g": "abcdfg", "h": "cefg", "i": "c", "l": "bc", "o": "cdeg",
    "u": "cde",
    " ": "", "-": "g", "_": "d", "=": "dg", "°": "abfg", '"': "bf", "'": "f", "[": "adef", "]": "abcd",
    "(": "adef", ")": "abcd", "?": "abeg",
}  # fmt: skip

#: Letters that no seven segments can show so that a stranger reads them (common practice).
UNSHOWN = "KMVWXZ"
#: The twenty letters that can be shown, each in the case in which it is usually drawn.
LETTERS = "AbCdEFGHIJLnOPqrStUY"
#: All that can be shown, by code point, each letter in both cases: what a table for a controller holds.
EVERY_CHARACTER = "".join(
    sorted({*DIGITS, *CHARACTERS, *(char.swapcase() for char in CHARACTERS if char.isascii())})
)
_SAME = {
    "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-", "º": "°", "˚": "°", "\u00a0": " ",
    "’": "'", "‘": "'", "′": "'", "″": '"', "“": '"', "”": '"',
}  # fmt: skip

Custom = Mapping[str, str]
_NO_CUSTOM: Custom = {}


def plain_text(text: str) -> str:
    """``text`` with typographic variants folded to the characters of this module (NFKC and look-alikes).

    The segmented digits U+1FBF0 to U+1FBF9 become 0 to 9. Source key: ``unicode-segmented-digits``.

    Example:
        >>> plain_text("\\U0001fbf1\\U0001fbf2 −5º")
        '12 -5°'
    """
    folded = "".join(_SAME.get(char, char) for char in text)
    return unicodedata.normalize("NFKC", folded)


def drawn_as(char: str, custom: Custom = _NO_CUSTOM) -> str | None:
    """The character whose picture stands for ``char``: itself, its other case, or None if there is none.

    Args:
        char: one character.
        custom: the builder's own glyphs, character to segment letters.

    Example:
        >>> drawn_as("B"), drawn_as("h"), drawn_as("M")
        ('b', 'h', None)
    """
    char = plain_text(char)
    for known in (char, char.swapcase()):
        if known in custom or known in CHARACTERS or known in _STYLED:
            return known
    return None


def unshown(text: str, custom: Custom = _NO_CUSTOM) -> tuple[str, ...]:
    """Characters of ``text`` that cannot be shown, each once, in order of appearance.

    Example:
        >>> unshown("HOME TIMER")
        ('M',)
    """
    return tuple(dict.fromkeys(char for char in plain_text(text) if drawn_as(char, custom) is None))


def segments_of(char: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM) -> tuple[str, ...]:
    """Segments that are lit for one character, in the order a to g.

    Args:
        char: one character.
        style: how 6, 7 and 9 are drawn.
        custom: the builder's own glyphs, which come before the built-in ones.

    Raises:
        InputError: the character cannot be shown; the message lists the letters that can.

    Source keys: ``decoder-ls47``, ``decoder-ls247``, ``hex-segment-codes``; letters are common practice.

    Example:
        >>> segments_of("6"), segments_of("6", Style(six="plain"))
        (('a', 'c', 'd', 'e', 'f', 'g'), ('c', 'd', 'e', 'f', 'g'))
    """
    drawn = drawn_as(char, custom)
    if drawn is None:
        raise InputError(cannot_show((char,)))
    if drawn in custom:
        return ordered(custom[drawn])
    if drawn in _STYLED:
        attribute, ways = _STYLED[drawn]
        return tuple(ways[getattr(style, attribute)])
    return tuple(CHARACTERS[drawn])


def cannot_show(chars: Iterable[str], *, value: str = "", remedy: str = "") -> Problem:
    """The problem that names characters which cannot be shown and the letters that can."""
    named = " and ".join(", ".join(chars).rsplit(", ", 1))
    return Problem(
        f"{named} cannot be shown on seven segments.",
        value=value,
        limit=f"0 to 9, the letters {' '.join(LETTERS)}, and - _ = ° ' \" ? [ ] ( )",
        remedy=remedy,
    )


def ordered(letters: Iterable[str]) -> tuple[str, ...]:
    """Segment letters in standard order, each once.

    Raises:
        InputError: a letter that names no segment (``a`` to ``g``).
    """
    wanted = set(letters) - {" "}
    wrong = sorted(wanted - set(SEGMENTS))
    if wrong:
        raise InputError(
            Problem("no segment of a digit.", value=f'"{"".join(wrong)}"', limit="the letters a to g")
        )
    return tuple(segment for segment in SEGMENTS if segment in wanted)


def lookalikes(
    characters: Iterable[str], style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[tuple[str, ...], ...]:
    """Groups of characters that light the very same segments; the two cases of one letter count as one.

    Args:
        characters: the characters in use.
        style, custom: as in ``segments_of``.

    Example:
        >>> lookalikes("0123456789bGUESTO", Style(six="plain"))
        (('0', 'O'), ('5', 'S'), ('6', 'b'))
    """
    groups: dict[tuple[str, ...], list[str]] = {}
    for char in dict.fromkeys(characters):
        members = groups.setdefault(segments_of(char, style, custom), [])
        if char.casefold() not in (member.casefold() for member in members):
            members.append(char)
    return tuple(tuple(members) for members in groups.values() if len(members) > 1)


def near_alikes(
    characters: Iterable[str], style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[tuple[str, str, str], ...]:
    """Pairs that differ by a single segment, with that segment.

    Example:
        >>> near_alikes("0178")
        (('0', '8', 'g'), ('1', '7', 'a'))
    """
    pairs = []
    for one, other in combinations(dict.fromkeys(characters), 2):
        difference = set(segments_of(one, style, custom)) ^ set(segments_of(other, style, custom))
        if len(difference) == 1:
            pairs.append((one, other, difference.pop()))
    return tuple(pairs)


def in_order(segments: Iterable[str]) -> tuple[str, ...]:
    """Any segment names, ``dp`` and ``colon`` included, in standard order.

    Example:
        >>> in_order({"dp", "g", "a"})
        ('a', 'g', 'dp')
    """
    rank = {name: place for place, name in enumerate((*SEGMENTS, POINT))}
    return tuple(sorted(set(segments), key=lambda name: rank.get(name, len(rank))))
