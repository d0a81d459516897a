"""What lights a segment, in words and in numbers."""

import pytest

from segkit.design.reader import design_from_text
from segkit.project import solve
from segkit.report.circuit_rows import circuit_numbers, circuit_rows, circuit_text

BOARD = '[display]\nlayout = "8"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nevenness = 0.3\nper_segment = 5\n'


def test_words_and_numbers_say_the_same() -> None:
    made = solve(design_from_text(BOARD + '[power]\nsupply = "9 V"\nin_series = 3\n'), name="yard")
    (row,), (numbers,) = circuit_rows(made), circuit_numbers(made)
    assert row.strings == "1 of 3 in series and 1 of 2 in series"
    assert [string["leds"] for string in numbers["strings"]] == [3, 2]
    assert sum(string["current_a"] for string in numbers["strings"]) == pytest.approx(numbers["current_a"])
    assert numbers["highest_a"] > numbers["current_a"]
    for string in numbers["strings"]:
        assert f"{string['resistor_ohm']:g} Ω" in row.resistors
    assert "Each string has its own resistor" in circuit_text(made)


def test_a_constant_current_sink_has_no_resistor_in_the_string() -> None:
    made = solve(design_from_text(BOARD + '[power]\ndriver = "constant-current-sink-8"\n'), name="yard")
    (row,) = circuit_rows(made)
    assert set(row.resistors.split(" and ")) == {"none"}
    assert all(string["resistor_ohm"] == 0 for string in circuit_numbers(made)[0]["strings"])
    assert "holds the current" in circuit_text(made)
