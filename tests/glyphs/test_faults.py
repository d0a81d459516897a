"""Faults named by what the board shows."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import DIGITS, segments_of
from segkit.glyphs.faults import diagnose, fingerprints, sent_as
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


@pytest.mark.parametrize(
    ("text", "seen", "codes", "words"),
    [
        ("1234", "4123", ["digits-rotated"], "one place too far to the right"),
        ("3210", "2103", ["digits-rotated"], "one place too far to the left"),
        ("1234", "3412", ["digits-rotated"], "2 places too far"),
        ("1234", "4321", ["digits-reversed"], "order of the chain"),
        ("12:34", "43:21", ["digits-reversed"], "order of the chain"),
        ("1234", "1324", ["digits-exchanged"], "digits 2 and 3 are exchanged"),
        ("18", "16", ["segment-dark"], "segment b stays dark in digit 2"),
        ("88", "66", ["segment-dark"], "segment b stays dark in every digit"),
        ("10", "78", ["not-recognised"], "no single fault"),
        ("11", "77", ["segment-stuck"], "segment a is lit"),
        ("1234", "12 4", ["digit-dark"], "nothing is lit in digit 3"),
        ("12", "12", ["as-meant"], "what was meant"),
    ],
)
def test_diagnoses(text: str, seen: str, codes: list[str], words: str) -> None:
    found = diagnose(text, seen)
    assert [finding.code for finding in found] == codes
    assert words in found[0].text


@given(st.text(DIGITS, min_size=4, max_size=4).filter(lambda text: len(set(text)) == 4))
def test_rotations_are_told_from_reversals(text: str) -> None:
    assert [f.code for f in diagnose(text, text[-1] + text[:-1])] == ["digits-rotated"]
    assert [f.code for f in diagnose(text, text[::-1])] == ["digits-reversed"]


@pytest.mark.parametrize("seen", ["123", "", "12345", "12M4"])
def test_refused_sightings(seen: str) -> None:
    with pytest.raises(InputError):
        diagnose("1234", seen)
