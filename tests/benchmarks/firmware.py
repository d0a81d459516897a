"""What the generated code costs on an ATmega328P: ``python tests/benchmarks/firmware.py``.

Method. The C code of a board of eight digits on eight registers is compiled with avr-gcc at -Os and runs on a
simulated chip, which counts cycles exactly but takes 1600 cycles for each byte of the serial unit whatever its
clock. Times are taken between two writes to an I/O register, less what an empty pair of writes takes.

* Pin by pin: cycles of one whole ``pins_send`` of 64 bits, latch pulse and call included, over 64.
* Serial unit: the same with 1600 cycles a byte replaced by eight bit times, over the bare time of 64 bits on
  the wire. The waiting loop takes four cycles a turn, and both 1600 and eight bit times are whole turns, so
  that it notices the end as late as on the real chip. Printed beside it: the same with a whole turn more a
  byte, should the real unit be a cycle off. At half the controller's clock the loop itself is the limit.
* Frame: ``board_write`` of eight digits less ``pins_send``: from text to bytes.
* Flash and RAM: avr-size of the first program with every function, beside the figures that a build prints.

Needs avr-gcc, avr-libc, gcc and libsimavr. Exits with 1 when a target is missed.
"""

from __future__ import annotations

import importlib.util
import subprocess
import sys
import tempfile
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

#: Targets: cycles a bit pin by pin; times the bare wire; milliseconds for eight digits.
BIT_CYCLES, WIRE_TIMES, FRAME_MS = 16.0, 1.3, 0.5
SIMULATED_BYTE, LATE = 1600, 4
CLOCK_MHZ = 16.0
EIGHT = '[display]\nlayout = "88888888"\nsample = "12345678"\n'
_PROGRAM = """\
#include "board.h"
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>

static uint8_t bytes[8];

int main(void)
{
    uint8_t pattern[] = {0x00, 0xFF, 0x55}, i, k;

    board_start();
    GPIOR0 = 1;
    GPIOR0 = 2;
    for (i = 0; i < 3; i++) {
        for (k = 0; k < 8; k++) {
            bytes[k] = pattern[i];
        }
        GPIOR0 = 10 + i;
        pins_send(bytes, 8);
        GPIOR0 = 20 + i;
    }
    GPIOR0 = 30;
    board_write("12345678");
    GPIOR0 = 31;
    cli();
    sleep_enable();
    sleep_cpu();
    return 0;
}
"""

missed: list[str] = []


def say(text: str) -> None:
    sys.stdout.write(text + "\n")


def held(what: str, value: float, limit: float, unit: str) -> None:
    """Print a measured value against its target and remember a miss."""
    good = value <= limit
    if not good:
        missed.append(what)
    say(f"  {what:58} {value:8.2f} {unit:12} target <= {limit:g}  {'ok' if good else 'MISSED'}")


def shared() -> ModuleType:
    """What the tests make boards with."""
    spec = importlib.util.spec_from_file_location("boards", ROOT / "tests/firmware/conftest.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["boards"] = module
    spec.loader.exec_module(module)
    return module


def run(*command: str, cwd: Path) -> str:
    return subprocess.run(command, cwd=cwd, check=True, capture_output=True, text=True).stdout


def cycles(boards: ModuleType, simulator: Path, folder: Path, design: str) -> dict[int, int]:
    """Mark to cycle for the program above on a board of eight digits."""
    board = boards.made("eight", folder, design)
    c = folder / "c"
    (c / "costs.c").write_text(_PROGRAM, encoding="utf-8")
    run(
        "avr-gcc",
        "-std=c99",
        "-Os",
        "-Wall",
        "-Werror",
        "-mmcu=atmega328p",
        "-DF_CPU=16000000UL",
        "-o",
        "costs.elf",
        "costs.c",
        "board.c",
        cwd=c,
    )
    chips = str(board.flash.driver.wiring.chips)
    out = run(str(simulator), "costs.elf", chips, "B3", "B5", "B2", "B1", "0", cwd=c)
    rows = [line.split() for line in out.splitlines() if line.startswith("mark")]
    return {int(row[1]): int(row[2]) for row in rows}


def spent(marks: dict[int, int], begin: int, end: int) -> int:
    """Cycles between two marks, less those of the mark itself."""
    return marks[end] - marks[begin] - (marks[2] - marks[1])


def pin_by_pin(boards: ModuleType, simulator: Path, folder: Path) -> None:
    marks = cycles(boards, simulator, folder, EIGHT + '[firmware]\nserial = "bit-banged"\n')
    sends = [spent(marks, 10 + i, 20 + i) for i in range(3)]
    say(f"Pin by pin, 64 bits: {sends[0]} cycles for zeros, {sends[1]} for ones, {sends[2]} mixed")
    held("cycles a bit, the slowest", max(sends) / 64, BIT_CYCLES, "cycles")
    frame(marks, max(sends))


def serial_unit(boards: ModuleType, simulator: Path, folder: Path, clock: str, divider: int) -> None:
    design = f'{EIGHT}[power.signals]\nclock = "{clock}"\n'
    marks = cycles(boards, simulator, folder, design)
    simulated = max(spent(marks, 10 + i, 20 + i) for i in range(3))
    real = simulated - 8 * SIMULATED_BYTE + 8 * 8 * divider
    wire = 64 * divider
    most = (real + 8 * LATE) / wire
    say(
        f"Serial unit at {clock}: {real} cycles for 64 bits; the bare wire takes {wire}; {most:.2f} at the most"
    )
    if divider > 2:
        held(f"times the bare wire at {clock}", real / wire, WIRE_TIMES, "")
    else:
        say(f"  times the bare wire at {clock}, for information {real / wire:20.2f}")


def frame(marks: dict[int, int], send: int) -> None:
    built = spent(marks, 30, 31) - send
    held(f"text to frame, eight digits: {built} cycles", built / CLOCK_MHZ / 1000, FRAME_MS, "ms")


def sizes(boards: ModuleType, folder: Path) -> None:
    from segkit.firmware.cost import flash_bytes, ram_bytes

    say("Flash and RAM of the first program: compiled, and as a build prints it")
    for name in boards.BOARDS:
        board = boards.made(name, folder / name)
        flash, ram = boards.whole_program(folder / name / "c", compiler="avr-gcc", sizer="avr-size")
        driver = board.flash.driver
        say(
            f"  {name:16} {flash:6} byte flash, printed {flash_bytes(driver):6}"
            f" {ram:6} byte RAM, printed {ram_bytes(driver):4}"
        )


def main() -> int:
    boards = shared()
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        simulator = folder / "simulator"
        run(
            "gcc",
            "-O2",
            "-o",
            str(simulator),
            str(ROOT / "tests/firmware/chain_on_pins.c"),
            "-lsimavr",
            cwd=folder,
        )
        pin_by_pin(boards, simulator, folder / "pins")
        serial_unit(boards, simulator, folder / "slow", "1 MHz", 16)
        serial_unit(boards, simulator, folder / "fast", "4 MHz", 4)
        serial_unit(boards, simulator, folder / "fastest", "8 MHz", 2)
        sizes(boards, folder)
    say("all targets met" if not missed else f"missed: {', '.join(missed)}")
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
