from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

import pytest

from segkit.errors import InputError
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds
from segkit.preview.terminal import colour_code, terminal_text
from tests.preview.conftest import SHOWN

Lit = Callable[[str], dict[int, frozenset[str]]]


def ink(text: str) -> set[tuple[int, int]]:
    """Lit dots (column, row), two rows a line."""
    found = set()
    for row, line in enumerate(text.split("\n")):
        for column, letter in enumerate(line):
            if letter in "█▀":
                found.add((column, 2 * row))
            if letter in "█▄":
                found.add((column, 2 * row + 1))
    return found


def read(board: Board, text: str, width: int) -> str:
    """What a reader makes of it: each digit's dots around the middle of each segment decide."""
    dots = ink(text)
    left, _, right, top = bounds(o for s in board.segments for o in s.outlines)
    border = board.shape.stroke_mm / 2
    dot = (right - left + 2 * border) / width
    rows = 2 * len(text.split("\n"))
    bottom = min(y for s in board.segments for o in s.outlines for _, y in o)
    start = top + border + (rows * dot - (top - bottom + 2 * border)) / 2
    shown: dict[int, set[str]] = {}
    extra = {}
    for segment in board.segments:
        (x1, y1), (x2, y2) = segment.axes[0]
        column = ((x1 + x2) / 2 - left + border) / dot
        row = (start - (y1 + y2) / 2) / dot
        aside = (-1, 0, 1) if board.shape.stroke_mm < 1.5 * dot else (0,)  # a thin stroke falls beside
        lying = abs(x2 - x1) > abs(y2 - y1)
        at = (round(column - 0.5), round(row - 0.5))
        near = {(at[0], at[1] + d) if lying else (at[0] + d, at[1]) for d in aside}
        on = bool(near & dots)
        if segment.name in SHOWN["8"]:
            shown.setdefault(segment.digit, set()).update(segment.name if on else "")
        elif on:
            extra[segment.digit] = ":" if segment.name == "colon" else "."
    letters = {frozenset(segments): letter for letter, segments in SHOWN.items()}
    return "".join(letters[frozenset(shown[d])] + extra.get(d, "") for d in sorted(shown))


@pytest.mark.parametrize("ends", ["pointed", "blunt", "rounded"])
@pytest.mark.parametrize("slant_deg", [0.0, 8.0, 15.0])
@pytest.mark.parametrize("shown", ["12:45", "07:38", "96 20"])
@pytest.mark.parametrize("width", [60, 80, 120])
def test_reads_back_as_it_was_lit(
    boards: Callable[..., Board], lit: Lit, ends: str, slant_deg: float, shown: str, width: int
) -> None:
    board = boards(ends=ends, slant_deg=slant_deg)
    drawn = terminal_text(board, lit(shown.replace(" ", "")), width=width, colour=False)
    assert read(board, drawn, width) == shown.replace(" ", "")
    assert max(map(len, drawn.split("\n"))) <= width


def test_points_and_thin_strokes(boards: Callable[..., Board], lit: Lit) -> None:
    gauge = boards("88.8", slant_deg=0.0)
    assert read(gauge, terminal_text(gauge, lit("72.5"), width=80, colour=False), 80) == "72.5"
    long = boards("88:88:88:88", stroke=0.08)
    drawn = terminal_text(long, lit("12:34:56:78"), width=80, colour=False)
    assert read(long, drawn, 80) == "12:34:56:78", "strokes thinner than a dot are still there"


def test_proportions_of_the_board_with_letters_twice_as_high_as_wide(clock: Board, lit: Lit) -> None:
    dots = ink(terminal_text(clock, lit("88:88"), width=100, colour=False))
    across = max(x for x, _ in dots) - min(x for x, _ in dots) + 1
    down = max(y for _, y in dots) - min(y for _, y in dots) + 1
    left, bottom, right, top = bounds(o for s in clock.segments for o in s.outlines)
    assert across / down == pytest.approx((right - left) / (top - bottom), rel=0.06)


def test_blocks_are_of_the_block_range_and_plain_text_is_ascii(clock: Board, lit: Lit) -> None:
    drawn = terminal_text(clock, lit("12:45"), width=80, colour=False)
    assert {unicodedata.name(c) for c in drawn if c not in " \n"} <= {
        "FULL BLOCK",
        "UPPER HALF BLOCK",
        "LOWER HALF BLOCK",
    }
    assert not re.search(r" +$", drawn, re.MULTILINE)
    plain = terminal_text(clock, lit("12:45"), width=80, colour=True, plain=True)
    assert set(plain) == {"#", " ", "\n"}


def test_colour_shows_the_unlit_segments_and_ends_each_line_plain(clock: Board, lit: Lit) -> None:
    drawn = terminal_text(clock, lit("12:45"), width=80, colour=True, lit_colour="#ff2a1a")
    lines = drawn.split("\n")
    assert all(line.endswith("\x1b[0m") for line in lines)
    assert {len(re.sub(r"\x1b\[[0-9;]*m", "", line)) for line in lines} == {80}
    codes = set(re.findall(r"\x1b\[38;5;(\d+);48;5;(\d+)m", drawn))
    assert {code for pair in codes for code in pair} == {"196", "236", "234"}


def test_codes_of_the_256_colours() -> None:
    """Common practice of terminals: 16 + 36r + 6g + b with steps 0, 95, 135, 175, 215, 255; greys 8 + 10n."""
    assert colour_code("#000000") == 16
    assert colour_code("#ffffff") == 231
    assert colour_code("#5f87af") == 16 + 36 + 12 + 3
    assert colour_code("#808080") == 244


def test_a_very_narrow_terminal_still_gets_something(clock: Board, lit: Lit) -> None:
    assert "█" in terminal_text(clock, lit("88:88"), width=3, colour=False)


def test_strange_segments_are_refused(clock: Board) -> None:
    with pytest.raises(InputError, match="no segment dp"):
        terminal_text(clock, {1: frozenset({"dp"})}, width=80, colour=False)
