"""All forms at once."""

from __future__ import annotations

from segkit.firmware.exporters import EXPORTERS, FRAME_EXPORTERS, export_all, export_frames
from segkit.firmware.table import glyph_table
from segkit.glyphs.bitmask import parse_order
from tests.firmware.conftest import Made


def test_every_form_is_written_the_same_each_time() -> None:
    order = parse_order("dp g f e d c b a")
    one, other = (
        export_all(glyph_table(characters=given, order=order, title="Rain barrel", stamp="v1"))
        for given in ("0123456789", "9876543210")
    )
    assert one == other
    assert list(one) == list(EXPORTERS)
    for name, text in one.items():
        assert text.endswith("\n"), name
        assert "\r" not in text
        assert "\t" not in text


def test_frames_in_every_form(example: Made) -> None:
    made = export_frames(example.flash.frames)
    assert list(made) == list(FRAME_EXPORTERS)
    assert made == export_frames(example.flash.frames)
    assert len(made["glyph_table.bin"]) == len(example.flash.table.glyphs)
    chips, digits = example.flash.frames.wiring.chips, example.flash.frames.digits
    assert len(made["frame_table.bin"]) == chips * digits * len(example.flash.table.glyphs)
