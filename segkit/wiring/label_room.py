"""Where a label of a sheet keeps clear of all that is there already. Page mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from segkit.geometry.polygon import Point
from segkit.wiring.pen import text_mm

Box = tuple[float, float, float, float]  # left, foot, right, top


def label_box(middle: Point, words: str, size: float) -> Box:
    """The box that a label fills.

    Args:
        middle: of the label.
        words: its text.
        size: of the type, mm.

    Source: common-practice (mean width of a letter, height of a capital).

    Example:
        >>> [round(edge, 2) for edge in label_box((10, 10), "ab", 2.0)]
        [8.8, 9.28, 11.2, 10.72]
    """
    wide, high = text_mm(words, size) / 2, 0.36 * size
    return middle[0] - wide, middle[1] - high, middle[0] + wide, middle[1] + high


def overlap_mm2(one: Box, other: Box) -> float:
    """Area that two boxes share.

    Args:
        one, other: left, foot, right, top.

    Source: arithmetic.

    Example:
        >>> overlap_mm2((0, 0, 2, 2), (1, 1, 5, 5)), overlap_mm2((0, 0, 2, 2), (2, 0, 4, 2))
        (1, 0.0)
    """
    wide = min(one[2], other[2]) - max(one[0], other[0])
    high = min(one[3], other[3]) - max(one[1], other[1])
    return wide * high if wide > 0 and high > 0 else 0.0


@dataclass
class Room:
    """What a sheet holds already.

    Attributes:
        taken: boxes of LEDs, labels and parts.
    """

    taken: list[Box] = field(default_factory=list)

    def take(self, box: Box) -> None:
        """Keep later labels off a box."""
        self.taken.append(box)

    def take_round(self, middle: Point, radius: float) -> None:
        """Keep later labels off a circle."""
        x, y = middle
        self.take((x - radius, y - radius, x + radius, y + radius))

    def covered(self, middle: Point, words: str, size: float) -> float:
        """Area of a label there that lies on what is there already, mm²."""
        box = label_box(middle, words, size)
        return sum(overlap_mm2(box, other) for other in self.taken)

    def seat(
        self, spots: Iterable[Point], words: str, size: float, *, lines: Sequence[Box] = ()
    ) -> Point:  # fmt: skip
        """The first of the spots that is free, better off the lines too; else the least covered. Taken then.

        Args:
            spots: middles of the label, the best first.
            words: the label.
            size: of the type, mm.
            lines: boxes that the label keeps off where it can.
        """
        choices = list(spots)
        free = [spot for spot in choices if not self.covered(spot, words, size)]
        clear = (
            spot
            for spot in free
            if not any(overlap_mm2(label_box(spot, words, size), line) for line in lines)
        )
        best = next(clear, None) or (
            free[0] if free else min(choices, key=lambda at: self.covered(at, words, size))
        )
        self.take(label_box(best, words, size))
        return best
