"""How many segments are lit, for the mean load of a battery, and how far digits differ."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Style, segments_of
from segkit.glyphs.segments import SEGMENTS
from segkit.working import Given, Line


def lit_per_digit(style: Style = DEFAULT_STYLE) -> tuple[int, ...]:
    """Lit segments of 0 to 9.

    Example:
        >>> lit_per_digit(), sum(lit_per_digit())
        ((6, 2, 5, 5, 4, 5, 6, 3, 7, 6), 49)
    """
    return tuple(len(segments_of(digit, style)) for digit in DIGITS)


def lit_mean(style: Style = DEFAULT_STYLE) -> float:
    """Mean of lit segments over the ten digits, all equally often.

    Example:
        >>> lit_mean()
        4.9
    """
    counts = lit_per_digit(style)
    return sum(counts) / len(counts)


def uses(style: Style = DEFAULT_STYLE) -> Mapping[str, int]:
    """For each segment the number of digits that light it.

    Example:
        >>> uses()["e"]
        4
    """
    return {name: sum(name in segments_of(digit, style) for digit in DIGITS) for name in SEGMENTS}


def changes(style: Style = DEFAULT_STYLE) -> tuple[int, ...]:
    """Segments that change from each digit to the next one up; the last is 9 to 0."""
    sets = [set(segments_of(digit, style)) for digit in DIGITS]
    return tuple(len(sets[n] ^ sets[(n + 1) % len(sets)]) for n in range(len(sets)))


def distance_histogram(style: Style = DEFAULT_STYLE) -> tuple[int, ...]:
    """Pairs of digits that differ by 1, 2, ... 7 segments.

    Example:
        >>> distance_histogram()
        (7, 11, 13, 8, 5, 1, 0)
    """
    sets = [set(segments_of(digit, style)) for digit in DIGITS]
    apart = [len(one ^ other) for one, other in combinations(sets, 2)]
    return tuple(apart.count(distance) for distance in range(1, len(SEGMENTS) + 1))


def lines(style: Style = DEFAULT_STYLE) -> tuple[Line, ...]:
    """The working of the mean number of lit segments."""
    counts = lit_per_digit(style)
    inputs = tuple(
        Given(f"n{digit}", float(count), "", f"segments of {digit}")
        for digit, count in zip(DIGITS, counts, strict=True)
    )
    summed = " + ".join(given.symbol for given in inputs)
    return (
        Line(
            name="glyphs.lit_mean",
            title="lit segments of a digit, mean of 0 to 9",
            symbol="n",
            value=lit_mean(style),
            unit="",
            formula=f"({summed}) / 10",
            inputs=inputs,
            source="arithmetic",
            note="for battery time; the supply must carry 8 on every digit",
        ),
    )
