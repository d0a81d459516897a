"""Names, colours and order of the layers of a cut sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from segkit.drawing.drawing import Circle, Layer, Operation, Path, Shape, Text

#: Machines want a hairline; a knife follows a line that the eye must find.
LINE_MM = {"knife": 0.3, "laser": 0.1, "router": 0.1, "drill": 0.3}
NOTE_MM = 0.25


def sheet_shade(reflectance: float) -> str:
    """The grey of a sheet on a screen or on paper, ``#rrggbb``.

    Args:
        reflectance: diffuse, 0 to 1.

    Sources: iec-61966-2-1.

    Example:
        >>> sheet_shade(0.85), sheet_shade(0.04)
        ('#ededed', '#383838')
    """
    value = 12.92 * reflectance if reflectance <= 0.0031308 else 1.055 * reflectance ** (1 / 2.4) - 0.055
    return f"#{round(255 * value):02x}" + 2 * f"{round(255 * value):02x}"


@dataclass(frozen=True)
class Palette:
    """Colours of the operations, ``#rrggbb``.

    They differ in lightness, not in hue alone, so that a reader who mixes up red and green, or looks at a
    grey print, tells them apart.
    """

    led_holes: str = "#2a0f5e"
    fixing_holes: str = "#7a1fa2"
    other_holes: str = "#00796b"
    openings: str = "#c2185b"
    outline: str = "#1e88e5"
    guides: str = "#b9bec4"
    notes: str = "#3d434a"


@dataclass(frozen=True)
class PartShapes:
    """What is cut from one sheet, in the board's own frame [mm].

    Attributes:
        led_holes, fixing_holes: circles.
        openings: what falls out.
        outlines: what is kept.
        guides: thin lines for the eye that no tool follows.
        notes: texts and marks for people.
        other_holes: drains and the cable exit.
    """

    led_holes: tuple[Circle, ...] = ()
    fixing_holes: tuple[Circle, ...] = ()
    openings: tuple[Path, ...] = ()
    outlines: tuple[Path, ...] = ()
    guides: tuple[Shape, ...] = ()
    notes: tuple[Shape, ...] = ()
    other_holes: tuple[Circle, ...] = ()


def part_layers(shapes: PartShapes, palette: Palette, *, line_mm: float = 0.1) -> tuple[Layer, ...]:
    """The layers in the order of the work: what is inside is cut first, the outline last; notes on top.

    Empty layers are left out.

    Example:
        >>> lid = PartShapes(outlines=(Path(((0, 0), (9, 0), (9, 9))),))
        >>> [layer.name for layer in part_layers(lid, Palette())]
        ['cut-outline']
    """
    table: tuple[tuple[str, Operation, tuple[Shape, ...], str, float], ...] = (
        ("guides", "note", shapes.guides, palette.guides, NOTE_MM),
        ("drill-led-holes", "drill", shapes.led_holes, palette.led_holes, line_mm),
        ("drill-fixing-holes", "drill", shapes.fixing_holes, palette.fixing_holes, line_mm),
        ("drill-other-holes", "drill", shapes.other_holes, palette.other_holes, line_mm),
        ("cut-openings", "cut", shapes.openings, palette.openings, line_mm),
        ("cut-outline", "cut", shapes.outlines, palette.outline, line_mm),
        ("notes", "note", shapes.notes, palette.notes, NOTE_MM),
    )
    return tuple(
        Layer(name, operation, drawn, colour, width_mm)
        for name, operation, drawn, colour, width_mm in table
        if drawn
    )


def tool_path_mm(shapes: Iterable[Shape]) -> float:
    """Length of all lines that a tool follows [mm]: edges of polylines and circumferences.

    Example:
        >>> tool_path_mm([Path(((0, 0), (4, 0), (4, 3), (0, 3))), Path(((0, 0), (5, 0)), closed=False)])
        19.0
    """
    total = 0.0
    for shape in shapes:
        match shape:
            case Path(points=points, closed=closed):
                ends = points[1:] + points[:1] if closed else points[1:]
                total += sum(math.dist(one, other) for one, other in zip(points, ends, strict=False))
            case Circle(radius_mm=radius):
                total += math.tau * radius
            case Text():
                pass
    return total
