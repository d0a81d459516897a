"""The readings as the build book and programs get them."""

from __future__ import annotations

from segkit.project import Project
from segkit.report.meter_tables import meter_numbers, meter_tables


def test_every_reading_stands_in_the_table_with_the_name_to_ask_for(clock: Project) -> None:
    readings, wrong = meter_tables(clock)
    names = {line.name for line in clock.lines}
    assert len(readings.rows) == len(meter_numbers(clock))
    for *_, low, typical, high, ask in readings.rows:
        assert f"electrical.{ask}" in names
        assert all(amount[-1] in "VA" for amount in (low, typical, high))
    assert [row[0] for row in wrong.rows] == list(dict.fromkeys(row[0] for row in readings.rows))
    assert all(row[1].endswith(".") for row in wrong.rows)


def test_numbers_for_programs_are_those_of_the_worksheet(clock: Project) -> None:
    value = {line.name: line.value for line in clock.lines}
    for one in meter_numbers(clock):
        assert one["lowest"] <= one["typical"] <= one["highest"]
        assert abs(value[one["line"]] - one["typical"]) <= 1e-9
