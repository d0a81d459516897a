"""Whole frames in every form, read back; the headers through both compilers."""

from __future__ import annotations

import csv
import io
import json
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from segkit.errors import InputError
from segkit.firmware.c import glyph_header
from segkit.firmware.frames import frame_bytes, frame_csv, frame_header, frame_json, frame_table, glyph_bytes
from segkit.firmware.wiring import frame_of, lit_by_frame
from segkit.glyphs.text import fit
from tests.firmware.conftest import STRICT, Made

Tool = Callable[[str], str]


def test_frames_put_together_make_the_text(board: Made) -> None:
    """With OR where a 1 lights, with AND where a 0 does, as the heading says."""
    frames, driver = board.flash.frames, board.flash.driver
    style, custom = board.flash.table.style, board.design.glyphs.custom
    text = driver.sample
    lit = fit(text, layout=driver.layout, style=style, custom=custom).lit
    digits = [char for char in text.replace(".", "").replace(":", "") if char != " "]
    parts = [frames.frames[n, char] for n, char in enumerate(digits, start=1)]
    parts += [frames.marks[lamp] for lamp in lit if lamp[1] in ("dp", "colon")]
    high = driver.wiring.active == "high"
    whole = parts[0]
    for part in parts[1:]:
        whole = bytes(a | b if high else a & b for a, b in zip(whole, part, strict=True))
    assert whole == frame_of(driver.wiring, lit)
    assert ("OR" if high else "AND") in frames.how[1]


def test_every_form_reads_back(board: Made) -> None:
    frames = board.flash.frames
    data = json.loads(frame_json(frames))
    assert {(f["digit"], f["char"]): bytes(f["bytes"]) for f in data["frames"]} == frames.frames
    assert {(m["digit"], m["segment"]): bytes(m["bytes"]) for m in data["marks"]} == frames.marks
    assert [o["number"] for o in data["outputs"]] == list(range(1, 8 * frames.wiring.chips + 1))
    rows = list(csv.reader(io.StringIO(frame_csv(frames))))[1:]
    read = {(int(row[0]), row[1]): bytes(int(cell, 16) for cell in row[2:]) for row in rows}
    assert read == {**frames.frames, **frames.marks}
    raw, size = frame_bytes(frames), frames.wiring.chips
    assert [raw[at : at + size] for at in range(0, len(raw), size)] == list(frames.frames.values())
    assert list(glyph_bytes(frames.glyphs)) == [glyph.mask for glyph in frames.glyphs.glyphs]


@pytest.mark.tool
@pytest.mark.parametrize("compiler", ["gcc", "avr-gcc"])
@pytest.mark.parametrize("define", ["", "-DTABLE_IN_RAM"])
def test_headers_compile_in_either_order(
    example: Made, tool: Tool, tmp_path: Path, compiler: str, define: str
) -> None:
    (tmp_path / "frame_table.h").write_text(frame_header(example.flash.frames), encoding="utf-8")
    (tmp_path / "glyph_table.h").write_text(glyph_header(example.flash.table), encoding="utf-8")
    for first, second in (("frame", "glyph"), ("glyph", "frame")):
        body = (
            f'#include "{first}_table.h"\n#include "{second}_table.h"\n#include <stdint.h>\n'
            "uint8_t probe(uint8_t d, uint8_t g, uint8_t c) { return TABLE_BYTE(&frame_rows[d][g][c]); }\n"
            "uint8_t other(uint16_t code) { return glyph_mask(code) ^ glyph_mask_with_point(TABLE_WORD(&frame_codes[0])); }\n"
        )
        (tmp_path / "use.c").write_text(body, encoding="utf-8")
        usual = [flag for flag in STRICT if compiler == "gcc" or flag != "-Wconversion"]
        chip = ["-mmcu=atmega328p", "-Os"] if compiler == "avr-gcc" else []
        command = [tool(compiler), *usual, *chip, *filter(None, [define]), "-c", "use.c"]
        done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
        assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.tool
def test_the_attribute_keeps_the_table_out_of_ram(example: Made, tool: Tool, tmp_path: Path) -> None:
    (tmp_path / "frame_table.h").write_text(frame_header(example.flash.frames), encoding="utf-8")
    body = '#include "frame_table.h"\nint main(int n, char **v) { (void)v; return TABLE_BYTE(&frame_rows[0][n][0]); }\n'
    (tmp_path / "use.c").write_text(body, encoding="utf-8")
    ram = []
    for define in ([], ["-DTABLE_IN_RAM"]):
        subprocess.run(
            [tool("avr-gcc"), "-mmcu=atmega328p", "-Os", *define, "-o", "use.elf", "use.c"],
            cwd=tmp_path,
            check=True,
        )
        out = subprocess.run(
            [tool("avr-size"), "use.elf"], cwd=tmp_path, check=True, capture_output=True, text=True
        ).stdout
        ram.append(int(out.splitlines()[1].split()[1]))
    assert ram[0] == 0
    assert ram[1] >= len(frame_bytes(example.flash.frames))


def test_a_table_of_the_other_polarity_is_refused(example: Made) -> None:
    other = replace(example.flash.driver.wiring, active="low")
    with pytest.raises(InputError, match="differ in what lights"):
        frame_table(example.flash.table, other)


def test_frames_light_what_they_name(board: Made) -> None:
    frames = board.flash.frames
    segments = {glyph.char: glyph.segments for glyph in frames.glyphs.glyphs}
    for (digit, char), frame in frames.frames.items():
        assert lit_by_frame(frames.wiring, frame) == {(digit, name) for name in segments[char]}
