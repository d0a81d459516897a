"""The C code through a C compiler and on this machine: every text as the toolkit itself fits it."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.firmware.source_code import SOURCES, source_code, wiring_words
from segkit.firmware.wiring import by_digit, lit_by_frame
from segkit.glyphs.text import Fitted, fit, lamps
from segkit.wiring.channel_map import Lamp
from tests.firmware.conftest import Host, Made

OnHost = Callable[[Made, str], Host]
Tool = Callable[[str], str]
SHOWN, NO_GLYPH, NO_MARK, TOO_LONG, GONE_BY = range(5)


def shown_by(host: Host, board: Made) -> frozenset[Lamp]:
    return lit_by_frame(board.flash.driver.wiring, host.frame)


def fitted(board: Made, text: str) -> Fitted:
    """As the toolkit fits it; a letter that the table has in the other case only is drawn in that case."""
    style, custom = board.flash.table.style, board.design.glyphs.custom
    known = {glyph.char for glyph in board.flash.driver.glyphs}
    text = "".join(
        c.swapcase() if c not in known and c.isascii() and c.swapcase() in known else c for c in text
    )
    return fit(text, layout=board.design.display.layout, style=style, custom=custom)


def alphabet(board: Made) -> str:
    chars = "".join(glyph.char for glyph in board.flash.driver.glyphs)
    return chars + "".join(c.lower() for c in chars if c.isascii()) + ".:,  "


@pytest.mark.tool
def test_every_glyph_on_every_digit(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    for glyph in board.flash.driver.glyphs:
        for digit in range(1, board.flash.driver.digits + 1):
            text = glyph.char + behind(board.design.display.layout, digit)
            assert host.write(text) == SHOWN, text
            assert shown_by(host, board) == {(digit, name) for name in glyph.segments}, text
            assert host.frame == board.flash.frames.frames[digit, glyph.char]


def behind(layout: str, digit: int) -> str:
    """Blanks for what stands on the right of a digit."""
    place = [at for at, mark in enumerate(layout) if mark in "8o"][digit - 1]
    return "".join(" " for mark in layout[place + 1 :] if mark in "8o ")


@pytest.mark.tool
def test_any_text_is_shown_or_refused_as_the_toolkit_does(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))

    @settings(max_examples=150)
    @given(st.text(alphabet=alphabet(board), max_size=len(board.design.display.layout) + 2))
    def check(text: str) -> None:
        before = host.frame
        try:
            right = frozenset(fitted(board, text).lit)
        except InputError:
            assert host.write(text) in (NO_MARK, TOO_LONG), text
            assert host.frame == before, "a refused text changes nothing"
            return
        assert host.write(text) == SHOWN, text
        assert shown_by(host, board) == right, text

    check()


@pytest.mark.tool
def test_what_cannot_be_shown_is_refused(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    assert host.write(board.flash.driver.sample) == SHOWN
    before = host.frame
    for text in ("M", "!", "é", "\x01", "Ä"):
        assert host.write(text) == NO_GLYPH, text
    assert host.write("8" * (board.flash.driver.digits + 1)) == TOO_LONG
    if "." not in board.design.display.layout:
        assert host.write("1.5") == NO_MARK
    assert host.frame == before


@pytest.mark.tool
def test_flush_left(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    for text in ("", "1", "-", "12", "8-", board.flash.driver.sample, "1 2"):
        right = None
        for dark in range(len(board.design.display.layout)):
            try:
                right = frozenset(fitted(board, text + " " * dark).lit)
            except InputError:
                continue
        answer = host.c.board_write_left(text.encode())
        if right is None:
            assert answer in (NO_MARK, TOO_LONG), text
        else:
            assert (answer, shown_by(host, board)) == (SHOWN, right), text


@pytest.mark.tool
def test_numbers_have_no_leading_zeros_and_keep_their_minus(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    for value in (0, 5, 10, 99, 100, -1, -12, 725, 1234, -999, 54321, -2147483648, 2147483647):
        for decimals in (0, 1, 2):
            sign, size = "-" if value < 0 else "", str(abs(value)).rjust(decimals + 1, "0")
            text = (
                f"{sign}{size[: len(size) - decimals]}{'.' if decimals else ''}{size[len(size) - decimals :]}"
            )
            answer = host.c.board_number(value, decimals)
            try:
                right = frozenset(fitted(board, text).lit)
            except InputError:
                assert answer in (NO_MARK, TOO_LONG), text
            else:
                assert (answer, shown_by(host, board)) == (SHOWN, right), text
    assert host.c.board_number(1, 200) == TOO_LONG


@pytest.mark.tool
def test_clock_and_score(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    groups, gaps = board.flash.driver.groups, board.flash.driver.gaps
    if len(groups) not in (2, 3):
        assert not hasattr(host.c, "board_clock")
        return
    most = [10**width - 1 for width in groups]
    for values in ([9, 5, 7], [0, 0, 0], [1, 23, 4], most):
        fields = [min(value, limit) for value, limit in zip(values, most, strict=False)]
        for name, fill in (("board_clock", "0"), ("board_score", " ")):
            text = f"{fields[0]:{groups[0]}d}" + "".join(
                f"{gap}{value:{fill}>{width}d}"
                for gap, value, width in zip(gaps, fields[1:], groups[1:], strict=True)
            )
            try:
                right = frozenset(fitted(board, text).lit)
            except InputError:
                pytest.fail(text)
            assert getattr(host.c, name)(*fields) == SHOWN
            assert shown_by(host, board) == right, text
    assert host.c.board_clock(most[0] + 1, *[0] * (len(groups) - 1)) == TOO_LONG


@pytest.mark.tool
def test_a_long_text_runs_by(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    table = {glyph.char: set(glyph.segments) for glyph in board.flash.driver.glyphs}
    digits, marks = board.flash.driver.digits, {".": "dp", ":": "colon"}
    own = {lamp for lamp in lamps(board.design.display.layout) if lamp[1] in ("dp", "colon")}
    for text in ("", "1", ".5", "12.34:5-9", "0123456789"):
        cells: list[set[str]] = []
        for char in text:
            if char in marks and cells:
                cells[-1] |= {marks[char]}
            else:
                cells.append({marks[char]} if char in marks else set(table[char]))
        for step in range(len(cells) + digits + 2):
            window = [cells[i] if 0 <= i < len(cells) else set() for i in range(step - digits + 1, step + 1)]
            right = {
                (digit, name)
                for digit, names in enumerate(window, start=1)
                for name in names
                if name not in marks.values() or (digit, name) in own
            }
            gone = step >= len(cells) + digits - 1
            assert host.c.board_scroll(text.encode(), step) == (GONE_BY if gone else SHOWN), (text, step)
            assert shown_by(host, board) == right, (text, step)
    assert host.c.board_scroll(b"1M", 0) == NO_GLYPH


@pytest.mark.tool
def test_lamp_test_walk_test_and_brightness(board: Made, on_host: OnHost, tool: Tool) -> None:
    host = on_host(board, tool("gcc"))
    wiring, bright = board.flash.driver.wiring, board.flash.driver.bright
    assert host.light == bright.period
    assert shown_by(host, board) == frozenset()
    host.c.board_all_lit()
    assert shown_by(host, board) == wiring.lamps == set(lamps(board.design.display.layout))
    for output in wiring.outputs:
        host.c.board_walk(output.number)
        assert shown_by(host, board) == set(output.lamps)
    host.c.board_walk(len(wiring.outputs) + 1)
    assert shown_by(host, board) == frozenset()
    seen = []
    for level in range(len(bright.counts) + 1):
        host.c.board_level(level)
        seen.append(host.light)
    assert tuple(seen) == (*bright.counts, bright.period)


def test_the_code_reads_well(board: Made) -> None:
    code = source_code(board.flash.driver)
    assert list(code) == list(SOURCES)
    for path, text in code.items():
        assert text.endswith("\n"), path
        assert not text.endswith("\n\n"), path
        assert max(map(len, text.splitlines())) <= 130, path
        for bad in ("\t", "\r", "{%", "{{ ", "None", " \n", "\n\n\n\n"):
            assert bad not in text.replace("{{ 7 }} {% raw %}", "x"), (path, bad)
    board_c = code["c/board.c"]
    first_function = board_c.index("static uint16_t find_glyph")
    for early in ("_PORT", "HARDWARE_SERIAL", "#define LIT", "wiring[CHIPS]", "glyphs[]", "lit_counts"):
        assert board_c.index(early) < first_function, early
    declared = set(re.findall(r"board_\w+(?=\()", code["c/board.h"]))
    defined = set(re.findall(r"^(?:void|board_answer) (board_\w+)\(", board_c, re.M))
    assert declared == defined


def test_the_wiring_in_words(board: Made) -> None:
    words = wiring_words(board.flash.driver)
    assert len(words) == board.flash.driver.wiring.chips
    assert sum(len(line.split()) for line in words) == len(board.flash.driver.wiring.outputs)
    assert by_digit(board.flash.driver.wiring.lamps).keys() == set(range(1, board.flash.driver.digits + 1))
