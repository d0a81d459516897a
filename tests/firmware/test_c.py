"""The C header, through a C compiler: no warning, and every look-up as published."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from segkit.catalog.reader import registers
from segkit.firmware.c import glyph_header
from segkit.firmware.table import GlyphTable, glyph_table
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import CHARACTERS
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import channel_map

Published = Callable[[str], list[dict[str, str]]]
Tool = Callable[[str], str]
HOSTILE = 'Lane 4 */ this is no C /* "q" \\\n#error no\n??/\nend \\'
STRICT = ("-std=c99", "-Wall", "-Wextra", "-Wpedantic", "-Wshadow", "-Wconversion", "-Werror")

_PROGRAM = """\
#include <stdio.h>
#include "glyph_table.h"
#include "glyph_table.h"

int main(void)
{
    unsigned int code;

    for (code = 0u; code < 0x200u; code++) {
        printf("%u %u %u\\n", code, glyph_mask((uint16_t)code), glyph_mask_with_point((uint16_t)code));
    }
    return 0;
}
"""


def compiled(table: GlyphTable, gcc: str, folder: Path) -> dict[int, tuple[int, int]]:
    """code -> (mask, mask with point) as the compiled look-up returns them."""
    (folder / "glyph_table.h").write_text(glyph_header(table), encoding="utf-8")
    (folder / "main.c").write_text(_PROGRAM, encoding="utf-8")
    build = subprocess.run(
        [gcc, *STRICT, "-o", "main", "main.c"], cwd=folder, capture_output=True, text=True, check=False
    )
    assert (build.returncode, build.stderr) == (0, "")
    run = subprocess.run([str(folder / "main")], capture_output=True, text=True, check=True)
    found = (tuple(map(int, line.split())) for line in run.stdout.splitlines())
    return {code: (value, pointed) for code, value, pointed in found}


@pytest.mark.tool
@pytest.mark.parametrize("active", ["high", "low"])
@pytest.mark.parametrize("text", ["dp g f e d c b a", "dp a b c d e f g"])
def test_compiled_look_up(tool: Tool, published: Published, tmp_path: Path, text: str, active: str) -> None:
    order = parse_order(text)
    table = glyph_table(
        characters=[*CHARACTERS, *"679"],
        order=order,
        active=active,  # type: ignore[arg-type]
        title=HOSTILE,
        stamp=HOSTILE,
        channel_map=channel_map(lamps=lamps("88:88"), register=registers()["hc595"], order=order),
    )
    found = compiled(table, tool("gcc"), tmp_path)
    rows = [row for row in published("glyphs") if row["what"] == f"mask {text}"]
    assert len(rows) == 16
    flip = 0 if active == "high" else 0xFF
    for row in rows:
        right = int(row["published"], 16)
        assert found[ord(row["inputs"])] == (right ^ flip, (right | 0x80) ^ flip), row
    known = {glyph.code: glyph.mask for glyph in table.glyphs}
    for code, (value, _) in found.items():
        assert value == known.get(code, table.blank)


@pytest.mark.tool
def test_header_without_chain_or_title(tool: Tool, tmp_path: Path) -> None:
    found = compiled(glyph_table(characters="8", order=parse_order("abcdefgdp")), tool("gcc"), tmp_path)
    assert found[ord("8")] == (0xFE, 0xFF)
    assert found[ord("M")] == (0, 1)


def test_a_person_can_read_it() -> None:
    text = glyph_header(glyph_table(characters="1", order=parse_order("dp g f e d c b a"), title="Lap clock"))
    assert text.startswith("/*\n * Glyph table: Lap clock\n")
    assert "{0x0031u, 0x06u}, /* DIGIT ONE: b c */" in text
    assert "#define GLYPH_BIT_DP 7u" in text
    assert "#define GLYPH_BIT_A 0u" in text
