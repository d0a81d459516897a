"""Controller, logic supply, signal cable and card boards follow from firmware, pins and keys of the design."""

from dataclasses import replace

import pytest

from segkit.design.reader import design_from_text
from segkit.firmware.cost import flash_bytes, ram_bytes
from segkit.project import Project, solve
from segkit.report.feed_parts import CABLE_SLACK_M
from segkit.report.logic_parts import logic_parts

BOARD = '[display]\nlayout = "88"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nevenness = 0.3\nper_segment = 4\n'


def solved(text: str) -> Project:
    return solve(design_from_text(BOARD + text), name="yard")


def one(project: Project, words: str):
    (part,) = [part for part in logic_parts(project) if words in part.what]
    return part


def test_the_controller_is_told_by_what_firmware_and_pins_need(boules: Project, clock: Project) -> None:
    part = one(boules, "Microcontroller")
    assert part.used == 1
    assert "4 outputs for data, clock, latch, enable" in part.where
    assert "5 V outputs" in part.what
    assert "3.3 V outputs" in one(clock, "Microcontroller").what  # its registers take 3.3 V signals
    kb = float(part.what.split(" KB")[0].rsplit(" ", 1)[1])
    ram = float(part.what.split(" bytes")[0].rsplit(" ", 1)[1])
    assert kb * 1024 >= 2 * flash_bytes(boules.flash.driver) > kb * 1024 / 2
    assert ram >= 2 * ram_bytes(boules.flash.driver)


def test_a_register_without_output_enable_needs_three_pins(boules: Project) -> None:
    code = boules.flash.driver
    without = replace(code, register=replace(code.register, enable=0))
    where = one(replace(boules, flash=replace(boules.flash, driver=without)), "Microcontroller").where
    assert where.startswith("3 outputs for data, clock, latch;")


@pytest.mark.parametrize(
    ("kind", "what"), [("none", "Supply"), ("linear", "Linear regulator"), ("step-down", "Small step-down")]
)
def test_the_logic_has_one_supply_of_its_voltage_and_current(kind: str, what: str) -> None:
    project = solved(f'[power.regulator]\nkind = "{kind}"\ncurrent = "120 mA"\n')
    part = one(project, "120 mA or more")
    assert part.what.startswith(f"{what}")
    assert "5 V" in part.what
    assert ("own" in part.where) is (kind == "none")


def test_a_controller_away_from_the_board_has_a_cable(boules: Project) -> None:
    away = one(solved('[power.signals]\nlength = "4 m"\n'), "Signal cable")
    assert (away.used, away.unit) == (pytest.approx(4 + CABLE_SLACK_M), "m")
    assert "6 cores" in away.what  # logic supply, 0 V, data, clock, latch, enable
    assert not [part for part in logic_parts(boules) if "Signal" in part.what]


def test_a_board_for_each_card(boules: Project) -> None:
    assert one(boules, "strip board").used == boules.channels.chips
