"""The sheet of a digit: polarity, mirror, strings, connector."""

import math
from itertools import combinations

import pytest
from hypothesis import given

from segkit.drawing.drawing import Circle, Path
from segkit.wiring.circuit import circuit_of
from segkit.wiring.digit_drawing import alike, digit_drawing
from segkit.wiring.digit_panel import pin_name, short_name
from segkit.wiring.harness import Harness
from segkit.wiring.label_room import label_box, overlap_mm2
from segkit.wiring.page import BEHIND
from tests.wiring import boards
from tests.wiring.drawn import on_page, shapes, texts, words


def triangles(page):
    return [s for s in shapes(page, "solid") if isinstance(s, Path) and len(s.points) == 3]


def test_each_led_has_a_triangle_that_points_from_anode_to_cathode_as_in_the_wire_list() -> None:
    """Front view and rear view: tip at the side of the cathode, whose wire the list calls minus or K."""
    whole = boards.wired("8.8")
    leds = [led for string in whole.plan.strings_of(1) for led in string.leds]
    for behind in (True, False):
        way = -1 if behind else 1
        drawn = triangles(digit_drawing(whole, (1,), behind=behind))[: len(leds)]
        assert len(drawn) == len(leds)
        for led, triangle in zip(leds, drawn, strict=True):
            tip, one, other = triangle.points
            base = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
            arrow = (tip[0] - base[0], tip[1] - base[1])
            current = (way * (led.cathode[0] - led.anode[0]), led.cathode[1] - led.anode[1])
            cosine = (
                (arrow[0] * current[0] + arrow[1] * current[1]) / math.hypot(*arrow) / math.hypot(*current)
            )
            assert cosine == pytest.approx(1)
        ends = {
            (w.run.start, w.run.end) for w in whole.wires if w.run.start[1] == "K" and w.run.end[1] == "A"
        }
        assert all(len({a[0], b[0]}) == 2 for a, b in ends)


def test_the_view_from_behind_is_the_mirror_of_that_from_the_front() -> None:
    """LED by LED, and mirrored twice it is the front again."""
    whole = boards.wired("8.8", slant_deg=9.0)
    rear, front = (
        [
            c.centre
            for c in shapes(digit_drawing(whole, (1,), behind=behind), "blank")
            if isinstance(c, Circle) and c.radius_mm < 5.9
        ]
        for behind in (True, False)
    )
    assert len(rear) == len(front) > 50
    axis = {round(a[0] + b[0], 6) for a, b in zip(rear, front, strict=True)}
    assert len(axis) == 1
    assert [y for _, y in rear] == [y for _, y in front]
    across = axis.pop()
    assert [across - x for x, _ in rear] == pytest.approx([x for x, _ in front])


def test_it_says_in_large_letters_from_where_it_is_seen() -> None:
    whole = boards.wired("8")
    assert BEHIND in words(digit_drawing(whole, (1,)))
    assert BEHIND not in words(digit_drawing(whole, (1,), behind=False))


@boards.some_sheets
@given(whole=boards.anything)
def test_everything_is_on_the_page_and_named(whole: Harness) -> None:
    for group in alike(whole.plan):
        page = digit_drawing(whole, group)
        assert on_page(page)
        said = words(page)
        own = [s.name for s in whole.plan.board.segments if s.digit == group[0]]
        assert all(name in said for name in own)
        for string in whole.plan.strings_of(group[0]):
            if string.resistor:
                assert (pin_name(string) if string.network else short_name(string)) in said


@pytest.mark.parametrize("slant_deg", [0.0, 9.0])
@pytest.mark.parametrize(
    ("layout", "bar", "rows"), [("8", 8, 1), ("8.8", 12, 2), ("8", 30, 3), ("8.8", 24, 3), ("8", 28, 4)]
)
def test_no_label_of_a_part_lies_on_another_or_on_an_led(
    layout: str, bar: int, rows: int, slant_deg: float
) -> None:
    whole = boards.wired(layout, bar, rows=rows, slant_deg=slant_deg)
    page = digit_drawing(whole, (1,))
    strings = whole.plan.strings_of(1)
    sought = {short_name(string) for string in strings} | {str(n) for n in range(1, bar + 1)}
    boxes = [
        (text.text, label_box((text.at[0], text.at[1] + 0.36 * text.height_mm), text.text, text.height_mm))
        for text in texts(page)
        if text.text in sought and text.height_mm == 2.0
    ]
    leds = [c for c in shapes(page, "blank") if isinstance(c, Circle) and c.radius_mm < 5.9]
    assert len(boxes) >= len(strings) + sum(len(string.leds) for string in strings)
    for (one, box), (other, beside) in combinations(boxes, 2):
        assert overlap_mm2(box, beside) < 1e-6, (one, other)
    for name, (left, foot, right, top) in boxes:
        for led in leds:
            near = (min(max(led.centre[0], left), right), min(max(led.centre[1], foot), top))
            assert math.dist(near, led.centre) > led.radius_mm - 1e-6, name


def test_no_short_name_of_a_resistor_is_the_reference_of_a_part() -> None:
    for layout, driver in (("88:88", "logic-mosfet"), ("8.8", "constant-current-sink-8")):
        plan = boards.wired(layout, driver=driver).plan
        refs = [part.ref for part in circuit_of(plan).components]
        assert len(set(refs)) == len(refs)
        short = {short_name(string) for string in plan.strings if string.resistor}
        assert not short & set(refs)


def test_colour_is_never_the_only_mark() -> None:
    """Each wire from the connector bears its segment and its code in letters."""
    said = words(digit_drawing(boards.wired("8.8"), (1,)))
    for tag in ("a WH", "b BN", "c GN", "d YE", "e GY", "f PK", "g BU", "dp VT"):
        assert tag in said


def test_digits_that_differ_get_a_sheet_each() -> None:
    assert alike(boards.wired("88:88").plan) == ((1, 3, 4), (2,))
    assert alike(boards.wired("88 88").plan) == ((1, 2, 3, 4),)
    assert alike(boards.wired("8:o8.").plan) == ((1,), (2,), (3,))


@pytest.mark.parametrize("driver", boards.DRIVES)
def test_every_driver_can_be_drawn(driver: str) -> None:
    said = words(digit_drawing(boards.wired("8", driver=driver), (1,)))
    assert "X1" in said
