"""The sketch through the hobby core of the distribution, and on the simulated chip."""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from segkit.glyphs.text import fit
from tests.conftest import missing
from tests.firmware.conftest import Made, made
from tests.firmware.test_simulated_chip import lights, ran

Tool = Callable[[str], str]
CORE = Path("/usr/share/arduino/hardware/arduino/avr")
USUAL = (
    "-Os -flto -ffunction-sections -fdata-sections -mmcu=atmega328p -DF_CPU=16000000L -DARDUINO=10808 "
    f"-DARDUINO_AVR_UNO -DARDUINO_ARCH_AVR -I{CORE}/cores/arduino -I{CORE}/variants/standard "
    f"-I{CORE}/libraries/SPI/src"
).split()
#: The core's own text class needs a constant that this C++ library does not have.
CXX = ("-std=gnu++11", "-fno-exceptions", "-fno-threadsafe-statics", "-DDECIMAL_DIG=__DECIMAL_DIG__")
#: What the code of a sketch may warn of: nothing.
STRICT = ("-Wall", "-Wextra", "-Werror")


@pytest.fixture(scope="session")
def core(tmp_path_factory: pytest.TempPathFactory, tool: Tool) -> Path:
    """The hobby core as one library, in one compiler run a language."""
    if not CORE.is_dir():
        missing("arduino-core-avr")
    folder = tmp_path_factory.mktemp("core")
    c = sorted((CORE / "cores/arduino").glob("*.c"))
    cpp = [*sorted((CORE / "cores/arduino").glob("*.cpp")), CORE / "libraries/SPI/src/SPI.cpp"]
    assembler = sorted((CORE / "cores/arduino").glob("*.S"))
    for command in (
        [tool("avr-gcc"), "-std=gnu11", "-ffat-lto-objects", *USUAL, "-w", "-c", *c],
        [tool("avr-g++"), *CXX, "-fpermissive", *USUAL, "-w", "-c", *cpp],
        [tool("avr-gcc"), "-x", "assembler-with-cpp", *USUAL, "-c", *assembler],
    ):
        subprocess.run(command, cwd=folder, check=True, capture_output=True)
    objects = sorted(path.name for path in folder.glob("*.o"))
    subprocess.run([tool("avr-gcc-ar"), "rcs", "core.a", *objects], cwd=folder, check=True)
    return folder / "core.a"


def sketch_program(board: Made, core: Path, tool: Tool, *, hurry: bool = False) -> Path:
    """The sketch compiled without a warning; in a hurry its pauses are short."""
    folder = board.folder / "sketch"
    text = (folder / "sketch.ino").read_text(encoding="utf-8")
    (folder / "sketch.cpp").write_text(
        text.replace("delay(2000)", "delay(1)") if hurry else text, encoding="utf-8"
    )
    compiled = subprocess.run(
        [tool("avr-g++"), *CXX, *USUAL, *STRICT, "-include", "Arduino.h", "-c", "sketch.cpp"],
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert (compiled.returncode, compiled.stderr) == (0, "")
    linked = [tool("avr-gcc"), "-Os", "-flto", "-fuse-linker-plugin", "-Wl,--gc-sections", "-mmcu=atmega328p"]
    subprocess.run([*linked, "-o", "sketch.elf", "sketch.o", str(core), "-lm"], cwd=folder, check=True)
    return folder / "sketch.elf"


@pytest.mark.tool
def test_sketch_of_every_board_compiles_without_a_warning(board: Made, core: Path, tool: Tool) -> None:
    assert sketch_program(board, core, tool).is_file()


@pytest.mark.tool
@pytest.mark.parametrize("name", ["pool_lap_clock", "zero_lights"])
def test_sketch_starts_dark_and_shows_the_sample(
    core: Path, tool: Tool, simulator: Path, tmp_path: Path, name: str
) -> None:
    """By the serial unit and pin by pin."""
    board = made(name, tmp_path)
    run = ran(simulator, sketch_program(board, core, tool, hurry=True), board.flash.driver, cycles=1_500_000)
    wiring = board.flash.driver.wiring
    dark, everything, sample = (lights(wiring, chips) for _, chips in run.latches)
    assert run.lit > run.latches[0][0], "no light before the first latch pulse"
    assert dark == frozenset()
    assert everything == wiring.lamps
    assert sample == set(fit(board.flash.driver.sample, layout=board.flash.driver.layout).lit)


@pytest.mark.tool
def test_sketch_does_what_is_typed(core: Path, tool: Tool, simulator: Path, tmp_path: Path) -> None:
    board = made("pool_lap_clock", tmp_path)
    typed = "/walk\n/walk\n9:05\nMOM\n99999\n/test\n/dark\n/-\n/-\n8\n"
    program = sketch_program(board, core, tool, hurry=True)
    run = ran(simulator, program, board.flash.driver, cycles=3_000_000, typed=typed)
    wiring, layout = board.flash.driver.wiring, board.flash.driver.layout
    shown = [lights(wiring, chips) for _, chips in run.latches][3:]
    assert shown == [
        set(wiring.outputs[0].lamps),
        set(wiring.outputs[1].lamps),
        set(fit("9:05", layout=layout).lit),
        wiring.lamps,
        frozenset(),
        set(fit("8", layout=layout).lit),
    ], "what cannot be shown changes nothing"


def test_head_of_the_sketch_says_what_to_type(example: Made) -> None:
    head = (example.folder / "sketch/sketch.ino").read_text(encoding="utf-8").split("*/")[0]
    for word in ("/walk", "/test", "/dark", "/+ /-", "/scroll", "115200", example.design.display.title):
        assert word in head
