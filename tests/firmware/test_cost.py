"""Flash and RAM as printed, held against the compiler."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from segkit.firmware.cost import bit_hz, flash_bytes, lines, ram_bytes
from segkit.working import evaluate
from tests.conftest import missing
from tests.firmware.conftest import ROOT, Made, whole_program

Tool = Callable[[str], str]


@pytest.mark.tool
def test_flash_and_ram_are_what_the_compiler_makes(board: Made, tool: Tool) -> None:
    driver = board.flash.driver
    flash, ram = whole_program(board.folder / "c", compiler=tool("avr-gcc"), sizer=tool("avr-size"))
    assert ram <= ram_bytes(driver) + 2
    if driver.digits > 1:
        assert flash_bytes(driver) == pytest.approx(flash, rel=0.03)
        assert ram_bytes(driver) == pytest.approx(ram, abs=2)
    assert flash <= 1.03 * flash_bytes(driver)


def test_lines_give_what_they_print(board: Made) -> None:
    names = []
    for line in lines(board.flash.driver):
        names.append(line.name)
        assert evaluate(line.formula, {given.symbol: given.value for given in line.inputs}) == pytest.approx(
            line.value
        )
    assert names == ["firmware.flash", "firmware.ram", "firmware.wire_time"]


def test_bits_are_no_faster_than_the_wires_bear(board: Made) -> None:
    """Pin by pin the code itself sets the pace, a little above 1 MHz at its fastest."""
    driver = board.flash.driver
    assert bit_hz(driver) <= 1.15 * driver.clock_hz


@pytest.mark.tool
def test_targets_of_the_benchmark_are_met(tool: Tool) -> None:
    """Cycles a bit, times the bare wire, text to frame: counted on the simulated chip, so the same everywhere."""
    if not Path("/usr/include/simavr/sim_avr.h").is_file():
        missing("libsimavr-dev")
    tool("avr-gcc")
    command = [sys.executable, str(ROOT / "tests/benchmarks/firmware.py")]
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=os.environ)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "all targets met" in done.stdout
