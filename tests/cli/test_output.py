"""Printing: tables, findings, problems, several bad options at once."""

import json

import pytest

from segkit.cli import output
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import LENGTH, VOLTAGE, reader_of


def test_gather_reads_all_and_names_every_bad_option() -> None:
    good = output.gather(height=("300 mm", reader_of(LENGTH)), supply=(None, reader_of(VOLTAGE)))
    assert good == {"height": 300.0, "supply": None}
    with pytest.raises(InputError) as caught:
        output.gather(height=("300", reader_of(LENGTH)), supply_min=("12 m", reader_of(VOLTAGE)))
    assert [problem.key for problem in caught.value.problems] == ["--height", "--supply-min"]


def test_fail_lists_problems_on_stderr(capsys: pytest.CaptureFixture[str]) -> None:
    assert output.fail(InputError("one thing.")) == 2
    assert capsys.readouterr().err == "one thing.\n"
    output.fail(InputError([Problem("a."), Problem("b.")]))
    assert capsys.readouterr().err == "2 things to mend:\n- a.\n- b.\n"


def test_json_is_plain_and_keeps_order(capsys: pytest.CaptureFixture[str]) -> None:
    output.print_json({"b": 1, "a": "Ω"})
    text = capsys.readouterr().out
    assert "Ω" in text
    assert list(json.loads(text)) == ["b", "a"]
    with pytest.raises(ValueError, match="JSON"):
        output.print_json({"x": float("nan")})


def test_table_aligns_columns_and_loses_no_text(capsys: pytest.CaptureFixture[str]) -> None:
    output.print_table(("name", "value"), [("stroke", "36 mm"), ("a long name", "5 mm")], right=("value",))
    lines = [line for line in capsys.readouterr().out.splitlines() if "mm" in line]
    assert [line.rstrip() for line in lines] == ["stroke       36 mm", "a long name   5 mm"]


def test_findings_stops_first_with_remedy_code_and_source(capsys: pytest.CaptureFixture[str]) -> None:
    note = Finding("note", "fine", "web", "is fine.")
    stop = Finding("stop", "thin", "web", "is thin.", 1.0, 2.0, "mm", remedy="Widen it.")
    output.print_findings([note, stop])
    text = capsys.readouterr().out
    assert text.index("is thin.") < text.index("is fine.")
    assert "→ Widen it." in text
    assert "[thin; Common practice]" in text


def test_wide_tables_give_way_where_they_can_and_break_no_word(monkeypatch, capsys) -> None:
    monkeypatch.setattr(output, "_width", lambda: 40)
    cell = "one two three four five six"
    output.print_table(("id", "first", "second"), [("red-5mm-diffused", cell, cell)])
    text = capsys.readouterr().out
    assert max(map(len, text.splitlines())) <= 40
    assert "red-5mm-diffused" in text
