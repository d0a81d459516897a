from __future__ import annotations

import itertools

import pytest

from segkit.drawing.drawing import Path, Text
from segkit.fabrication.dimensions import TYPE_MM, Leader, across, leaders, upright
from segkit.fabrication.tile_page import text_box


def test_words_of_leaders_never_touch_and_stay_in_their_room() -> None:
    rows = [
        Leader((10.0, 20.0 + 0.2 * i), "a layer with a long name, and its thickness" * (1 + i % 2))
        for i in range(6)
    ]
    boxes = [text_box(s) for s in leaders(rows, x_mm=40, room_mm=60) if isinstance(s, Text)]
    assert all(one[3] < other[1] for one, other in itertools.pairwise(boxes))
    assert all(box[0] >= 40 and box[2] <= 100.5 for box in boxes)


@pytest.mark.parametrize("wide", [5.0, 90.0])
@pytest.mark.parametrize("y", [-10.0, 10.0])
def test_words_of_a_dimension_keep_off_its_lines(wide: float, y: float) -> None:
    shapes = [*across(left_mm=0, right_mm=wide, y_mm=y, foot_mm=0, words="opening 36.4 mm")]
    words = next(s for s in shapes if isinstance(s, Text))
    left, low, right, high = text_box(words)
    for line in (s for s in shapes if isinstance(s, Path)):
        for x, at in line.points:
            assert not (left < x < right and low < at < high)
    assert words.height_mm == TYPE_MM


def test_words_that_almost_fit_are_set_smaller() -> None:
    shapes = [*across(left_mm=0, right_mm=40, y_mm=9, foot_mm=0, words="opening 36.4 mm")]
    left, _, right, _ = text_box(next(s for s in shapes if isinstance(s, Text)))
    assert 0 < left < right < 40


def test_an_upright_dimension_is_as_long_as_what_it_measures() -> None:
    shapes = [*upright(x_mm=5, low_mm=10, high_mm=66, foot_mm=12, words="56 mm")]
    assert shapes[0] == Path(((5, 10), (5, 66)), closed=False)
    assert next(s for s in shapes if isinstance(s, Text)).rotation_deg == 90
