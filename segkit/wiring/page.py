"""The frame of a bench sheet: heading, the side it is seen from, notes and tables."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.wiring.pen import Pen, text_mm

#: A3 across, mm; source: ISO 216. Half the size on A4 still reads.
PAGE_WIDE_MM, PAGE_HIGH_MM = 420.0, 297.0
EDGE_MM = 8.0
TITLE_MM, SIDE_MM, NOTE_MM = 6.0, 10.0, 3.4
#: Foot of the heading, mm.
TOP_MM = PAGE_HIGH_MM - EDGE_MM - 22
#: Width of the tables at the right edge, and the right edge of the drawing, mm.
PANEL_MM = 122.0
SIDE_X_MM = PAGE_WIDE_MM - EDGE_MM - PANEL_MM - 10
BEHIND = "SEEN FROM BEHIND"
BEHIND_HINT = "as you solder it: the reader's left is on your right"


def sheet(title: str, what: str, stamp: str, *, behind: bool = True, panel: bool = True) -> Pen:
    """A page with its frame and heading.

    Args:
        title: of the design.
        what: what the page shows.
        stamp: what it was made from.
        behind: True to mark it, large, as seen from behind.
        panel: whether tables stand at the right edge; the drawing then ends before them.
    """
    pen = Pen(f"{title}: {what}", stamp, PAGE_WIDE_MM, PAGE_HIGH_MM)
    pen.box(EDGE_MM, EDGE_MM, PAGE_WIDE_MM - 2 * EDGE_MM, PAGE_HIGH_MM - 2 * EDGE_MM, ink="faint")
    top = PAGE_HIGH_MM - EDGE_MM
    size = min(TITLE_MM, TITLE_MM * 200 / max(1.0, text_mm(what, TITLE_MM)))
    pen.text((EDGE_MM + 5, top - 10), what, size)
    pen.text((EDGE_MM + 5, top - 16), title, NOTE_MM)
    pen.text((PAGE_WIDE_MM - EDGE_MM - 3, EDGE_MM + 2.5), stamp, 2.4, anchor="end")
    if behind:
        right = PAGE_WIDE_MM - EDGE_MM - 5
        pen.text((right, top - 12), BEHIND, SIDE_MM, anchor="end", ink="warning")
        pen.text((right, top - 17.5), BEHIND_HINT, NOTE_MM, anchor="end")
        side = SIDE_X_MM if panel else PAGE_WIDE_MM - EDGE_MM - 6
        for x, words, turn in ((EDGE_MM + 6, "reader's right", 90.0), (side, "reader's left", -90.0)):
            pen.text((x, (PAGE_HIGH_MM - 20) / 2), words, 4.5, anchor="middle", ink="warning", turn=turn)
    pen.line((EDGE_MM, top - 20), (PAGE_WIDE_MM - EDGE_MM, top - 20), ink="faint")
    return pen


def table(
    pen: Pen, rows: Sequence[Sequence[str]], *, left: float, top: float, columns: Sequence[float],
    size: float = NOTE_MM, step: float | None = None,
) -> float:  # fmt: skip
    """A table: the first row is its head. Returns the height of its foot on the page.

    Args:
        pen: the page.
        rows: cells.
        left, top: upper left corner, mm.
        columns: widths, mm.
        size: of the type, mm.
        step: from line to line, mm; 1.55 times the type if left out.
    """
    step = step or 1.55 * size
    y = top
    for number, row in enumerate(rows):
        x = left
        for cell, width in zip(row, columns, strict=True):
            fitted = min(size, size * (width - 1.0) / max(1e-6, text_mm(cell, size)))
            pen.text((x, y - size), cell, fitted)
            x += width
        y -= step
        if number == 0:
            pen.line((left, y + 0.1 * size), (left + sum(columns), y + 0.1 * size), ink="line")
            y -= 0.25 * step
    return y


def notes(
    pen: Pen, lines: Sequence[str], *, left: float, top: float, wide: float, size: float = NOTE_MM
) -> float:
    """Sentences, broken to a width. Returns the height of the foot on the page.

    Args:
        pen: the page.
        lines: one sentence or heading each.
        left, top, wide: place and width, mm.
        size: of the type, mm.
    """
    y = top
    for line in lines:
        for part in wrapped(line, letters=int(wide / text_mm("n", size))):
            pen.text((left, y - size), part, size)
            y -= 1.4 * size
        y -= 0.5 * size
    return y


def wrapped(words: str, *, letters: int) -> list[str]:
    """A sentence in lines of a number of letters at most, broken between words.

    Example:
        >>> wrapped("one two three", letters=7)
        ['one two', 'three']
    """
    found: list[str] = []
    for word in words.split():
        if found and len(found[-1]) + 1 + len(word) <= letters:
            found[-1] += f" {word}"
        else:
            found.append(word)
    return found
