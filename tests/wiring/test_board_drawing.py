"""The sheet of the whole board."""

from dataclasses import replace

import pytest
from hypothesis import given

from segkit.wiring.board_drawing import board_drawing
from segkit.wiring.harness import Harness, harness
from segkit.wiring.page import BEHIND
from tests.wiring import boards
from tests.wiring.drawn import on_page, texts, words


def test_digit_1_is_on_the_right_from_behind() -> None:
    for behind in (True, False):
        page = board_drawing(boards.wired("88:88"), behind=behind)
        at = {text.text: text.at[0] for text in texts(page) if text.text.startswith("digit ")}
        order = sorted((name for name in at), key=lambda name: at[name])
        assert order == [f"digit {n}" for n in ((4, 3, 2, 1) if behind else (1, 2, 3, 4))]
        assert (BEHIND in words(page)) == behind


@boards.some_sheets
@given(whole=boards.anything)
def test_cards_connectors_and_entry_are_all_there(whole: Harness) -> None:
    page = board_drawing(whole)
    assert on_page(page)
    found = words(page)
    for digit in whole.plan.digits:
        assert f"X{digit}" in found
        assert f"digit {digit}" in found
        if whole.plan.carries == "segments":
            assert any(text.startswith(f"cable of digit {digit}: ") for text in found)
    if whole.plan.carries == "supply":
        assert {"X0", "A0"} <= set(found)


def test_the_last_card_gets_the_first_byte() -> None:
    found = words(board_drawing(boards.wired("88:88")))
    head = found.index("byte sent")
    rows = [found[head + 1 + 6 * n :][:6] for n in range(4)]
    assert [(row[0], row[5]) for row in rows] == [("1", "4."), ("2", "3."), ("3", "2."), ("4", "1.")]


@pytest.mark.parametrize("carries", ["supply", "segments"])
def test_wire_to_cut_adds_up_to_the_worksheet(carries) -> None:
    whole = boards.wired("8.8", carries=carries)
    metres = sum(float(word[:-2]) for word in words(board_drawing(whole)) if word.endswith(" m"))
    asked = sum(line.value for line in whole.lines if "wire_length" in line.name)
    assert metres == pytest.approx(asked, abs=0.1)


def test_one_card_more_is_on_the_sheet() -> None:
    found = words(board_drawing(boards.wired("8.:8.", dot=1)))
    assert {"card 1", "card 2", "card 3"} <= set(found)


@pytest.mark.parametrize("height_mm", [60.0, 280.0])
def test_boxes_of_controller_and_entry_keep_apart(height_mm: float) -> None:
    page = board_drawing(harness(boards.plan("88.8", bar=1, dot=1, height_mm=height_mm)))
    at = {text.text: text.at[0] for text in texts(page) if text.text in ("A0", "X0")}
    assert abs(at["A0"] - at["X0"]) >= 12.0


@pytest.mark.parametrize(
    ("carries", "where", "said"),
    [("supply", "board", "before the entry"), ("supply", "digit", "before pole 1 of its connector"),
     ("segments", "board", "before the fuses")],
)  # fmt: skip
def test_the_sheet_says_where_the_part_in_plus_goes(carries, where, said) -> None:
    plan = boards.plan("88", carries=carries)
    free, behind = harness(plan), harness(replace(plan, lost_v=0.7, lost_in=where))
    assert "takes 0.7 V" not in " ".join(words(board_drawing(free)))
    text = " ".join(words(board_drawing(behind)))
    assert "the part that takes 0.7 V" in text
    assert said in text
    assert on_page(board_drawing(behind))
