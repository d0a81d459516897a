"""The MicroPython module, run by plain Python."""

from __future__ import annotations

import ast
from collections.abc import Callable
from typing import Any

import pytest

from segkit.catalog.reader import registers
from segkit.firmware.micropython import glyph_module
from segkit.firmware.table import GlyphTable, glyph_table
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import CHARACTERS
from segkit.glyphs.text import fit, lamps
from segkit.wiring.channel_map import channel_map
from segkit.wiring.shift_register import frame

Published = Callable[[str], list[dict[str, str]]]
ORDER = parse_order("dp g f e d c b a")
HOSTILE = "Lane 4 \"\"\" ''' \\\nimport os\r#\x00 */ \x0c\u2028x = 1"


def loaded(table: GlyphTable) -> dict[str, Any]:
    names: dict[str, Any] = {}
    exec(compile(glyph_module(table), "glyph_table.py", "exec"), names)
    return names


def full(active: str) -> GlyphTable:
    return glyph_table(
        characters=[*CHARACTERS, *"679"],
        order=ORDER,
        active=active,  # type: ignore[arg-type]
        title=HOSTILE,
        stamp=HOSTILE,
        channel_map=channel_map(lamps=lamps("88:88"), register=registers()["hc595"], order=ORDER),
    )


@pytest.mark.parametrize("active", ["high", "low"])
def test_every_character(published: Published, active: str) -> None:
    table = full(active)
    module = loaded(table)
    assert module["GLYPHS"] == {glyph.char: glyph.mask for glyph in table.glyphs}
    assert module["ORDER"] == ORDER
    flip = 0 if active == "high" else 0xFF
    for row in published("glyphs"):
        if row["what"] == "mask dp g f e d c b a":
            right = int(row["published"], 16)
            assert module["glyph_mask"](row["inputs"]) == right ^ flip, row
            assert module["with_point"](right ^ flip) == (right | 0x80) ^ flip
    assert module["glyph_mask"]("K") == flip


def test_points_fold_into_the_digit_before() -> None:
    module = loaded(full("high"))
    assert module["digit_bytes"]("12.5") == bytes([0x06, 0x5B | 0x80, 0x6D])
    assert module["digit_bytes"]("12,5") == module["digit_bytes"]("12.5")
    assert module["digit_bytes"](".5") == bytes([0x80, 0x6D])


@pytest.mark.parametrize("active", ["high", "low"])
def test_digit_bytes_are_the_frame_from_its_end(active: str) -> None:
    module = loaded(full(active))
    for layout, text in (("88:88", "12:45"), ("88.8", "72.5"), ("8:88.8", "1:59.7"), ("88", "08")):
        chain = channel_map(lamps=lamps(layout), register=registers()["hc595"], order=ORDER)
        right = frame(chain, fit(text, layout=layout).lit, active=active)  # type: ignore[arg-type]
        assert module["digit_bytes"](text)[::-1] == right, text


def test_hostile_title_stays_in_the_comments() -> None:
    tree = ast.parse(glyph_module(full("high")))
    kinds = [type(node).__name__ for node in tree.body]
    assert kinds == ["Assign"] * 5 + ["FunctionDef"] * 3
