"""A clock and a gauge, and texts for them as lit segments."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape

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
