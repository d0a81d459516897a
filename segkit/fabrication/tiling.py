"""A true-size drawing cut up into pages: how many, which way round, and where the seams run."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Drawing, Shape
from segkit.errors import InputError
from segkit.fabrication.clip import Window
from segkit.fabrication.paper import STRIP_MM, PaperSettings
from segkit.fabrication.seams import holes_on, page_count, seams
from segkit.working import Given, Line


@dataclass(frozen=True)
class Tile:
    """One page.

    Attributes:
        name: column letter and row number, ``A1`` at the upper left.
        column, row: from the left and from the top, from 0.
        cell: what belongs to this page, from seam to seam [mm].
        window: what it shows: the cell and half the overlap past each seam [mm].
    """

    name: str
    column: int
    row: int
    cell: Window
    window: Window


@dataclass(frozen=True)
class TilePlan:
    """How a drawing is spread over pages.

    Attributes:
        turned: whether the pages lie in landscape.
        upright, across: places of the seams that run up [x, mm] and across [y, mm], rising.
        tiles: row by row from the top.
        holes_crossed: holes that a seam could not be kept away from.
        fewer_margin_mm, fewer_pages: the widest margin at which fewer pages would do, and how many; None
            where no margin helps.
    """

    turned: bool
    upright: tuple[float, ...]
    across: tuple[float, ...]
    tiles: tuple[Tile, ...]
    holes_crossed: int
    fewer_margin_mm: float | None
    fewer_pages: int | None

    @property
    def columns(self) -> int:
        """Pages side by side."""
        return len(self.upright) + 1

    @property
    def rows(self) -> int:
        """Pages one below the other."""
        return len(self.across) + 1


def plan_tiles(drawing: Drawing, paper: PaperSettings) -> TilePlan:
    """The fewest pages for a drawing at true size, with seams beside its holes and edges.

    Args:
        drawing: just as large as what is to be printed; its cut, drill and guide lines are kept clear of.
        paper: paper, margin and overlap.

    Raises:
        InputError: the paper shows no more than the overlap.

    Sources: arithmetic.

    Example:
        >>> plan = plan_tiles(Drawing("Lid", 500, 150, ()), PaperSettings("a4"))
        >>> plan.turned, plan.columns, plan.rows, [tile.name for tile in plan.tiles]
        (True, 2, 1, ['A1', 'B1'])
    """
    size = (drawing.width_mm, drawing.height_mm)
    turned = min((False, True), key=lambda way: (_pages(size, paper, way), way))
    width, height = paper.window_mm(turned=turned)
    overlap = {"overlap_mm": paper.overlap_mm}
    shapes = obstacles(drawing)
    upright = seams(shapes, extent_mm=size[0], window_mm=width, upright=True, **overlap)
    across = seams(shapes, extent_mm=size[1], window_mm=height, upright=False, **overlap)
    crossed = sum(holes_on(shapes, x, upright=True) for x in upright)
    crossed += sum(holes_on(shapes, y, upright=False) for y in across)
    fewer = fewer_pages(
        paper, width_mm=drawing.width_mm, height_mm=drawing.height_mm, now=_pages(size, paper, turned)
    )
    return TilePlan(
        turned,
        upright,
        across,
        tuple(_tiles(drawing, upright, across, paper.overlap_mm / 2)),
        crossed,
        *fewer,
    )


def obstacles(drawing: Drawing) -> tuple[Shape, ...]:
    """What seams keep clear of: everything that a tool follows, and guides."""
    return tuple(
        shape
        for layer in drawing.layers
        if layer.operation in ("cut", "drill", "score") or layer.name == "guides"
        for shape in layer.shapes
    )


def fewer_pages(
    paper: PaperSettings, *, width_mm: float, height_mm: float, now: int
) -> tuple[float, int] | tuple[None, None]:
    """The widest margin at which fewer pages would do, and their number.

    For n pages side by side the window must be ``(X + (n - 1)*o)/n`` wide; what is left of the paper beside
    the window and the strip of the ruler is the margin, half on each side.

    Args:
        paper: paper and overlap; its margin is the one that is in use.
        width_mm, height_mm: of the drawing.
        now: pages that are needed at that margin.

    Sources: arithmetic.

    Example:
        >>> fewer_pages(PaperSettings("a4", margin_mm=6), width_mm=150, height_mm=560, now=3)
        (0.0, 2)
        >>> fewer_pages(PaperSettings("a4", margin_mm=6), width_mm=180, height_mm=250, now=1)
        (None, None)
    """
    found: list[tuple[float, int]] = []
    for turned in (False, True):
        page_width, page_height = paper.page_mm(turned=turned)
        for columns, rows in ((c, r) for c in range(1, now) for r in range(1, (now - 1) // c + 1)):
            room = min(
                page_width - _needed(width_mm, columns, paper.overlap_mm),
                page_height - _needed(height_mm, rows, paper.overlap_mm),
            )
            margin = (room - STRIP_MM) / 2
            if 0 <= margin < paper.margin_mm:
                found.append((margin, columns * rows))
    return max(found, key=lambda way: (round(way[0], 6), -way[1]), default=(None, None))


def _needed(extent_mm: float, pages: int, overlap_mm: float) -> float:
    """What each of n pages must show: ``(X + (n - 1)*o)/n``."""
    return (extent_mm + (pages - 1) * overlap_mm) / pages


def pages_line(part: str, paper: PaperSettings, *, width_mm: float, height_mm: float) -> Line:
    """Pages of a part: ``ceil((X - o)/(w - o)) * ceil((Y - o)/(h - o))``, at least one each way.

    Args:
        part: name of the part.
        paper: paper, margin and overlap.
        width_mm, height_mm: of the part, above 0.

    Raises:
        InputError: the paper shows no more than the overlap.

    Sources: arithmetic.
    """
    size = (width_mm, height_mm)
    turned = min((False, True), key=lambda way: (_pages(size, paper, way), way))
    width, height = paper.window_mm(turned=turned)
    return Line(
        f"fabrication.paper_pages.{part}",
        f"pages of {paper.name} for the {part.replace('_', ' ')}",
        "n",
        float(_pages(size, paper, turned)),
        "",
        "max(1, ceil((X - o)/(w - o) - 1e-9)) * max(1, ceil((Y - o)/(h - o) - 1e-9))",
        (
            Given("X", width_mm, "mm", "width of the part"),
            Given("Y", height_mm, "mm", "height of the part"),
            Given("w", width, "mm", "width that a page shows"),
            Given("h", height, "mm", "height that a page shows"),
            Given("o", paper.overlap_mm, "mm", "overlap"),
        ),
        "arithmetic",
    )


def fewest_pages(paper: PaperSettings, *, width_mm: float, height_mm: float) -> int:
    """Fewest pages for a drawing of that size, whichever way they lie.

    Args:
        paper: paper, margin and overlap.
        width_mm, height_mm: of the drawing, above 0.

    Raises:
        InputError: the paper shows no more than the overlap.

    Sources: arithmetic.

    Example:
        >>> fewest_pages(PaperSettings("a4"), width_mm=996, height_mm=360)
        8
    """
    return min(_pages((width_mm, height_mm), paper, turned) for turned in (False, True))


def _pages(size: tuple[float, float], paper: PaperSettings, turned: bool) -> int:
    width, height = paper.window_mm(turned=turned)
    try:
        return page_count(size[0], window_mm=width, overlap_mm=paper.overlap_mm) * page_count(
            size[1], window_mm=height, overlap_mm=paper.overlap_mm
        )
    except InputError:
        if turned:
            raise
        return 10**9


def _tiles(
    drawing: Drawing, upright: Sequence[float], across: Sequence[float], half_mm: float
) -> Iterator[Tile]:
    xs = (0.0, *upright, drawing.width_mm)
    ys = (0.0, *across, drawing.height_mm)
    for row, (bottom, top) in enumerate(reversed([*itertools.pairwise(ys)])):
        for column, (left, right) in enumerate(itertools.pairwise(xs)):
            window = (
                left - (half_mm if column else 0.0),
                bottom - (half_mm if bottom > 0 else 0.0),
                right + (half_mm if column < len(upright) else 0.0),
                top + (half_mm if row else 0.0),
            )
            yield Tile(f"{_letters(column)}{row + 1}", column, row, (left, bottom, right, top), window)


def _letters(number: int) -> str:
    """A to Z, then AA, AB ..."""
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
