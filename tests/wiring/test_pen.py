"""The page that is filled with inks."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Text
from segkit.drawing.svg import svg_text
from segkit.wiring.pen import INKS, Pen, dashes, text_mm

points = st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=2, max_size=6)


def path_mm(path) -> float:
    return sum(math.dist(a, b) for a, b in itertools.pairwise(path))


@given(path=points, dash=st.floats(0.5, 20))
def test_dashes_cover_about_half_and_lie_on_the_line(path, dash: float) -> None:
    whole = path_mm(path)
    covered = sum(path_mm(piece) for piece in dashes(path, dash))
    assert covered <= whole + 1e-6
    assert abs(covered - whole / 2) <= dash + 1e-6


def test_dashes_go_on_round_a_corner() -> None:
    pieces = dashes([(0, 0), (3, 0), (3, 3)], 2)
    assert pieces == [((2.0, 0.0), (3.0, 0.0)), ((3.0, 0.0), (3.0, 1.0))]


def test_layers_come_in_the_order_of_the_inks() -> None:
    pen = Pen("t", "s", 100, 50)
    pen.text((1, 1), "x", 3)
    pen.wire(((0, 0), (10, 0)), "GYPK")
    pen.dot((0, 0), 1)
    pen.tag((5, 5), "tag", 2)
    names = [layer.name for layer in pen.drawing().layers]
    assert names == [ink for ink in INKS if ink in names]
    assert {"casing", "core-gy", "core-pk", "text", "tag", "solid"} == set(names)
    assert "<title>t</title>" in svg_text(pen.drawing())


def test_a_wire_of_unknown_colour_is_still_a_line() -> None:
    pen = Pen("t", "s", 100, 50)
    pen.wire(((0, 0), (10, 0)), "no core left")
    assert [layer.name for layer in pen.drawing().layers] == ["casing"]


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_a_tag_has_its_ground_behind_its_words(anchor) -> None:
    pen = Pen("t", "s", 100, 50)
    pen.tag((50, 25), "abcd", 4, anchor=anchor)
    layers = {layer.name: layer.shapes for layer in pen.drawing().layers}
    (ground,), (words,) = layers["tag"], layers["text"]
    xs = [x for x, _ in ground.points]
    assert isinstance(words, Text)
    start = words.at[0] - {"start": 0, "middle": 0.5, "end": 1}[anchor] * text_mm("abcd", 4)
    assert min(xs) < start
    assert max(xs) > start + text_mm("abcd", 4)
