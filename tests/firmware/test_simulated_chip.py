"""The code on a simulated ATmega328P, its chain of registers decoded from the pins.

The simulator is an outside program; what hangs on its pins (``chain_on_pins.c``) is the function table of
the register. It moves bytes of the serial unit at a speed of its own, so frames are held against it and
times are not.
"""

from __future__ import annotations

import subprocess
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from segkit.firmware.as_built import chip_words
from segkit.firmware.driver import Driver
from segkit.firmware.source_code import source_code
from segkit.firmware.walk import read_seen, walked
from segkit.firmware.walk_faults import walk_findings
from segkit.firmware.wiring import Wiring, by_digit, written
from segkit.glyphs.text import fit
from segkit.wiring.channel_map import Lamp, channel_map
from segkit.wiring.shift_register import Chain, lit_by
from tests.firmware.conftest import BOARDS, ROOT, Made, design_of, made
from tests.firmware.test_source_code import behind

Tool = Callable[[str], str]
STRICT = ("-std=c99", "-Os", "-Wall", "-Wextra", "-Wpedantic", "-Wshadow", "-Werror")
CHIP = ("-mmcu=atmega328p", "-DF_CPU=16000000UL", "-ffunction-sections", "-Wl,--gc-sections")

_PROGRAM = """\
#include "board.h"
#include <avr/interrupt.h>
#include <avr/pgmspace.h>
#include <avr/sleep.h>
#include <string.h>

static const char texts[] PROGMEM = {bytes};
#define MARK(value) (GPIOR0 = (value))

/* In steps of one cycle, so that edges are seen to the cycle. */
__attribute__((noinline)) static void sixteen_periods(void)
{{
    uint8_t left = 16;

    __asm__ volatile("1: .rept {cycles} - 5\\n nop\\n .endr\\n dec %0\\n breq 2f\\n jmp 1b\\n 2:" : "+r"(left));
}}

int main(void)
{{
    const char *at;
    char text[64];
    uint16_t output;
    uint8_t level;

    board_start();
    for (at = texts; at < texts + sizeof texts - 1; at += strlen(text) + 1) {{
        strcpy_P(text, at);
        GPIOR1 = (uint8_t)board_write(text);
    }}
    MARK(1);
    for (output = 1; output <= {outputs}; output++) {{
        board_walk(output);
    }}
    board_all_lit();
    for (level = 0; level < {levels}; level++) {{
        board_level(level);
        MARK((uint8_t)(100 + level));
        sixteen_periods();
        MARK((uint8_t)(200 + level));
    }}
    cli();
    sleep_enable();
    sleep_cpu();
    return 0;
}}
"""


@dataclass(frozen=True)
class Run:
    """What the pins did: latched chips from the controller on, answers, marks, first light.

    ``levels`` are those of output-enable at each latch pulse.
    """

    latches: tuple[tuple[int, tuple[int, ...]], ...]
    answers: tuple[int, ...]
    marks: dict[int, tuple[int, int]]
    lit: int
    end: int
    levels: tuple[int, ...]

    def after(self, mark: int) -> tuple[tuple[int, ...], ...]:
        """Frames latched after a mark."""
        return tuple(chips for cycle, chips in self.latches if cycle > self.marks[mark][0])


def built(folder: Path, gcc: str, *sources: str) -> Path:
    """A program compiled for the chip without a warning."""
    done = subprocess.run(
        [gcc, *STRICT, *CHIP, "-o", "program.elf", *sources],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    return folder / "program.elf"


def pins(driver: Driver) -> list[str]:
    """The pins of a driver as the simulator names them."""
    return [
        f"{'C' if pin >= 14 else 'B' if pin >= 8 else 'D'}{pin - (14 if pin >= 14 else 8 if pin >= 8 else 0)}"
        for _, pin in driver.pins.all
    ]


def ran(simulator: Path, program: Path, driver: Driver, *, cycles: int = 0, typed: str = "") -> Run:
    """The program run to its end, or for so many cycles, with a text typed on its serial line."""
    command = [str(simulator), str(program), str(driver.wiring.chips), *pins(driver), str(cycles), typed]
    done = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60)
    words = [line.split() for line in done.stdout.splitlines()]
    told = {
        kind: [list(map(int, w[1:])) for w in words if w and w[0] == kind]
        for kind in ("latch", "mark", "said", "lit", "end")
    }
    return Run(
        latches=tuple((row[0], tuple(row[2:])) for row in told["latch"]),
        levels=tuple(row[1] for row in told["latch"]),
        answers=tuple(row[0] for row in told["said"]),
        marks={row[0]: (row[1], row[2]) for row in told["mark"]},
        lit=told["lit"][0][0],
        end=told["end"][0][0],
    )


def texts_of(board: Made) -> list[str]:
    """Every glyph on every digit, the sample, all dark."""
    layout, digits = board.design.display.layout, board.flash.driver.digits
    single = [g.char + behind(layout, n) for g in board.flash.driver.glyphs for n in range(1, digits + 1)]
    return [*single, board.flash.driver.sample, "8" * digits + "8"]


def run_of(board: Made, simulator: Path, gcc: str) -> Run:
    driver = board.flash.driver
    held = b"".join(text.encode() + b"\0" for text in texts_of(board))
    program = _PROGRAM.format(
        bytes=f"{{{', '.join(str(byte if byte < 128 else byte - 256) for byte in held)}, 0}}", outputs=len(driver.wiring.outputs),
        levels=len(driver.bright.counts), cycles=driver.bright.period * driver.bright.prescale,
    )  # fmt: skip
    (board.folder / "c/trial.c").write_text(program, encoding="utf-8")
    return ran(simulator, built(board.folder / "c", gcc, "trial.c", "board.c"), driver)


@pytest.fixture(scope="session", params=BOARDS)
def tried(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, simulator: Path, tool: Tool
) -> tuple[Made, Run]:
    """Each board and what its code did on the chip."""
    board = made(request.param, tmp_path_factory.mktemp(request.param))
    return board, run_of(board, simulator, tool("avr-gcc"))


def lights(wiring: Wiring, chips: Sequence[int]) -> frozenset[Lamp]:
    """What the outputs of the chips light on a board wired so."""
    on = 1 if wiring.active == "high" else 0
    return frozenset(
        lamp
        for output in wiring.outputs
        if chips[output.chip - 1] >> output.bit & 1 == on
        for lamp in output.lamps
    )


@pytest.mark.tool
def test_every_glyph_on_every_digit(tried: tuple[Made, Run]) -> None:
    board, run = tried
    wiring, digits = board.flash.driver.wiring, board.flash.driver.digits
    frames = [chips for _, chips in run.latches[1:]]
    glyphs = board.flash.driver.glyphs
    wanted = [{(n, name) for name in glyph.segments} for glyph in glyphs for n in range(1, digits + 1)]
    assert len(wanted) >= 19 * digits
    assert [lights(wiring, chips) for chips in frames[: len(wanted)]] == wanted
    assert run.answers == (0,) * (len(wanted) + 1) + (3,), "all shown; one digit too many is refused"


@pytest.mark.tool
def test_sample_in_a_chain_of_its_own(tried: tuple[Made, Run]) -> None:
    """The stage that plans the wiring has a model of the chain of its own: it must light the same."""
    board, run = tried
    chips = run.latches[len(texts_of(board)) - 1][1]
    outputs = tuple(byte >> bit & 1 for byte in chips for bit in range(8))
    design, driver = board.design, board.flash.driver
    channels = channel_map(
        lamps=sorted(driver.wiring.lamps), register=_register(board), order=board.flash.table.order,
        first_digit=design.power.first_digit,
    )  # fmt: skip
    lit = lit_by(channels, Chain(outputs, outputs), active=driver.wiring.active)
    style, custom = board.flash.table.style, design.glyphs.custom
    assert lit == set(fit(driver.sample, layout=driver.layout, style=style, custom=custom).lit)


def _register(board: Made):  # type: ignore[no-untyped-def]
    from segkit.catalog.reader import register

    return register(board.design.power.register_id)


@pytest.mark.tool
def test_dark_until_a_dark_frame_is_latched(tried: tuple[Made, Run]) -> None:
    board, run = tried
    cycle, chips = run.latches[0]
    assert lights(board.flash.driver.wiring, chips) == frozenset()
    assert run.lit > cycle, "no light before the first latch pulse"
    assert set(chips) == {0 if board.flash.driver.wiring.active == "high" else 255}, (
        "spare outputs are off too"
    )


@pytest.mark.tool
def test_one_latch_pulse_for_each_frame(tried: tuple[Made, Run]) -> None:
    board, run = tried
    shown = 1 + run.answers.count(0) + len(board.flash.driver.wiring.outputs) + 1
    assert len(run.latches) == shown


@pytest.mark.tool
def test_walk_test_lights_one_output_at_a_time(tried: tuple[Made, Run]) -> None:
    board, run = tried
    wiring = board.flash.driver.wiring
    flip = 0 if wiring.active == "high" else 255
    *walk, everything = run.after(1)
    for output, chips in zip(wiring.outputs, walk, strict=True):
        on = [(chip, byte ^ flip) for chip, byte in enumerate(chips, start=1) if byte ^ flip]
        assert on == [(output.chip, 1 << output.bit)]
        assert lights(wiring, chips) == set(output.lamps)
    assert lights(wiring, everything) == wiring.lamps


@pytest.mark.tool
def test_pulse_on_output_enable_is_as_computed(tried: tuple[Made, Run]) -> None:
    """Over 16 whole periods; a few cycles around the marks belong to neither level."""
    board, run = tried
    bright = board.flash.driver.bright
    for level, count in enumerate(bright.counts):
        (begin, low_before), (end, low_after) = run.marks[100 + level], run.marks[200 + level]
        periods = (end - begin) / (bright.period * bright.prescale)
        assert periods == pytest.approx(16, abs=0.01)
        low = (low_after - low_before) / bright.prescale
        assert low == pytest.approx(16 * count, abs=12), (level, count)
    assert bright.pulse_hz >= min(bright.frequency_hz, 16e6 / bright.period)


@pytest.mark.tool
@pytest.mark.parametrize("fault", ["order", "polarity", "chips"])
def test_a_swapped_order_or_polarity_is_caught(
    simulator: Path, tool: Tool, tmp_path: Path, fault: str
) -> None:
    """The same comparison fails for code made for another board."""
    board = made("pool_lap_clock", tmp_path)
    right = board.flash.driver.wiring
    wrong = {
        "order": replace(right, outputs=tuple(replace(o, lamps=right.outputs[(o.number - 1) // 8 * 8 + 7 - o.bit].lamps) for o in right.outputs)),
        "polarity": replace(right, active="low" if right.active == "high" else "high"),
        "chips": replace(right, outputs=tuple(replace(o, lamps=p.lamps) for o, p in zip(right.outputs, right.outputs[8:] + right.outputs[:8], strict=True))),
    }[fault]  # fmt: skip
    assert wrong != right
    (tmp_path / "c/board.c").write_text(
        source_code(replace(board.flash.driver, wiring=wrong))["c/board.c"], encoding="utf-8"
    )
    run = run_of(board, simulator, tool("avr-gcc"))
    shown = lights(right, run.latches[len(texts_of(board)) - 1][1])
    meant = set(fit(board.flash.driver.sample, layout=board.flash.driver.layout).lit)
    assert shown != meant
    assert lights(wrong, run.latches[len(texts_of(board)) - 1][1]) == meant, (
        "right for the board it was made for"
    )


@pytest.mark.tool
def test_picture_of_the_decoded_frame_is_the_preview(simulator: Path, tool: Tool, tmp_path: Path) -> None:
    """What the pins say, drawn by the preview, is what the preview draws of the text."""
    from segkit.geometry.board import board_of
    from segkit.geometry.digit import DigitShape
    from segkit.preview.terminal import terminal_text
    from segkit.project import text_lamps

    for name in ("boules_court", "pool_lap_clock", "rain_barrel"):
        board = made(name, tmp_path / name)
        run = run_of(board, simulator, tool("avr-gcc"))
        lit = by_digit(lights(board.flash.driver.wiring, run.latches[len(texts_of(board)) - 1][1]))
        shape = DigitShape(
            height_mm=300, width_mm=170, stroke_mm=40, gap_mm=5, ends="pointed", slant_deg=0, point_mm=40
        )
        layout = board.design.display.layout
        drawn = board_of(
            layout=layout, shape=shape, small_ratio=0.6, spacing_mm=60, margin_mm=40, fixing_hole_mm=4
        )
        sample = text_lamps(design_of(name), board.flash.driver.sample)
        pictures = [terminal_text(drawn, shown, width=70, colour=False) for shown in (lit, sample)]
        assert pictures[0] == pictures[1]
        assert pictures[0] != terminal_text(drawn, {}, width=70, colour=False)


@pytest.mark.tool
def test_first_program_compiles_and_shows_the_sample(simulator: Path, tool: Tool, tmp_path: Path) -> None:
    board = made("rain_barrel", tmp_path)
    folder = tmp_path / "c"
    for walk in ("0", "1"):
        done = subprocess.run(
            [tool("avr-gcc"), *STRICT, *CHIP, f"-DWALK_TEST={walk}", "-o", f"main{walk}.elf", "main.c", "board.c"],
            cwd=folder, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert (done.returncode, done.stderr) == (0, "")
    assert "avr-gcc" in (folder / "main.c").read_text(encoding="utf-8"), "the head says how to build it"
    run = ran(simulator, folder / "main0.elf", board.flash.driver, cycles=33_000_000)
    dark, everything, sample = (lights(board.flash.driver.wiring, chips) for _, chips in run.latches)
    assert (dark, everything) == (frozenset(), board.flash.driver.wiring.lamps)
    assert sample == set(fit("72.5", layout="88.8").lit)
    walk = ran(simulator, folder / "main1.elf", board.flash.driver, cycles=33_000_000)
    assert len(walk.latches) == 3, "dark, all lit, dark before the first output"


@pytest.mark.tool
def test_the_switch_from_serial_unit_to_pins_can_be_set_by_hand(
    simulator: Path, tool: Tool, tmp_path: Path
) -> None:
    board = made("boules_court", tmp_path)
    by_unit = run_of(board, simulator, tool("avr-gcc"))
    source = tmp_path / "c/board.c"
    text = source.read_text(encoding="utf-8")
    assert text.count("#define HARDWARE_SERIAL 1") == 1
    source.write_text(
        text.replace("#define HARDWARE_SERIAL 1", "#define HARDWARE_SERIAL 0"), encoding="utf-8"
    )
    by_pins = run_of(board, simulator, tool("avr-gcc"))
    assert [chips for _, chips in by_pins.latches] == [chips for _, chips in by_unit.latches]
    assert by_pins.end != by_unit.end


@pytest.mark.tool
def test_a_board_wired_wrong_shows_the_right_text_after_the_walk_test(
    simulator: Path, tool: Tool, tmp_path: Path
) -> None:
    """Flash, walk, tell, build, flash: chips the other way round, one byte reversed, two wires, logic inverted."""
    board = made("rain_barrel", tmp_path / "first")
    plan = board.flash.driver.wiring
    lamps = [output.lamps for output in plan.outputs]
    lamps = lamps[16:] + lamps[8:16][::-1] + [lamps[1], lamps[0], *lamps[2:8]]
    outputs = tuple(replace(o, lamps=own) for o, own in zip(plan.outputs, lamps, strict=True))
    real = replace(plan, active="low", outputs=outputs)
    meant = set(fit("72.5", layout="88.8").lit)

    first = run_of(board, simulator, tool("avr-gcc"))
    assert lights(real, first.latches[len(texts_of(board)) - 1][1]) != meant
    seen = []
    for chips in first.after(1)[: len(plan.outputs)]:
        dark = real.lamps - lights(real, chips)
        seen.append("!" + written(dark) if dark else "all")
    result = walked(plan, read_seen(" ".join(seen), plan))
    codes = [finding.code for finding in walk_findings(result)]
    assert codes == ["logic-inverted", "chips-reversed", "byte-reversed", "pair-swapped"]

    words = ", ".join(f'"{chip}"' for chip in chip_words(result.built.outputs))
    text = (ROOT / "fixtures/designs/rain_barrel.toml").read_text(encoding="utf-8")
    text += f'\n[as_built]\nchips = [{words}]\nactive = "low"\n'
    again = made("mended", tmp_path / "second", text)
    second = run_of(again, simulator, tool("avr-gcc"))
    assert lights(real, second.latches[0][1]) == frozenset(), "dark at power-on, on this board"
    assert lights(real, second.latches[len(texts_of(again)) - 1][1]) == meant
