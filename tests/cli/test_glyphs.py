"""``segkit glyphs`` as its users meet it."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from typer.testing import CliRunner

from segkit.cli import glyphs
from segkit.errors import InputError
from tests.cli.yard import app

Published = Callable[[str], list[dict[str, str]]]


def run(*words: str, code: int = 0) -> str:
    result = CliRunner().invoke(app, ["glyphs", *words], catch_exceptions=True)
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    assert result.exit_code == code, result.output
    return result.output


def data(*words: str, code: int = 0) -> Any:
    return json.loads(run(*words, "--json", code=code))


def refused(*words: str) -> InputError:
    with pytest.raises(InputError) as caught:
        run(*words)
    return caught.value


@pytest.mark.parametrize("order", ["dp g f e d c b a", "dp a b c d e f g"])
def test_published_masks(published: Published, order: str) -> None:
    found = data("0-9 A-F", "--order", order)
    masks = {
        row["inputs"].upper(): int(row["published"], 16)
        for row in published("glyphs")
        if row["what"] == f"mask {order}"
    }
    assert {row["char"]: row["mask"] for row in found["glyphs"]} == masks
    assert found["lookalikes"] == []
    assert all(set(row) >= {"char", "mask", "segments"} for row in found["glyphs"])


def test_table_for_people() -> None:
    text = run("1B")
    assert "0x06  00000110" in text
    assert "Bits 7 to 0: dp g f e d c b a; 1 = lit" in text
    assert "B     b      0x7C" in text


def test_flipped_twice(published: Published) -> None:
    values = {
        row["what"]: row["published"] for row in published("glyphs") if row["what"].startswith("inverted")
    }
    found = data("0-9", "--active", "low", "--driver", "darlington-sink-8", code=1)
    (finding,) = found["findings"]
    assert (finding["code"], finding["level"]) == ("inverted-twice", "stop")
    assert (finding["limit"], finding["value"]) == ("0x06", "0x" + values["inverted twice, byte"])
    assert "a d e f g and the point" in finding["text"]


def test_polarity_follows_the_driver() -> None:
    assert data("1", "--driver", "darlington-sink-8")["glyphs"][0]["mask"] == 0x06
    direct = data("1", "--driver", "register-direct-hc595")
    assert (direct["active"], direct["glyphs"][0]["mask"], direct["findings"]) == ("low", 0xF9, [])


def test_sent_in_the_other_order(published: Published) -> None:
    found = data("1238", "--order", "dp g f e d c b a", "--sent", "a b c d e f g dp")["sent"]
    shown = {row["char"]: row for row in found["glyphs"]}
    for row in published("glyphs"):
        if row["what"] == "order reversed, byte":
            assert shown[row["inputs"]]["hex"] == "0x" + row["published"]
        if row["what"] == "order reversed, lights":
            assert shown[row["inputs"]]["lights"] == row["published"].split()
    assert "b d e g and the point" in run("2", "--sent", "abcdefgdp")


@pytest.mark.parametrize(
    ("text", "seen", "code"),
    [
        ("1234", "4123", "digits-rotated"),
        ("3210", "2103", "digits-rotated"),
        ("1234", "4321", "digits-reversed"),
        ("13", "[fg][befg dp]", "byte-reversed"),
    ],
)
def test_digits_in_the_wrong_places(text: str, seen: str, code: str) -> None:
    assert [f["code"] for f in data(text, "--seen", seen)["findings"]] == [code]


def test_faults() -> None:
    found = data("0-9", "--faults")
    assert [row["fault"] for row in found["faults"]][:2] == ["order reversed", "inverted"]
    assert {"char": "8", "segment": "g", "fault": "dark", "reads": "0"} in found["misreadings"]
    assert "order reversed" in run("18", "--faults")


def test_words() -> None:
    (problem,) = refused("HOME GUEST").problems
    assert problem.text == "M cannot be shown on seven segments."
    assert "A b C d E F G H I J L n O P q r S t U Y" in problem.limit
    assert "GUEST can be shown" in problem.remedy
    alikes = [row["chars"] for row in data("GUEST")["lookalikes"]]
    assert alikes == [["5", "S"]]
    plain = [row["chars"] for row in data("GUEST", "--style", "plain")["lookalikes"]]
    assert plain == [["5", "S"], ["6", "b"], ["9", "q"]]


def test_a_bad_range_does_not_hide_a_bad_letter() -> None:
    texts = [problem.text for problem in refused("GAME 3-1").problems]
    assert texts == ["is no range.", "M cannot be shown on seven segments."]


def test_styles_one_by_one() -> None:
    rows = data("679", "--style", "plain", "--nine", "tail", "--seven", "tail")["glyphs"]
    assert ["".join(row["segments"]) for row in rows] == ["cdefg", "abcf", "abcdfg"]


def test_own_glyph() -> None:
    (row,) = data("M", "--draw", "M=a c e g")["glyphs"]
    assert (row["segments"], row["hex"]) == (["a", "c", "e", "g"], "0x55")


def test_all_faults_at_once() -> None:
    error = refused(
        "0-F K", "--order", "dp g g", "--active", "hi", "--driver", "darlington-sink", "--six", "x",
        "--sent", "", "--draw", "M",
    )  # fmt: skip
    keys = [problem.key for problem in error.problems]
    assert set(keys) == {"TEXT", "--order", "--active", "--driver", "--six", "--sent", "--draw"}
    assert "darlington-sink-8" in str(error)


@pytest.mark.parametrize("words", [("",), (":",), ("A-Z",), ("12", "--seen", "1"), ("1", "--draw", "M=xyz")])
def test_refused(words: tuple[str, ...]) -> None:
    assert str(refused(*words))


def test_the_example_runs() -> None:
    import shlex

    assert "0x71" in run(*shlex.split(glyphs.EXAMPLE)[2:])
