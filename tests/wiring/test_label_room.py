"""Labels keep clear of what is there."""

import pytest

from segkit.wiring.label_room import Room, label_box, overlap_mm2


def test_the_box_of_a_label_is_as_wide_as_its_letters_and_as_high_as_a_capital() -> None:
    assert label_box((0, 0), "Ra1", 2.0) == pytest.approx((-1.8, -0.72, 1.8, 0.72))


def test_boxes_that_touch_do_not_overlap() -> None:
    assert overlap_mm2((0, 0, 1, 1), (1, 0, 2, 1)) == 0
    assert overlap_mm2((0, 0, 3, 3), (1, 1, 2, 2)) == 1


def test_a_label_takes_the_first_free_spot_and_the_next_one_keeps_off_it() -> None:
    room = Room()
    room.take_round((0, 0), 2.0)
    spots = [(0, 0), (4, 0), (8, 0)]
    assert room.seat(spots, "1", 2.0) == (4, 0)
    assert room.seat(spots, "2", 2.0) == (8, 0)


def test_a_free_spot_off_the_lines_is_better_and_one_on_a_line_is_good_enough() -> None:
    line = (3.9, -9.0, 4.1, 9.0)
    assert Room().seat([(4, 0), (8, 0)], "1", 2.0, lines=[line]) == (8, 0)
    assert Room().seat([(4, 0)], "1", 2.0, lines=[line]) == (4, 0)


def test_where_nothing_is_free_the_least_covered_spot_is_taken() -> None:
    room = Room([(-5, -5, 5, 5)])
    assert room.seat([(0, 0), (5, 0)], "12", 2.0) == (5, 0)
