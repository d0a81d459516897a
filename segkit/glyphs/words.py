"""How well a text can be read: nearly alike characters, readings upside down, what one dark segment makes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.glyphs.characters import (
    DEFAULT_STYLE,
    DIGITS,
    Custom,
    Style,
    near_alikes,
    plain_text,
    segments_of,
    unshown,
)
from segkit.glyphs.readings import Misreading, reads_as, single_faults, turned

_NO_CUSTOM: Custom = {}
#: Characters that a reader makes of what he sees, the likeliest first.
_READ = DIGITS + "AbCdEFHhJLnoPqrStUuy-_= "


@dataclass(frozen=True)
class Slip:
    """One segment that turns a text into another that reads as well.

    Attributes:
        place: of the character in the text, 1 = leftmost.
        segment: the faulty segment.
        fault: ``dark`` or ``stuck``.
        reads: the text that is read instead.
    """

    place: int
    segment: str
    fault: str
    reads: str


def upside_down(text: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM) -> str:
    """What a text reads as after half a turn of the board; empty if not all of it can be read.

    Args:
        text: characters that can be shown; points and colons are left out.
        style, custom: as in ``characters.segments_of``.

    Example:
        >>> upside_down("1068"), upside_down("ESS"), upside_down("F")
        ('8901', '553', '')
    """
    read = [_seen(turned(segments_of(char, style, custom)), style, custom) for char in reversed(_bare(text))]
    return "" if None in read else "".join(char for char in read if char is not None)


def _seen(lit: Iterable[str], style: Style, custom: Custom) -> str | None:
    """What is read in these segments; two uprights on the left are a 1 that stands aside."""
    named = tuple(lit)
    return "1" if named == ("e", "f") else reads_as(named, style, _READ, custom)


def _bare(text: str) -> str:
    return "".join(char for char in plain_text(text) if char not in ".,:")


def number_slips(text: str, style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM) -> tuple[Slip, ...]:
    """Every single dark or stuck segment that turns a number into another number.

    Args:
        text: a number; points, colons and signs are kept as they are.
        style, custom: as in ``characters.segments_of``.

    Example:
        >>> [(s.place, s.segment, s.fault, s.reads) for s in number_slips("10")]
        [(1, 'a', 'stuck', '70'), (2, 'g', 'stuck', '18')]
    """
    faults: dict[str, list[Misreading]] = {}
    for fault in single_faults(DIGITS, style, custom):
        faults.setdefault(fault.char, []).append(fault)
    return tuple(
        Slip(place, fault.segment, fault.fault, text[: place - 1] + fault.reads + text[place:])
        for place, char in enumerate(text, start=1)
        for fault in faults.get(char, ())
    )


def word_findings(
    text: str, characters: Sequence[str], style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[Finding, ...]:
    """Verdicts on a text: letters that nearly look like digits in use, and a number read upside down.

    Args:
        text: as the builder wrote it; empty where it names ranges.
        characters: the characters in use.
        style, custom: as in ``characters.segments_of``.

    Sources: common practice.
    """
    found = [
        _nearly_alike(one, other, segment)
        for one, other, segment in near_alikes(characters, style, custom)
        if one.isalpha() != other.isalpha() and {one, other} & set(DIGITS)
    ]
    bare = _bare(text)
    if bare and not unshown(bare, custom):
        other = upside_down(text, style, custom)
        if other != bare and other.replace(" ", "").isdigit():
            found.append(_turned(text, other))
    return tuple(found)


def _nearly_alike(one: str, other: str, segment: str) -> Finding:
    return Finding(
        level="note",
        code="nearly-alike",
        subject=f"{one} ~ {other}",
        text=f"{one} and {other} differ by segment {segment} alone: from afar, or with it dark, "
        "one reads as the other.",
        value=segment,
        limit="two segments or more",
        source="common-practice",
        remedy="Keep letters and digits to separate places, or choose another word.",
    )


def _turned(text: str, other: str) -> Finding:
    return Finding(
        level="note",
        code="reads-upside-down",
        subject=f'"{text}"',
        text=f'Upside down it reads "{other}": nothing shows that a board hangs the wrong way round.',
        value=other,
        limit=text,
        source="common-practice",
        remedy="Mark the top of each digit on its back before it is fixed.",
    )
