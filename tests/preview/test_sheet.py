"""Pictures on one sheet: sizes, labels that are there and fit, notes, the bytes of the file."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from segkit.preview.sheet import PAPER, png, sheet

GREEN = Image.new("RGB", (200, 80), "#00ff00")
SMALL = Image.new("RGB", (100, 80), "#ff0000")
NOTES = ("A first note with a few words.", "Another one.")


def ink(picture: Image.Image) -> np.ndarray:
    """Where something is neither paper nor a panel."""
    pixels = np.asarray(picture, dtype=int)
    paper = np.array(Image.new("RGB", (1, 1), PAPER).getpixel((0, 0)))
    grey = pixels.max(axis=2) - pixels.min(axis=2) < 40
    return (np.abs(pixels - paper).max(axis=2) > 30) & grey


def test_panels_stand_side_by_side_each_with_its_label() -> None:
    made = sheet([(GREEN, "left"), (SMALL, "right")], title="Both", notes=NOTES)
    pixels = np.asarray(made, dtype=int)
    green, red = ((pixels == colour).all(axis=2) for colour in ([0, 255, 0], [255, 0, 0]))
    assert (green.sum(), red.sum()) == (200 * 80, 100 * 80), "no panel is cut or covered"
    top, left = np.argwhere(green).min(axis=0)
    assert np.argwhere(red)[:, 1].min() == left + 224 + 50, "the smaller one in the middle of its cell"
    marks = ink(made)
    assert marks[top - 30 : top, left : left + 200].any(), "left label"
    assert marks[top - 30 : top, left + 224 : left + 424].any(), "right label"
    assert marks[:45].any(), "title"
    assert marks[top + 80 :].any(), "notes"
    assert not marks[:, :20].any()
    assert not marks[:, -20:].any()
    assert not marks[-15:].any()


def test_a_long_label_is_set_smaller_and_stays_in_its_cell() -> None:
    label = "eyes 20/40, 24 m (78 ft 9 in) away"
    made = sheet([(GREEN, label), (GREEN, "")], title="t", notes=())
    marks = ink(made)[62:98]
    columns = np.flatnonzero(marks.any(axis=0))
    assert columns.min() >= 20
    assert columns.max() <= 24 + 200
    assert columns.max() > 24 + 150, "all of it, not a part"


def test_notes_take_an_empty_cell_if_they_fit_it() -> None:
    tall = Image.new("RGB", (300, 200), "#00ff00")
    beside = sheet([(tall, "1"), (tall, "2"), (tall, "3")], title="t", notes=NOTES)
    below = sheet([(tall, "1"), (tall, "2"), (tall, "3")], title="t", notes=NOTES * 9)
    assert beside.size == (672, 60 + 2 * 240 + 24)
    assert ink(beside)[-220:, 348:].any()
    assert below.height > beside.height
    assert not ink(below)[60 + 240 + 40 : 60 + 480, 348:].any()


def test_one_column_stacks() -> None:
    made = sheet([(GREEN, "1"), (GREEN, "2")], title="t", notes=(), columns=1)
    assert made.width == 248
    assert made.height >= 60 + 2 * 120


@pytest.mark.parametrize("letters", ["Löwe 5 Ω", "日本"])
def test_letters_that_the_type_lacks_do_no_harm(letters: str) -> None:
    assert ink(sheet([(GREEN, letters)], title=letters, notes=(letters,), columns=1))[:50].any()


def test_the_file_is_the_same_each_time_and_holds_no_time() -> None:
    content = png(GREEN)
    assert content == png(GREEN.copy())
    assert b"tIME" not in content
    assert b"tEXt" not in content
    assert Image.open(io.BytesIO(content)).convert("RGB").tobytes() == GREEN.tobytes()
