"""segkit why: the working of one number, or of a finding."""

import json

from tests.cli.yard import BOULES, segkit


def test_one_number_with_formula_inputs_and_source() -> None:
    done = segkit("why", BOULES, "viewing.eye_limit")
    assert done.returncode == 0, done.stderr
    assert "[viewing.eye_limit]" in done.stdout
    assert "source: Snellen" in done.stdout


def test_the_end_of_a_name_finds_all_kinds() -> None:
    data = json.loads(segkit("why", BOULES, "electrical.resistor", "--json").stdout)
    assert [line["name"] for line in data["lines"]] == [
        "electrical.resistor.crossbar",
        "electrical.resistor.upright",
    ]
    assert data["lines"][0]["written_out"].startswith("Rb = nearest_e24(")


def test_a_finding_can_be_asked_for_by_its_code() -> None:
    data = json.loads(segkit("why", BOULES, "tool-cannot-cut", "--json").stdout)
    assert data["lines"] == []
    assert data["findings"][0]["code"] == "tool-cannot-cut"


def test_without_a_name_all_are_listed() -> None:
    names = json.loads(segkit("why", BOULES, "--json").stdout)["names"]
    assert "viewing.digit_height" in names
    assert len(names) > 50


def test_a_misspelt_name_gets_the_nearest() -> None:
    done = segkit("why", BOULES, "digit_hieght")
    assert done.returncode == 2
    assert 'Did you mean "digit_height"?' in done.stderr
