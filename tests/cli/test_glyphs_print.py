"""The answers for people."""

from __future__ import annotations

from tests.cli.yard import segkit


def test_one_faulty_segment_is_told_for_each_digit_in_use() -> None:
    said = segkit("glyphs", "16:45").stdout
    table = said.split("One faulty segment")[1]
    assert "5 (e)" in table
    assert "9 (b), 6 (e)" in table
    assert "2 " not in table.split("stuck")[1]
    assert "One faulty segment" not in segkit("glyphs", "HELP").stdout


def test_upside_down_is_told() -> None:
    said = segkit("glyphs", "61").stdout
    assert 'Upside down it reads "19"' in said
    assert "way round" in said


def test_missing_letters_are_named() -> None:
    done = segkit("glyphs", "MAX 5")
    assert done.returncode == 2
    assert "M and X cannot be shown" in done.stderr
