"""The part of a drawing that a window shows."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from segkit.drawing.drawing import Circle, Path, Point, Shape
from segkit.geometry.polygon import arc_steps

Window = tuple[float, float, float, float]  # left, bottom, right, top [mm]
_ARC_MM = 0.002  # an arc that a window cuts is drawn as chords that keep within this


def clipped(shapes: Iterable[Shape], window: Window) -> tuple[Shape, ...]:
    """The shapes as far as they lie in the window.

    A line is cut where it leaves the window; what is left of an outline is open lines. A circle stays a
    circle if it is inside, and becomes arcs of fine chords if it is cut. Texts are left out: they are put
    where they fit by whoever draws the page.

    Args:
        shapes: in mm.
        window: left, bottom, right, top [mm].

    Sources: arithmetic.

    Example:
        >>> clipped([Path(((0, 5), (20, 5)), closed=False)], (2, 0, 10, 9))
        (Path(points=((2.0, 5.0), (10.0, 5.0)), closed=False),)
    """
    return tuple(piece for shape in shapes for piece in _clipped_one(shape, window))


def _clipped_one(shape: Shape, window: Window) -> Iterator[Shape]:
    if isinstance(shape, Path):
        xs, ys = [x for x, _ in shape.points], [y for _, y in shape.points]
        place = _place((min(xs), min(ys), max(xs), max(ys)), window)
        if place == "inside":
            yield shape
        elif place == "across":
            yield from _lines(shape.points, shape.closed, window)
    elif isinstance(shape, Circle):
        (x, y), r = shape.centre, shape.radius_mm
        place = _place((x - r, y - r, x + r, y + r), window)
        if place == "inside":
            yield shape
        elif place == "across":
            yield from _lines(_chords(shape), True, window)


def _place(box: Window, window: Window) -> str:
    left, bottom, right, top = window
    if box[0] >= left and box[1] >= bottom and box[2] <= right and box[3] <= top:
        return "inside"
    if box[2] < left or box[3] < bottom or box[0] > right or box[1] > top:
        return "outside"
    return "across"


def _chords(circle: Circle) -> tuple[Point, ...]:
    (x, y), r = circle.centre, circle.radius_mm
    steps = arc_steps(r, flattening_mm=_ARC_MM)
    turns = (math.tau * i / steps for i in range(steps))
    return tuple((x + r * math.cos(t), y + r * math.sin(t)) for t in turns)


def _lines(points: tuple[Point, ...], closed: bool, window: Window) -> Iterator[Path]:
    ends = points[1:] + points[:1] if closed else points[1:]
    runs: list[list[Point]] = []
    for one, other in zip(points, ends, strict=False):
        cut = _inside_part(one, other, window)
        if cut is None or cut[0] == cut[1]:
            continue
        if runs and runs[-1][-1] == cut[0]:
            runs[-1].append(cut[1])
        else:
            runs.append([*cut])
    if closed and len(runs) > 1 and runs[-1][-1] == runs[0][0]:
        runs[0] = [*runs.pop(), *runs[0][1:]]
    yield from (Path(tuple(run), closed=False) for run in runs)


def _inside_part(one: Point, other: Point, window: Window) -> tuple[Point, Point] | None:
    """What of a line lies in the window: its parameter narrowed by one side after the other."""
    (x, y), dx, dy = one, other[0] - one[0], other[1] - one[1]
    low, high = 0.0, 1.0
    for step, room in (
        (-dx, x - window[0]), (dx, window[2] - x), (-dy, y - window[1]), (dy, window[3] - y),
    ):  # fmt: skip
        if step == 0:
            if room < 0:
                return None
            continue
        share = room / step
        low, high = (max(low, share), high) if step < 0 else (low, min(high, share))
    if low > high:
        return None
    start = one if low == 0 else (x + low * dx, y + low * dy)
    end = other if high == 1 else (x + high * dx, y + high * dy)
    return start, end
