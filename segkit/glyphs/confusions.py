"""Verdicts on a set of characters: which of them a reader cannot tell apart, and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Custom, Style, lookalikes, plain_text, segments_of

_NO_CUSTOM: Custom = {}
#: Digits that become a letter without their tail: digit, attribute of Style, letter.
_TAIL_LESS = (("6", "six", "b"), ("9", "nine", "q"))


@dataclass(frozen=True)
class LookAlike:
    """Characters that light the very same segments.

    Attributes:
        chars: digits first; at least two.
        segments: what they light.
        in_use: True if two of them or more are in the set that was asked for.
    """

    chars: tuple[str, ...]
    segments: tuple[str, ...]
    in_use: bool


def confused(
    characters: Iterable[str], style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[LookAlike, ...]:
    """Look-alikes within the set, with the digits, which any board also shows, and with tail-less digits.

    Args:
        characters: the characters in use.
        style, custom: as in ``characters.segments_of``.

    Example:
        >>> [alike.chars for alike in confused("GUEST")]
        [('5', 'S')]
        >>> [alike.chars for alike in confused("GUEST", Style(six="plain", nine="plain"))]
        [('5', 'S'), ('6', 'b'), ('9', 'q')]
    """
    used = tuple(dict.fromkeys(plain_text("".join(characters))))
    extra = [letter for _, attribute, letter in _TAIL_LESS if getattr(style, attribute) == "plain"]
    universe = [*DIGITS, *(char for char in used if char not in DIGITS), *extra]
    return tuple(
        LookAlike(group, segments_of(group[0], style, custom), sum(char in used for char in group) > 1)
        for group in lookalikes(universe, style, custom)
    )


def confusion_findings(
    characters: Iterable[str], style: Style = DEFAULT_STYLE, custom: Custom = _NO_CUSTOM
) -> tuple[Finding, ...]:
    """One ``look-alike`` for each group: a caution if the set itself holds two of them, else a note.

    Args:
        characters, style, custom: as in ``confused``.

    Source keys: ``arithmetic``.
    """
    return tuple(_finding(alike, style) for alike in confused(characters, style, custom))


def _finding(alike: LookAlike, style: Style) -> Finding:
    first, *others = alike.chars
    lit = " ".join(alike.segments) or "nothing"
    return Finding(
        level="caution" if alike.in_use else "note",
        code="look-alike",
        subject=" = ".join(alike.chars),
        text=f"{' and '.join(others)} light{'s' if len(others) == 1 else ''} the same segments as {first}, "
        f"{lit}: only the place on the board tells them apart.",
        value=" ".join(alike.chars),
        limit="different segments",
        source="arithmetic",
        remedy=_remedy(alike, style),
    )


def _remedy(alike: LookAlike, style: Style) -> str:
    for digit, attribute, _ in _TAIL_LESS:
        if digit in alike.chars and getattr(style, attribute) == "plain":
            bar = "top bar a" if digit == "6" else "bottom bar d"
            return f"Draw {digit} with its {bar} (--{attribute} tail)."
    return "Keep letters and digits to separate places, or choose another word."
