"""How much sheet a part takes, and what it weighs."""

from __future__ import annotations

from collections.abc import Iterator

from segkit.catalog.part import Sheet
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import area
from segkit.working import Given, Line

MANY_SHEETS = 10  # more than this of one part is a pile that a builder should know of; source common-practice


def kept_mm2(board: Board, *, opened: bool) -> float:
    """Area of a board [mm2], without its openings if it is opened; fixing holes do not count."""
    openings = sum(area(outline) for segment in board.segments for outline in segment.outlines)
    return board.width_mm * board.height_mm - (openings if opened else 0.0)


def mass_line(part: str, sheet: Sheet, *, kept_mm2: float, count: int) -> Line:
    """Mass of all copies of a part: ``n*a*t*rho/1e9``.

    Args:
        part: name of the part.
        sheet: what it is cut from.
        kept_mm2: area that is kept of one copy.
        count: how many are cut.
    """
    return Line(
        f"fabrication.mass.{part}",
        f"mass of the {part.replace('_', ' ')}",
        "m",
        count * kept_mm2 * sheet.thickness_mm * sheet.density_kg_m3 / 1e9,
        "kg",
        "n*a*t*rho/1e9",
        (
            Given("n", count, "", "times cut"),
            Given("a", kept_mm2, "mm2", "area that is kept, openings taken off"),
            Given("t", sheet.thickness_mm, "mm", "thickness of one sheet"),
            Given("rho", sheet.density_kg_m3, "kg/m3", f"density of {sheet.name}"),
        ),
        sheet.source,
    )


def yield_line(sheet: Sheet, *, kept_mm2: float, sheets: int) -> Line:
    """Share of the diffuser sheets that becomes pieces: ``a/(n*w*h)``.

    Args:
        sheet: stock.
        kept_mm2: area of all pieces.
        sheets: how many sheets they take, at least 1.

    Sources: arithmetic.
    """
    return Line(
        "fabrication.yield.diffuser", "share of the diffuser sheets that becomes pieces", "y",
        kept_mm2 / (sheets * sheet.width_mm * sheet.height_mm), "", "a/(n*w*h)",
        (
            Given("a", kept_mm2, "mm2", "area of all pieces"),
            Given("n", sheets, "", "sheets"),
            Given("w", sheet.width_mm, "mm", "width of a sheet"),
            Given("h", sheet.height_mm, "mm", "height of a sheet"),
        ),
        "arithmetic",
    )  # fmt: skip


def many_sheets(
    part: str, sheet: Sheet, *, stock_sheets: int, count: int, mass_kg: float
) -> Iterator[Finding]:
    """Whether one part takes more than ten stock sheets: ``many-sheets``."""
    if stock_sheets <= MANY_SHEETS:
        return
    square_m = stock_sheets * sheet.width_mm * sheet.height_mm / 1e6
    layers = f"its {count} layers weigh" if count > 1 else "cut, it weighs"
    grid = part == "light_grid"
    yield Finding(
        "caution",
        "many-sheets",
        part.replace("_", " "),
        f"The {part.replace('_', ' ')} takes {stock_sheets} sheets of {sheet.name}, {square_m:.3g} m²; "
        f"{layers} about {mass_kg:.2g} kg.",
        value=stock_sheets,
        limit=MANY_SHEETS,
        source="common-practice",
        remedy="Take a thicker sheet for the grid, so that fewer layers make the depth, or build its walls "
        "from strips of sheet set on edge."
        if grid
        else "Take a larger sheet, or make the digits smaller.",
    )
