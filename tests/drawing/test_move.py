from __future__ import annotations

from segkit.drawing.drawing import Circle, Path, Text
from segkit.drawing.move import moved, scaled

SHAPES = (
    Path(((1.0, 2.0), (3.0, 4.0)), closed=False),
    Circle((5.0, 6.0), 7.0),
    Text((8.0, 9.0), "a", 10.0, "end", 90.0),
)


def test_moved_and_back_is_the_same() -> None:
    assert tuple(moved(moved(SHAPES, dx_mm=4, dy_mm=-2), dx_mm=-4, dy_mm=2)) == SHAPES


def test_scaled_lengths_and_type() -> None:
    line, ring, text = scaled(SHAPES, factor=0.5, dx_mm=10, dy_mm=20)
    assert line == Path(((10.5, 21.0), (11.5, 22.0)), closed=False)
    assert ring == Circle((12.5, 23.0), 3.5)
    assert text == Text((14.0, 24.5), "a", 5.0, "end", 90.0)
