"""The table before it takes the form of a language."""

from __future__ import annotations

import pytest

from segkit.catalog.reader import registers
from segkit.errors import InputError
from segkit.firmware.table import GlyphTable, glyph_table, one_line
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import ChannelMap, channel_map

ORDER = parse_order("dp g f e d c b a")


def chain() -> ChannelMap:
    return channel_map(lamps=lamps("8.8"), register=registers()["hc595"], order=ORDER)


def heading(table: GlyphTable) -> str:
    return "\n".join(table.heading)


def test_blank_is_always_there_and_rows_stand_by_code() -> None:
    table = glyph_table(characters="91A0", order=ORDER)
    assert [glyph.char for glyph in table.glyphs] == [" ", "0", "1", "9", "A"]
    assert [glyph.code for glyph in table.glyphs] == sorted(glyph.code for glyph in table.glyphs)
    assert table.glyphs[2].name == "DIGIT ONE"
    assert table.glyphs[2].drawing == ("    ", "  | ", "  | ")


def test_polarity() -> None:
    low = glyph_table(characters="1", order=ORDER, active="low")
    assert (low.blank, low.point_bit, low.glyphs[1].mask) == (0xFF, 0x80, 0xF9)
    assert "a 0 lights" in heading(low)
    assert "a 1 lights" in heading(glyph_table(characters="1", order=ORDER))


def test_heading_has_order_tails_and_the_bytes_of_the_chain() -> None:
    table = glyph_table(characters="1", order=ORDER, title="Pool clock", stamp="abc", channel_map=chain())
    text = heading(table)
    assert "Glyph table: Pool clock" in text
    assert "Made from: abc" in text
    assert "Bits 7 to 0: dp g f e d c b a" in text
    assert "6 with tail, 7 without tail, 9 with tail" in text
    assert "byte 1: chip 2, digit 2; bits 7 to 0: spare g f e d c b a" in text
    assert "byte 2: chip 1, digit 1; bits 7 to 0: dp g f e d c b a" in text


def test_order_must_be_the_chains() -> None:
    with pytest.raises(InputError, match="not the order of the chain"):
        glyph_table(characters="1", order=ORDER[::-1], channel_map=chain())


def test_all_impossible_characters_are_named() -> None:
    with pytest.raises(InputError, match="K, M and \U0001f600 cannot be shown"):
        glyph_table(characters="1KM\U0001f600", order=ORDER)


@pytest.mark.parametrize(
    "hostile", ["*/", "/*", "*//", "/*/", "a\nb", "a\r\x85\u2028b", "\\", "??/", "???/", "\x00", "\u202e"]
)
def test_nothing_breaks_a_comment(hostile: str) -> None:
    safe = one_line(f"x{hostile}y{hostile}")
    assert not any(mark in safe for mark in ("*/", "/*", "\\", "??", "\u202e", "\x00"))
    assert len(safe.splitlines()) == 1
    assert safe.startswith("x")
