"""Findings for the page: stops first, held parts in words."""

from segkit.findings import FILED_PARTS, Finding
from segkit.report.findings_table import PART_NAMES, findings_table, held_parts

NOTE = Finding("note", "n", "digit 1", "is fine.")
STOP = Finding("stop", "s", "web", "is thin.", 2.0, 4.0, "mm", holds=("face", "light_grid"))


def test_stops_first_and_held_parts_in_words() -> None:
    first, second = findings_table([NOTE, STOP])
    assert (first.code, first.held) == ("s", "face board, light grid")
    assert (second.code, second.held) == ("n", "")
    assert first.source == "Common practice"


def test_held_parts_come_from_stops() -> None:
    assert held_parts([NOTE, STOP]) == {"face", "light_grid"}
    assert held_parts([NOTE]) == frozenset()


def test_every_cut_part_has_a_name() -> None:
    assert set(PART_NAMES) == set(FILED_PARTS)
