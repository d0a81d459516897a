"""Faults named by what the board shows."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given
from hypothesis import strategies as st

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import DIGITS, segments_of
from segkit.glyphs.faults import fingerprints, sent_as
from segkit.glyphs.segments import ALL

Published = Callable[[str], list[dict[str, str]]]
WIRED, OTHER = parse_order("dp g f e d c b a"), parse_order("a b c d e f g dp")


def test_order_reversed_as_worked_out_by_hand(published: Published) -> None:
    rows = [row for row in published("glyphs") if row["what"].startswith("order reversed")]
    assert len(rows) == 8
    shown = {s.char: s for s in sent_as("1238", order=WIRED, sent=OTHER)}
    listed = {s.char: s for s in fingerprints("1238", order=WIRED)[0].shown}
    for row in rows:
        for found in (shown[row["inputs"]], listed[row["inputs"]]):
            byte, lights = f"{found.value:02X}", " ".join(found.lights)
            assert row["published"] == (byte if row["what"].endswith("byte") else lights), row


@given(st.permutations(ALL).map(tuple), st.sampled_from(("high", "low")))
def test_sent_in_the_right_order_is_as_meant(order: tuple[str, ...], active: str) -> None:
    for shown in sent_as(DIGITS, order=order, sent=order, active=active):  # type: ignore[arg-type]
        assert shown.lights == segments_of(shown.char)
        assert shown.reads == shown.char


@given(st.permutations(ALL).map(tuple), st.sampled_from(("high", "low")))
def test_wire_faults_do_not_depend_on_order_or_polarity(order: tuple[str, ...], active: str) -> None:
    for row in fingerprints("0258", order=order, active=active)[4:]:  # type: ignore[arg-type]
        name, fault = row.fault.split()
        for shown in row.shown:
            lit = set(segments_of(shown.char))
            assert set(shown.lights) == (lit - {name} if fault == "dark" else lit | {name})


def test_inverted_fingerprint_lights_what_was_dark() -> None:
    row = fingerprints(DIGITS, order=WIRED)[1]
    assert row.fault == "inverted"
    for shown in row.shown:
        assert set(shown.lights) == set(ALL) - set(segments_of(shown.char))
