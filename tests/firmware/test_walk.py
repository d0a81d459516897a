"""From what was seen to what was wired: boards wired at random are found as they are."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.firmware.walk import Seen, read_seen, walked
from segkit.firmware.wiring import Wiring, frame_of, lit_by_frame, written
from tests.firmware.test_as_built import plan


def walk_frame(chips: int, number: int, active: str) -> bytes:
    """What the code sends for one output: that bit alone, of its polarity."""
    frame = bytearray([0 if active == "high" else 0xFF] * chips)
    frame[chips - 1 - (number - 1) // 8] ^= 1 << (number - 1) % 8
    return bytes(frame)


def told(board: Wiring, *, flashed: str) -> str:
    """What a builder would write down of a board that is wired so."""
    words = []
    for output in board.outputs:
        lit = lit_by_frame(board, walk_frame(board.chips, output.number, flashed))
        if board.active == flashed:
            words.append(written(lit))
        else:
            dark = board.lamps - lit
            words.append(f"!{written(dark)}" if dark else "all")
    return " ".join(words)


@given(st.permutations(range(24)), st.sampled_from(["high", "low"]), st.sampled_from(["high", "low"]))
def test_any_board_is_found_as_it_is(order: list[int], active: str, flashed: str) -> None:
    """Whatever is wired to whatever, the frames made from the walk light what is asked."""
    ideal = plan()
    lamps = [ideal.outputs[n].lamps for n in order]
    real = replace(
        ideal,
        active=active,
        outputs=tuple(replace(o, lamps=m) for o, m in zip(ideal.outputs, lamps, strict=True)),
    )  # type: ignore[arg-type]
    found = walked(ideal, read_seen(told(real, flashed=flashed), ideal), flashed=flashed)  # type: ignore[arg-type]
    assert found.built.outputs == real.outputs
    assert found.built.active == active
    assert found.inverted == (active != flashed)
    lit = [(1, "b"), (2, "dp"), (3, "g")]
    assert lit_by_frame(real, frame_of(found.built, lit)) == set(lit)


def test_a_lamp_that_is_always_lit() -> None:
    ideal = plan()
    words = [written({*output.lamps, (2, "g")}) for output in ideal.outputs]
    found = walked(ideal, read_seen(" ".join(words), ideal))
    assert found.stuck == ((2, "g"),)
    assert found.built.outputs == ideal.outputs


def test_every_way_to_write_it() -> None:
    ideal = plan("8")
    right = read_seen("1a 1b 1c 1d 1e 1f 1g -", ideal)
    for text in (
        "1a, 1b, 1c, 1d, 1e, 1f, 1g, none",
        "1a\n1b\n1c\n1d\n1e\n1f\n1g\n-\n",
        "ok ok ok ok ok ok ok ok",
        "rest ok",
        "8: -  # spare\n1: 1A\nrest ok",
        "3: 1c; 1: 1a; rest: ok",
        "1: 1a\n1b\n= = = = = =",
        "7: 1g\n-\n1: 1a\n1b\n1c\n1d\n1e\n1f",
    ):
        assert read_seen(text, ideal) == right, text
    assert read_seen("1: 1a 1b; rest ok", ideal)[0] == Seen(frozenset({(1, "a"), (1, "b")}))
    assert read_seen("!1a all rest ok".replace(" rest", "; rest"), ideal)[:2] == (
        Seen(frozenset({(1, "a")}), all_but=True),
        Seen(frozenset(), all_but=True),
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1a 1b", "nothing is told of 6 of the 8 outputs: 3, 4, 5, 6, 7, 8"),
        ("", "nothing is told of 8"),
        ("1x; rest ok", 'output 1 = "1x": no digit and segment'),
        ("2a; rest ok", "output 1 = 2a: the board has no such lamp"),
        ("9: 1a; rest ok", "the chain has 8 outputs"),
        ("1: 1a; 1: 1b; rest ok", "told twice: output 1"),
    ],
)
def test_what_cannot_be_used(text: str, words: str) -> None:
    with pytest.raises(InputError, match=words.replace("?", ".")):
        read_seen(text, plan("8"))


def test_half_a_board_inverted_is_no_wiring() -> None:
    ideal = plan("8")
    with pytest.raises(InputError, match="no wiring does both"):
        walked(ideal, read_seen("1: !1a; rest ok", ideal))
