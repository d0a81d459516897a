"""The one board of push-in bulbs, cut along a row of them: thickness, holes, pitch, fixing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.drawing.drawing import Drawing, Layer, Path, Point, Shape, Text
from segkit.fabrication.cut_sheet import wrapped
from segkit.fabrication.dimensions import TYPE_MM, Leader, across, leaders, upright
from segkit.fabrication.layers import NOTE_MM, Palette, sheet_shade
from segkit.fabrication.section import PAGE_MM, SCALES
from segkit.units import plain_number

_FOOT: Point = (32.0, 92.0)
_MOST_BULBS = 3
_FILLS = {"bulbs": "#f4d58a", "screw": "#c9ced3"}


@dataclass(frozen=True)
class BulbSection:
    """What is drawn, all in mm.

    Attributes:
        board_mm, material: thickness and name of the board.
        hole_mm: of a bulb.
        pitch_mm: between bulbs of a row, as built.
        reflectance: of the board, for its grey.
        bulbs: in the row, 2 or more.
        screw_mm: thread and length of the screw, (0, 0) for none.
    """

    board_mm: float
    material: str
    hole_mm: float
    pitch_mm: float
    reflectance: float
    bulbs: int
    screw_mm: tuple[float, float] = (0.0, 0.0)


def bulb_section_drawing(section: BulbSection, *, palette: Palette, title: str, stamp: str = "") -> Drawing:
    """Up to three bulbs of a row and a fixing, with dimensions, on a landscape A4 page, at a round scale.

    How far a bulb stands out is its maker's; it is drawn as tall as its hole is wide.

    Args:
        section: sizes of the board.
        palette: colours of the notes.
        title, stamp: of the design.

    Sources: arithmetic.
    """
    wide = _wide_mm(section)
    scale = next((s for s in SCALES if s * wide <= 125 and s * _high_mm(section) <= 70), SCALES[-1])
    ratio = f"{plain_number(scale)}:1" if scale >= 1 else f"1:{plain_number(round(1 / scale, 2))}"
    said = (
        "The bulbs are pushed in from behind, evenly along the middle of each segment; the worksheet has the "
        "pitch of each kind. How far they stand out is their maker's. The reader is above."
    )
    rows = wrapped([said], width_mm=PAGE_MM[0] - 30, height_mm=TYPE_MM)
    notes = (
        Text((15.0, PAGE_MM[1] - 17.0), f"CROSS-SECTION OF THE BULB BOARD, {ratio}", 7.0),
        Text((15.0, PAGE_MM[1] - 25.0), title, 4.4),
        *([Text((15.0, 8.0), f"Made from {stamp}", 2.6)] if stamp else []),
        *(Text((15.0, 32.0 - i * 1.45 * TYPE_MM), row, TYPE_MM) for i, row in enumerate(rows)),
        *_dimensions(section, scale),
    )
    filled = {name: shapes for name, shapes in _fills(section, scale).items() if shapes}
    fills = _FILLS | {"board": sheet_shade(section.reflectance)}
    layers = (
        *(Layer(f"fill-{name}", "fill", shapes, fills[name]) for name, shapes in filled.items()),
        Layer("edges", "note", tuple(one for shapes in filled.values() for one in shapes), "#222222", 0.25),
        Layer("dimensions", "note", notes, palette.notes, NOTE_MM),
    )
    return Drawing(f"{title}: cross-section", *PAGE_MM, layers, background="#ffffff", stamp=stamp)


def _middles(s: BulbSection) -> list[float]:
    """Of the bulbs, from the left end of the drawing."""
    return [s.pitch_mm * (0.6 + i) for i in range(min(s.bulbs, _MOST_BULBS))]


def _screw_mm(s: BulbSection) -> float:
    return _middles(s)[-1] + s.hole_mm / 2 + 2 * s.screw_mm[0] + 3.0


def _wide_mm(s: BulbSection) -> float:
    return _screw_mm(s) + 2 * s.screw_mm[0] + 3.0


def _high_mm(s: BulbSection) -> float:
    return s.board_mm + 2 * s.hole_mm


def _box(scale: float, left: float, right: float, low: float, high: float) -> Path:
    corners = ((left, low), (right, low), (right, high), (left, high))
    return Path(tuple((_FOOT[0] + scale * x, _FOOT[1] + scale * y) for x, y in corners))


def _fills(s: BulbSection, scale: float) -> dict[str, tuple[Path, ...]]:
    radius, thread, x = s.hole_mm / 2, s.screw_mm[0], _screw_mm(s)
    ends = [0.0, *(x + side * radius for x in _middles(s) for side in (-1, 1)), _wide_mm(s)]
    board = tuple(
        _box(scale, left, right, 0.0, s.board_mm) for left, right in zip(ends[::2], ends[1::2], strict=True)
    )
    screw: tuple[Path, ...] = ()
    if thread:
        screw = (
            _box(scale, x - thread / 2, x + thread / 2, -1.3 * thread, s.board_mm),
            _box(scale, x - 0.95 * thread, x + 0.95 * thread, s.board_mm, s.board_mm + 0.6 * thread),
            _box(scale, x - 0.95 * thread, x + 0.95 * thread, -0.8 * thread, 0.0),
        )
    return {"board": board, "bulbs": tuple(_bulb(s, scale, x) for x in _middles(s)), "screw": screw}


def _bulb(s: BulbSection, scale: float, x: float) -> Path:
    """A bulb in its hole: straight behind and through the board, its tip round."""
    r = s.hole_mm / 2
    dome = [
        (x + r * math.cos(t), s.board_mm + r + r * math.sin(t)) for t in (math.pi * i / 16 for i in range(17))
    ]
    points = [(x - r, -r), (x + r, -r), *dome]
    return Path(tuple((_FOOT[0] + scale * a, _FOOT[1] + scale * b) for a, b in points))


def _dimensions(s: BulbSection, scale: float) -> Iterator[Shape]:
    def at(x: float, y: float) -> Point:
        return (_FOOT[0] + scale * x, _FOOT[1] + scale * y)

    first, second = at(_middles(s)[0], 0.0)[0], at(_middles(s)[1], 0.0)[0]
    tip, low = at(0.0, s.board_mm + s.hole_mm)[1], at(0.0, -s.hole_mm / 2)[1]
    yield from across(
        left_mm=first, right_mm=second, y_mm=tip + 8.0, foot_mm=tip, words=f"pitch {_mm(s.pitch_mm)}"
    )
    half = scale * s.hole_mm / 2
    yield from across(
        left_mm=first - half,
        right_mm=first + half,
        y_mm=low - 8.0,
        foot_mm=low,
        words=f"hole {_mm(s.hole_mm)}",
    )
    (left, foot), top = at(0.0, 0.0), at(0.0, s.board_mm)[1]
    yield from upright(x_mm=left - 7.0, low_mm=foot, high_mm=top, foot_mm=left, words=_mm(s.board_mm))
    end = at(_wide_mm(s), 0.0)
    rows = [
        Leader(at(_wide_mm(s) - 1.0, s.board_mm / 2), f"board {_mm(s.board_mm)}, {s.material}"),
        Leader(at(_middles(s)[-1] + s.hole_mm * 0.3, s.board_mm + s.hole_mm * 0.6), "push-in bulb"),
    ]
    thread, length = s.screw_mm
    if thread:
        words = f"screw M{plain_number(thread)} x {_mm(length)}, nut behind"
        rows.insert(0, Leader(at(_screw_mm(s) + 0.6 * thread, -0.4 * thread), words))
    yield from leaders(rows, x_mm=end[0] + 13.0, room_mm=PAGE_MM[0] - end[0] - 22.0)


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} mm"
