"""Upside down, mirrored, one segment wrong."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given
from hypothesis import strategies as st

from segkit.glyphs.characters import DIGITS, near_alikes, segments_of
from segkit.glyphs.readings import mirrored, reads_as, single_faults, turned
from segkit.glyphs.segments import ALL

Published = Callable[[str], list[dict[str, str]]]
lit_sets = st.sets(st.sampled_from(ALL))


def test_published_turns_and_mirrors(published: Published) -> None:
    changes = {"half a turn": turned, "mirror": mirrored}
    rows = [row for row in published("glyphs") if row["what"] in changes]
    assert len(rows) == 14
    for row in rows:
        assert (reads_as(changes[row["what"]](segments_of(row["inputs"]))) or "") == row["published"], row


def test_951_upside_down_is_156_but_for_the_one() -> None:
    """A readout of 9.51 held upside down is taken for 1.56; a segmented 1 then stands on the left."""
    readings = [reads_as(turned(segments_of(digit))) for digit in reversed("951")]
    assert readings == [None, "5", "6"]
    assert turned(segments_of("1")) == ("e", "f")


@given(lit_sets)
def test_twice_is_nothing(lit: set[str]) -> None:
    assert set(turned(turned(lit))) == set(mirrored(mirrored(lit))) == lit


def test_single_faults_are_the_pairs_one_segment_apart() -> None:
    faults = single_faults()
    assert len(faults) == 2 * len(near_alikes(DIGITS))
    for fault in faults:
        lit, other = set(segments_of(fault.char)), set(segments_of(fault.reads))
        assert (lit - other if fault.fault == "dark" else other - lit) == {fault.segment}
    assert [(f.segment, f.reads) for f in faults if f.char == "8"] == [("b", "6"), ("e", "9"), ("g", "0")]
