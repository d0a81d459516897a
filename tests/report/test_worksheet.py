"""The printed worksheet: by stage, with the formula written out; it cannot lie."""

from dataclasses import replace

import pytest

from segkit.project import Project
from segkit.report.worksheet import recomputed, worksheet


def test_stages_in_the_order_of_the_job(boules: Project) -> None:
    sheets = worksheet(boules.lines)
    assert [sheet.name for sheet in sheets] == [
        "viewing", "glyphs", "geometry", "optics", "electrical", "wiring", "firmware", "fabrication",
    ]  # fmt: skip
    assert sum(len(sheet.lines) for sheet in sheets) == len(boules.lines)


def test_a_row_shows_formula_numbers_and_source(boules: Project) -> None:
    rows = {row.name: row for sheet in worksheet(boules.lines) for row in sheet.lines}
    row = rows["electrical.resistor_exact.crossbar"]
    assert row.worked.startswith("R = ")
    assert row.worked.endswith("507.14 Ω") or row.worked.endswith("507.14 ohm")
    assert "supply" in row.inputs
    assert row.source


def test_a_wrong_value_would_be_found(boules: Project) -> None:
    for line in boules.lines:
        wrong = replace(line, value=line.value * 1.001 + 0.001)
        assert recomputed(wrong) != pytest.approx(wrong.value, rel=1e-6)
