import json

import pytest
from typer.testing import CliRunner

from segkit.cli.dimming import EXAMPLE
from segkit.errors import InputError
from tests.cli.yard import app


def run(*arguments):
    return CliRunner().invoke(app, ["dimming", *arguments])


def test_levels_without_a_single_option():
    result = run()
    assert result.exit_code == 0
    assert result.stdout.splitlines()[0] == "Counts of 1023, dark to full: 15 45 100 188 317 494 727 1023."


def test_example_of_the_help():
    import shlex

    result = run(*shlex.split(EXAMPLE)[2:])
    assert result.exit_code == 0
    assert "At night no more than 51." in result.stdout  # 5 % of 1023


def test_a_filmed_board_at_490_cycles():
    """490 Hz, frames of 1/60 s, exposure of 1/1000 s: eight bands, half a cycle."""
    data = json.loads(run("--frequency", "490 Hz", "--json").stdout)
    codes = {one["code"]: one for one in data["findings"]}
    assert codes["bands-on-film"]["value"] == pytest.approx(0.49)
    assert "flicker" in codes
    assert data["levels"][3]["share"] == pytest.approx(0.184187, abs=1e-6)


def test_slow_dimming_within_reach_of_a_wet_hand_exits_1():
    slow = run("--frequency", "120 Hz", "--supply", "12.6V", "--touch", "wet")
    assert slow.exit_code == 1
    assert "touch-pulsed" in slow.stdout
    assert run("--supply", "12.6V", "--touch", "wet").exit_code == 0


def test_all_bad_options_in_one_message():
    result = run(
        "--levels", "0", "--bits", "20", "--night", "200 %", "--frequency", "1 MHz", "--touch", "damp"
    )
    assert isinstance(result.exception, InputError)
    keys = {problem.key for problem in result.exception.problems}
    assert keys == {"--levels", "--bits", "--night", "--frequency", "--touch"}
