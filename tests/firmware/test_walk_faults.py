"""Each fault by its name, alone and together with others."""

from __future__ import annotations

from dataclasses import replace

import pytest

from segkit.firmware.walk import Walked, read_seen, walked
from segkit.firmware.walk_faults import NAMES, pattern_of, walk_findings
from segkit.firmware.wiring import Output, Wiring, written
from tests.firmware.test_as_built import plan
from tests.firmware.test_walk import told

LAYOUT = "88:88"


def rewired(ideal: Wiring, order: list[int]) -> Wiring:
    """Output n lights what the plan gives to output order[n], from 0."""
    lamps = [ideal.outputs[n].lamps for n in order]
    return replace(
        ideal, outputs=tuple(replace(o, lamps=m) for o, m in zip(ideal.outputs, lamps, strict=True))
    )


def chips(order: list[int]) -> list[int]:
    """Whole chips in another order, from 0."""
    return [8 * chip + bit for chip in order for bit in range(8)]


def swapped(one: int, other: int) -> list[int]:
    order = list(range(32))
    order[one], order[other] = order[other], order[one]
    return order


def found(real: Wiring) -> Walked:
    ideal = plan(LAYOUT)
    return walked(ideal, read_seen(told(real, flashed="high"), ideal))


def codes(result: Walked) -> list[str]:
    return [finding.code for finding in walk_findings(result)]


def text_of(result: Walked) -> str:
    return " ".join(f"{f.subject} {f.text} {f.remedy}" for f in walk_findings(result))


@pytest.mark.parametrize(
    ("order", "code", "words"),
    [
        (list(range(32)), "as-planned", "what the plan says"),
        (chips([3, 2, 1, 0]), "chips-reversed", "chip 1 lights what chip 4 should"),
        (chips([1, 2, 3, 0]), "digits-rotated", "rotated by one place"),
        (chips([2, 3, 0, 1]), "digits-rotated", "rotated by 2 places"),
        (chips([0, 2, 1, 3]), "chips-exchanged", "Chips 2 and 3 are exchanged"),
        (chips([2, 0, 1, 3]), "chips-reordered", "an order of their own"),
        ([8 * (n // 8) + 7 - n % 8 for n in range(32)], "byte-reversed", "chips 1, 2, 3, 4"),
        ([7 - n if n < 8 else n for n in range(32)], "byte-reversed", "chip 1"),
        ([8 * (n // 8) + (n + 1) % 8 for n in range(32)], "wires-shifted", "shifted by one place"),
        (swapped(0, 1), "pair-swapped", "lights 1b and the second 1a"),
        (swapped(0, 9), "pair-swapped", "lights 2b and the second 1a"),
        (swapped(0, 7), "wire-moved", "1a sits on chip 1, QH and not on chip 1, QA"),
    ],
)
def test_order_faults_have_their_names(order: list[int], code: str, words: str) -> None:
    result = found(rewired(plan(LAYOUT), order))
    assert codes(result) == [code]
    assert words in text_of(result)


def with_lamps(number: int, lamps: tuple[tuple[int, str], ...]) -> Wiring:
    ideal = plan(LAYOUT)
    outputs = tuple(replace(o, lamps=lamps) if o.number == number else o for o in ideal.outputs)
    return replace(ideal, outputs=outputs)


def test_dead_output() -> None:
    result = found(with_lamps(3, ()))
    assert codes(result) == ["output-dead"]
    assert "chip 1, QC" in text_of(result)
    assert "1c" in text_of(result)


def test_two_segments_together() -> None:
    result = found(with_lamps(1, ((1, "a"), (1, "b"))))
    assert codes(result) == ["segments-together"]
    assert "segment a of digit 1 and segment b of digit 1 together" in text_of(result)


def test_inverted_logic() -> None:
    result = found(replace(plan(LAYOUT), active="low"))
    assert codes(result) == ["logic-inverted"]
    assert result.built.active == "low"
    assert "a 0 lights" in text_of(result)


def test_stuck_segment() -> None:
    ideal = plan(LAYOUT)
    words = " ".join(written({*o.lamps, (4, "d")}) for o in ideal.outputs)
    result = walked(ideal, read_seen(words, ideal))
    assert codes(result) == ["segment-stuck"]
    assert "Segment d of digit 4 was lit with every output" in text_of(result)


def test_dark_and_stuck_lamps_of_an_inverted_board_are_not_taken_for_each_other() -> None:
    ideal = plan(LAYOUT)
    dead = " ".join("!" + written({*o.lamps, (4, "d")}) for o in ideal.outputs)
    result = walked(ideal, read_seen(dead, ideal))
    assert codes(result) == ["logic-inverted", "never-lit"]
    assert "Segment d of digit 4 was dark with every output" in text_of(result)
    words = ["!" + written(o.lamps) if o.lamps else "all" for o in ideal.outputs]
    words[0] = "all"
    result = walked(ideal, read_seen(" ".join(words), ideal))
    assert codes(result) == ["logic-inverted", "output-dead"]
    assert "With this output nothing goes dark; 1a hangs on it" in text_of(result)


def test_several_faults_at_once() -> None:
    """Chips turned round, one of them with its wires reversed, two wires exchanged, one dead, logic inverted."""
    ideal = plan(LAYOUT)
    order = chips([3, 2, 1, 0])
    order[8:16] = order[8:16][::-1]
    order[0], order[1] = order[1], order[0]
    real = rewired(ideal, order)
    outputs = tuple(replace(o, lamps=()) if o.number == 30 else o for o in real.outputs)
    result = found(replace(real, active="low", outputs=outputs))
    assert codes(result) == [
        "logic-inverted",
        "chips-reversed",
        "byte-reversed",
        "pair-swapped",
        "output-dead",
    ]
    assert pattern_of(result.built, ideal).chips == (4, 3, 2, 1)


def test_a_lamp_that_no_output_lights() -> None:
    """Two outputs light a, none lights b."""
    result = found(with_lamps(2, ((1, "a"),)))
    assert codes(result) == ["wire-moved", "never-lit"]


def test_every_name_is_known() -> None:
    assert len(set(NAMES)) == len(NAMES) == 14


def test_a_board_of_one_chip() -> None:
    ideal = plan("8")
    real = replace(
        ideal,
        outputs=tuple(
            replace(o, lamps=p.lamps) for o, p in zip(ideal.outputs, ideal.outputs[::-1], strict=True)
        ),
    )
    result = walked(ideal, read_seen(told(real, flashed="high"), ideal))
    assert codes(result) == ["byte-reversed"]
    assert all(isinstance(output, Output) for output in result.built.outputs)
