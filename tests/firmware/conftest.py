"""The firmware of the example designs and of odd ones, and the tools that it is tried on."""

from __future__ import annotations

import ctypes
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from segkit.design.chosen import chosen_parts
from segkit.design.reader import design_from_text, read_design
from segkit.design.schema import Design
from segkit.electrical.dimming import dimming
from segkit.firmware.source_code import source_code
from segkit.firmware.table import glyph_table
from segkit.flash import Flashing, flashing
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import Style
from segkit.glyphs.polarity import active_for
from segkit.glyphs.text import expand, lamps
from segkit.wiring.channel_map import channel_map
from tests.conftest import missing

Tool = Callable[[str], str]
ROOT = Path(__file__).parent.parent.parent
EXAMPLES = tuple(path.stem for path in sorted((ROOT / "fixtures/designs").glob("*.toml")))
#: Boards that the examples leave out: other order, other polarity, points and colons on one digit, every glyph.
ODD = {
    "odd_order": '[display]\nlayout = "88:88.8"\nsample = "12:34.5"\n[power]\norder = "c dp a g b f e d"\nfirst_digit = "right"\n'
    '[glyphs]\ncharacters = "0-9 A-F H L P U - _ ° \' [ ]"\n"custom" = { "ñ" = "c e g a", "→" = "a b g" }\n',
    "zero_lights": '[display]\nlayout = "8.:8.8"\nsample = "1.:2.3"\n[power]\ndriver = "logic-mosfet"\n[as_built]\nactive = "low"\n'
    '[firmware]\nserial = "bit-banged"\npins = { data = 4, clock = 7, latch = 14, enable = 10 }\n',
    "hostile": r"""
[display]
title = 'Lane 4 */ int x; \ "q" {{ 7 }} {% raw %}'
layout = "8888"
sample = '"A??'
[glyphs]
characters = "0-9 AbCdEFGHIJLnOPqrStUYaceghilou-_=°\"'[]()?"
""",
    "one_digit": '[display]\nlayout = "8"\nsample = "5"\n[dimming]\nbits = 8\nfrequency = "1 kHz"\n',
    "three_groups": '[display]\nlayout = "88:88:oo"\nsample = "12:34:56"\n',
}
BOARDS = (*EXAMPLES, *ODD)


def design_of(name: str) -> Design:
    """An example or an odd design."""
    if name in ODD:
        return design_from_text(ODD[name])
    return read_design(ROOT / f"fixtures/designs/{name}.toml")


def flash_of(design: Design) -> Flashing:
    """The firmware of a design, without its light and its sheets."""
    parts = chosen_parts(design)
    channels = channel_map(
        lamps=lamps(design.display.layout), register=parts.register, sink=parts.sink,
        order=parse_order(design.power.order), first_digit=design.power.first_digit,
    )  # fmt: skip
    glyphs = design.glyphs
    table = glyph_table(
        characters=[*expand(glyphs.characters), *glyphs.custom], order=channels.order, active=active_for(parts.sink),
        style=Style(glyphs.six, glyphs.seven, glyphs.nine), title=design.display.title, stamp="s",
        channel_map=channels, custom=glyphs.custom,
    )  # fmt: skip
    dimmed = dimming(
        levels=design.dimming.levels, bits=design.dimming.bits, frequency_hz=design.dimming.frequency_hz
    )
    return flashing(design, table=table, channels=channels, register=parts.register, dimmed=dimmed)


@dataclass(frozen=True)
class Made:
    """A board, its firmware and the folder with its source."""

    name: str
    design: Design
    flash: Flashing
    folder: Path


def made(name: str, folder: Path, text: str = "") -> Made:
    """The source of a design written into a folder."""
    design = design_from_text(text) if text else design_of(name)
    flash = flash_of(design)
    for path, content in source_code(flash.driver).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(content, encoding="utf-8")
    return Made(name, design, flash, folder)


@pytest.fixture(scope="session", params=BOARDS)
def board(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Each board in turn."""
    return made(request.param, tmp_path_factory.mktemp(request.param))


@pytest.fixture(scope="session", params=EXAMPLES)
def example(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Made:
    """Each example design in turn."""
    return made(request.param, tmp_path_factory.mktemp(request.param))


STRICT = ("-std=c99", "-Wall", "-Wextra", "-Wpedantic", "-Wshadow", "-Wconversion", "-Werror")
_PINS = """\
#include "board.h"
uint8_t sent[64], sent_count;
uint16_t light = 9999;
void pins_start(void) { sent_count = 0; light = 0; }
void pins_send(const uint8_t *bytes, uint8_t count) { sent_count = count; while (count-- > 0) sent[count] = bytes[count]; }
void pins_light(uint16_t on) { light = on; }
"""


class Host:
    """The C code on this machine, its pins replaced by memory."""

    def __init__(self, library: ctypes.CDLL) -> None:
        self.c = library

    @property
    def frame(self) -> bytes:
        """The bytes sent last."""
        count = ctypes.c_uint8.in_dll(self.c, "sent_count").value
        return bytes((ctypes.c_uint8 * 64).in_dll(self.c, "sent"))[:count]

    @property
    def light(self) -> int:
        """Lit counts of a period."""
        return ctypes.c_uint16.in_dll(self.c, "light").value

    def write(self, text: str) -> int:
        """The answer to a text."""
        return int(self.c.board_write(text.encode()))


@pytest.fixture(scope="session")
def on_host() -> Callable[[Made, str], Host]:
    """Compile board.c for this machine, without a warning, and load it."""

    def load(made: Made, gcc: str) -> Host:
        folder = made.folder / "c"
        (folder / "pins_host.c").write_text(_PINS, encoding="utf-8")
        library = folder / "board.so"
        if not library.exists():
            command = [gcc, *STRICT, "-O1", "-shared", "-fPIC", "-o", str(library), "board.c", "pins_host.c"]
            done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
            assert (done.returncode, done.stderr) == (0, "")
        loaded = ctypes.CDLL(str(library))
        loaded.board_start()
        return Host(loaded)

    return load


@pytest.fixture(scope="session")
def simulator(tmp_path_factory: pytest.TempPathFactory, tool: Tool) -> Path:
    """The chain on the pins of a simulated chip."""
    if not Path("/usr/include/simavr/sim_avr.h").is_file():
        missing("libsimavr-dev")
    program = tmp_path_factory.mktemp("simulator") / "chain_on_pins"
    command = [
        tool("gcc"),
        "-O2",
        "-o",
        str(program),
        str(Path(__file__).parent / "chain_on_pins.c"),
        "-lsimavr",
    ]
    subprocess.run(command, check=True, capture_output=True)
    return program


def whole_program(folder: Path, *, compiler: str, sizer: str) -> tuple[int, int]:
    """Flash and RAM of the first program with every function in it, bytes; ``folder`` holds the C code."""
    command = [
        "-std=c99",
        "-Os",
        "-mmcu=atmega328p",
        "-DF_CPU=16000000UL",
        "-o",
        "whole.elf",
        "main.c",
        "board.c",
    ]
    subprocess.run([compiler, *command], cwd=folder, check=True)
    table = subprocess.run([sizer, "whole.elf"], cwd=folder, check=True, capture_output=True, text=True)
    code, start, empty, *_ = map(int, table.stdout.splitlines()[1].split()[:3])
    return code + start, start + empty
