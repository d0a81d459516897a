"""A small board with one of everything, its LEDs, and sheets from the catalogue."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.catalog.part import Sheet
from segkit.catalog.reader import sheet as catalogue_sheet
from segkit.fabrication.cut_set import CutSet, cut_drawings
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape
from segkit.optics.placement import LedPlace

BoardMaker = Callable[..., Board]


def make_board(
    layout: str = "8:8.",
    *,
    height_mm: float = 200.0,
    stroke_mm: float = 28.0,
    gap_mm: float = 5.0,
    ends: str = "pointed",
    slant_deg: float = 8.0,
) -> Board:
    shape = DigitShape(height_mm, 0.55 * height_mm, stroke_mm, gap_mm, ends, slant_deg, stroke_mm)
    return board_of(layout=layout, shape=shape, spacing_mm=0.25 * height_mm, margin_mm=30.0)


def places_on(board: Board, count: int = 3) -> tuple[LedPlace, ...]:
    """LEDs evenly along each axis, one in a dot."""
    found = []
    for segment in board.segments:
        number = 0
        for (x1, y1), (x2, y2) in segment.axes:
            here = 1 if (x1, y1) == (x2, y2) else count
            for i in range(here):
                share = 0.5 + 0.8 * ((i + 0.5) / here - 0.5)
                number += 1
                at = (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
                found.append(LedPlace(segment.digit, segment.name, number, at))
    return tuple(found)


def sheet(name: str) -> Sheet:
    return catalogue_sheet(name)


@pytest.fixture
def board() -> Board:
    return make_board()


@pytest.fixture
def boards() -> BoardMaker:
    return make_board


@pytest.fixture
def places(board: Board) -> tuple[LedPlace, ...]:
    return places_on(board)


@pytest.fixture
def sheets() -> Callable[[str], Sheet]:
    return sheet


@pytest.fixture
def cut() -> Callable[..., CutSet]:
    """The sheets of a board with laser-cut plywood and opal pieces, unless told otherwise."""

    def drawn(
        board: Board | None = None,
        *,
        board_sheet: str = "plywood-3mm",
        diffuser: str = "opal-acrylic-3mm",
        depth_mm: float = 24.0,
        title: str = "Boules court scoreboard",
        leds: int = 3,
        **made: object,
    ) -> CutSet:
        board = board or make_board()
        wood = sheet(board_sheet)
        return cut_drawings(
            board,
            places_on(board, leds),
            settings=MakeSettings(**{"tool": "laser", "kerf_mm": 0.2, **made}),  # type: ignore[arg-type]
            face=wood, grid=wood, back=wood, diffuser=sheet(diffuser),
            depth_mm=depth_mm, title=title, stamp="design 0123, segkit 0",
        )  # fmt: skip

    return drawn
