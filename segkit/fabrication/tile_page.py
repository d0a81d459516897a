"""One page of a tiled template: its part of the drawing, seams, register marks, rulers and name."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Point, Shape, Text
from segkit.drawing.move import moved
from segkit.fabrication.clip import Window, clipped
from segkit.fabrication.cut_sheet import size_to_fit, text_width_mm
from segkit.fabrication.layers import NOTE_MM, Palette
from segkit.fabrication.paper import STRIP_MM, PaperSettings
from segkit.fabrication.ruler import ruler
from segkit.fabrication.tiling import Tile, TilePlan

RULER_MM = 122.0  # length of a ruler with its labels and a gap
_DASH_MM, _GAP_MM = 3.0, 2.0
REAR_COLOUR = "#dfe3e6"  # large letters under the drawing, pale enough to draw over
_SEAM = "#5f6b76"
_SHARES = (0.25, 0.75)  # where along a seam its two register marks lie


@dataclass(frozen=True)
class TemplateText:
    """What the pages of a template say.

    Attributes:
        part: in capitals, such as ``BACK BOARD``.
        side: from which side it is seen, such as ``SEEN FROM BEHIND``.
        rear: True for a template that belongs on the rear; marked all over.
        notes: sentences for the map.
        title, stamp: of the design.
    """

    part: str
    side: str
    rear: bool
    notes: tuple[str, ...]
    title: str
    stamp: str = ""


def tile_page(
    drawing: Drawing,
    plan: TilePlan,
    tile: Tile,
    *,
    text: TemplateText,
    paper: PaperSettings,
    palette: Palette,
) -> Drawing:
    """A page exactly as large as the paper.

    Args:
        drawing: the whole template, from (0, 0) to its size.
        plan: of ``plan_tiles`` for that drawing.
        tile: one of the plan.
        text: names and side.
        paper: paper, margin and overlap.
        palette: colours.

    The window of the tile starts at the corner where the two rulers meet. Cut, drill and guide lines are
    where the drawing has them; texts move a little where a seam would part them.
    """
    width, height = paper.page_mm(turned=plan.turned)
    corner = paper.margin_mm + STRIP_MM
    dx, dy = corner - tile.window[0], corner - tile.window[1]
    layers = [*_rear(text, tile, dx, dy)]
    for layer in drawing.layers:
        shown = moved((*clipped(layer.shapes, tile.window), *_texts(layer.shapes, tile)), dx_mm=dx, dy_mm=dy)
        if shown:
            layers.append(replace(layer, shapes=tuple(shown)))
    seam = moved(_seam_marks(plan, tile, paper.overlap_mm), dx_mm=dx, dy_mm=dy)
    if seam:
        layers.append(Layer("seams", "note", tuple(seam), _SEAM, 0.2))
    notes = (*rulers(paper), *_names(plan, tile, text, paper))
    layers.append(Layer("page", "note", notes, palette.notes, NOTE_MM))
    name = f"{text.title}: {text.part.lower()}, page {tile.name}"
    return Drawing(name, width, height, tuple(layers), background="#ffffff", stamp=text.stamp)


def rulers(paper: PaperSettings) -> tuple[Shape, ...]:
    """A ruler along the foot and one along the left side of a page."""
    start, middle = paper.margin_mm + STRIP_MM, paper.margin_mm + STRIP_MM / 2 - 0.5
    return (*ruler((start, middle), upright=False), *ruler((middle, start), upright=True))


def side_text(words: str, *, page_height_mm: float, paper: PaperSettings, largest_mm: float = 3.2) -> Text:
    """A line beside the upright ruler, above it, running up."""
    low = paper.margin_mm + STRIP_MM + RULER_MM
    room = page_height_mm - paper.margin_mm - low
    size = size_to_fit(words, width_mm=room, largest_mm=largest_mm)
    return Text((paper.margin_mm + STRIP_MM / 2 + 0.36 * size, low), words, size, "start", 90.0)


def _names(plan: TilePlan, tile: Tile, text: TemplateText, paper: PaperSettings) -> Iterator[Shape]:
    width, height = paper.page_mm(turned=plan.turned)
    right, foot = width - paper.margin_mm, paper.margin_mm
    yield Text((right, foot + 1.6), tile.name, 11.0, "end")
    end = right - text_width_mm(tile.name, height_mm=11.0) - 2.0
    room = end - (foot + STRIP_MM + RULER_MM)
    number = plan.tiles.index(tile) + 1
    for y, words in (
        (7.6, f"{text.part}, {text.side}"),
        (4.2, f"page {number} of {len(plan.tiles)}, column {tile.column + 1}, row {tile.row + 1}"),
        (1.0, text.title),
    ):  # fmt: skip
        yield Text((end, foot + y), words, size_to_fit(words, width_mm=room, largest_mm=3.0), "end")
    words = "Print at 100 %, not to fit. Then measure both rulers."
    yield side_text(words, page_height_mm=height, paper=paper)


def _rear(text: TemplateText, tile: Tile, dx: float, dy: float) -> Iterator[Layer]:
    if not text.rear:
        return
    left, bottom, right, top = tile.window
    across, up = right - left, top - bottom
    size = size_to_fit("REAR", width_mm=0.8 * across, largest_mm=min(60.0, 0.5 * up))
    below = size_to_fit("mirrored", width_mm=0.6 * across, largest_mm=0.3 * size)
    x, y = (left + right) / 2 + dx, (bottom + top) / 2 + dy
    words = (Text((x, y - 0.2 * size), "REAR", size, "middle"),
             Text((x, y - 0.2 * size - 1.3 * below), "mirrored", below, "middle"))  # fmt: skip
    yield Layer("side", "note", words, REAR_COLOUR, 0.2)


def _texts(shapes: Iterable[Shape], tile: Tile) -> Iterator[Text]:
    """Texts whose middle is on this page, moved off the edge of the window, smaller if they must be."""
    left, bottom, right, top = tile.window
    for shape in shapes:
        if not isinstance(shape, Text):
            continue
        (x1, y1, x2, y2), (x, y) = text_box(shape), shape.at
        if not _in_cell(((x1 + x2) / 2, (y1 + y2) / 2), tile.cell):
            continue
        share = min(1.0, 0.98 * (right - left) / (x2 - x1), 0.98 * (top - bottom) / (y2 - y1))
        small = replace(shape, height_mm=share * shape.height_mm)
        x1, y1, x2, y2 = text_box(small)
        dx = max(0.0, left - x1) - max(0.0, x2 - right)
        dy = max(0.0, bottom - y1) - max(0.0, y2 - top)
        yield replace(small, at=(x + dx, y + dy))


def _in_cell(at: Point, cell: Window) -> bool:
    return cell[0] <= at[0] < cell[2] and cell[1] <= at[1] < cell[3]


def text_box(text: Text) -> Window:
    """Room that a text takes at most (left, bottom, right, top) [mm]; turned texts by whole quarters."""
    width, height = text_width_mm(text.text, height_mm=text.height_mm), 0.75 * text.height_mm
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    turn = math.radians(text.rotation_deg)
    cos, sin = round(math.cos(turn), 9), round(math.sin(turn), 9)
    corners = [
        (text.at[0] + cos * u - sin * v, text.at[1] + sin * u + cos * v)
        for u in (start, start + width)
        for v in (0.0, height)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def _seam_marks(plan: TilePlan, tile: Tile, overlap_mm: float) -> list[Shape]:
    """Dashed seams at the borders of a tile, with register marks and the name of the neighbour."""
    left, bottom, right, top = tile.cell
    names = {(other.column, other.row): other.name for other in plan.tiles}
    drawn: list[Shape] = []
    for x, beside, shift in ((left, -1, -1.2), (right, 1, 3.4)):
        if name := names.get((tile.column + beside, tile.row)):
            drawn += dashed((x, tile.window[1]), (x, tile.window[3]))
            drawn += _registers([(x, bottom + share * (top - bottom)) for share in _SHARES], overlap_mm)
            drawn.append(Text((x + shift, (bottom + top) / 2), f"joins {name}", 3.0, "middle", 90.0))
    for y, beside, shift in ((bottom, 1, -3.4), (top, -1, 1.2)):
        if name := names.get((tile.column, tile.row + beside)):
            drawn += dashed((tile.window[0], y), (tile.window[2], y))
            drawn += _registers([(left + share * (right - left), y) for share in _SHARES], overlap_mm)
            drawn.append(Text(((left + right) / 2, y + shift), f"joins {name}", 3.0, "middle"))
    return drawn


def dashed(one: Point, other: Point) -> list[Shape]:
    """A line of dashes from one point to the other."""
    length = math.dist(one, other)
    count = max(1, math.ceil(length / (_DASH_MM + _GAP_MM)))
    step_x, step_y = (other[0] - one[0]) / count, (other[1] - one[1]) / count
    share = _DASH_MM / (_DASH_MM + _GAP_MM)
    return [
        Path(
            ((one[0] + i * step_x, one[1] + i * step_y),
             (one[0] + (i + share) * step_x, one[1] + (i + share) * step_y)),
            closed=False,
        )
        for i in range(count)
    ]  # fmt: skip


def _registers(places: Iterable[Point], overlap_mm: float) -> list[Shape]:
    """A ring with a cross on the seam, the same on both pages: laid over each other, they meet."""
    arm = min(4.0, overlap_mm / 2 - 0.2)
    drawn: list[Shape] = []
    for x, y in places:
        drawn += [
            Circle((x, y), 0.6 * arm),
            Path(((x - arm, y), (x + arm, y)), closed=False),
            Path(((x, y - arm), (x, y + arm)), closed=False),
        ]
    return drawn
