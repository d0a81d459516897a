"""What else a lit digit can be read as: upside down, in a mirror, with one segment dark or stuck."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Custom, Style, in_order, segments_of
from segkit.glyphs.segments import SEGMENTS

_NO_CUSTOM: Custom = {}
_TURNED = dict(zip("abcdefg", "defabcg", strict=True))
_MIRRORED = dict(zip("abcdefg", "afedcbg", strict=True))


@dataclass(frozen=True)
class Misreading:
    """One segment that turns one character into another.

    Attributes:
        char: the character sent.
        segment: the faulty segment.
        fault: ``dark`` if it never lights, ``stuck`` if it always does.
        reads: the character that is read instead.
    """

    char: str
    segment: str
    fault: Literal["dark", "stuck"]
    reads: str


def turned(segments: Iterable[str]) -> tuple[str, ...]:
    """The segments after half a turn of the board.

    Example:
        >>> turned("bc")
        ('e', 'f')
    """
    return in_order(_TURNED.get(name, name) for name in segments)


def mirrored(segments: Iterable[str]) -> tuple[str, ...]:
    """The segments as seen from behind, left and right exchanged.

    Example:
        >>> mirrored("abdeg")
        ('a', 'c', 'd', 'f', 'g')
    """
    return in_order(_MIRRORED.get(name, name) for name in segments)


def reads_as(
    segments: Iterable[str],
    style: Style = DEFAULT_STYLE,
    characters: Iterable[str] = DIGITS,
    custom: Custom = _NO_CUSTOM,
) -> str | None:
    """The first of ``characters`` that lights exactly these segments, or None.

    Example:
        >>> reads_as(turned("acdefg")), reads_as(turned("bc"))
        ('9', None)
    """
    lit = set(segments)
    return next((char for char in characters if set(segments_of(char, style, custom)) == lit), None)


def single_faults(
    characters: Iterable[str] = DIGITS, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[Misreading, ...]:
    """Every single dark or stuck segment that turns one of the characters into another of them.

    Args:
        characters: the characters in use.
        style, custom: as in ``characters.segments_of``.

    Example:
        >>> [(m.char, m.segment, m.fault, m.reads) for m in single_faults("08")]
        [('0', 'g', 'stuck', '8'), ('8', 'g', 'dark', '0')]
    """
    known = tuple(dict.fromkeys(characters))
    found = []
    for char in known:
        lit = set(segments_of(char, style, custom))
        for segment in SEGMENTS:
            reads = reads_as(lit ^ {segment}, style, known, custom)
            if reads is not None:
                found.append(Misreading(char, segment, "dark" if segment in lit else "stuck", reads))
    return tuple(found)
