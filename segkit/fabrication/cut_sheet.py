"""A cut sheet: the part on a page a little larger, with a banner, a title block and check bars.

Everything that is not the part itself is in the note layer and keeps clear of the cuts.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from segkit.drawing.drawing import Drawing, Layer, Path, Shape, Text
from segkit.drawing.move import moved
from segkit.fabrication.layers import NOTE_MM, Palette

BAR_MM = 100.0
INCH_BAR_MM = 4 * 25.4
_NUMBER_UNIT = re.compile(r"(\d) (mm|in|x|%)")  # never parted by the end of a row


@dataclass(frozen=True)
class SheetText:
    """What the sheet says.

    Attributes:
        banner: in large letters on top: the part, and from which side it is seen.
        banner_below: a second line, smaller; may be empty.
        lines: the title block, one sentence each; wrapped to the page.
        title: of the design, larger, above the lines.
        type_mm: size of the type; None takes one that suits the size of the part.
    """

    banner: str
    banner_below: str
    lines: tuple[str, ...]
    title: str = ""
    type_mm: float | None = None


def on_sheet(part: Drawing, text: SheetText, *, palette: Palette) -> Drawing:
    """The part on its page.

    Args:
        part: a drawing just as large as the part, with layers of ``part_layers``.
        text: what to write around it.
        palette: colours.

    The page is wide and high enough for a 100 mm and a 4 in bar across and a 100 mm bar upright.

    Example:
        >>> part = Drawing("Lid", 60, 40, ())
        >>> page = on_sheet(part, SheetText("LID", "", ("Cut 1 x",)), palette=Palette())
        >>> page.width_mm > 60 and page.height_mm > 120, [layer.name for layer in page.layers]
        (True, ['notes'])
    """
    type_mm = text.type_mm or type_for(part.width_mm)
    left, right = 8 * type_mm, 4 * type_mm
    width = max(part.width_mm + left + right, INCH_BAR_MM + left + right)
    x = left + (width - left - right - part.width_mm) / 2
    block, block_height = _block(text, type_mm, left=left, right_edge=width - right)
    head, head_height = _head(text, type_mm, left=left, width=width - left - right)
    low = max(block_height, BAR_MM + 6 * type_mm - part.height_mm - head_height)
    height = low + part.height_mm + head_height
    notes = [
        *moved(block, dx_mm=0.0, dy_mm=low),
        *moved(head, dx_mm=0.0, dy_mm=height),
        *_upright_bar(type_mm, bottom=(height - BAR_MM) / 2),
    ]
    layers = [
        replace(layer, shapes=tuple(moved(layer.shapes, dx_mm=x, dy_mm=low)))
        for layer in part.layers
        if layer.name != "notes"
    ]
    own = [
        shape
        for layer in part.layers
        if layer.name == "notes"
        for shape in moved(layer.shapes, dx_mm=x, dy_mm=low)
    ]
    layers.append(Layer("notes", "note", (*own, *notes), palette.notes, NOTE_MM))
    return Drawing(part.title, width, height, tuple(layers), background="#ffffff", stamp=part.stamp)


def type_for(width_mm: float) -> float:
    """Size of type [mm] that suits a part of that width."""
    return min(9.0, max(4.0, width_mm / 150))


def text_width_mm(text: str, *, height_mm: float) -> float:
    """Width that a line needs at most in a generic sans-serif type [mm]."""
    return sum(_letter_width(letter) for letter in text) * height_mm


def _letter_width(letter: str) -> float:
    """Share of the size of the type, on the safe side: reader programs have different types."""
    if letter in "mwMW@%—" or letter > "\u2e80":
        return 1.05
    if letter in "ijlftrI.,:;'|!()[]/- ":
        return 0.42
    return 0.8 if letter.isupper() or letter > "\u017f" else 0.64


def size_to_fit(text: str, *, width_mm: float, largest_mm: float) -> float:
    """Size of type at which the line is no wider than that.

    Example:
        >>> size_to_fit("aaaaa", width_mm=16, largest_mm=10)
        5.0
    """
    return min(largest_mm, width_mm / text_width_mm(text or " ", height_mm=1.0))


def _head(text: SheetText, type_mm: float, *, left: float, width: float) -> tuple[list[Shape], float]:
    """The banner, hanging down from y = 0, and its height."""
    size = size_to_fit(text.banner, width_mm=width, largest_mm=min(40.0, max(3 * type_mm, width / 28)))
    below = size_to_fit(
        text.banner_below, width_mm=width, largest_mm=min(size, max(1.3 * type_mm, size * 0.55))
    )
    y = -1.5 * type_mm - 0.8 * size
    shapes: list[Shape] = [Text((left, y), text.banner, size)]
    if text.banner_below:
        y -= 0.35 * size + below
        shapes.append(Text((left, y), text.banner_below, below))
    return shapes, -y + 2.5 * type_mm


def _block(text: SheetText, type_mm: float, *, left: float, right_edge: float) -> tuple[list[Shape], float]:
    """Title block and bars, hanging down from y = 0, and their height."""
    bars_width = INCH_BAR_MM + 2 * type_mm
    beside = right_edge - left - bars_width > 24 * type_mm
    room = right_edge - left - (bars_width if beside else 0)
    large = 1.7 * type_mm
    heads = wrapped([text.title], width_mm=room, height_mm=large) if text.title else []
    rows = wrapped(text.lines, width_mm=room, height_mm=type_mm)
    step, top = 1.5 * type_mm, -2.5 * type_mm
    below = top - len(heads) * 1.4 * large
    shapes: list[Shape] = [
        *(Text((left, top - (i + 0.8) * 1.4 * large), row, large) for i, row in enumerate(heads)),
        *(Text((left, below - (i + 0.8) * step), row, type_mm) for i, row in enumerate(rows)),
    ]
    text_height = top - below + len(rows) * step
    bar_x = right_edge - INCH_BAR_MM if beside else left
    bar_top = top if beside else top - text_height - type_mm
    shapes += _bar(bar_x, bar_top - 2.2 * type_mm, BAR_MM, "100 mm", type_mm)
    shapes += _bar(bar_x, bar_top - 5.4 * type_mm, INCH_BAR_MM, "4 in", type_mm)
    bars_low = -bar_top + 6 * type_mm
    return shapes, max(-top + text_height, bars_low) + 2 * type_mm


def wrapped(lines: Iterable[str], *, width_mm: float, height_mm: float) -> list[str]:
    """The lines broken between words so that none is wider than the room; a word wider than it is cut.

    Example:
        >>> wrapped(["one two three four"], width_mm=30, height_mm=4)
        ['one two', 'three four']
    """
    return [row for line in lines for row in _rows(line, width_mm / height_mm)]


def _rows(line: str, room: float) -> list[str]:
    """One line broken; room in sizes of the type."""
    rows = [""]
    for word in _NUMBER_UNIT.sub("\\1\u00a0\\2", line).split(" "):
        longer = f"{rows[-1]} {word}".strip(" ")
        if text_width_mm(longer, height_mm=1) <= room:
            rows[-1] = longer
            continue
        rows += [""] * bool(rows[-1])
        for letter in word:
            if rows[-1] and text_width_mm(rows[-1] + letter, height_mm=1) > room:
                rows.append("")
            rows[-1] += letter
    return [row.replace("\u00a0", " ") for row in rows]


def _bar(x: float, y: float, length: float, label: str, type_mm: float) -> list[Shape]:
    tick = 0.5 * type_mm
    return [
        Path(((x, y), (x + length, y)), closed=False),
        *(Path(((end, y - tick), (end, y + tick)), closed=False) for end in (x, x + length)),
        Text((x + length / 2, y + 0.5 * type_mm), label, type_mm, "middle"),
    ]


def _upright_bar(type_mm: float, *, bottom: float) -> list[Shape]:
    x, tick = 2.8 * type_mm, 0.5 * type_mm
    return [
        Path(((x, bottom), (x, bottom + BAR_MM)), closed=False),
        *(Path(((x - tick, y), (x + tick, y)), closed=False) for y in (bottom, bottom + BAR_MM)),
        Text((x - 0.5 * type_mm, bottom + BAR_MM / 2), "100 mm", type_mm, "middle", 90.0),
    ]
