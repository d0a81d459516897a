"""What is measured on whole designs."""

from __future__ import annotations

from pathlib import Path

import pytest

from segkit.design.reader import design_from_text, read_design
from segkit.project import Project, solve

CASES = Path(__file__).parent.parent / "fixtures" / "cases"
PLAIN = '[display]\nlayout = "88:88"\n[power]\n'
STEADY = 'driver = "constant-current-sink-8"\n'
BY_SEGMENT = 'cable = { kind = "cat5e", length = "6 m", carries = "segments" }\n'
COMMON = 'common = { drop = "0.7 V" }\n'


def checked(made: Project) -> None:
    assert made.meter is not None
    lines = {line.name: line for line in made.lines}
    assert len(lines) == len(made.lines)
    for reading in made.meter.readings:
        assert reading.low <= reading.expected <= reading.high, reading
        assert lines[reading.line].value == pytest.approx(reading.expected), reading
        assert lines[reading.line].unit == reading.unit


@pytest.mark.parametrize("more", ["", STEADY, BY_SEGMENT, 'driver = "power-register-8"\n', COMMON])
def test_each_reading_has_its_line_and_lies_in_its_range(more: str) -> None:
    checked(solve(design_from_text(PLAIN + more), name="yard"))


@pytest.mark.parametrize("name", ["potting_bench_two_reds", "ferry_queue_register_alone"])
def test_designs_that_will_not_do_have_readings_too(name: str) -> None:
    checked(solve(read_design(CASES / f"{name}.toml"), name=name))


def test_the_far_digit_gets_what_cable_and_wires_leave() -> None:
    made = solve(design_from_text(PLAIN), name="yard")
    value = {line.name: line.value for line in made.lines}
    assert value["electrical.meter_supply"] == pytest.approx(
        made.parts.supply.nominal_v - value["electrical.supply_drop"] - value["electrical.bus_drop"]
    )


def test_rails_are_measured_at_the_sinks_where_the_cable_brings_segments() -> None:
    made = solve(design_from_text(PLAIN + BY_SEGMENT), name="yard")
    assert made.meter is not None
    assert made.meter.readings[0].probe == "supply rail at the sinks"
    assert made.meter.readings[0].expected == made.parts.supply.nominal_v
