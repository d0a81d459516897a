"""The chapter on the controller."""

from __future__ import annotations

import re
from dataclasses import replace

from segkit.design.reader import design_from_text
from segkit.project import Project
from segkit.report.flashing import SHOWN, fault_rows, flashing_tables
from tests.firmware.conftest import flash_of


def test_faults_are_those_of_the_field(barrel: Project) -> None:
    """Sent in the other order, 0x06 arrives as 0x60 (f g), 0x5B as 0xDA, 0x7F as 0xFE (no a, but the point)."""
    rows = {row.fault: row.lamps for row in fault_rows(barrel)}
    assert list(rows)[:5] == ["none", "order reversed", "inverted", "one bit late", "one bit early"]
    assert len(rows) == 1 + 4 + 14
    lit = {fault: [picture.count("#1d2329") for picture, _ in lamps] for fault, lamps in rows.items()}
    assert lit["none"] == [7, 2, 5]
    assert lit["order reversed"] == [7, 2, 5]
    assert lit["inverted"] == [1, 6, 3]
    assert [read for _, read in rows["none"]] == [f"reads {char}" for char in SHOWN]
    assert rows["g dark"][0][1] == "reads 0"
    assert rows["a stuck"][1][1] == "reads 7"


def test_pins_cost_and_steps(barrel: Project) -> None:
    tables = {table.title: table for table in flashing_tables(barrel)}
    assert ("data", "14", "D11", "GP19") in tables["Pins"].rows
    flash = next(line for line in barrel.lines if line.name == "firmware.flash")
    assert f"about {flash.value:.0f} of 32768 bytes" in tables["Pins"].text
    assert any("segkit walk" in step for step in tables["The first evening"].steps)
    assert "The board as built" not in tables
    (first, *_) = tables["What a fault looks like"].rows
    assert first[1] == re.search(r"\d+", tables["What a fault looks like"].head[1])[0][::-1]  # type: ignore[index]


def test_the_board_as_built_has_its_map(barrel: Project) -> None:
    text = '[display]\nlayout = "88.8"\n[as_built]\nactive = "low"\nchips = ["3a 3b 3c 3d 3e 3f 3g -", '
    text += '"2a 2b 2c 2d 2e 2f 2g 2dp", "1a+1b - 1c 1d 1e 1f 1g -"]\n'
    built = replace(barrel, flash=flash_of(design_from_text(text)))
    (table,) = (table for table in flashing_tables(built) if table.title == "The board as built")
    assert table.rows[2] == ("3", "1a+1b", "-", "1c", "1d", "1e", "1f", "1g", "-")
    assert "a 0 lights" in table.text
    lit = [picture.count("#1d2329") for picture, _ in fault_rows(built)[0].lamps]
    assert lit == [7, 2, 5], "the same digits, though a 0 lights"


def test_code_for_turns_is_named_where_there_is_some(barrel: Project) -> None:
    text = '[display]\nlayout = "88.8"\n[turns]\ndigits = 3\n'
    (steps,) = (
        t for t in flashing_tables(replace(barrel, flash=flash_of(design_from_text(text)))) if t.steps
    )
    assert "firmware/turns" in steps.text
    (steps,) = (t for t in flashing_tables(barrel) if t.steps)
    assert "firmware/turns" not in steps.text
