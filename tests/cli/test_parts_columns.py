from __future__ import annotations

import pytest

from segkit.catalog import reader
from segkit.catalog.columns import column_types
from segkit.cli.parts_columns import COLUMNS, LABELS, NONE_IF_ZERO, figures


def test_every_kind_has_its_columns() -> None:
    assert set(COLUMNS) == set(reader.KINDS)


def test_words_and_zero_rules_name_real_fields() -> None:
    known = {name for entry in reader.KINDS.values() for name in column_types(entry.record_type)}
    assert set(LABELS) <= known
    assert known >= NONE_IF_ZERO


@pytest.mark.parametrize("kind", reader.KINDS)
def test_no_cell_is_empty(kind: str) -> None:
    for part in reader.rows(kind).values():
        assert all(column.cell(part) for column in COLUMNS[kind]), part.id
        assert all(value for _, value, _ in figures(part, reader.written_units(kind))), part.id


def test_figures_keep_the_written_units() -> None:
    rows = {
        words: (value, unit)
        for words, value, unit in figures(reader.led("red-5mm-diffused"), reader.written_units("leds"))
    }
    assert rows["highest current"] == ("30", "mA")
    assert rows["forward voltage, typical"] == ("2", "V")
    assert rows["radiant power"] == ("-", "")
    sink = {
        words: (value, unit)
        for words, value, unit in figures(reader.sink("darlington-sink-8"), reader.written_units("drivers"))
    }
    assert sink["voltage lost, typical and worst"][0].startswith("100 : 0.9 : 1.1, 200")
    assert sink["a 1 switches its output low"] == ("yes", "")
    assert sink["input pins"][0] == "1 2 3 4 5 6 7 8"
