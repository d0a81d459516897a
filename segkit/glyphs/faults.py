"""Naming a fault by what the board shows: bytes in another order, digits in the wrong places, one wire."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.findings import Finding, Level
from segkit.glyphs.bitmask import Active, Order, mask, segments_from
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Custom, Style, plain_text, segments_of
from segkit.glyphs.readings import reads_as
from segkit.glyphs.segments import ALL, SEGMENTS

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


def diagnose(
    text: str, seen: str, *, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[Finding, ...]:
    """What is wrong when the board showed ``seen`` in place of ``text``.

    Args:
        text, seen: as many characters each, points and colons left out.
        style, custom: as in ``characters.segments_of``.

    Returns:
        a finding for each fault that explains all of it; one that asks for a walk test if none does.

    Raises:
        InputError: different lengths, or characters that cannot be shown.

    Example:
        >>> [finding.code for finding in diagnose("1234", "4123")]
        ['digits-rotated']
    """
    meant, got = (_bare(given) for given in (text, seen))
    if len(meant) != len(got) or not meant:
        raise InputError(
            Problem(
                f"{len(got)} seen where {len(meant)} were meant.",
                value=f'"{seen}"',
                remedy=f'Give as many characters as "{text}" has, a blank for a dark digit.',
            )
        )
    wanted = [frozenset(segments_of(char, style, custom)) for char in meant]
    lit = [frozenset(segments_of(char, style, custom)) for char in got]
    if wanted == lit:
        return (_finding("as-meant", "note", text, seen, "shows what was meant", ""),)
    found = _order_faults(text, seen, wanted, lit) + _wire_faults(text, seen, wanted, lit)
    return tuple(found) or (_unexplained(text, seen),)


def _bare(text: str) -> str:
    return plain_text(text).replace(".", "").replace(",", "").replace(":", "")


def _order_faults(
    text: str, seen: str, wanted: list[frozenset[str]], lit: list[frozenset[str]]
) -> list[Finding]:
    found, count = [], len(wanted)
    for steps in range(1, count):
        if lit == wanted[-steps:] + wanted[:-steps]:
            found.append(_rotated(text, seen, steps, count))
            break
    if lit == wanted[::-1]:
        found.append(
            _finding(
                "digits-reversed",
                "caution",
                text,
                seen,
                "the digits stand in reversed order, each one right in itself: the order of the chain",
                "The first byte that is sent ends up in the farthest register: send the bytes in the other "
                "order, or number the digits from the other end of the chain.",
            )
        )
    for place in range(count - 1):
        swapped = [*wanted[:place], wanted[place + 1], wanted[place], *wanted[place + 2 :]]
        if lit == swapped and count > 2:
            what = f"digits {place + 1} and {place + 2} are exchanged, the rest stand right"
            todo = f"Exchange the two connectors of digits {place + 1} and {place + 2}, or their two bytes."
            found.append(_finding("digits-exchanged", "caution", text, seen, what, todo))
    return found


def _rotated(text: str, seen: str, steps: int, count: int) -> Finding:
    left = count - steps < steps
    places = min(steps, count - steps)
    way = "left" if left else "right"
    by = "one place" if places == 1 else f"{places} places"
    what = (
        f"every digit stands {by} too far to the {way}, the ends wrapped round: digit select and "
        f"segment data are {'one step' if places == 1 else f'{places} steps'} out"
    )
    todo = (
        "Multiplexed: put the new segment data out and latch it before the next digit is switched on. "
        "Register chain: count the bytes before the latch pulse, one for each register, no more, no fewer, "
        "and look which register is digit 1 on the channel map."
    )
    return _finding("digits-rotated", "caution", text, seen, what, todo)


def _wire_faults(
    text: str, seen: str, wanted: list[frozenset[str]], lit: list[frozenset[str]]
) -> list[Finding]:
    found = []
    wrong = [n for n, (meant, got) in enumerate(zip(wanted, lit, strict=True), start=1) if meant != got]
    where = ("digit " if len(wrong) == 1 else "digits ") + ", ".join(str(n) for n in wrong)
    if all(not lit[n - 1] for n in wrong):
        todo = "Look at the common lead, the plug and the register of what is dark."
        found.append(_finding("digit-dark", "caution", text, seen, f"nothing is lit in {where}", todo))
    for name in ALL:
        if all(got == meant - {name} for meant, got in zip(wanted, lit, strict=True) if got != meant):
            whole = all(name not in got for got in lit)
            what = f"segment {name} stays dark in {'every digit' if whole and len(wrong) > 1 else where}"
            todo = f"Look for an open wire, a dead output or a dead LED string at {name}."
            found.append(_finding("segment-dark", "caution", text, seen, what, todo))
        if all(got == meant | {name} for meant, got in zip(wanted, lit, strict=True) if got != meant):
            what = f"segment {name} is lit in {where} where it should be dark"
            todo = f"Look for a shorted output or a bridge of solder at {name}."
            found.append(_finding("segment-stuck", "caution", text, seen, what, todo))
    return found


def _unexplained(text: str, seen: str) -> Finding:
    return _finding(
        "not-recognised",
        "caution",
        text,
        seen,
        "no single fault of order or of one segment explains it",
        "Light one output after the other and write down which segment each one lights.",
    )


def _finding(code: str, level: Level, text: str, seen: str, what: str, todo: str) -> Finding:
    return Finding(
        level=level,
        code=code,
        subject=f'"{text}" seen as "{seen}"',
        text=f"{what}.",
        value=seen,
        limit=text,
        source="common-practice",
        remedy=todo,
    )
