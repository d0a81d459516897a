"""Whether digits and the whole board fit the stock sheets; pieces are judged where they are laid out."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from segkit.findings import Finding, Level
from segkit.geometry.board import Board
from segkit.geometry.polygon import Outline, bounds
from segkit.units import plain_number

Size = tuple[float, float]


def larger_than_sheet(
    board: Board, part: str, *, sheet_width_mm: float, sheet_height_mm: float
) -> tuple[Finding, ...]:
    """Whether the part can be cut from stock.

    Args:
        board: the board.
        part: cut as one board, so judged digit by digit, and as a whole.
        sheet_width_mm, sheet_height_mm: size of the sheet; it may be turned.

    Returns:
        a stop that holds the part where one digit is larger than the sheet; a caution that
        names the number of panels where only the whole board is.

    Sources: arithmetic.
    """
    sheet = (sheet_width_mm, sheet_height_mm)
    words = part.replace("_", " ")
    stock = f"{plain_number(sheet_width_mm)} by {plain_number(sheet_height_mm)} mm"
    name, size = _largest_unit(board)
    if not _fits(size, sheet):
        text = f"{name} is {_written(size)}, larger than the sheet of {stock} for the {words}."
        remedy = "Use a larger sheet, or a smaller digit.height."
        return (_finding("stop", words, text, size, sheet, remedy, (part,)),)
    size = (board.width_mm, board.height_mm)
    if _fits(size, sheet):
        return ()
    panels = min(_panels(board, *sheet), _panels(board, *reversed(sheet)))
    text = (
        f"The {words} is {_written(size)}, larger than the sheet of {stock}; it takes {panels} panels. "
        "The file is drawn whole: cut it apart where you join the panels, between digits where they fit."
    )
    remedy = f"Reckon with up to {panels} sheets, and join the panels over a batten behind each seam."
    return (_finding("caution", words, text, size, sheet, remedy, ()),)


def _finding(
    level: Level, subject: str, text: str, size: Size, sheet: Size, remedy: str, holds: tuple[str, ...]
) -> Finding:
    too_long = max(size) > max(sheet)
    value, limit = (max(size), max(sheet)) if too_long else (min(size), min(sheet))
    return Finding(level, "larger-than-sheet", subject, text, value, limit, "mm", "arithmetic", remedy, holds)


def _written(size: Size) -> str:
    return f"{plain_number(round(size[0], 1))} mm wide and {plain_number(round(size[1], 1))} mm high"


def _fits(size: Size, sheet: Size) -> bool:
    return min(size) <= min(sheet) and max(size) <= max(sheet)


def _extent(outlines: Sequence[Outline]) -> Size:
    x0, y0, x1, y1 = bounds(outlines)
    return x1 - x0, y1 - y0


def _largest_unit(board: Board) -> tuple[str, Size]:
    """The digit or colon that asks for the largest sheet."""
    units = {name: _extent(outlines) for name, outlines in _units(board).items()}
    return max(units.items(), key=lambda unit: (max(unit[1]), min(unit[1])))


def _units(board: Board) -> dict[str, list[Outline]]:
    """Openings that stay on one panel: a digit with its point, and the two dots of a colon."""
    units: dict[str, list[Outline]] = {}
    for segment in board.segments:
        name = "The colon after digit" if segment.name == "colon" else "Digit"
        units.setdefault(f"{name} {segment.digit}", []).extend(segment.outlines)
    return units


def _panels(board: Board, width_mm: float, height_mm: float) -> int:
    """Panels of a board cut midway between digits and colons, with as many on each as the sheet is wide.

    Where a digit with its share of margin and spacing is still too large, seams cross digits.
    """
    spans = [bounds(outlines)[::2] for outlines in _units(board).values()]
    between = [(one[1] + other[0]) / 2 for one, other in itertools.pairwise(spans)]
    seams = [0.0, *between, board.width_mm]
    widest = max(end - start for start, end in itertools.pairwise(seams))
    if board.height_mm > height_mm or widest > width_mm:
        return math.ceil(board.height_mm / height_mm) * math.ceil(board.width_mm / width_mm)
    panels, start = 1, 0.0
    for before, end in itertools.pairwise(seams):
        if end - start > width_mm:
            panels, start = panels + 1, before
    return panels
