"""How many LEDs each kind of segment gets so that all kinds are about equally bright."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

#: Brightest over dimmest kind that is aimed at: such a difference is hardly seen side by side.
EQUAL_WITHIN = 1.15


@dataclass(frozen=True)
class Need:
    """One kind of segment.

    Attributes:
        least: LEDs in an outline for even light, or as many as the builder asks for.
        most: LEDs that go in; ``least`` where the number is fixed.
        per_led: mean luminance that one LED adds, in any unit that all kinds share.
        outlines: outlines of this kind on the board, each lit by that many LEDs.
    """

    least: int
    most: int
    per_led: float
    outlines: int


def equalised(needs: Mapping[str, Need], *, within: float = EQUAL_WITHIN) -> dict[str, int]:
    """LEDs in an outline of each kind, the fewest on the board for which all kinds are about equally bright.

    For each level that the dimmest kind may have, every kind takes the fewest LEDs that reach it; of the
    levels at which brightest over dimmest stays in bounds, the one with the fewest LEDs wins, else the
    one with the smallest ratio.

    Args:
        needs: by kind.
        within: brightest over dimmest, above 1.

    Sources: arithmetic.

    Example:
        >>> equalised({"upright": Need(3, 12, 10, 28), "point": Need(1, 4, 34, 4)})
        {'upright': 3, 'point': 1}
        >>> equalised({"upright": Need(3, 12, 10, 28), "point": Need(1, 4, 14, 4)})
        {'upright': 3, 'point': 2}
    """
    best: tuple[tuple[float, int], dict[str, int]] | None = None
    for level in _levels(needs):
        counts = {kind: _reaching(need, level) for kind, need in needs.items()}
        lights = [counts[kind] * need.per_led for kind, need in needs.items()]
        ratio = max(lights) / min(lights)
        total = sum(counts[kind] * need.outlines for kind, need in needs.items())
        rank = (max(ratio, within), total)
        if best is None or rank < best[0]:
            best = rank, counts
    return best[1] if best else {}


def _levels(needs: Mapping[str, Need]) -> Iterator[float]:
    """Levels that some kind can have, the lowest that every kind reaches at its least among them."""
    yield from sorted({n * need.per_led for need in needs.values() for n in range(need.least, need.most + 1)})


def _reaching(need: Need, level: float) -> int:
    """Fewest LEDs that reach a level, or all that go in."""
    asked = math.ceil(level / need.per_led - 1e-9)
    return max(need.least, min(need.most, asked))
