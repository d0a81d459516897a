"""What characters become: bytes sent in another order, and the table of common faults."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from segkit.glyphs.bitmask import Active, Order, mask, segments_from
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Custom, Style, segments_of
from segkit.glyphs.readings import reads_as
from segkit.glyphs.segments import SEGMENTS

_NO_CUSTOM: Custom = {}
_FULL = 0xFF


@dataclass(frozen=True)
class Shown:
    """What the board shows in place of one character.

    Attributes:
        char: the character that was meant.
        value: the byte that arrives, 0 to 255.
        lights: the segments it lights.
        reads: the digit, or the character in use, that is read; empty if it is none.
    """

    char: str
    value: int
    lights: tuple[str, ...]
    reads: str


@dataclass(frozen=True)
class Fingerprint:
    """One fault and what each character becomes.

    Attributes:
        fault: what is wrong, in a few words.
        cause: where to look.
        shown: one for each character.
    """

    fault: str
    cause: str
    shown: tuple[Shown, ...]


def sent_as(
    characters: Iterable[str],
    *,
    order: Order,
    sent: Order,
    active: Active = "high",
    style: Style = DEFAULT_STYLE,
    custom: Custom = _NO_CUSTOM,
) -> tuple[Shown, ...]:
    """What a board wired in ``order`` shows when the bytes are made for the order ``sent``.

    Args:
        characters: the characters meant.
        order: how the board is wired, most significant bit first.
        sent: how the bytes are made.
        active, style, custom: as in ``bitmask.mask`` and ``characters.segments_of``.

    Example:
        >>> from segkit.glyphs.bitmask import parse_order
        >>> wired, other = parse_order("dp g f e d c b a"), parse_order("a b c d e f g dp")
        >>> [(hex(s.value), s.lights) for s in sent_as("1", order=wired, sent=other)]
        [('0x60', ('f', 'g'))]
    """
    chars = tuple(dict.fromkeys(characters))
    readable = tuple(dict.fromkeys((*DIGITS, *chars)))
    found = []
    for char in chars:
        value = mask(segments_of(char, style, custom), sent, active)
        lights = segments_from(value, order, active)
        found.append(Shown(char, value, lights, reads_as(lights, style, readable, custom) or ""))
    return tuple(found)


def _reversed(value: int) -> int:
    return int(f"{value:08b}"[::-1], 2)


def _turned(value: int, steps: int) -> int:
    return (value << steps | value >> (8 - steps)) & _FULL


#: Faults of a whole byte: name, where to look, what happens to the byte.
_BYTE_FAULTS: tuple[tuple[str, str, Callable[[int], int]], ...] = (
    ("order reversed", "least significant bit sent first, or the eight wires turned end for end", _reversed),
    ("inverted", "the bits are flipped once too often, or once too seldom", lambda value: value ^ _FULL),
    ("one bit late", "one clock pulse too few (equal neighbours assumed)", lambda value: _turned(value, 7)),
    ("one bit early", "one clock pulse too many (equal neighbours assumed)", lambda value: _turned(value, 1)),
)


def fingerprints(
    characters: Iterable[str],
    *,
    order: Order,
    active: Active = "high",
    style: Style = DEFAULT_STYLE,
    custom: Custom = _NO_CUSTOM,
) -> tuple[Fingerprint, ...]:
    """The table of common faults: what each character becomes under each.

    Faults of the whole byte come first, then each segment dark, then each segment stuck.

    Args:
        characters: the characters in use.
        order, active, style, custom: as in ``sent_as``.

    Example:
        >>> from segkit.glyphs.bitmask import parse_order
        >>> table = fingerprints("1", order=parse_order("dp g f e d c b a"))
        >>> table[1].fault, table[1].shown[0].lights
        ('inverted', ('a', 'd', 'e', 'f', 'g', 'dp'))
    """
    chars = tuple(dict.fromkeys(characters))
    readable = tuple(dict.fromkeys((*DIGITS, *chars)))

    def shown(change: Callable[[int], int]) -> tuple[Shown, ...]:
        rows = []
        for char in chars:
            value = change(mask(segments_of(char, style, custom), order, active))
            lights = segments_from(value, order, active)
            rows.append(Shown(char, value, lights, reads_as(lights, style, readable, custom) or ""))
        return tuple(rows)

    table = [Fingerprint(fault, cause, shown(change)) for fault, cause, change in _BYTE_FAULTS]
    table += [
        Fingerprint(f"{name} {word}", cause, shown(_one_bit(name, word, order, active)))
        for word, cause in (("dark", "open wire, dead output or LED string"), ("stuck", "shorted output"))
        for name in SEGMENTS
    ]
    return tuple(table)


def _one_bit(name: str, word: str, order: Order, active: Active) -> Callable[[int], int]:
    bit = mask((name,), order)
    set_it = (word == "stuck") == (active == "high")
    return (lambda value: value | bit) if set_it else (lambda value: value & ~bit & _FULL)
