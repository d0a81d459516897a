"""The typewriter drawing of a glyph."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from segkit.glyphs.picture import picture
from segkit.glyphs.segments import ALL


def test_eight_with_its_point() -> None:
    assert picture(ALL) == (" _  ", "|_| ", "|_|.")


def test_nothing_is_blank() -> None:
    assert picture(()) == ("    ",) * 3


@given(st.sets(st.sampled_from(ALL)))
def test_one_mark_for_each_lit_segment(lit: set[str]) -> None:
    assert sum(mark != " " for line in picture(lit) for mark in line) == len(lit)
    assert {len(line) for line in picture(lit)} == {4}
