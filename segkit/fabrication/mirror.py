"""The view from behind."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from segkit.drawing.drawing import Circle, Drawing, Path, Shape, Text

_OTHER_END: dict[str, Literal["start", "middle", "end"]] = {
    "start": "end", "middle": "middle", "end": "start",
}  # fmt: skip


def mirrored(drawing: Drawing) -> Drawing:
    """The page as seen from behind: left and right swapped, every text still readable.

    A text keeps the place it covers: it starts where it ended, and a slope turns the other way.
    Mirrored twice, a drawing is as it was.

    Example:
        >>> from segkit.drawing.drawing import Layer
        >>> page = Drawing("", 100, 50, (Layer("notes", "note", (Text((10, 5), "left", 4),)),))
        >>> mirrored(page).layers[0].shapes[0]
        Text(at=(90, 5), text='left', height_mm=4, anchor='end', rotation_deg=0.0)
    """
    layers = tuple(
        replace(layer, shapes=tuple(_turned(shape, drawing.width_mm) for shape in layer.shapes))
        for layer in drawing.layers
    )
    return replace(drawing, layers=layers)


def _turned(shape: Shape, width_mm: float) -> Shape:
    match shape:
        case Path(points=points):
            return replace(shape, points=tuple((width_mm - x, y) for x, y in reversed(points)))
        case Circle(centre=(x, y)):
            return replace(shape, centre=(width_mm - x, y))
        case Text(at=(x, y), anchor=anchor, rotation_deg=angle):
            return replace(
                shape, at=(width_mm - x, y), anchor=_OTHER_END[anchor], rotation_deg=-angle if angle else 0.0
            )
