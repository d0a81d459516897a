"""Fitting a text to the digits, points and colons that a board has."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from segkit.errors import InputError, Problem
from segkit.glyphs.characters import (
    DEFAULT_STYLE,
    Custom,
    Style,
    cannot_show,
    in_order,
    plain_text,
    segments_of,
    unshown,
)
from segkit.glyphs.segments import ALL, COLON, POINT

_DIGIT_MARKS, _POINT_MARK, _COLON_MARK, _SPACE_MARK = "8o", ".", ":", " "
_MARKS = _DIGIT_MARKS + _POINT_MARK + _COLON_MARK + _SPACE_MARK
_RANGE = re.compile(r"(\w)-(\w)")
_NO_CUSTOM: Custom = {}

#: Words of a scoreboard, clock or gauge that need an unshown letter, and one that says the same without it.
OTHER_WORDS = {
    "HOME": "HOST", "AWAY": "GUESt", "VISITOR": "GUESt", "TEAM": "SidE", "GAME": "rOUnd", "MATCH": "SEt",
    "WIN": "LEAd", "TIME": "CLOC", "MAX": "HIGH", "MIN": "LO", "LOW": "LO", "LEVEL": "FILL", "WATER": "FILL",
    "SWIM": "LAP", "WEEK": "dAY", "WARM": "HOt", "EXIT": "OUt", "ZERO": "0",
}  # fmt: skip


@dataclass(frozen=True)
class Fitted:
    """A text in its places.

    Attributes:
        text: as it was given.
        layout: marks of the board.
        digits: for each digit, from the left, the lit segments, ``dp`` and ``colon`` included.
    """

    text: str
    layout: str
    digits: tuple[tuple[str, ...], ...]

    @property
    def lit(self) -> tuple[tuple[int, str], ...]:
        """All that is lit, as (digit, segment), digit 1 = leftmost."""
        return tuple((n, name) for n, names in enumerate(self.digits, start=1) for name in names)


def lamps(layout: str) -> tuple[tuple[int, str], ...]:
    """All that a layout has, as (digit, segment): a to g of each digit, ``dp`` and ``colon`` where marked.

    Args:
        layout: 8 a digit, o a small digit, . a point after a digit, : a colon, blank half a digit of space.

    Raises:
        InputError: unknown marks, no digit, or a point or colon with no digit on its left.

    Example:
        >>> [lamp for lamp in lamps("8:8.") if lamp[1] not in "abcdefg"]
        [(1, 'colon'), (2, 'dp')]
    """
    found: list[tuple[int, str]] = []
    digit = 0
    for mark in checked_layout(layout):
        if mark in _DIGIT_MARKS:
            digit += 1
            found += [(digit, name) for name in ALL if name != POINT]
        elif mark != _SPACE_MARK:
            found.append((digit, POINT if mark == _POINT_MARK else COLON))
    return tuple(found)


def checked_layout(layout: str) -> str:
    """``layout`` itself if it can be built.

    Raises:
        InputError: see ``lamps``; all faults at once.
    """
    legend = "8 digit, o small digit, . point, : colon, blank half a digit of space"
    strange = dict.fromkeys(mark for mark in layout if mark not in _MARKS)
    problems = []
    if strange:
        problems.append(
            Problem(f"unknown mark {' '.join(strange)}.", key="layout", value=f'"{layout}"', limit=legend)
        )
    if not any(mark in _DIGIT_MARKS for mark in layout):
        problems.append(
            Problem("has no digit.", key="layout", value=f'"{layout}"', remedy='Write it as in "88:88".')
        )
    problems += [
        Problem(
            f"the {_mark_name(layout[place])} at place {place + 1} has no digit of its own on its left.",
            key="layout",
            value=f'"{layout}"',
            remedy="Put it after a digit, one of each kind at most.",
        )
        for place in range(len(layout))
        if layout[place] in ".:" and not _may_follow(layout, place)
    ]
    if problems:
        raise InputError(problems)
    return layout


def _may_follow(layout: str, place: int) -> bool:
    """A colon may follow the point of its digit, or the other way round, and space may come between."""
    before = layout[:place].rstrip(_SPACE_MARK)
    here = layout[place]
    cut = len(before.rstrip(_POINT_MARK + _COLON_MARK))
    return cut > 0 and before[cut - 1] in _DIGIT_MARKS and here not in before[cut:]


def _mark_name(mark: str) -> str:
    return "point" if mark == _POINT_MARK else "colon"


@dataclass
class _Fitting:
    """The state of one fitting, which runs from the right end of layout and text to the left."""

    rest: str
    places: list[list[str]] = field(default_factory=list)
    pending: list[str] = field(default_factory=list)
    homeless: list[str] = field(default_factory=list)

    def mark(self, mark: str, name: str) -> None:
        if self.rest.endswith(mark):
            self.rest = self.rest[:-1]
            self.pending.append(name)

    def space(self) -> None:
        if self.rest.endswith(_SPACE_MARK):
            self.rest = self.rest[:-1]

    def digit(self, ahead: str, style: Style, custom: Custom) -> None:
        while self.rest and self.rest[-1] in ".:" and self.rest[-1] not in ahead:
            self.homeless.append(self.rest[-1])
            self.rest = self.rest[:-1]
        lit: list[str] = []
        if self.rest and self.rest[-1] not in ".:":
            lit += segments_of(self.rest[-1], style, custom)
            self.rest = self.rest[:-1]
        self.places.append(lit + self.pending)
        self.pending = []


def fit(text: str, *, layout: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM) -> Fitted:
    """The lit segments of each digit for a text, set flush right.

    A point or colon of the text lights the one the board has at that place; left out, it stays dark.
    A blank of the text is the half space of the layout where there is one, otherwise a dark digit.
    Where the text has fewer characters than digits before a point or colon, digits stay dark.

    Args:
        text: such as ``12:45``; a comma counts as a point.
        layout: such as ``88:88``; see ``lamps``.
        style, custom: as in ``characters.segments_of``.

    Raises:
        InputError: characters that cannot be shown, points or colons the board lacks, or a text that
            is too long; all at once.

    Example:
        >>> fit("9:05", layout="88:88").digits[:2]
        ((), ('a', 'b', 'c', 'd', 'f', 'g', 'colon'))
        >>> fit("1.5", layout="88.8").lit
        ((2, 'b'), (2, 'c'), (2, 'dp'), (3, 'a'), (3, 'c'), (3, 'd'), (3, 'f'), (3, 'g'))
    """
    checked_layout(layout)
    clean = plain_text(text).replace(",", ".")
    impossible = tuple(char for char in unshown(clean, custom) if char not in ".:")
    problems = [cannot_show(impossible, value=f'"{text}"', remedy=other_words(text))] if impossible else []
    for char in impossible:
        clean = clean.replace(char, "-")  # keeps the length, so that all faults are found in one pass
    state = _Fitting(clean)
    for place in range(len(layout) - 1, -1, -1):
        mark = layout[place]
        if mark in _DIGIT_MARKS:
            state.digit(layout[:place], style, custom)
        elif mark == _SPACE_MARK:
            state.space()
        else:
            state.mark(mark, POINT if mark == _POINT_MARK else COLON)
    problems += _misfits(text, layout, state)
    if problems:
        raise InputError(problems)
    return Fitted(text, layout, tuple(in_order(lit) for lit in reversed(state.places)))


def _misfits(text: str, layout: str, state: _Fitting) -> list[Problem]:
    over = state.rest.lstrip()
    homeless = [*state.homeless, *(char for char in over if char in ".:")]
    problems = [
        Problem(
            f"the board has no {_mark_name(mark)} at that place.",
            value=f'"{text}"',
            limit=f'layout "{layout}"',
            remedy=f"Leave the {_mark_name(mark)} out, or give the layout one.",
        )
        for mark in dict.fromkeys(homeless)
    ]
    needed = sum(char not in ".:" for char in over)
    if needed:
        have = len(state.places)
        problems.append(
            Problem(
                f"too long: it needs {have + needed} digits and the board has {have}.",
                value=f'"{text}"',
                limit=f'layout "{layout}"',
                remedy="Shorten the text, or give the layout more digits.",
            )
        )
    return problems


def other_words(text: str) -> str:
    """A hint: words of ``text`` that can be shown, and others for those that cannot; empty if none is known.

    Example:
        >>> other_words("HOME GUEST")
        'Instead of HOME, HOST can be shown. GUEST can be shown as it is.'
    """
    words = tuple(dict.fromkeys(plain_text(text).split()))
    bad = [word for word in words if unshown(word)]
    known = [
        f"Instead of {w}, {OTHER_WORDS[w.upper()]} can be shown." for w in bad if w.upper() in OTHER_WORDS
    ]
    good = [word for word in words if word not in bad and not _RANGE.fullmatch(word)]
    return " ".join(
        [*known, f"{' and '.join(good)} can be shown as it is." if len(good) == 1 else ""]
    ).strip()


def expand(text: str) -> tuple[str, ...]:
    """The characters that a request names, each once, in order: ``0-9 A-F`` are ranges, the rest words.

    A range stands alone between blanks: one character, a hyphen, one character. Blanks only part words.

    Raises:
        InputError: a range that runs backwards or mixes digits, capitals and small letters; no character.

    Example:
        >>> "".join(expand("0-9 A-F")), "".join(expand("GUEST"))
        ('0123456789ABCDEF', 'GUEST')
    """
    found: list[str] = []
    problems: list[Problem] = []
    for word in plain_text(text).split():
        match = _RANGE.fullmatch(word)
        if match is None:
            found += word
        elif _same_kind(match[1], match[2]):
            found += (chr(code) for code in range(ord(match[1]), ord(match[2]) + 1))
        else:
            problems.append(_bad_range(word, match[1], match[2]))
    if not found and not problems:
        problems.append(Problem("no character is named.", value=f'"{text}"', remedy='Write "0-9 A-F".'))
    if problems:
        raise InputError(problems)
    return tuple(dict.fromkeys(found))


def _same_kind(first: str, last: str) -> bool:
    kinds = (str.isdigit, str.isupper, str.islower)
    return first.isascii() and last.isascii() and first <= last and any(k(first) and k(last) for k in kinds)


def _bad_range(word: str, first: str, last: str) -> Problem:
    return Problem(
        "is no range.",
        value=f'"{word}"',
        limit="ranges from low to high within digits, capitals or small letters, such as 0-9, A-F",
        remedy=f'If the characters themselves are meant, write "{first} - {last}".',
    )
