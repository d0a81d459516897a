"""Core colours against IEC 60757 and the sequence of DIN 47100 (from memory)."""

from collections.abc import Callable

import pytest

from segkit.catalog.reader import wires
from segkit.wiring.colours import (
    CODES,
    PAINT,
    PLUS_CODE,
    SEGMENT_CODES,
    SEQUENCE,
    SIGNAL_CODES,
    ZERO_CODE,
    code_of,
    name_of,
    split,
)

Published = Callable[[str], list[dict[str, str]]]


@pytest.fixture
def sequence(published: Published) -> list[str]:
    """DIN 47100, cores 1 to 12, from memory; common practice still."""
    rows = [row for row in published("wiring") if row["what"] == "core sequence"]
    return [row["published"] for row in sorted(rows, key=lambda row: int(row["inputs"]))]


def test_codes_are_those_of_the_standard(published: Published) -> None:
    rows = [row for row in published("wiring") if row["what"] == "core colour code"]
    assert dict(CODES) == {row["published"]: row["inputs"] for row in rows}


def test_segments_take_the_sequence_and_leave_red_and_black_to_the_supply(sequence: list[str]) -> None:
    assert list(SEQUENCE) == sequence
    assert [SEGMENT_CODES[name] for name in "abcdefg"] == sequence[:7]
    assert {PLUS_CODE, ZERO_CODE} == {"RD", "BK"}
    assert len(set(SEGMENT_CODES.values()) | {PLUS_CODE, ZERO_CODE}) == len(SEGMENT_CODES) + 2


def test_wires_of_one_loom_differ() -> None:
    assert len(set(SIGNAL_CODES.values())) == len(SIGNAL_CODES)


def test_every_colour_of_the_catalogue_has_a_code_that_reads_back() -> None:
    for wire in wires().values():
        for colour in wire.colours:
            code = code_of(colour)
            assert code == "any" or (name_of(code) == colour and all(part in PAINT for part in split(code)))


@pytest.mark.parametrize("word", ["", "leads", "no core left"])
def test_what_is_no_colour_stays_as_it_is(word: str) -> None:
    assert split(word) == ()
    assert name_of(word) == word
