"""What a builder saw on the board, typed in: characters, or lit segments in brackets where it is none."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from segkit.errors import InputError, Problem
from segkit.glyphs.characters import (
    DEFAULT_STYLE,
    DIGITS,
    Custom,
    Style,
    in_order,
    plain_text,
)
from segkit.glyphs.readings import reads_as
from segkit.glyphs.segments import COLON, POINT
from segkit.glyphs.text import fit

Lamp = tuple[int, str]
_NO_CUSTOM: Custom = {}
_BRACKETS = re.compile(r"\s*\[([^\[\]]*)\]\s*")
_NAMES = re.compile(r"colon|dp|[a-g]")
_ONLY_NAMES = re.compile(r"(?:colon|dp|[a-g]|[\s,+])*")
_PRIVATE = 0xE000  # characters that Unicode leaves to us stand in for what is typed in brackets
_HOW = 'Write lit segments in brackets, one pair for each digit: "[fg] [bdeg dp]"; a dark digit is "[]".'


@dataclass(frozen=True)
class Sighting:
    """What was seen.

    Attributes:
        lit: (digit, segment) of all that was lit, digit 1 = leftmost.
        marks: True if points or colons were named in brackets, so that they count as seen.
        digits: how many digits the text speaks of, a blank for a half space of the layout among them.
    """

    lit: frozenset[Lamp]
    marks: bool
    digits: int


def read_sighting(
    text: str, *, layout: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> Sighting:
    """What was seen, set flush right as every text is.

    Args:
        text: characters, or segments in brackets: ``1[fg]`` and ``[bc] [fg]`` say the same; a blank beside a
            bracket only parts. ``dp`` and ``colon`` may stand among the segments.
        layout: of the board, see ``text.lamps``.
        style, custom: as in ``characters.segments_of``.

    Raises:
        InputError: brackets with anything but segments in them, and what ``text.fit`` refuses.

    Example:
        >>> sorted(read_sighting("[fg] [bc dp]", layout="88.").lit)
        [(1, 'f'), (1, 'g'), (2, 'b'), (2, 'c'), (2, 'dp')]
    """
    drawn = dict(custom)
    parts: list[str] = []
    at, marks = 0, False
    for found in _BRACKETS.finditer(text):
        names = _named(found[1], text)
        marks = marks or not names.isdisjoint({POINT, COLON})
        place = chr(_PRIVATE + len(parts))
        drawn[place] = "".join(name for name in names if len(name) == 1)
        parts += (text[at : found.start()], place + _after(names, layout))
        at = found.end()
    plain = "".join((*parts, text[at:]))
    try:
        fitted = fit(plain, layout=layout, style=style, custom=drawn)
    except InputError as error:
        raise InputError(replace(problem, value=f'"{text}"') for problem in error.problems) from None
    return Sighting(frozenset(fitted.lit), marks, digits_in(plain))


def digits_in(text: str) -> int:
    """How many digits a text without brackets asks for, blanks counted.

    Example:
        >>> digits_in("12:4.5"), digits_in(" 8")
        (4, 2)
    """
    return sum(char not in ".,:" for char in plain_text(text))


def _named(inside: str, text: str) -> set[str]:
    lower = inside.lower()
    if not _ONLY_NAMES.fullmatch(lower):
        raise InputError(
            Problem(
                f'"[{inside}]" names no segments.', value=f'"{text}"', limit="a to g, dp, colon", remedy=_HOW
            )
        )
    return set(_NAMES.findall(lower))


def _after(names: set[str], layout: str) -> str:
    """Point and colon as characters, in the order in which the layout has them."""
    order = ".:" if ".:" in layout else ":."
    return "".join(mark for mark in order if {".": POINT, ":": COLON}[mark] in names)


def spelled(
    lit: Iterable[Lamp], *, layout: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> str:
    """What is lit, in the form that ``read_sighting`` reads.

    Args:
        lit: (digit, segment), digit 1 = leftmost.
        layout, style, custom: as there.

    Example:
        >>> spelled([(1, "f"), (1, "g"), (3, "b"), (3, "c")], layout="888")
        '[fg][]1'
    """
    by_digit: dict[int, set[str]] = {}
    for digit, name in lit:
        by_digit.setdefault(digit, set()).add(name)
    count = sum(mark in "8o" for mark in layout)
    return "".join(_spelled_digit(by_digit.get(n, set()), style, custom) for n in range(1, count + 1))


def _spelled_digit(names: set[str], style: Style, custom: Custom) -> str:
    bare = names - {POINT, COLON}
    read = reads_as(bare, style, DIGITS, custom) or reads_as(bare, style, custom, custom)
    if bare and read:
        return read + "." * (POINT in names) + ":" * (COLON in names)
    marks = [name for name in in_order(names) if len(name) > 1]
    return f"[{' '.join(filter(None, (''.join(in_order(bare)), *marks)))}]"
