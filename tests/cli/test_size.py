import json
import os
import subprocess
import sys
import time

import pytest
from typer.testing import CliRunner

from segkit.errors import InputError
from segkit.viewing.legibility import digit_height, reading_distance
from tests.cli.yard import app

HEAVY = {"numpy", "shapely", "matplotlib", "ezdxf", "cairosvg", "pydantic"}


def run(*arguments):
    return CliRunner().invoke(app, ["size", *arguments])


def as_json(*arguments):
    result = run(*arguments, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def faults(*arguments):
    result = run(*arguments)
    assert isinstance(result.exception, InputError)
    assert result.stdout == ""
    return [(problem.key, problem.text) for problem in result.exception.problems]


def test_first_line_answers():
    first = run("24m").stdout.splitlines()[0]
    assert first == "279 mm (11 in) tall for a reader with 20/40 eyesight 24 m (78 ft 9 in) away."
    first = run("--height", "300 mm").stdout.splitlines()[0]
    assert first == "300 mm (11.8 in) reads up to 25.78 m (84 ft 7 in) away for a reader with 20/40 eyesight."


def test_table_shows_every_rule_and_marks_the_chosen_one():
    out = run("24m", "--baseline", "5 ft").stdout
    for row in digit_height(distance_m=24.0, baseline_m=1.524).criteria:
        assert row.name in out
    marked = [line for line in out.splitlines() if line.startswith("→")]
    assert len(marked) == 1
    assert "comfort" in marked[0]
    assert "279 mm" in marked[0]


def test_json_has_the_promised_keys_and_the_stage_numbers():
    data = as_json("22m")
    answer = digit_height(distance_m=22.0)
    assert data["height_mm"] == answer.height_mm
    assert data["distance_m"] == 22.0
    assert data["chosen"] == "comfort"
    assert data["findings"] == []
    assert {"name", "arcmin", "height_mm", "source"} <= set(data["criteria"][0])
    assert [row["name"] for row in data["criteria"]] == [row.name for row in answer.criteria]


def test_json_of_the_reverse_question():
    data = as_json("--height", "300mm", "--eyesight", "6/6")
    answer = reading_distance(height_mm=300.0, eyesight=20.0)
    assert data["height_mm"] == 300.0
    assert data["distance_m"] == pytest.approx(answer.distance_m)
    assert [row["distance_m"] for row in data["criteria"]] == [row.distance_m for row in answer.criteria]


def test_options_reach_the_stage():
    options = ("--eyesight", "20/60", "--angle", "70 deg", "--vertical-angle", "20°", "--comfort", "generous")
    data = as_json("72 ft", *options, "--stroke", "1/8", "--width", "150 %")
    answer = digit_height(
        distance_m=21.9456,
        eyesight=60.0,
        angle_deg=70.0,
        vertical_angle_deg=20.0,
        comfort="generous",
        stroke_ratio=1 / 8,
    )
    assert data["height_mm"] == pytest.approx(answer.height_mm)
    assert data["findings"] == []


def test_the_same_length_in_feet_and_in_metres():
    assert (
        as_json("6'3\"")["height_mm"] == as_json("1.905 m")["height_mm"] == as_json("6 ft 3 in")["height_mm"]
    )


def test_light_adds_what_is_asked():
    data = as_json("24m", "--light", "dusk")
    assert data["light"]["ambient_lx"] == 400.0
    assert data["light"]["asked_cd_m2"]["white"] == pytest.approx(600.0)
    assert "600 white" in run("24m", "--light", "400 lx").stdout
    assert "light" not in as_json("24m")


def test_narrow_from_the_side_is_said_but_no_error():
    result = run("24m", "--angle", "40 deg")
    assert result.exit_code == 0
    assert "narrow-from-side" in result.stdout
    assert "182 mm" in result.stdout  # 0.5 / cos 40 deg of 279 mm


def test_all_faults_in_one_message():
    found = faults(
        "22", "--height", "3", "--eyesight", "40", "--angle", "95deg", "--comfort", "comfy", "--stroke", "30mm",
        "--light", "moon", "--baseline", "1,5 m",
    )  # fmt: skip
    keys = [key for key, _ in found]
    assert keys == [
        "",
        "DISTANCE",
        "--height",
        "--eyesight",
        "--angle",
        "--light",
        "--comfort",
        "--stroke",
        "--baseline",
    ]


@pytest.mark.parametrize("arguments", [(), ("24m", "--height", "300mm")])
def test_one_question_at_a_time(arguments):
    ((key, text),) = faults(*arguments)
    assert key == ""
    assert "a distance" in text


@pytest.mark.parametrize("distance", ["0 m", "-3 m", "24", "24 V", "12,5 m", "", "9000 m", "nan m"])
def test_bad_distances(distance):
    # "--" lets a value that begins with a minus through, as a user would have to write it.
    result = run("--", distance)
    assert isinstance(result.exception, InputError)
    assert result.exception.problems[0].key == "DISTANCE"


def test_through_the_front_door():
    python = [sys.executable, "-m", "segkit", "size"]
    bad = subprocess.run([*python, "24 V"], capture_output=True, text=True, encoding="utf-8", check=False)
    assert bad.returncode == 2
    assert bad.stdout == ""
    assert "DISTANCE" in bad.stderr
    assert "Traceback" not in bad.stderr
    helped = subprocess.run(
        [*python, "--help"], capture_output=True, text=True, encoding="utf-8", check=False
    )
    assert helped.returncode == 0
    assert "segkit size" in helped.stdout
    assert "--eyesight" in helped.stdout


def test_loads_no_heavy_library():
    code = (
        "import sys; from segkit.cli import main; sys.argv = ['segkit', 'size', '24m', '--light', 'dusk', '--angle', "
        "'40 deg']\ntry: main.run()\nexcept SystemExit: pass\nprint('|' + ' '.join(sys.modules))"
    )
    environment = {**os.environ, "PYTHONIOENCODING": "utf-8"}
    made = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
        env=environment,
    )
    loaded = {name.split(".")[0] for name in made.stdout.rpartition("|")[2].split()}
    assert "segkit" in loaded
    assert not loaded & HEAVY


def test_answers_within_twice_the_time_of_its_bare_libraries():
    def seconds(*arguments):
        start = time.perf_counter()
        subprocess.run([sys.executable, *arguments], capture_output=True, check=True)
        return time.perf_counter() - start

    rounds = [(seconds("-c", "import typer, rich"), seconds("-m", "segkit", "size", "22m")) for _ in range(9)]
    bare, answered = (min(times) for times in zip(*rounds, strict=True))  # the fastest round: least disturbed
    assert answered <= 2 * bare, f"{answered:.3f} s against {bare:.3f} s"


@pytest.mark.parametrize("arguments", [("2000m",), ("300m", "--angle", "75 deg", "--eyesight", "20/400")])
def test_digits_of_the_size_of_a_house_are_refused(arguments):
    assert [key for key, _ in faults(*arguments)] == ["DISTANCE"]
