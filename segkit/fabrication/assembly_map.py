"""The page that goes before the tiles: which page goes where, and what to measure."""

from __future__ import annotations

import math
from collections.abc import Iterator

from segkit.drawing.drawing import Drawing, Layer, Path, Shape, Text
from segkit.drawing.move import scaled
from segkit.fabrication.cut_sheet import size_to_fit, wrapped
from segkit.fabrication.layers import NOTE_MM, Palette
from segkit.fabrication.marks import centred
from segkit.fabrication.paper import STRIP_MM, PaperSettings
from segkit.fabrication.tile_page import REAR_COLOUR, TemplateText, rulers, side_text
from segkit.fabrication.tiling import TilePlan
from segkit.units import plain_number

_TYPE_MM = 3.6
_SEAM = "#c2185b"


def map_page(
    drawing: Drawing, plan: TilePlan, *, text: TemplateText, paper: PaperSettings, palette: Palette
) -> Drawing:
    """The assembly map, as large as the pages that follow.

    Args:
        drawing: the whole template.
        plan: of ``plan_tiles`` for that drawing.
        text: names, side and notes.
        paper: paper, margin and overlap.
        palette: colours.
    """
    width, height = paper.page_mm(turned=plan.turned)
    left, right = paper.margin_mm + STRIP_MM + 4.0, width - paper.margin_mm
    room, top = right - left, height - paper.margin_mm
    head, low = _head(text, left, top, room)
    rows = wrapped((*_sentences(drawing, plan, paper), *text.notes), width_mm=room, height_mm=_TYPE_MM)
    foot = paper.margin_mm + STRIP_MM + 2.0
    block = [
        Text((left, foot + (len(rows) - 1 - i) * 1.45 * _TYPE_MM), row, _TYPE_MM)
        for i, row in enumerate(rows)
    ]
    floor = foot + len(rows) * 1.45 * _TYPE_MM + 3.0
    factor = min(room / drawing.width_mm, max(10.0, low - floor) / drawing.height_mm)
    x, y = left + (room - factor * drawing.width_mm) / 2, low - factor * drawing.height_mm
    place = {"factor": factor, "dx_mm": x, "dy_mm": y}
    layers = [
        Layer(layer.name, "note", tuple(scaled(shown, **place)), layer.colour, 0.15)
        for layer in drawing.layers
        if (shown := [shape for shape in layer.shapes if not isinstance(shape, Text)])
        and (layer.operation != "note" or layer.name == "guides")
    ]
    if text.rear:
        size = 0.3 * factor * min(drawing.width_mm, 2 * drawing.height_mm)
        middle = (x + factor * drawing.width_mm / 2, y + factor * drawing.height_mm / 2)
        layers.insert(0, Layer("side", "note", (centred("REAR", middle, height_mm=size),), REAR_COLOUR, 0.2))
    layers.append(Layer("seams", "note", tuple(scaled(_grid(drawing, plan), **place)), _SEAM, 0.35))
    names = tuple(_tile_names(plan, factor, x, y))
    notes = (*head, *block, *names, *rulers(paper), _side(text, height, paper))
    layers.append(Layer("page", "note", notes, palette.notes, NOTE_MM))
    name = f"{text.title}: {text.part.lower()}, map of the pages"
    return Drawing(name, width, height, tuple(layers), background="#ffffff", stamp=text.stamp)


def _head(text: TemplateText, left: float, top: float, room: float) -> tuple[list[Shape], float]:
    words = f"{text.part}: {text.side}"
    size = size_to_fit(words, width_mm=room, largest_mm=8.0)
    title = size_to_fit(text.title, width_mm=room, largest_mm=4.5)
    y = top - 0.9 * size
    return [
        Text((left, y), words, size),
        Text((left, y - 1.6 * title), text.title, title),
    ], y - 1.6 * title - 5.0  # fmt: skip


def _side(text: TemplateText, height: float, paper: PaperSettings) -> Text:
    made = f"Made from {text.stamp}" if text.stamp else text.title
    return side_text(made, page_height_mm=height, paper=paper, largest_mm=2.6)


def _grid(drawing: Drawing, plan: TilePlan) -> Iterator[Shape]:
    width, height = drawing.width_mm, drawing.height_mm
    yield Path(((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)))
    yield from (Path(((x, 0.0), (x, height)), closed=False) for x in plan.upright)
    yield from (Path(((0.0, y), (width, y)), closed=False) for y in plan.across)


def _tile_names(plan: TilePlan, factor: float, x: float, y: float) -> Iterator[Text]:
    for tile in plan.tiles:
        left, bottom, right, top = (factor * side for side in tile.cell)
        size = min(10.0, 0.45 * (top - bottom), 0.3 * (right - left))
        yield centred(tile.name, (x + (left + right) / 2, y + (bottom + top) / 2), height_mm=size)


def _sentences(drawing: Drawing, plan: TilePlan, paper: PaperSettings) -> Iterator[str]:
    width, height = drawing.width_mm, drawing.height_mm
    count, way = len(plan.tiles), "landscape" if plan.turned else "portrait"
    pages = "1 page" if count == 1 else f"{count} pages"
    yield (
        f"{pages} of {paper.name}, {way}: {plan.columns} across, {plan.rows} down, named as on the map. "
        f"Printable margin {_mm(paper.margin_mm)}, overlap {_mm(paper.overlap_mm)}."
    )
    if plan.fewer_margin_mm is not None and plan.fewer_pages is not None:
        margin = math.floor(plan.fewer_margin_mm * 10 + 1e-9) / 10
        yield (
            f"A printer that leaves no more than {_mm(margin)} free would do with "
            f"{plan.fewer_pages}: set paper.margin to that if yours does."
        )
    yield (
        "Print at 100 % (actual size), never to fit. On every page measure 100 mm or 4 in on both rulers: "
        "if one reads 97 mm, everything on that page is 0.97 of its size. Print again, cut nothing."
    )
    if count > 1:
        yield (
            "Cut one of two neighbours along the dashed seam, lay it over the other until the rings with "
            "their crosses meet, and tape it down."
        )
    diagonal = math.hypot(width, height)
    yield (
        f"When all is taped, measure once more: {_mm(width)} wide, {_mm(height)} high, {_mm(diagonal)} from "
        "corner to corner both ways."
    )
    if plan.holes_crossed:
        yield (
            f"{plan.holes_crossed} holes lie on a seam, since no place beside them was free: drill them "
            "after taping."
        )


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 1), 5)} mm"
