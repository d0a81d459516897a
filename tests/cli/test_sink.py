import json

import pytest
from typer.testing import CliRunner

from segkit.catalog import reader
from segkit.electrical.driver import thermal_resistance
from segkit.errors import InputError
from tests.cli.yard import app


def run(*arguments):
    return CliRunner().invoke(app, ["sink", *arguments])


def as_json(*arguments):
    return json.loads(run(*arguments, "--json").stdout)


def keys(*arguments):
    result = run(*arguments)
    assert isinstance(result.exception, InputError)
    return {problem.key for problem in result.exception.problems}


def test_first_line_answers():
    first = " ".join(
        run("darlington-sink-8", "--current", "40mA", "--on", "8").stdout.split("\n\n")[0].split()
    )
    assert "8 outputs at 40 mA make 0.35 W, junction 80 °C, limit 125 °C." in first
    assert "Each of them may carry 100 mA." in first


def test_numbers_by_hand():
    found = as_json("darlington-sink-8", "--current", "40mA", "--on", "8", "--air", "50")
    theta = thermal_resistance(reader.sink("darlington-sink-8"))
    assert found["heat_w"] == pytest.approx(8 * 0.040 * 1.1)  # the worst drop of the data sheet up to 100 mA
    assert found["junction_c"] == pytest.approx(50 + theta * found["heat_w"])
    assert len(found["rows"]) == 8


def test_a_register_alone_stops():
    result = run("register-direct-hc595", "--current", "20mA")
    assert result.exit_code == 1
    assert "70 mA" in result.stdout


def test_all_of_them_side_by_side():
    found = as_json("--current", "40mA")["drivers"]
    assert "constant-current-sink-8" not in {row["driver"] for row in found}
    more = as_json("--current", "20mA", "--spare", "2V")["drivers"]
    assert "constant-current-sink-8" in {row["driver"] for row in more}
    assert "segkit sink DRIVER" in run("--current", "40mA").stdout


def test_all_faults_at_once():
    assert keys("tree", "--on", "0") == {"DRIVER", "--on", "--current"}
    assert keys("darlington-sink-8", "--current", "1mA", "--on", "9", "--spare", "1V") == {"--on", "--spare"}
    assert keys("constant-current-sink-8", "--current", "20mA") == {"--spare"}
