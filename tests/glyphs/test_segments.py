"""The order of the segments."""

from __future__ import annotations

from segkit.glyphs.segments import ALL, COLON, POINT, SEGMENTS


def test_eight_names_for_a_byte() -> None:
    """a on top, clockwise to f, g in the middle: the lettering of every decoder data sheet."""
    assert tuple("abcdefg") == SEGMENTS
    assert (*SEGMENTS, POINT) == ALL
    assert len(ALL) == 8
    assert COLON not in ALL
