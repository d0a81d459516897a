"""All forms at once."""

from __future__ import annotations

from segkit.firmware.exporters import EXPORTERS, export_all
from segkit.firmware.table import glyph_table
from segkit.glyphs.bitmask import parse_order


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
