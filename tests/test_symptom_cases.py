"""Boards that show the wrong thing: what ``segkit check --seen`` says of each, with the sum behind it."""

import json
from typing import Any

import pytest
from typer.testing import CliRunner

from segkit.errors import InputError
from tests.cases import CASES
from tests.cli.yard import app


def asked(name: str, *arguments: str) -> dict[str, Any]:
    done = CliRunner().invoke(app, ["check", str(CASES / f"{name}.toml"), *arguments, "--json"])
    assert done.exit_code in (0, 1), done.output
    return json.loads(done.output)


def sights(name: str, meant: str, seen: str) -> list[dict[str, Any]]:
    found = asked(name, "--meant", meant, "--seen", seen)["findings"]
    return [one for one in found if one["subject"] == f'"{meant}" seen as "{seen}"']


# 0x06 -> 0x60, 0x5B -> 0xDA, 0x4F -> 0xF2, 0x7F -> 0xFE: the bits end for end.
@pytest.mark.parametrize(
    ("meant", "seen", "bytes_"),
    [
        ("12", "[fg] [bdeg dp]", "gets 0x60 where 0x06"),
        ("38", "[befg dp] [bcdefg dp]", "gets 0xF2 where 0x4F"),
        ("2", "[bdeg dp]", "gets 0xDA where 0x5B"),
        ("8", "[bcdefg dp]", "gets 0xFE where 0x7F"),
    ],
)
def test_bits_in_the_other_order(meant: str, seen: str, bytes_: str) -> None:
    first = sights("goose_race_laps_with_points", meant, seen)[0]
    assert (first["code"], first["level"]) == ("byte-reversed", "caution")
    assert bytes_ in first["text"]
    assert "most significant bit first" in first["remedy"]


def test_flipped_behind_an_array_that_inverts() -> None:
    # 0x06 XOR 0xFF = 0xF9; 12 - 5 = 7 V still stand across a string on a logic pin.
    inverted, glow = sights("goose_race_laps_with_points", "1", "[adefg dp]")
    assert inverted["code"] == "logic-inverted"
    assert "gets 0xF9 where 0x06 is meant, and lights a d e f g and the point" in inverted["text"]
    assert "a 1 lights" in inverted["remedy"]
    assert "flip nothing" in inverted["remedy"]
    assert (glow["code"], glow["level"], glow["value"]) == ("glow-from-logic-pins", "note", 7.0)
    assert "12 − 5 = 7 V" in glow["text"]


@pytest.mark.parametrize(
    ("meant", "seen", "code", "words"),
    [
        ("12:34", "41:23", "digits-rotated", "one place too far to the right"),
        ("32:10", "21:03", "digits-rotated", "one place too far to the left"),
        ("12:34", "43:21", "digits-reversed", "order of the chain"),
        ("1234", "1324", "digits-exchanged", "2 and 3"),
    ],
)
def test_digits_in_other_places(meant: str, seen: str, code: str, words: str) -> None:
    first = sights("hill_climb_timer_digit_order", meant, seen)[0]
    assert first["code"] == code
    assert words in first["text"]
    if code == "digits-rotated":
        assert "latch it before the next digit" in first["remedy"]
    if code == "digits-reversed":
        assert "farthest register" in first["remedy"]


def test_the_array_is_not_what_fails_when_an_eight_goes_dark() -> None:
    # (12 - 0.9 - 8)/220 = 14.1 mA, x 28 = 395 mA, x 0.9 V = 0.36 W; 500 mA holds for each output.
    name = "hay_loft_counter_sixteen_leds"
    first = sights(name, "8", " ")[0]
    assert (first["code"], first["level"], first["limit"]) == ("full-digit-dark", "caution", 500.0)
    assert first["value"] < 70.0  # mA in one output; what is beside it is no limit of the 394 mA of all seven
    assert "takes 394 mA through 7 outputs and turns 0.355 W to heat" in first["text"]
    assert "inside its limits" in first["text"]
    assert "of each output, not of the package" in first["text"]
    for words in ("Measure both rails, 12 V and 5 V", "folds back", "thin ground", "resistors missing"):
        assert words in first["remedy"]
    assert "full-digit-dark" not in {one["code"] for one in sights(name, "1", " ")}
    read = {one["probe"]: one for one in asked(name)["meter"]}
    assert read["across an output that is on"]["typical"] == pytest.approx(0.9)
    assert read["current of the digit that takes most"]["typical"] == pytest.approx(0.395, rel=0.01)
    assert read["current of a segment"]["typical"] / 4 == pytest.approx(0.0141, rel=0.01)


def test_a_gate_that_is_half_on_reads_volts_where_millivolts_belong() -> None:
    # 0.060 x 0.05 = 3 mV; 0.060 x 25 = 1.5 V; 6 V / 0.060 A = 100 ohm.
    read = {one["probe"]: one for one in asked("greenhouse_gates_that_fit")["meter"]}
    on = read["across an output that is on"]
    assert on["lowest"] < on["typical"] < 0.003 < on["highest"] < 0.005
    for words in ("60 mA", "no more than 3 mV", "1.5 V would be 25 ohm", "6 V would be 100 ohm"):
        assert words in on["wrong"]
    for words in ("order of the pins", "voltage at the gate", "printed on it"):
        assert words in on["wrong"]


def test_the_sample_is_what_was_meant_unless_something_else_is_said() -> None:
    found = asked("goose_race_laps_with_points", "--seen", "21")["findings"]
    assert found[0]["subject"] == '"12" seen as "21"'
    assert found[0]["code"] == "digits-reversed"


def test_unusable_sightings_are_refused_with_their_option() -> None:
    board = str(CASES / "hill_climb_timer_digit_order.toml")
    for given, option in (
        (("--meant", "1"), "--meant"),
        (("--meant", "HOME", "--seen", "12"), "--meant"),
        (("--meant", "12:34", "--seen", "[xy]"), "--seen"),
        (("--meant", "12:34", "--seen", "12"), "--seen"),
        (("--meant", "12:34", "--seen", "[a dp]234"), "--seen"),
    ):
        done = CliRunner().invoke(app, ["check", board, *given])
        assert isinstance(done.exception, InputError), given
        assert str(done.exception).startswith(option)
