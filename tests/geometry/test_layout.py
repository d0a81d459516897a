"""Layout texts: what is refused, and where the marks come to stand."""

from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.geometry.digit import small_shape_of
from segkit.geometry.layout import dot_centres, layout_problems, reach, row_of
from tests.geometry.shapes import SHAPE, shape

SMALL = small_shape_of(SHAPE, ratio=0.5)


def texts(layout: str) -> list[str]:
    problems = layout_problems(layout)
    assert all(problem.key == "display.layout" and problem.remedy for problem in problems)
    return [problem.text for problem in problems]


@pytest.mark.parametrize(
    "layout", ["8", "88:88", "88 88", "88.8", "88:88:oo", "8.8.8.", "8.:8", "8 : 8", "oo"]
)
def test_legal_layouts(layout):
    assert texts(layout) == []


@pytest.mark.parametrize(
    ("layout", "words"),
    [
        ("", ["there is no digit"]),
        ("   ", ["there is no digit"]),
        (":", ["the colon (mark 1) has no digit to its left", "there is no digit"]),
        (".8", ["the point (mark 1) has no digit to its left"]),
        ("8..8", ["a second point after digit 1 (mark 3)"]),
        ("88::88", ["a second colon after digit 2 (mark 4)"]),
        ("8 .8", ["the point (mark 3) does not stand right after a digit"]),
        ("8:.8", ["the point (mark 3) does not stand right after a digit"]),
        (" 88", ["a blank at the start or the end"]),
        ("88x8-", ['no such mark: "x" (mark 3), "-" (mark 5)']),
        ("8" * 201, ["201 digits are too many"]),
        ("12:45", ['no such mark: "1" (mark 1), "2" (mark 2), "4" (mark 4), "5" (mark 5)']),
        ("8\t8", ['no such mark: "\\t" (mark 2)']),
        ("x.8..", ['no such mark: "x"', "no digit to its left", "a second point after digit 1 (mark 5)"]),
    ],
)
def test_every_fault_is_named_at_once(layout, words):
    found = texts(layout)
    assert len(found) == len(words)
    for text, start in zip(found, words, strict=True):
        assert start in text


@pytest.mark.parametrize(
    ("layout", "remedy"),
    [("12:45", "Write an 8 for each digit"), ("88:OO", "a small letter o"), ("8/8", "Use 8 a digit")],
)
def test_usual_slips_get_their_own_remedy(layout, remedy):
    assert remedy in layout_problems(layout)[0].remedy


def test_row_of_a_clock():
    row = row_of("88:88", shape=SHAPE, small=SMALL, spacing_mm=60)
    assert [(place.mark, place.digit, place.left_mm) for place in row.places] == [
        ("8", 1, 0),
        ("8", 2, 225),
        (":", 2, 420),
        ("8", 3, 492),
        ("8", 4, 717),
    ]
    assert row.length_mm == 882 == row.boxes_mm + row.blanks_mm + row.clear_mm
    assert dot_centres(row.places[2]) == ((441, 85.5), (441, 214.5))


def test_a_point_uses_the_room_between_digits_and_widens_it_only_when_it_must():
    wide = row_of("8.8", shape=SHAPE, small=SMALL, spacing_mm=60)
    assert [place.left_mm for place in wide.places] == [0, 170, 225]
    tight = row_of("8.8", shape=SHAPE, small=SMALL, spacing_mm=20)
    assert [place.left_mm for place in tight.places] == [0, 170, 217]


def test_blanks_are_half_the_digit_to_their_left():
    row = row_of("8 o o", shape=SHAPE, small=SMALL, spacing_mm=60)
    assert [place.left_mm for place in row.places] == [0, 165 + 60 + 82.5, 165 + 142.5 + 82.5 + 60 + 41.25]
    assert row.blanks_mm == 82.5 + 41.25


def test_a_colon_between_blanks_and_a_point_before_a_blank():
    row = row_of("8. : 8", shape=SHAPE, small=SMALL, spacing_mm=60)
    lefts = [place.left_mm for place in row.places]
    assert lefts == [0, 170, 212 + 5 + 82.5, 212 + 87.5 + 42 + 30 + 82.5]


def legal_layouts() -> st.SearchStrategy[str]:
    unit = st.builds(
        "".join,
        st.tuples(st.sampled_from("8o"), st.sampled_from(["", ".", ":", ".:", " ", ". ", " : ", "  "])),
    )
    return st.lists(unit, min_size=1, max_size=7).map(lambda units: "".join(units).rstrip(" "))


@given(legal_layouts(), st.floats(-30, 30), st.floats(1, 200))
def test_marks_follow_each_other_with_their_clear_distance(layout, slant, spacing):
    leant = shape(slant_deg=slant)
    assert layout_problems(layout) == ()
    row = row_of(layout, shape=leant, small=small_shape_of(leant, ratio=0.6), spacing_mm=spacing)
    cos = math.cos(math.radians(slant))
    assert row.length_mm == pytest.approx(row.boxes_mm + row.blanks_mm + row.clear_mm / cos)
    assert [place.mark for place in row.places] == [mark for mark in layout if mark != " "]
    for one, other in zip(row.places, row.places[1:], strict=False):
        assert (other.left_mm - one.right_mm) * cos >= leant.gap_mm * (1 - 1e-9) or (
            {one.mark, other.mark} <= set("8o")
            and (other.left_mm - one.right_mm) * cos >= spacing * (1 - 1e-9)
        )
    digits = [place for place in row.places if place.mark in "8o"]
    for one, other in itertools.pairwise(digits):
        assert (other.left_mm - one.right_mm) * cos >= spacing * (1 - 1e-9)
    left, right = reach(row)
    assert right - left >= row.length_mm - 1e-9
