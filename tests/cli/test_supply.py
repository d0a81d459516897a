import json
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from segkit.errors import InputError
from tests.cli.yard import app

BOARD = ("--volt", "12V", "--layout", "888888", "--segment", "40mA", "--logic-current", "0mA")


def run(*arguments):
    return CliRunner().invoke(app, ["supply", *arguments])


def as_json(*arguments):
    return json.loads(run(*arguments, "--json").stdout)


def keys(*arguments):
    result = run(*arguments)
    assert isinstance(result.exception, InputError)
    return {problem.key or problem.text for problem in result.exception.problems}


def test_six_digits_of_forty_milliamperes_as_computed_by_hand():
    # 6 x 7 x 40 mA = 1.68 A, at 80 % 2.1 A, next usual size 2.5 A.
    found = as_json(*BOARD)
    assert (found["all_on_a"], found["needed_a"], found["supply_a"]) == (
        pytest.approx(1.68),
        pytest.approx(2.1),
        2.5,
    )
    assert found["mean_a"] == pytest.approx(1.68 * 0.7)
    assert run(*BOARD).stdout.startswith(
        "Buy a 12 V supply of 2.5 A or more: everything lit takes 1.68 A, 20.2 W"
    )


def test_battery_hours_by_peukert():
    # 100 Ah over 20 h, k 1.2, 10 A: 8.7055 h, not 10 h.
    found = as_json(
        "--volt", "12V", "--current", "10A", "--mean", "10A", "--kind", "lead-acid", "--battery", "100Ah"
    )
    assert found["runtime_h"] == pytest.approx(8.7055, abs=0.0001)
    assert "battery-too-short" in {
        f["code"]
        for f in as_json(*BOARD, "--kind", "lithium", "--battery", "2Ah", "--lasts", "5h")["findings"]
    }


def test_content_counts():
    clock = (
        "--volt",
        "12V",
        "--layout",
        "88 88",
        "--segment",
        "10mA",
        "--logic-current",
        "0mA",
        "--content",
        "clock 24 h",
    )
    assert as_json(*clock)["mean_a"] == pytest.approx(0.184)  # 18.4 segments on average


def test_a_linear_regulator_and_a_converter():
    hot = run(
        "--volt",
        "12V",
        "--current",
        "1.68A",
        "--regulator",
        "linear",
        "--logic",
        "5V",
        "--logic-current",
        "208mA",
    )
    assert hot.exit_code == 1
    found = as_json(
        "--volt", "12V", "--current", "1.4A", "--source", "24V", "--run", "12m", "--wire", "0.5mm2"
    )
    assert found["converter"]["input_a"] == pytest.approx(0.822, abs=0.001)
    assert found["needed_a"] == pytest.approx(found["converter"]["input_a"] / 0.8)


def test_too_much_for_one_supply():
    assert run("--volt", "12V", "--current", "90A").stdout.startswith(
        "Divide the board among several supplies"
    )
    assert as_json("--volt", "12V", "--current", "90A")["supply_a"] is None


def test_all_faults_at_once():
    assert keys() == {"--volt", "Nothing says what the board takes."}
    found = keys("--volt", "12", "--current", "1A", "--layout", "88", "--kind", "foo", "--battery", "7Ah")
    assert found == {"--volt", "--kind", "--current and --layout do not go together."}
    assert "--source" in keys(
        "--volt", "12V", "--current", "1A", "--source", "9V", "--run", "1m", "--wire", "1 mm2"
    )
    assert "--regulator" in keys("--volt", "12V", "--current", "1A", "--regulator", "linear")


def test_it_starts_without_heavy_libraries():
    code = (
        "import sys; from typer.testing import CliRunner; from segkit.cli.main import application;"
        "CliRunner().invoke(application(), ['supply', '--volt', '12V', '--current', '1A']);"
        "print(sorted({'numpy', 'shapely', 'pydantic', 'matplotlib'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
