"""A clock, texts for it as lit segments, and a pocket's light that is known by hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
import pytest

from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape
from segkit.optics.front_map import FrontMap
from segkit.preview.colours import lit_colour
from segkit.preview.scene import Lamp, Subject

# Common practice: 6 and 9 with their tails, 7 with three segments.
SHOWN = {
    "0": "abcdef", "1": "bc", "2": "abdeg", "3": "abcdg", "4": "bcfg",
    "5": "acdfg", "6": "acdefg", "7": "abc", "8": "abcdefg", "9": "abcdfg", " ": "",
}  # fmt: skip


@pytest.fixture
def boards() -> Callable[..., Board]:
    def make(
        layout: str = "88:88", *, slant_deg: float = 8.0, ends: str = "pointed", stroke: float = 0.13
    ) -> Board:
        shape = DigitShape(300, 165, 300 * stroke, 5, ends, slant_deg, 300 * stroke)
        return board_of(layout=layout, shape=shape, spacing_mm=60, margin_mm=40)

    return make


@pytest.fixture
def clock(boards: Callable[..., Board]) -> Board:
    return boards()


@pytest.fixture
def lit() -> Callable[[str], dict[int, frozenset[str]]]:
    def segments(text: str) -> dict[int, frozenset[str]]:
        shown: dict[int, frozenset[str]] = {}
        for letter in text:
            if letter in ":.":
                shown[len(shown)] |= {"colon" if letter == ":" else "dp"}
            else:
                shown[len(shown) + 1] = frozenset(SHOWN[letter])
        return shown

    return segments


@pytest.fixture
def subjects(clock: Board, lit: Callable[[str], dict[int, frozenset[str]]]) -> Callable[..., Subject]:
    """The clock with evenly lit pockets of 100 cd/m2 that reflect 0.3, in a face that reflects 0.05."""

    def make(
        text: str = "12:45",
        *,
        board: Board = clock,
        pockets: Board | None = None,
        front: Mapping[str, FrontMap] | None = None,
        luminance_cd_m2: float = 100.0,
        recess_mm: float = 0.0,
        colour: str = "white",
    ) -> Subject:
        lamps = {kind: Lamp(luminance_cd_m2, 0.3, (front or {}).get(kind)) for kind in board.kinds()}
        return Subject(
            board, pockets or board, lit(text), lamps, lit_colour(colour), face_reflectance=0.05,
            recess_mm=recess_mm,
        )  # fmt: skip

    return make


@pytest.fixture
def bright_end() -> FrontMap:
    """100 x 30 mm, with its peak 30 mm from the middle towards the second end, 6 mm to the left."""
    x, y = np.meshgrid(np.arange(-49, 50, 2.0), np.arange(-14, 15, 2.0))
    return FrontMap(-50, -15, 2, 0, 1 + 2 * np.exp(-((x - 30) ** 2 + (y - 6) ** 2) / 50))
