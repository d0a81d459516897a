"""Pages in millimetres: layers, paths, circles and texts. Knows no digits and no file format."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Operation = Literal["cut", "drill", "score", "note", "fill"]


@dataclass(frozen=True)
class Path:
    """A polyline in mm, y up; closed if it is an outline."""

    points: tuple[Point, ...]
    closed: bool = True


@dataclass(frozen=True)
class Circle:
    """A circle in mm."""

    centre: Point
    radius_mm: float


@dataclass(frozen=True)
class Text:
    """A line of text; ``at`` is on the baseline, height is the size of the type in mm."""

    at: Point
    text: str
    height_mm: float
    anchor: Literal["start", "middle", "end"] = "start"
    rotation_deg: float = 0.0


Shape = Path | Circle | Text


@dataclass(frozen=True)
class Layer:
    """Shapes that get the same operation.

    Attributes:
        name: id of the group in a file: letters, digits and hyphens, starting with a letter.
        operation: ``cut``, ``drill`` and ``score`` move a tool and hold no text; ``note`` is for
            people; ``fill`` is a filled picture.
        shapes: drawn in this order.
        colour: ``#rrggbb`` of the line (of the area for ``fill``).
        line_mm: width of the drawn line; 0 for none.
    """

    name: str
    operation: Operation
    shapes: tuple[Shape, ...]
    colour: str = "#000000"
    line_mm: float = 0.1

    def __post_init__(self) -> None:
        if self.operation in ("cut", "drill", "score") and any(isinstance(s, Text) for s in self.shapes):
            raise ValueError(f"text in the {self.operation} layer {self.name!r}: a tool would cut it")


@dataclass(frozen=True)
class Drawing:
    """A page.

    Attributes:
        title: for the file's title element.
        width_mm, height_mm: size of the page; origin at the lower left, y up (the writer flips).
        layers: drawn in this order.
        background: ``#rrggbb`` of the page, or empty for none.
        stamp: what the file was made from (design hash and version); no clock.
    """

    title: str
    width_mm: float
    height_mm: float
    layers: tuple[Layer, ...]
    background: str = ""
    stamp: str = ""
