"""The command answers the situations that builders met, each with its published figures (worked by hand)."""

import json
import os
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from segkit.cli.resistor import EXAMPLE
from segkit.errors import InputError
from tests.cli.yard import app

HEAVY = {"numpy", "shapely", "matplotlib", "ezdxf", "cairosvg", "pydantic"}
KEYS = {"exact_ohm", "chosen_ohm", "current_ma", "resistor_mw", "rating_mw", "findings"}


def run(*arguments):
    return CliRunner().invoke(app, ["resistor", *arguments])


def as_json(*arguments):
    result = run(*arguments, "--json")
    assert result.exit_code in (0, 1), result.exception
    data = json.loads(result.stdout)
    assert data.keys() >= KEYS
    assert (result.exit_code == 1) == any(finding["level"] == "stop" for finding in data["findings"])
    return data


def stops(data):
    return {finding["code"]: finding for finding in data["findings"] if finding["level"] == "stop"}


def codes(data):
    return {finding["code"]: finding for finding in data["findings"]}


def faults(*arguments):
    result = run(*arguments)
    assert isinstance(result.exception, InputError)
    assert result.stdout == ""
    return {problem.key: problem for problem in result.exception.problems}


def test_example_of_the_help():
    arguments = EXAMPLE.split()[2:]
    data = as_json(*arguments)
    assert data["exact_ohm"] == 145
    assert data["chosen_ohm"] == 150
    assert data["current_ma"] == pytest.approx(19.333, abs=5e-4)
    assert data["resistor_mw"] == pytest.approx(56.1, abs=0.05)
    assert data["rating_mw"] == 125
    assert data["working"][1] == "R = (12 − 1.1 − 4·2) / 0.02 = 145 ohm"
    first = run(*arguments).stdout.splitlines()[0]
    assert first == "Buy 150 ohm, E24, 1/8 W: 19.3 mA through 4 LEDs in series, on 12 V."


def test_eight_white_leds_on_twelve_volts_from_an_e12_kit():
    data = as_json("--supply", "12V", "--vf", "3.0V", "--leds", "8", "--current", "20mA", "--values", "E12")
    assert data["strings"] == [2, 2, 2, 2]
    assert data["chosen_ohms"] == [330] * 4
    assert data["current_ma"] == pytest.approx(18.2, abs=0.05)
    assert data["total_ma"] == pytest.approx(72.7, abs=0.05)
    assert data["resistor_mw"] == pytest.approx(110, abs=1)
    second = data["arrangements"][1]
    assert second["strings"] == [3, 3, 2]
    assert second["chosen_ohms"] == [150, 150, 330]
    assert not stops(data)


def test_eight_white_leds_on_twelve_volts_by_default():
    # 300 ohm is a member of E24 and gives the 20 mA asked for; the E12 kit is named beside it.
    data = as_json("--supply", "12V", "--vf", "3.0V", "--leds", "8", "--current", "20mA")
    assert (data["chosen_ohm"], data["current_ma"]) == (300, 20)
    assert data["e12"]["chosen_ohms"] == [330] * 4
    assert data["e12"]["total_ma"] == pytest.approx(72.7, abs=0.05)
    assert data["arrangements"][1]["e12_ohms"] == [150, 150, 330]
    output = run("--supply", "12V", "--vf", "3.0V", "--leds", "8", "--current", "20mA").stdout
    assert "4 × 330 ohm, 18.2 mA, 72.7 mA in all" in " ".join(output.split())


def test_string_of_three_white_leds_through_a_darlington():
    data = as_json("--supply", "12V", "--vf", "3.0V", "--series", "3", "--current", "20mA", "--drop", "0.9V")
    assert data["exact_ohm"] == pytest.approx(105)
    assert data["chosen_ohm"] == 110
    assert data["current_ma"] == pytest.approx(19.1, abs=0.05)
    assert codes(data)["thin-headroom"]["level"] == "caution"


def test_five_reds_on_a_battery_against_four():
    battery = ("--supply", "12V", "--supply-range", "11 V to 13.8 V", "--vf", "2.0V")
    five = as_json(*battery, "--series", "5", "--ohm", "100")
    assert five["supply_lowest_ma"] == pytest.approx(10)
    assert five["supply_highest_ma"] == pytest.approx(38)
    assert "4 instead of 5" in stops(five)["over-led-limit"]["remedy"]
    four = as_json(*battery, "--series", "4", "--ohm", "220 ohm")
    assert four["supply_lowest_ma"] == pytest.approx(13.6, abs=0.05)
    assert four["supply_highest_ma"] == pytest.approx(26.4, abs=0.05)
    assert not stops(four)
    behind = as_json("--supply", "12V", "--vf", "2V", "--series", "5", "--ohm", "100", "--drop", "0.9V")
    assert behind["current_ma"] == pytest.approx(11)


def test_darlington_headroom_on_five_volts():
    five = ("--supply", "5V", "--vf", "1.8V", "--current", "20mA", "--driver", "darlington-sink-8")
    one = as_json(*five, "--series", "1")
    assert one["drop_v"] == 0.9
    assert one["exact_ohm"] == pytest.approx(115)
    assert one["chosen_ohm"] == 120
    assert one["current_ma"] == pytest.approx(19.2, abs=0.05)
    assert not stops(one)
    two = as_json(*five, "--series", "2")
    assert stops(two)["no-headroom"]["value"] == pytest.approx(0.5)
    assert "0.5 V" in two["answer"]


def test_source_driver_above_a_four_volt_segment_on_five_volts():
    data = as_json("--supply", "5V", "--vf", "4.0V", "--series", "1", "--current", "20mA", "--drop", "1.3V")
    stop = stops(data)["no-headroom"]
    assert "0.3 V short" in stop["text"]
    assert "higher supply" in stop["remedy"]
    assert "MOSFET" in stop["remedy"]
    assert data["chosen_ohm"] is None
    assert data["exact_ohm"] is None


def test_one_resistor_in_the_common_lead():
    data = as_json("--supply", "5V", "--vf", "2.0V", "--series", "1", "--ohm", "220", "--shared-by", "7")
    assert data["current_ma"] == pytest.approx(13.6, abs=0.05)
    assert data["shared"]["fewest_each_ma"] == pytest.approx(6.8, abs=0.05)
    assert data["shared"]["most_each_ma"] == pytest.approx(1.95, abs=0.005)
    assert data["shared"]["ratio"] == 3.5
    assert "own resistor" in stops(data)["common-resistor"]["remedy"]


def test_quarter_watt_that_just_fits():
    white = ("--supply", "12V", "--vf", "3.2V", "--current", "20mA")
    data = as_json(*white, "--series", "1", "--ohm", "470", "--rating", "1/4 W")
    assert data["current_ma"] == pytest.approx(18.7, abs=0.05)
    assert data["resistor_mw"] == pytest.approx(165, abs=0.5)
    assert data["rating_mw"] == 500
    assert "66%" in codes(data)["resistor-hot"]["text"]
    assert "buy 1/2 W, not 1/4 W" in data["answer"]
    three = as_json(*white, "--series", "3")
    assert three["chosen_ohm"] == 120
    assert three["resistor_mw"] == pytest.approx(48)


def test_eight_leds_on_a_register_alone():
    register = ("--supply", "5V", "--vf", "2.0V", "--series", "1", "--driver", "hc595", "--outputs", "8")
    asked = as_json(*register, "--current", "20mA")
    stop = stops(asked)["register-overload"]
    assert (stop["value"], stop["limit"]) == (160, 70)
    assert "2.29 times" in stop["text"]
    assert "510 ohm, 47 mA" in stop["remedy"]
    tried = as_json(*register, "--ohm", "340")
    assert stops(tried)["register-overload"]["value"] == pytest.approx(70.6, abs=0.05)
    good = as_json(*register, "--current", "6mA")
    assert good["chosen_ohm"] == 510
    assert good["driver"]["total_ma"] == pytest.approx(47, abs=0.1)
    assert not stops(good)


def test_half_on_gate():
    data = as_json(
        "--supply", "12V", "--vf", "2V", "--series", "4", "--current", "20mA", "--driver", "mosfet-10v", "--logic", "3.3V"
    )  # fmt: skip
    assert "threshold" in stops(data)["gate-too-low"]["remedy"]


def test_catalogue_led_is_solved_on_its_curve():
    data = as_json(
        "--supply", "12V", "--led", "red-5mm-diffused", "--series", "4", "--current", "20mA", "--drop", "0.9V"
    )
    assert data["current_by"] == "led curve"
    assert data["current_ma"] == data["current_curve_ma"] != data["current_shop_ma"]
    assert data["max_current_ma"] == 30
    assert "limit-assumed" not in codes(data)


def test_constant_current_sink_needs_no_resistor():
    data = as_json(
        "--supply", "12V", "--led", "red-5mm-diffused", "--series", "4", "--current", "20mA", "--driver",
        "constant-current-sink-8",
    )  # fmt: skip
    assert data["chosen_ohm"] is None
    assert data["current_ma"] == 20
    assert not stops(data)


def test_parallel_strings_and_other_series():
    data = as_json(
        "--supply", "12V", "--vf", "2V", "--series", "3", "--parallel", "4", "--current", "20mA", "--values", "e96",
        "--tolerance", "1%", "--vf-range", "1.8V to 2.4V", "--max-current", "25mA",
    )  # fmt: skip
    assert data["strings"] == [3, 3, 3, 3]
    assert data["chosen_ohm"] == 301
    assert data["total_ma"] == pytest.approx(4 * 6 / 0.301)
    assert data["lowest_ma"] == pytest.approx((12 - 7.2) / 0.30401)
    assert "range-not-given" in codes(data)
    chosen = as_json("--supply", "12V", "--vf", "3V", "--leds", "8", "--series", "3", "--current", "20mA")
    assert chosen["strings"] == [3, 3, 2]


def test_nothing_given_names_everything_missing():
    assert faults().keys() == {"--supply", "--vf", "--current"}


def test_all_bad_options_in_one_message():
    found = faults(
        "--supply", "12W", "--vf", "2", "--series", "0", "--current", "20mB", "--tolerance", "90%", "--values", "E25",
        "--outputs", "3", "--led", "nope",
    )  # fmt: skip
    assert {
        "--supply",
        "--vf",
        "--series",
        "--current",
        "--tolerance",
        "--values",
        "--outputs",
        "--led",
    } <= found.keys()
    assert '"E24"' in found["--values"].remedy


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--vf", "2V", "--led", "red-5mm-diffused", "--series", "3"), "do not go together"),
        (("--vf", "2V", "--leds", "8", "--ohm", "100"), "do not go together"),
        (("--vf", "2V", "--series", "9", "--leds", "8"), "longer than the 8 LEDs"),
        (("--vf", "2V", "--vf-range", "2.2V to 2.4V", "--series", "3"), "does not lie in the range"),
        (("--vf", "2V", "--series", "3", "--supply-range", "13V to 14V"), "does not lie in the range"),
        (("--vf", "2V", "--series", "3", "--shared-by", "1"), "shares with nobody"),
        (("--vf", "2V", "--series", "3", "--rating", "1/4 W"), "nothing without --ohm"),
        (("--vf", "2V", "--series", "3", "--driver", "darlingtn"), "no such driver"),
    ],
)
def test_contradictions(arguments, words):
    found = faults("--supply", "12V", "--current", "20mA", *arguments)
    assert any(words in str(problem) for problem in found.values())


def test_voltage_beyond_touch_is_refused_with_the_reason():
    found = faults("--supply", "230V", "--vf", "3V", "--series", "60", "--current", "20mA")
    assert "licensed electrician" in found["--supply"].remedy


def test_exit_codes_and_no_traceback():
    def shell(*arguments):
        return subprocess.run(
            [sys.executable, "-m", "segkit", "resistor", *arguments],
            capture_output=True,
            text=True,
            check=False,
        )

    assert shell(*EXAMPLE.split()[2:]).returncode == 0
    stopped = shell("--supply", "5V", "--vf", "4V", "--series", "1", "--current", "20mA", "--drop", "1.3V")
    assert (stopped.returncode, stopped.stdout[:20]) == (1, "Do not build this: t")
    bad = shell("--supply", "12")
    assert (bad.returncode, bad.stdout) == (2, "")
    assert "Traceback" not in bad.stderr
    assert "3 things to mend" in bad.stderr


def test_no_heavy_library_is_loaded():
    code = (
        "import sys\nfrom segkit.cli.main import application\n"
        f"try:\n    application()({EXAMPLE.split()[1:]!r}, standalone_mode=False)\nexcept SystemExit:\n    pass\n"
        "print(sorted(name.split('.')[0] for name in sys.modules), file=sys.stderr)"
    )
    result = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "COLUMNS": "100"},
    )
    assert "Buy 150 ohm" in result.stdout
    loaded = {name for name in HEAVY if repr(name) in result.stderr}
    assert loaded == set()


def test_what_a_person_leaves_out_is_taken_as_they_mean_it():
    # one LED, if nobody says how many: 5 V, a red of 1.8 V and a Darlington give 120 ohm and 19.2 mA
    one = as_json("--supply", "5V", "--vf", "1.8V", "--current", "20mA", "--drop", "0.9V")
    assert (one["chosen_ohm"], one["strings"]) == (120, [1])
    # a battery has a range: its middle is the supply
    five = as_json("--supply-range", "11 V to 13.8 V", "--vf", "2V", "--series", "5", "--ohm", "100")
    assert (five["supply_lowest_ma"], five["supply_highest_ma"]) == pytest.approx((10, 38))
    assert five["current_ma"] == pytest.approx(24)
    # a chip on its own shows an 8 sooner or later: all its outputs count, here 71 mA of 70 mA
    chip = ("--supply", "5V", "--vf", "2V", "--driver", "hc595")
    assert stops(as_json(*chip, "--ohm", "340"))["register-overload"]["value"] == pytest.approx(
        70.6, abs=0.05
    )
    assert not stops(as_json(*chip, "--ohm", "340", "--outputs", "7"))


def test_dividing_a_supplys_amperes_gives_a_dim_string():
    # The supply's 1.5 A less 0.16 A, taken for the string's: (12 - 6)/1340 is 4.5 mA of the 20 mA wanted.
    data = as_json("--supply", "12V", "--vf", "3V", "--series", "2", "--current", "20mA", "--ohm", "1340")
    assert data["current_ma"] == pytest.approx(4.48, abs=0.005)
    assert "1340 ohm works, dimly" in data["answer"]
    assert "22% of the 20 mA asked for" in data["answer"]
    assert data["exact_ohm"] == 300
    eight = as_json("--supply", "12V", "--vf", "3V", "--series", "8", "--current", "20mA")
    assert "12 V short" in stops(eight)["no-headroom"]["text"]


@pytest.mark.parametrize("count", ["²", "١", "9" * 5000, "4.0", "1e1", "0", "-1", ""])
def test_counts_are_whole_numbers(count):
    assert "--series" in faults("--supply", "12V", "--vf", "2V", "--current", "20mA", "--series", count)


def test_range_that_no_supply_has():
    for text in ("0 V to 5 V", "12 V to 230 V"):
        found = faults("--supply-range", text, "--vf", "2V", "--current", "20mA")
        assert found["--supply-range"].limit == "0.5 V to 60 V"


def test_how_many_reds_in_series_are_safe_on_a_battery():
    # 11 V to 13.8 V: five leave 1 V to 3.8 V for the resistor, four leave 3 V to 5.8 V.
    battery = ("--supply", "12.6V", "--supply-range", "11 V to 13.8 V", "--vf", "2.0V", "--current", "20mA")
    five = codes(as_json(*battery, "--series", "5"))["wide-swing"]
    assert five["value"] == pytest.approx(3.8)
    assert "Put 4 instead of 5 in series" in five["remedy"]
    assert "wide-swing" not in codes(as_json(*battery, "--series", "4"))
    assert as_json(*battery, "--leds", "20")["strings"] == [4] * 5
