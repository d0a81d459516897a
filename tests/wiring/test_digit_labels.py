"""Names, numbers and joints where there is room."""

import itertools
import math

import pytest

from segkit.wiring.digit_labels import joints, led_number, segment_names, wire_tags
from segkit.wiring.label_room import Room
from segkit.wiring.page import sheet
from segkit.wiring.run import Run
from segkit.wiring.view import View
from tests.wiring import boards
from tests.wiring.drawn import texts


def line(net: str, *route) -> Run:
    return Run("segment", "wire", net, ("X1", "2"), ("D1a1", "K"), route, "WH", 0.1, 1, "a")


def test_a_dot_where_three_ways_meet() -> None:
    assert joints([line("N", (0, 0), (9, 0)), line("N", (4, 0), (4, 5))]) == ((4, 0),)


def test_no_dot_at_a_corner_at_an_end_or_between_two_nets() -> None:
    assert joints([line("N", (0, 0), (9, 0), (9, 9))]) == ()
    assert joints([line("N", (0, 0), (9, 0)), line("N", (9, 0), (9, 5))]) == ()
    assert joints([line("N", (0, 0), (9, 0)), line("M", (4, 0), (4, 5))]) == ()
    assert joints([line("N", (0, 0), (9, 0)), line("N", (4, -5), (4, 5))]) == ()  # a mere crossing


def test_a_resistor_makes_a_joint_with_the_rail() -> None:
    past = Run("plus", "wire", "P", ("R1a1", "1"), ("R1a2", "1"), ((0, 0), (5, 0)), "RD")
    on = Run("plus", "wire", "P", ("R1a2", "1"), ("R1a3", "1"), ((5, 0), (9, 0)), "RD")
    assert joints([past, on]) == ((5, 0),)


@pytest.mark.parametrize("layout", ["8.8", "88:88"])
def test_names_keep_off_the_wires_and_off_each_other(layout: str) -> None:
    whole = boards.wired(layout)
    digit = 2 if layout == "88:88" else 1
    view = View(1.0, (0.0, 0.0), (700.0, 10.0))
    pen = sheet("t", "w", "s", behind=False)
    before = len(texts(pen.drawing()))
    wiring = whole.digits[digit]
    segment_names(pen, [s for s in whole.plan.board.segments if s.digit == digit], view, wiring, Room())
    named = texts(pen.drawing())[before:]
    outlines = sum(len(s.outlines) for s in whole.plan.board.segments if s.digit == digit)
    assert len(named) == outlines
    for text in named:
        at = (text.at[0], text.at[1] + 0.36 * text.height_mm)
        near = min(_off(at, view.path(run.route)) for run in wiring.runs if run.code)
        assert near > 2.0
    for n, one in enumerate(named):
        assert all(math.dist(one.at, other.at) > 4 for other in named[:n])


def _off(at, route) -> float:
    best = math.inf
    for (ax, ay), (bx, by) in itertools.pairwise(route):
        long = math.dist((ax, ay), (bx, by)) ** 2
        if not long:
            continue
        share = min(1.0, max(0.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / long))
        best = min(best, math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay))))
    return best


def test_each_wire_from_the_connector_is_tagged_on_itself() -> None:
    whole = boards.wired("8.8")
    view = View(1.0, (0.0, 0.0), (400.0, 10.0))
    pen = sheet("t", "w", "s", behind=False)
    wire_tags(pen, whole.plan, whole.digits[1], view, Room())
    found = {text.text: text for text in texts(pen.drawing())}
    for run in whole.digits[1].runs:
        if run.start[0] == "X1" and run.group == "segment":
            tag = found[f"{run.segment} {run.code}"]
            assert _off((tag.at[0], tag.at[1] + 0.36 * tag.height_mm), view.path(run.route)) < 1e-6


def test_the_number_of_an_led_stands_just_outside_it() -> None:
    whole = boards.wired("88:88")
    view = View(1.0, (0.0, 0.0), (700.0, 10.0))
    for string in whole.plan.strings_of(2):
        for led in string.leds:
            pen = sheet("t", "w", "s", behind=False)
            led_number(pen, led, string, whole.digits[2].layout, view, Room(), [], radius=2.5)
            (text,) = (t for t in texts(pen.drawing()) if t.text == str(led.number))
            middle = (text.at[0], text.at[1] + 0.36 * text.height_mm)
            assert 2.5 < math.dist(middle, view.at(led.at)) < 6.5
