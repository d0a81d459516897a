import json

import pytest
from typer.testing import CliRunner

from segkit.cli.turns import EXAMPLE
from segkit.errors import InputError
from tests.cli.yard import app


def run(*arguments):
    return CliRunner().invoke(app, ["turns", *arguments])


def test_example_of_the_help():
    result = run(*EXAMPLE.split()[2:])
    assert result.exit_code == 0
    assert result.stdout.startswith(
        "68% of the light of static drive is left, with 30 mA in an LED for 22.5%"
    )


def test_a_blue_and_a_red_digit_on_one_register():
    """5 V, a shared resistor, 74HC595 alone: red takes too much for the chip, and wants a shorter time."""
    result = run("--digits", "2", "--led", "red-5mm-diffused", "--beside", "blue-5mm-clear", "--supply", "5V",
                 "--current", "6.5mA", "--driver", "register-direct-hc595", "--json")  # fmt: skip
    data = json.loads(result.stdout)
    assert result.exit_code == 1
    assert data["resistor_ohm"] == pytest.approx(220, rel=0.05)
    assert data["on_time"]["blue-5mm-clear"] == 1.0
    # 0.57 with fixed voltages; on the LEDs' curves the voltages give way, which brings the two closer
    assert 0.57 < data["on_time"]["red-5mm-diffused"] < 0.75
    red_a, blue_a = (data["turn_ma"][name] for name in ("red-5mm-diffused", "blue-5mm-clear"))
    assert data["on_time"]["red-5mm-diffused"] == pytest.approx(blue_a / red_a)
    assert set(data["on_time_equal_light"]) == {"red-5mm-diffused", "blue-5mm-clear"}
    assert data["sink"]["total_ma"] == pytest.approx(109, rel=0.05)
    assert "register-overload" in {one["code"] for one in data["findings"]}


def test_on_times_in_words():
    text = run("--digits", "2", "--led", "red-5mm-diffused", "--beside", "blue-5mm-clear", "--supply", "9V",
               "--current", "5mA").stdout  # fmt: skip
    row = next(line for line in text.splitlines() if line.startswith("blue-5mm-clear"))
    assert row.split()[3] == "100%"
    assert "For equal charge the red is lit" in " ".join(text.split())


def test_all_bad_options_in_one_message():
    result = run("--digits", "1", "--led", "rd", "--dark", "3 s", "--switch", "relay")
    assert isinstance(result.exception, InputError)
    keys = {problem.key for problem in result.exception.problems}
    assert keys == {"--digits", "--led", "--dark", "--switch", "--current", "--supply"}


def test_a_turn_without_light_is_refused():
    result = run("--digits", "16", "--led", "red-5mm-diffused", "--current", "5mA", "--supply", "12V",
                 "--refresh", "2 kHz", "--dark", "50 us")  # fmt: skip
    assert isinstance(result.exception, InputError)
