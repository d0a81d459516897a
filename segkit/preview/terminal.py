"""The lit board in a terminal: two dots to a letter, one above the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Outline, bounds
from segkit.optics.placement import LedPlace
from segkit.preview.colours import FACE, UNLIT, rgb
from segkit.preview.lit import Lit, refuse_unknown

_OFF_BOARD, _UNLIT, _LIT = 0, 1, 2
_ROWS = 4  # scan lines a dot
_SMALLEST = 16
_STEP = 3  # dots from bulb to bulb: at most two that it touches, and one dark


def terminal_text(
    board: Board,
    lit: Lit,
    *,
    width: int,
    colour: bool,
    lit_colour: str = "#ff2a1a",
    plain: bool = False,
    bulbs: Sequence[LedPlace] = (),
    bulb_mm: float = 0.0,
) -> str:
    """The board as lines of text, with the same proportions as the board.

    Args:
        board, lit: as for ``lit.lit_drawing``.
        width: columns, 16 or more.
        colour: True to colour it by terminal escapes (256 colours) and show the unlit segments too.
        lit_colour: ``#rrggbb`` of the lit segments.
        plain: True for ``#`` only, where the terminal has no block letters; then without colour.
        bulbs: where bare lamps stand; drawn one by one if ``columns_for`` fit, else as bars.
        bulb_mm: their diameter.

    Returns:
        lines joined by newlines; no trailing spaces without colour.

    Raises:
        InputError: a digit or a segment that the board does not have.
    """
    refuse_unknown(board, lit)
    columns = max(_SMALLEST, width)
    apart = bool(bulbs) and columns >= columns_for(board, bulbs)
    shown = _lamps(board, bulbs, bulb_mm) if apart else board.segments
    grid = _grid(board, lit, shown, columns=columns)
    pairs = [(grid[i], grid[i + 1]) for i in range(0, len(grid), 2)]
    if plain:
        return "\n".join(_line(upper, lower, " ###") for upper, lower in pairs)
    if not colour:
        return "\n".join(_line(upper, lower, " ▀▄█") for upper, lower in pairs)
    palette = tuple(colour_code(shade) for shade in (FACE, UNLIT, lit_colour))
    return "\n".join(_coloured(upper, lower, palette) for upper, lower in pairs)


def columns_for(board: Board, bulbs: Sequence[LedPlace]) -> int:
    """Columns from which on no two bulbs of a segment touch: three dots from one to the next.

    Args:
        board: all segments in place.
        bulbs: where bare lamps stand, along their rows.
    """
    left, _, right, _ = _edges(board)
    rows = (
        [bulb.at for bulb in bulbs if (bulb.digit, bulb.segment) == (s.digit, s.name)] for s in board.segments
    )
    # A slanted row steps less along x and y than it is long: the longer of the two is what parts its bulbs.
    gaps = [max(abs(x2 - x1), abs(y2 - y1)) for row in rows for (x1, y1), (x2, y2) in pairwise(row)]
    return max(_SMALLEST, math.ceil(_STEP * (right - left) / min(gaps, default=math.inf)))


def _lamps(board: Board, bulbs: Sequence[LedPlace], bulb_mm: float) -> tuple[Segment, ...]:
    """The segments with their bulbs, as squares of the same width, in place of their outlines."""
    r = bulb_mm / 2
    return tuple(
        replace(
            segment,
            stroke_mm=bulb_mm,
            outlines=tuple(
                ((x - r, y - r), (x + r, y - r), (x + r, y + r), (x - r, y + r))
                for x, y in (b.at for b in bulbs if (b.digit, b.segment) == (segment.digit, segment.name))
            ),
        )
        for segment in board.segments
    )


def _line(upper: Sequence[int], lower: Sequence[int], letters: str) -> str:
    row = (letters[(up == _LIT) + 2 * (low == _LIT)] for up, low in zip(upper, lower, strict=True))
    return "".join(row).rstrip()


def _coloured(upper: Sequence[int], lower: Sequence[int], palette: tuple[int, ...]) -> str:
    parts, before = [], (-1, -1)
    for pair in zip(upper, lower, strict=True):
        if pair != before:
            parts.append(f"\x1b[38;5;{palette[pair[0]]};48;5;{palette[pair[1]]}m")
            before = pair
        parts.append("▀")
    return "".join([*parts, "\x1b[0m"])


def colour_code(colour: str) -> int:
    """The nearest of a terminal's 256 colours: the 6 x 6 x 6 cube, or one of its 24 greys.

    Example:
        >>> colour_code("#ff0000"), colour_code("#15171a")
        (196, 234)
    """
    red, green, blue = rgb(colour)
    steps = (0, 95, 135, 175, 215, 255)
    cube = [_nearest_step(value, steps) for value in (red, green, blue)]
    grey = min(range(24), key=lambda i: abs(8 + 10 * i - (red + green + blue) / 3))
    far_cube = sum((steps[i] - v) ** 2 for i, v in zip(cube, (red, green, blue), strict=True))
    far_grey = sum((8 + 10 * grey - v) ** 2 for v in (red, green, blue))
    return 232 + grey if far_grey < far_cube else 16 + 36 * cube[0] + 6 * cube[1] + cube[2]


def _nearest_step(value: int, steps: Sequence[int]) -> int:
    return min(range(len(steps)), key=lambda i: abs(steps[i] - value))


def _edges(board: Board) -> tuple[float, float, float, float]:
    """Of what is drawn: left, bottom, right, top."""
    left, bottom, right, top = bounds(outline for s in board.segments for outline in s.outlines)
    border = 0.5 * board.shape.stroke_mm
    return left - border, bottom - border, right + border, top + border


def _grid(board: Board, lit: Lit, shown: Sequence[Segment], *, columns: int) -> list[list[int]]:
    """States of the dots, rows from the top; an even number of rows."""
    left, bottom, right, top = _edges(board)
    dot = (right - left) / columns
    rows = 2 * max(1, math.ceil((top - bottom) / dot / 2))
    top += (rows * dot - (top - bottom)) / 2
    grid = [[_OFF_BOARD] * columns for _ in range(rows)]
    for state in (_UNLIT, _LIT):
        for segment in shown:
            if (segment.name in lit.get(segment.digit, frozenset())) == (state == _LIT):
                _fill(grid, segment, state, left=left, top=top, dot=dot)
    return grid


def _fill(
    grid: list[list[int]], segment: Segment, state: int, *, left: float, top: float, dot: float
) -> None:
    """Dots that the segment covers by half; by less if its stroke is thinner than a dot; at least one."""
    enough = 0.5 * min(1.0, segment.stroke_mm / dot)
    for outline in segment.outlines:
        unit = tuple(((x - left) / dot, (top - y) / dot) for x, y in outline)
        shares = {
            (row, column): share
            for row, line in _cover(unit, rows=len(grid), columns=len(grid[0])).items()
            for column, share in enumerate(line)
            if share > 0
        }
        most = max(shares.values(), default=0.0)
        for (row, column), share in shares.items():
            if share >= min(enough, most):
                grid[row][column] = state


def _cover(outline: Outline, *, rows: int, columns: int) -> dict[int, list[float]]:
    """Share of each dot that lies inside the outline: scan lines, exact along x."""
    _, first, _, last = bounds([outline])
    cover: dict[int, list[float]] = {}
    for row in range(max(0, math.floor(first)), min(rows, math.ceil(last))):
        shares = [0.0] * columns
        for line in range(_ROWS):
            for x1, x2 in _inside(outline, row + (line + 0.5) / _ROWS):
                for column in range(max(0, math.floor(x1)), min(columns, math.ceil(x2))):
                    shares[column] += (min(x2, column + 1) - max(x1, column)) / _ROWS
        cover[row] = shares
    return cover


def _inside(outline: Outline, y: float) -> list[tuple[float, float]]:
    crossings = sorted(
        x1 + (y - y1) * (x2 - x1) / (y2 - y1)
        for (x1, y1), (x2, y2) in zip(outline, outline[1:] + outline[:1], strict=True)
        if (y1 > y) != (y2 > y)
    )
    return list(zip(crossings[::2], crossings[1::2], strict=True))
