"""The working of the cutting: layers, lips, holes, lengths."""

from __future__ import annotations

import math

from segkit.catalog.part import Sheet
from segkit.fabrication.depth import built_depth_mm, grid_layers
from segkit.fabrication.layers import PartShapes, tool_path_mm
from segkit.fabrication.settings import WIDEST_LIP_MM, MakeSettings
from segkit.geometry.board import Board
from segkit.working import Given, Line

_SLACK = 1e-6  # of a sheet


def grid_layers_line(grid: Sheet, *, depth_mm: float) -> Line:
    """Layers of sheet that make the depth: ``ceil(D/t)``; a thousandth of a layer is let pass."""
    return Line(
        "fabrication.grid_layers",
        "layers of sheet in the light grid",
        "N",
        float(grid_layers(grid, depth_mm=depth_mm)),
        "",
        "ceil(D/t - 0.001)",
        (
            Given("D", depth_mm, "mm", "depth of the pockets asked for"),
            Given("t", grid.thickness_mm, "mm", "thickness of one sheet"),
        ),
        "arithmetic",
        "a thousandth of a layer is let pass",
    )


def built_depth_line(grid: Sheet, *, depth_mm: float) -> Line:
    """Depth of the pockets as built: ``N*t``; light, lining and sheets are reckoned with it."""
    return Line(
        "fabrication.built_depth", "depth of the pockets as built", "D_b",
        built_depth_mm(grid, depth_mm=depth_mm), "mm", "N*t",
        (
            Given("N", grid_layers(grid, depth_mm=depth_mm), "", "layers of sheet"),
            Given("t", grid.thickness_mm, "mm", "thickness of one sheet"),
        ),
        "arithmetic", "light, lining and sheets are reckoned with it",
    )  # fmt: skip


def stock_sheets_line(part: str, board: Board, sheet: Sheet, *, count: int, panels: int = 1) -> Line:
    """Fewest stock sheets for all copies of a board: several out of one, or several joined for one.

    panels is how many a board is joined from; 1 takes as many as its size asks for.
    """
    sizes = (board.width_mm, board.height_mm)
    stock = (sheet.width_mm, sheet.height_mm)
    ways = [(stock, sizes), (stock[::-1], sizes)]
    from_one = max(math.floor(w / x + _SLACK) * math.floor(h / y + _SLACK) for (w, h), (x, y) in ways)
    joined = max(
        panels, min(math.ceil(x / w - _SLACK) * math.ceil(y / h - _SLACK) for (w, h), (x, y) in ways)
    )
    named = part.replace("_", " ")
    copies = Given("n", count, "", "times cut")
    name, title = f"fabrication.stock_sheets.{part}", f"fewest stock sheets, {named}"
    if from_one:
        each = Given("k", from_one, "", "boards out of one sheet")
        return Line(
            name, title, "S", math.ceil(count / from_one), "", "ceil(n/k)", (copies, each), "arithmetic"
        )
    each = Given("k", joined, "", "sheets joined for one board")
    return Line(name, title, "S", count * joined, "", "n*k", (copies, each), "arithmetic")


def lip_lines(settings: MakeSettings, *, gap_mm: float, widest_mm: float) -> tuple[Line, ...]:
    """The widest lip that keeps neighbours apart, then the lip; nothing for pieces that are let in.

    Args:
        settings: fit, lip and clearance.
        gap_mm: smallest gap between openings; infinite for a single one.
        widest_mm: widest lip as measured on the outlines.
    """
    if settings.fit != "lip":
        return ()
    clearance = settings.clearance_mm
    if math.isinf(gap_mm):
        gap_mm, widest_mm = 2 * WIDEST_LIP_MM + clearance, WIDEST_LIP_MM
    reach = (gap_mm - clearance) / 2 / widest_mm if widest_mm > 0 else 1.0
    given = (
        Given("g", gap_mm, "mm", "smallest gap between segments"),
        Given("c", clearance, "mm", "clearance between neighbouring lips"),
        Given("m", reach, "", "reach of a grown corner over the lip; 1 where edges face each other"),
    )
    first = Line(
        "fabrication.lip_limit", "widest lip that keeps neighbours apart", "l_max", widest_mm, "mm",
        "max(0, (g - c)/(2*m))", given, "arithmetic", "m is measured on the grown outlines",
    )  # fmt: skip
    name, title = "fabrication.lip", "lip of the diffuser pieces"
    if settings.lip_mm is not None:
        asked = (Given("l", settings.lip_mm, "mm", "lip asked for"),)
        return first, Line(name, title, "lip", settings.lip_mm, "mm", "l", asked, "design-choice")
    inputs = (
        Given("w", WIDEST_LIP_MM, "mm", "lip that is wide enough for any glue"),
        Given("l_max", widest_mm, "mm", "widest lip that keeps neighbours apart"),
    )
    lip = min(WIDEST_LIP_MM, widest_mm)
    return first, Line(name, title, "lip", lip, "mm", "min(w, l_max)", inputs, "common-practice")


def led_hole_line(settings: MakeSettings) -> Line:
    """Diameter of the LED holes: the body and the tool's clearance, or what was asked for."""
    if settings.led_hole_mm is not None:
        return Line(
            "fabrication.led_hole", "diameter of the LED holes", "d_h", settings.led_hole_mm, "mm", "d",
            (Given("d", settings.led_hole_mm, "mm", "hole asked for"),), "design-choice",
        )  # fmt: skip
    clearance = settings.hole_mm - settings.led_body_mm
    return Line(
        "fabrication.led_hole", "diameter of the LED holes", "d_h", settings.hole_mm, "mm", "d + c",
        (
            Given("d", settings.led_body_mm, "mm", "diameter of the LED's body"),
            Given("c", clearance, "mm", f"clearance for a {settings.tool}"),
        ),
        "led-hole-practice", "drill one hole and try an LED in it before you make the rest",
    )  # fmt: skip


def cut_length_line(part: str, shapes: PartShapes, count: int, settings: MakeSettings) -> Line:
    """Length of all cuts of a part, all its copies together."""
    inner = tool_path_mm(shapes.openings)
    holes = tool_path_mm((*shapes.led_holes, *shapes.fixing_holes, *shapes.other_holes))
    outer = tool_path_mm(shapes.outlines)
    drilled = "; nothing if you drill them" if settings.tool != "laser" else ""
    return Line(
        f"fabrication.cut_length.{part}",
        f"length of all cuts, {part.replace('_', ' ')}",
        "L",
        count * (outer + inner + holes) / 1000,
        "m",
        "n*(o + i + h)/1000",
        (
            Given("n", count, "", "times cut"),
            Given("o", outer, "mm", "outlines"),
            Given("i", inner, "mm", "openings"),
            Given("h", holes, "mm", "round the holes" + drilled),
        ),
        "arithmetic",
    )
