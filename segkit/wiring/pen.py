"""A page that is filled shape by shape, each with an ink; it comes out as a drawing in layers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from segkit.drawing.drawing import Circle, Drawing, Layer, Operation, Path, Point, Shape, Text
from segkit.wiring.colours import PAINT, split

#: Ink: operation, colour, line in mm. Drawn in this order, so that texts and marks lie on top.
INKS: dict[str, tuple[Operation, str, float]] = {
    "area": ("fill", "#f1f2f4", 0.0),
    "faint": ("note", "#b9bec4", 0.25),
    "board": ("note", "#6b7278", 0.5),
    "casing": ("note", "#30353a", 1.15),
    **{f"core-{code.lower()}": ("note", paint, 0.7) for code, paint in PAINT.items()},
    "heavy": ("note", "#1b1f23", 0.8),
    "joint": ("fill", "#1b1f23", 0.0),
    "blank": ("fill", "#ffffff", 0.0),
    "line": ("note", "#1b1f23", 0.35),
    "solid": ("fill", "#1b1f23", 0.0),
    "tag": ("fill", "#ffffff", 0.0),
    "text": ("note", "#1b1f23", 0.25),
    "warning": ("note", "#a3190f", 0.5),
}
#: Width of a letter over the size of the type, for an ordinary sans-serif.
LETTER_WIDTH = 0.6
_DASH_MM = 1.6

Anchor = Literal["start", "middle", "end"]


@dataclass
class Pen:
    """Draws on a page in mm, y up.

    Attributes:
        title, stamp, width_mm, height_mm: of the page.
    """

    title: str
    stamp: str
    width_mm: float
    height_mm: float
    _shapes: dict[str, list[Shape]] = field(default_factory=dict)

    def put(self, ink: str, *shapes: Shape) -> None:
        """Add shapes in an ink."""
        self._shapes.setdefault(ink, []).extend(shapes)

    def line(self, *points: Point, ink: str = "line") -> None:
        """A polyline."""
        self.put(ink, Path(tuple(points), closed=False))

    def box(self, left: float, foot: float, wide: float, high: float, *, ink: str = "line") -> None:
        """A rectangle."""
        corners = ((left, foot), (left + wide, foot), (left + wide, foot + high), (left, foot + high))
        self.put(ink, Path(corners))

    def text(
        self, at: Point, words: str, size: float, *, anchor: Anchor = "start", ink: str = "text",
        turn: float = 0.0,
    ) -> None:  # fmt: skip
        """A line of text, its baseline at the point."""
        self.put(ink, Text(at, words, size, anchor, turn))

    def centred(self, at: Point, words: str, size: float, *, ink: str = "text") -> None:
        """A text with its middle at the point: capitals are about 0.72 of the size high."""
        self.text((at[0], at[1] - 0.36 * size), words, size, anchor="middle", ink=ink)

    def tag(self, at: Point, words: str, size: float, *, anchor: Anchor = "middle") -> None:
        """A text on a white ground, middle of its height at the point."""
        wide, pad = text_mm(words, size), 0.25 * size
        left = at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        self.box(left - pad, at[1] - 0.36 * size - pad, wide + 2 * pad, 0.72 * size + 2 * pad, ink="tag")
        self.text((at[0], at[1] - 0.36 * size), words, size, anchor=anchor)

    def dot(self, at: Point, radius: float, *, ink: str = "solid") -> None:
        """A filled or drawn circle."""
        self.put(ink, Circle(at, radius))

    def wire(self, points: Sequence[Point], code: str) -> None:
        """A wire in the colour of its core, with a dark edge; two colours alternate along it."""
        self.line(*points, ink="casing")
        codes = split(code)
        if codes:
            self.line(*points, ink=f"core-{codes[0].lower()}")
        if len(codes) > 1:
            for dash in dashes(points, _DASH_MM):
                self.line(*dash, ink=f"core-{codes[1].lower()}")

    def drawing(self) -> Drawing:
        """The page with its layers; inks that were not used are left out."""
        layers = tuple(
            Layer(ink, operation, tuple(self._shapes[ink]), colour, line_mm)
            for ink, (operation, colour, line_mm) in INKS.items()
            if ink in self._shapes
        )
        return Drawing(self.title, self.width_mm, self.height_mm, layers, "#ffffff", self.stamp)


def text_mm(words: str, size: float) -> float:
    """Width of a text, about, mm.

    Args:
        words: the text.
        size: of the type, mm.

    Source: common-practice (mean width of a letter).

    Example:
        >>> round(text_mm("abcd", 10), 1)
        24.0
    """
    return LETTER_WIDTH * size * len(words)


def dashes(points: Sequence[Point], dash_mm: float) -> list[tuple[Point, ...]]:
    """Every second stretch of a polyline.

    Args:
        points: the polyline.
        dash_mm: length of a stretch and of a gap, above 0.

    Example:
        >>> dashes([(0, 0), (5, 0)], 2)
        [((2.0, 0.0), (4.0, 0.0))]
    """
    found: list[tuple[Point, ...]] = []
    place = 0.0
    for (x1, y1), (x2, y2) in pairwise(points):
        length = math.dist((x1, y1), (x2, y2))
        start = place
        while length and place < start + length - 1e-9:
            turn = (math.floor(place / dash_mm + 1e-9) + 1) * dash_mm
            end = min(turn, start + length)
            if round(turn / dash_mm) % 2 == 0:
                a, b = ((s - start) / length for s in (place, end))
                found.append(
                    ((x1 + (x2 - x1) * a, y1 + (y2 - y1) * a), (x1 + (x2 - x1) * b, y1 + (y2 - y1) * b))
                )
            place = end
        place = start + length
    return found
