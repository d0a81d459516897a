import json

import pytest
from typer.testing import CliRunner

from segkit.errors import InputError
from tests.cli.yard import app


def run(*arguments):
    return CliRunner().invoke(app, ["signals", *arguments])


def test_first_line_answers():
    said = " ".join(run("--run", "20m", "--registers", "10", "--clock", "125kHz").stdout.split())
    assert said.startswith(
        "20 m is long for these edges (long from 0.2 m on). Series resistor at the driving end: 62 ohm."
    )
    assert "takes 640 µs" in said
    assert "differential" in said


def test_numbers_by_hand():
    found = json.loads(run("--run", "5m", "--registers", "8", "--clock", "9600 Hz", "--json").stdout)
    assert found["shift_s"] == pytest.approx(64 / 9600)
    assert [f["code"] for f in found["findings"]] == ["signal-edge"]
    slow = json.loads(run("--run", "2m", "--registers", "8", "--edge", "100 ns", "--json").stdout)
    assert slow["critical_m"] == pytest.approx(100 / 6 / 5)
    assert slow["findings"] == []


def test_all_faults_at_once():
    result = run("--edge", "3", "--impedance", "5 ohm")
    assert isinstance(result.exception, InputError)
    assert {p.key for p in result.exception.problems} == {"--edge", "--impedance", "--run", "--registers"}
