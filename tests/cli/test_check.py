"""segkit check: numbers and findings, exit codes, nothing written."""

import json
from pathlib import Path

from tests.cli.yard import BARREL, BOULES, BROKEN, TOO_SMALL, design, segkit


def test_a_sound_design_exits_0_and_prints_its_numbers(tmp_path: Path) -> None:
    done = segkit("check", BOULES, folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "280 mm" in done.stdout
    assert "What lights a segment" in done.stdout
    assert "This can be built" in done.stdout
    assert list(tmp_path.iterdir()) == []


def test_json_has_the_keys_that_programs_rely_on() -> None:
    data = json.loads(segkit("check", BOULES, "--json").stdout)
    assert data["ok"] is True
    assert {"level", "code", "subject", "text", "value", "limit", "source", "keys"} <= set(
        data["findings"][0]
    )
    assert {"kind", "strings", "current_a", "highest_a"} <= set(data["circuits"][0])
    assert data["numbers"]["viewing.height_built"] == {
        "value": 280.0,
        "unit": "mm",
        "title": "Digit height as built",
    }


def test_notes_are_short_unless_they_are_asked_for() -> None:
    short, long = (segkit("check", BOULES, *more).stdout for more in ((), ("--notes",)))
    for told in (short, long):
        assert "At power-on the outputs hold a random" in told
    assert "dark-at-power-on" not in short
    assert "add --notes" in short
    assert "dark-at-power-on" in long
    assert "--notes" not in long


def test_a_stop_exits_1_and_says_so(tmp_path: Path) -> None:
    path = design(tmp_path, TOO_SMALL)
    done = segkit("check", path)
    assert done.returncode == 1
    assert "too-small-to-read" in done.stdout
    assert "in the file: digit.height, reading.distance" in done.stdout
    assert "Do not build this yet" in done.stdout
    assert json.loads(segkit("check", path, "--json").stdout)["ok"] is False


def test_unusable_input_exits_2_with_every_fault_on_stderr_and_no_traceback(tmp_path: Path) -> None:
    done = segkit("check", design(tmp_path, BROKEN))
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("3 things to mend:\n")
    for words in ("yard.toml", "digit.heigth", 'Did you mean "height"?', "digit.stroke", "power.supply"):
        assert words in done.stderr
    assert "Traceback" not in done.stderr


def test_a_missing_file_says_how_to_make_one() -> None:
    done = segkit("check", "no_such.toml")
    assert (done.returncode, done.stdout) == (2, "")
    assert "no such file" in done.stderr
    assert "segkit new" in done.stderr


def test_every_name_in_the_table_can_be_asked_for() -> None:
    from segkit.cli.design_file import solved
    from segkit.cli.why import matching
    from segkit.report.glance import glance

    for project in (solved(BOULES), solved(BARREL)):
        for row in glance(project):
            lines, _ = matching(project, row.ask)
            assert lines, row
