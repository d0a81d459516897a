"""Digits that take turns: the timing, and on the simulated chip the order blank, shift, latch, light."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from segkit.electrical.dimming import dimming
from segkit.errors import InputError
from segkit.firmware.turns import Turns, turns
from segkit.glyphs.bitmask import parse_order, segments_from
from segkit.glyphs.text import fit
from tests.firmware.conftest import Made, flash_of, made
from tests.firmware.test_simulated_chip import Run, built, ran

Tool = Callable[[str], str]
ORDER = parse_order("dp g f e d c b a")
CLOCK = '[display]\nlayout = "88:88"\nsample = "12:34"\n[turns]\ndigits = 4\n'
BY_PINS = '[firmware]\nserial = "bit-banged"\n'
_PROGRAM = """\
#include "board.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <util/delay.h>

int main(void)
{
    board_start();
    _delay_ms(1);
    GPIOR1 = (uint8_t)board_write("12:34");
    _delay_ms(3);
    GPIOR0 = 1;
    _delay_us(16384); /* 32 turns of 512 us: 8 rounds of four digits */
    GPIOR0 = 2;
    board_level(4);
    _delay_ms(3);
    GPIOR0 = 3;
    _delay_us(16384);
    GPIOR0 = 4;
    board_walk(1);
    _delay_ms(3);
    GPIOR0 = 5;
    _delay_ms(3);
    board_walk(10);
    _delay_ms(3);
    GPIOR0 = 6;
    _delay_ms(3);
    board_level(0);
    GPIOR0 = 7;
    _delay_ms(3);
    GPIOR0 = 8;
    cli();
    sleep_enable();
    sleep_cpu();
    return 0;
}
"""


def timing(refresh: float = 500, digits: int = 4, dark: float = 50e-6, levels: int = 8) -> Turns:
    return turns(
        digits=digits,
        order=ORDER,
        active="high",
        refresh_hz=refresh,
        dark_s=dark,
        dimmed=dimming(levels=levels),
    )


@pytest.mark.parametrize("refresh", [60, 100, 250, 500, 1000, 1400])
@pytest.mark.parametrize("digits", [2, 4, 6, 8])
def test_rounds_are_as_fast_as_asked(refresh: float, digits: int) -> None:
    if refresh * digits > 4200:
        with pytest.raises(InputError, match="too short"):
            timing(refresh * 4, digits)
        return
    made_so = timing(refresh, digits)
    assert made_so.round_hz >= 0.95 * refresh
    assert made_so.dark * made_so.prescale / 16 >= 50, "microseconds"
    assert made_so.counts[0] == 0
    assert made_so.counts[-1] == made_so.period - made_so.dark
    assert list(made_so.counts) == sorted(set(made_so.counts))


@pytest.mark.parametrize("digits", [1, 9])
def test_more_digits_than_outputs_are_refused(digits: int) -> None:
    with pytest.raises(InputError, match=r"turns\.digits"):
        timing(digits=digits)


def test_code_is_there_only_where_all_digits_take_turns(tmp_path: Path) -> None:
    static = made("static", tmp_path / "a", CLOCK.replace("digits = 4", "digits = 1"))
    assert not (static.folder / "turns").exists()
    some = made("some", tmp_path / "b", CLOCK.replace("digits = 4", "digits = 2"))
    assert some.flash.driver.turns is None
    assert [finding.code for finding in some.flash.findings] == ["no-code-for-turns", "controller-level"]
    both = '[display]\nlayout = "8.:8"\n[turns]\ndigits = 2\n'
    assert made("crowded", tmp_path / "c", both).flash.driver.turns is None
    fast = CLOCK + 'refresh = "10 kHz"\n'
    note, *_ = made("fast", tmp_path / "e", fast).flash.findings
    assert "too short" in note.text
    assert flash_of(made("all", tmp_path / "d", CLOCK).design).driver.turns is not None
    assert (tmp_path / "d/turns/board.c").is_file()
    assert (tmp_path / "d/c/board.c").is_file(), "the static board has its code as well"


@pytest.fixture(scope="module")
def clock(tmp_path_factory: pytest.TempPathFactory, simulator: Path, tool: Tool) -> tuple[Made, Run]:
    board = made("clock", tmp_path_factory.mktemp("clock"), CLOCK + BY_PINS)
    folder = board.folder / "turns"
    (folder / "trial.c").write_text(_PROGRAM, encoding="utf-8")
    two = replace(board.flash.driver, wiring=replace(board.flash.driver.wiring, chips=2))
    return board, ran(simulator, built(folder, tool("avr-gcc"), "trial.c", "board.c"), two)


def between(run: Run, begin: int, end: int) -> list[tuple[int, ...]]:
    first, last = run.marks[begin][0], run.marks[end][0]
    return [chips for cycle, chips in run.latches if first < cycle < last]


@pytest.mark.tool
def test_each_digit_shows_its_own_in_turn(clock: tuple[Made, Run]) -> None:
    _, run = clock
    assert run.answers == (0,)
    frames = between(run, 1, 2)
    assert len(frames) == pytest.approx(32, abs=3)
    wanted = fit("12:34", layout="88:88").digits
    for segments, digits in frames:
        assert digits.bit_count() == 1, "one digit switch at a time"
        meant = wanted[digits.bit_length() - 1]
        assert segments_from(segments, ORDER) == tuple("dp" if name == "colon" else name for name in meant)
    turns_seen = [digits.bit_length() for _, digits in frames]
    assert all(later == earlier % 4 + 1 for earlier, later in pairwise(turns_seen))


@pytest.mark.tool
def test_nothing_is_lit_while_the_digits_change(clock: tuple[Made, Run]) -> None:
    _, run = clock
    assert set(run.levels) == {1}, "output-enable is high at every latch pulse"
    assert run.lit > run.latches[0][0], "no light before the first latch pulse"
    assert run.latches[0][1] == (0, 1), "and that one is dark"


@pytest.mark.tool
@pytest.mark.parametrize(("begin", "end", "level"), [(1, 2, 8), (3, 4, 4), (7, 8, 0)])
def test_lit_for_the_counts_of_the_level(clock: tuple[Made, Run], begin: int, end: int, level: int) -> None:
    board, run = clock
    timing = board.flash.driver.turns
    assert timing is not None
    (first, low_before), (last, low_after) = run.marks[begin], run.marks[end]
    share = timing.counts[level] / timing.period
    assert (low_after - low_before) / (last - first) == pytest.approx(share, abs=0.012 if level else 0)


@pytest.mark.tool
def test_walk_test_lights_a_segment_of_all_digits_then_a_digit(clock: tuple[Made, Run]) -> None:
    _, run = clock
    assert {segments for segments, _ in between(run, 5, 6)[:4]} == {0x01}
    after = [chips for cycle, chips in run.latches if cycle > run.marks[6][0]][:4]
    assert {(digits, segments) for segments, digits in after} == {(1, 0), (2, 0xFF), (4, 0), (8, 0)}


@pytest.mark.tool
def test_by_the_serial_unit_the_frames_are_the_same(simulator: Path, tool: Tool, tmp_path: Path) -> None:
    board = made("clock", tmp_path, CLOCK)
    (tmp_path / "turns/trial.c").write_text(_PROGRAM, encoding="utf-8")
    program = built(tmp_path / "turns", tool("avr-gcc"), "trial.c", "board.c")
    two = replace(board.flash.driver, wiring=replace(board.flash.driver.wiring, chips=2))
    run = ran(simulator, program, two)
    wanted = {digits: segments for segments, digits in between(run, 1, 2)}
    right = fit("12:34", layout="88:88").digits
    assert {digit: segments_from(wanted[1 << digit], ORDER) for digit in range(4)} == {
        n: tuple("dp" if name == "colon" else name for name in names) for n, names in enumerate(right)
    }


@pytest.mark.tool
def test_first_program_compiles_without_a_warning(tool: Tool, tmp_path: Path) -> None:
    for name, extra in (("unit", ""), ("pins", BY_PINS)):
        board = made(name, tmp_path / name, CLOCK + extra)
        assert built(board.folder / "turns", tool("avr-gcc"), "main.c", "board.c").is_file()
