"""JSON and CSV read back."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable

from segkit.firmware.data import COLUMNS, glyph_csv, glyph_json
from segkit.firmware.table import glyph_table
from segkit.glyphs.bitmask import parse_order, segments_from
from segkit.glyphs.characters import CHARACTERS, Style

Published = Callable[[str], list[dict[str, str]]]
ORDER = parse_order("dp g f e d c b a")
TITLE = 'Lane "4", */\n\u2028 côté'


def test_json_reads_back(published: Published) -> None:
    table = glyph_table(characters="0123456789AbCdEF", order=ORDER, style=Style(), title=TITLE, stamp="s")
    data = json.loads(glyph_json(table))
    assert (data["title"], data["stamp"], data["order"]) == (TITLE, "s", list(ORDER))
    assert data["style"] == {"six": "tail", "seven": "plain", "nine": "tail"}
    masks = {glyph["char"]: glyph["mask"] for glyph in data["glyphs"]}
    for row in published("glyphs"):
        if row["what"] == "mask dp g f e d c b a":
            assert masks[row["inputs"]] == int(row["published"], 16)
    assert all(list(segments_from(g["mask"], ORDER)) == g["segments"] for g in data["glyphs"])


def test_csv_reads_back() -> None:
    table = glyph_table(characters=[*CHARACTERS, *"679"], order=ORDER, active="low")
    text = glyph_csv(table)
    assert "\r" not in text
    rows = list(csv.DictReader(io.StringIO(text)))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == len(table.glyphs)
    for row, glyph in zip(rows, table.glyphs, strict=True):
        assert row["char"] == glyph.char
        assert int(row["mask"]) == int(row["hex"], 16) == int(row["binary"], 2) == glyph.mask
        assert tuple(row["segments"].split()) == glyph.segments == segments_from(glyph.mask, ORDER, "low")
