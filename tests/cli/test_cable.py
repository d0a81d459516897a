import json

import pytest
from typer.testing import CliRunner

from segkit.errors import InputError
from tests.cli.yard import app

TWO = ("--run", "12m", "--current", "1.4A", "--supply", "12V")
DIGIT = ("--run", "30m", "--segments", "7", "--current", "100mA", "--core", "24 AWG", "--headroom", "4V")


def run(*arguments):
    return CliRunner().invoke(app, ["cable", *arguments])


def as_json(*arguments):
    return json.loads(run(*arguments, "--json").stdout)


def faults(*arguments):
    result = run(*arguments)
    assert isinstance(result.exception, InputError)
    return {problem.key: problem for problem in result.exception.problems}


def test_first_line_answers():
    lines = run(*TWO, "--core", "0.5mm2").stdout.splitlines()
    assert (
        lines[0] == "Wire 0.5 mm2, flexible over 12 m and back loses 1.31 V of 12 V (10.9%): 10.69 V arrive."
    )
    assert lines[1] == "The thinnest usual size that will do: 1.5 mm2."


def test_numbers_by_hand():
    found = as_json(*TWO, "--core", "0.5mm2")
    assert found["drop_v"] == pytest.approx(2 * 12 * 0.039 * 1.4)  # 39 ohm/km, IEC 60228 class 5
    assert found["thinnest"] == "1.5 mm2"
    warm = as_json(*TWO, "--core", "0.5mm2", "--warm", "70")
    assert warm["drop_v"] == pytest.approx(found["drop_v"] * (1 + 0.00393 * 50))


def test_without_a_core_the_thinnest_that_does_is_named():
    found = as_json(*TWO)
    assert (found["core"], found["thinnest"], found["findings"]) == ("1.5 mm2", "1.5 mm2", [])
    assert as_json(*TWO, "--lost", "12%")["core"] == "0.75 mm2"


def test_evenness_of_a_one_and_an_eight():
    found = as_json(*TWO, "--core", "1.5mm2", "--headroom", "3V")
    volts = [2 * 12 * 0.0133 * 1.4 * share for share in (1, 2 / 7)]
    assert found["evenness"] == pytest.approx((3 + volts[1]) / (3 + volts[0]))
    assert "supply-drop" in {
        f["code"] for f in as_json(*TWO, "--core", "0.5mm2", "--headroom", "2V")["findings"]
    }


def test_seven_segments_share_a_return_as_computed_by_hand():
    # 24 AWG, 30 m: 0.253 V in a segment's wire, 1.768 V in the return of seven.
    found = as_json(*DIGIT)
    assert found["segment_drop_v"] == pytest.approx(0.253, abs=0.0005)
    assert found["return_drop_v"] == pytest.approx(1.768, abs=0.001)
    thick = as_json(*DIGIT, "--common", "2.5 mm2")
    assert thick["evenness"] > 0.9 > found["evenness"]
    assert '"1"' in run(*DIGIT).stdout


def test_a_cable_that_takes_all_ends_with_one():
    result = run("--run", "300m", "--current", "2A", "--supply", "12V", "--core", "0.25 mm2")
    assert result.exit_code == 1
    assert "more than there is" in result.stdout


def test_all_faults_at_once():
    found = faults("--core", "3", "--segments", "x", "--common", "2")
    assert set(found) == {"--core", "--segments", "--common", "--run", "--current", "--headroom"}
    assert set(faults(*TWO, "--common", "2 cores", "--headroom", "13V")) == {"--common", "--headroom"}
    assert "licensed electrician" in str(
        faults("--run", "1m", "--current", "1A", "--supply", "230V")["--supply"]
    )


def test_cores_side_by_side():
    run_ = ("--run", "30m", "--current", "1.2A", "--supply", "24V", "--core", "24 AWG")
    one, four = as_json(*run_), as_json(*run_, "--each-way", "4")
    assert four["loop_ohm"] == pytest.approx(1.263, abs=0.001)
    assert four["drop_v"] == pytest.approx(one["drop_v"] / 4)
    assert set(faults(*run_[:-2], "--each-way", "4")) == {"--each-way"}
    assert "8 cores" in str(faults(*run_[:-2], "--core", "cat5e", "--each-way", "5")["--each-way"])
