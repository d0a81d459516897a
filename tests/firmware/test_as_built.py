"""The map as built: how it is written, and what does not fit the board."""

from __future__ import annotations

import pytest

from segkit.catalog.reader import registers
from segkit.errors import InputError
from segkit.firmware.as_built import as_built, as_built_findings, chip_words, parse_chip, parse_lamps
from segkit.firmware.wiring import Wiring, frame_of, lit_by_frame, planned
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import channel_map


def plan(layout: str = "88.8") -> Wiring:
    chain = channel_map(
        lamps=lamps(layout), register=registers()["hc595"], order=parse_order("dp g f e d c b a")
    )
    return planned(chain, "high")


def test_the_plan_written_and_read_back_is_the_plan() -> None:
    for layout in ("8", "88.8", "8.:8.8", "88:88"):
        board = plan(layout)
        again = as_built(board, chips=chip_words(board.outputs))
        assert again.outputs == board.outputs
        assert [f.value for f in as_built_findings(board, again)] == [0.0]


def test_frames_follow_the_board() -> None:
    board = plan()
    words = list(chip_words(board.outputs))
    words[0], words[2] = words[2], " ".join(reversed(words[0].split()))
    built = as_built(board, chips=words, active="low")
    for lit in ([(1, "a")], [(2, "dp"), (3, "g")], lamps("88.8")):
        assert lit_by_frame(built, frame_of(built, lit)) == set(lit)
        assert frame_of(built, lit) != frame_of(board, lit)


def test_dead_and_joined_outputs_are_told() -> None:
    board = plan()
    words = ["1a+1b - 1c 1d 1e 1f 1g -", *chip_words(board.outputs)[1:]]
    codes = {f.code: f for f in as_built_findings(board, as_built(board, chips=words))}
    assert set(codes) == {"as-built", "lit-together"}, "b is lit by the output that lights a"
    dead = ["1a - 1c 1d 1e 1f 1g -", *chip_words(board.outputs)[1:]]
    codes = {f.code: f for f in as_built_findings(board, as_built(board, chips=dead))}
    assert set(codes) == {"as-built", "never-lit"}
    assert "digit 1: b" in codes["never-lit"].text


def test_an_output_of_two_digits_keeps_to_that_of_the_plan() -> None:
    """A bridge between two digits: both outputs light both, and each is still asked for its own."""
    board = plan()
    words = list(chip_words(board.outputs))
    words[0], words[1] = words[0].replace("1a", "1a+2a"), words[1].replace("2a", "1a+2a")
    built = as_built(board, chips=words)
    assert [built.outputs[n].lamps for n in (0, 8)] == [((1, "a"),), ((2, "a"),)]
    assert [built.outputs[n].also for n in (0, 8)] == [((2, "a"),), ((1, "a"),)]
    found = as_built_findings(board, built)
    assert [f.code for f in found] == ["as-built", "lit-together", "lit-together"]
    assert found[0].value == 2.0
    assert "takes it for digit 2 alone" in found[2].text
    assert found[2].value == "1a+2a"
    assert lit_by_frame(built, frame_of(built, [(2, "a"), (2, "b")])) == {(1, "a"), (2, "a"), (2, "b")}


def test_an_output_of_two_other_digits_keeps_to_the_first() -> None:
    board = plan()
    words = ["2a+3a 1b 1c 1d 1e 1f 1g -", *chip_words(board.outputs)[1:]]
    assert as_built(board, chips=words).outputs[0].lamps == ((2, "a"),)


def test_all_that_does_not_fit_is_named_at_once() -> None:
    with pytest.raises(InputError) as caught:
        as_built(plan(), chips=["1a 1b", "9a - - - - - - -"])
    text = str(caught.value)
    for words in (
        "tells of 2 chips; the chain of this board has 3",
        "names 2 outputs",
        "segment a of digit 9",
    ):
        assert words in text


@pytest.mark.parametrize("word", ["a1", "0a", "1h", "1", "", "1a+", "1 a"])
def test_no_lamp(word: str) -> None:
    with pytest.raises(InputError, match="no digit and segment"):
        parse_lamps(word)
    with pytest.raises(InputError):
        parse_chip(word)
