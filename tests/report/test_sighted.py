"""What is wrong with a board, by its own wiring."""

from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.errors import InputError
from segkit.firmware.wiring import frame_of
from segkit.project import Project
from segkit.report.sighted import chain_of, sighted


def test_the_chain_sends_what_the_firmware_sends(clock: Project) -> None:
    chain, wiring = chain_of(clock), clock.flash.driver.wiring
    lit = frozenset((digit, name) for digit, names in clock.sample.items() for name in names)
    assert chain.sent(chain.bits(lit)) == frame_of(wiring, lit)
    assert chain.layout == clock.design.display.layout


def test_as_built_is_what_counts(boules: Project) -> None:
    # A board known to be flipped shows what was meant when its own bytes are sent.
    driver = boules.flash.driver
    flipped = replace(driver, wiring=replace(driver.wiring, active="low"))
    board = replace(boules, flash=replace(boules.flash, driver=flipped))
    assert chain_of(board).active == "low"
    (found,) = (one for one in sighted(board, meant="1", seen="[adefg]") if one.code == "logic-inverted")
    assert "flip the bytes once" in found.remedy


def test_the_sample_is_meant_if_nothing_is_said(boules: Project) -> None:
    assert [one.code for one in sighted(boules, meant="", seen=boules.design.display.sample)] == ["as-meant"]
    with pytest.raises(InputError, match="--seen"):
        sighted(boules, meant="", seen="1")
    with pytest.raises(InputError, match="--meant"):
        sighted(boules, meant="99999", seen="1")


def test_a_full_digit_is_asked_about_only_where_it_alone_is_dark(boules: Project) -> None:
    def codes(meant: str, seen: str) -> list[str]:
        return [one.code for one in sighted(boules, meant=meant, seen=seen)]

    assert codes("18", "1 ")[:2] == ["full-digit-dark", "digit-dark"]
    assert codes("18", " 8")[0] == "digit-dark"
    assert codes("18", "  ")[0] == "digit-dark"
    assert "full-digit-dark" not in codes("18", "1[abcdef]")
