"""The stack cut through a segment: every layer with its thickness, the pocket, the LED, the fixing."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.drawing.drawing import Drawing, Layer, Path, Point, Shape, Text
from segkit.fabrication.cut_sheet import wrapped
from segkit.fabrication.dimensions import TYPE_MM, Leader, across, leaders, upright
from segkit.fabrication.layers import NOTE_MM, Palette, sheet_shade
from segkit.units import plain_number

PAGE_MM = (297.0, 210.0)
SPACER_MM = 0.5  # a gap under the face below this needs no spacer; source common-practice
SCALES = (5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.75, 0.5, 1 / 3, 0.25, 0.2, 0.1)
_FOOT: Point = (32.0, 58.0)  # on the page, of the stack's lower left corner
_NEIGHBOUR_MM = 7.0  # what is shown of the next pocket
_HEAD, _NUT, _PROUD = 0.6, 0.8, 0.5  # of a screw: head, nut, turns beyond it, in diameters
_FILLS = {
    "air": "#fbf8ef", "back": "#d8c7a6", "grid": "#e9dfc9", "diffuser": "#cfe3f2",
    "front": "#9fb4c2", "spacer": "#b3c29a", "reflector": "#7d8790", "led": "#c2185b", "screw": "#c9ced3",
}  # fmt: skip
_Span = tuple[float, float]


@dataclass(frozen=True)
class Section:
    """What is drawn, all in mm.

    Attributes:
        back_mm, grid_mm, diffuser_mm, face_mm: thickness of the sheets; diffuser_mm 0 for none.
        layers: of grid sheet.
        front_mm: thickness of a tinted sheet over the face, 0 for none.
        opening_mm: width of the opening in the face across the segment.
        ledge_mm: how much narrower the pocket is on each side.
        reach_mm: how far the diffuser reaches over the opening on each side (negative for the play of a
            piece that is let in), or None for one sheet.
        gap_mm: board between this opening and the next, 0 where there is no next.
        led_body_mm, led_hole_mm, led_tip_mm: of the LED: body, hole, height of its tip above the back board.
        fit: ``lip``, ``let-in`` or ``sheet``.
        materials: names of back, grid, diffuser, face and front, the last empty for none.
        screw_mm: thread and length of the screw through the stack, (0, 0) for none.
        reflector: thickness and name of the sheet on the floor of the pocket, (0, "") for none.
        face_reflectance: of the face, for its grey.
    """

    back_mm: float
    grid_mm: float
    layers: int
    diffuser_mm: float
    face_mm: float
    front_mm: float
    opening_mm: float
    ledge_mm: float
    reach_mm: float | None
    gap_mm: float
    led_body_mm: float
    led_hole_mm: float
    led_tip_mm: float
    fit: str
    materials: tuple[str, str, str, str, str]
    screw_mm: tuple[float, float] = (0.0, 0.0)
    reflector: tuple[float, str] = (0.0, "")
    face_reflectance: float = 0.04

    @property
    def depth_mm(self) -> float:
        """Depth of the pocket as built."""
        return self.layers * self.grid_mm

    @property
    def piece_foot_mm(self) -> float:
        """Where the diffuser lies, from the rear of the back board."""
        return self.back_mm + self.depth_mm

    @property
    def face_foot_mm(self) -> float:
        """Where the face lies: on the diffuser, or on the grid where the pieces are let in."""
        return self.piece_foot_mm + (0.0 if self.fit == "let-in" else self.diffuser_mm)

    @property
    def total_mm(self) -> float:
        """Thickness of the stack, from the rear of the back board to the front."""
        top = self.face_foot_mm + self.face_mm
        if self.fit == "let-in":
            top = max(top, self.piece_foot_mm + self.diffuser_mm)
        return top + self.front_mm


def section_drawing(section: Section, *, palette: Palette, title: str, stamp: str = "") -> Drawing:
    """A cross-section with dimensions, on a landscape A4 page, at a round scale.

    The front is on top, the next pocket at the left, a fixing at the right. Every sheet is filled and has
    its thickness and material beside it.

    Args:
        section: sizes of the stack.
        palette: colours of the notes.
        title, stamp: of the design.

    Sources: arithmetic.
    """
    wide, high = _right_mm(section) - _left_mm(section), section.total_mm
    scale = next((s for s in SCALES if s * wide <= 125 and s * high <= 98), SCALES[-1])
    frame = _Frame(scale, section)
    ratio = f"{plain_number(scale)}:1" if scale >= 1 else f"1:{plain_number(round(1 / scale, 2))}"
    rows = wrapped(_sentences(section), width_mm=PAGE_MM[0] - 30, height_mm=TYPE_MM)
    notes = (
        Text((15.0, PAGE_MM[1] - 17.0), f"CROSS-SECTION OF A SEGMENT, {ratio}", 7.0),
        Text((15.0, PAGE_MM[1] - 25.0), title, 4.4),
        *([Text((15.0, 8.0), f"Made from {stamp}", 2.6)] if stamp else []),
        *(Text((15.0, 32.0 - i * 1.45 * TYPE_MM), row, TYPE_MM) for i, row in enumerate(rows)),
        *_dimensions(frame),
    )
    filled = {name: shapes for name, shapes in _fills(frame).items() if shapes}
    fills = _FILLS | {"face": sheet_shade(section.face_reflectance)}
    layers = (
        *(Layer(f"fill-{name}", "fill", shapes, fills[name]) for name, shapes in filled.items()),
        Layer("edges", "note", tuple(one for shapes in filled.values() for one in shapes), "#222222", 0.25),
        Layer("dimensions", "note", notes, palette.notes, NOTE_MM),
    )
    return Drawing(f"{title}: cross-section", *PAGE_MM, layers, background="#ffffff", stamp=stamp)


def _left_mm(s: Section) -> float:
    """The left end of the drawing, inside the next pocket, from the middle of the segment."""
    return -(s.opening_mm / 2 + (s.gap_mm or 8.0) + _NEIGHBOUR_MM)


def _right_mm(s: Section) -> float:
    """The right end of the drawing, beyond the fixing."""
    return _screw_x_mm(s) + _screw_room_mm(s)


def _screw_x_mm(s: Section) -> float:
    return s.opening_mm / 2 + max(s.reach_mm or 0.0, 0.0) + _screw_room_mm(s)


def _screw_room_mm(s: Section) -> float:
    return max(s.screw_mm[0], 3.0) + 3.0


@dataclass(frozen=True)
class _Frame:
    """From the stack (x from the middle of the segment, z from the rear) to the page."""

    scale: float
    section: Section

    def at(self, x: float, z: float) -> Point:
        return (_FOOT[0] + self.scale * (x - _left_mm(self.section)), _FOOT[1] + self.scale * z)

    def boxes(self, low: float, thick: float, *spans: _Span) -> tuple[Path, ...]:
        """One layer; nothing where it has no thickness."""
        high = low + thick
        return tuple(
            Path((self.at(left, low), self.at(right, low), self.at(right, high), self.at(left, high)))
            for left, right in spans
            if thick > 0 and right > left
        )


def _spans(s: Section) -> dict[str, list[_Span]]:
    """Where each layer is, from left to right."""
    left, right, half, hole = _left_mm(s), _right_mm(s), s.opening_mm / 2, s.led_hole_mm / 2
    pocket, reach = half - s.ledge_mm, s.reach_mm
    beyond = -half - s.gap_mm if s.gap_mm else left  # where the next opening ends
    rim = beyond - s.ledge_mm if s.gap_mm else left
    pieces = [(left, right)]
    if reach is not None:
        pieces = [(left, beyond + reach if s.gap_mm else left), (-half - reach, half + reach)]
    return {
        "air": [(left, rim), (-pocket, pocket)],
        "back": [(left, -hole), (hole, right)],
        "grid": [(rim, -pocket), (pocket, right)],
        "diffuser": pieces,
        "face": [(beyond, -half), (half, right)],
        "front": [(left, right)],
        "spacer": [_spacer(s)],
        "reflector": [(left, rim), (-pocket, -hole), (hole, pocket)],
    }


def _spacer(s: Section) -> _Span:
    """A spacer beside diffuser pieces that carry the face; nothing where others do, or film."""
    if s.fit != "lip" or s.diffuser_mm < SPACER_MM or not s.screw_mm[0]:
        return (0.0, 0.0)
    return (_screw_x_mm(s) - s.screw_mm[0], _screw_x_mm(s) + s.screw_mm[0])


def _fills(frame: _Frame) -> dict[str, tuple[Path, ...]]:
    s = frame.section
    spans = _spans(s)
    layers = (s.back_mm + k * s.grid_mm for k in range(s.layers))
    return {
        "air": frame.boxes(s.back_mm, s.depth_mm, *spans["air"]),
        "back": frame.boxes(0.0, s.back_mm, *spans["back"]),
        "grid": tuple(box for low in layers for box in frame.boxes(low, s.grid_mm, *spans["grid"])),
        "diffuser": frame.boxes(s.piece_foot_mm, s.diffuser_mm, *spans["diffuser"]),
        "reflector": frame.boxes(s.back_mm, _seen_mm(frame), *spans["reflector"]),
        "spacer": frame.boxes(s.piece_foot_mm, s.diffuser_mm, *spans["spacer"]),
        "face": frame.boxes(s.face_foot_mm, s.face_mm, *spans["face"]),
        "front": frame.boxes(s.total_mm - s.front_mm, s.front_mm, *spans["front"]),
        "led": (_led(frame),),
        "screw": _screw(frame),
    }


def _seen_mm(frame: _Frame) -> float:
    """Thickness of the reflector as drawn: that of a line at least, so that a tape is seen."""
    thick = frame.section.reflector[0]
    return max(thick, 0.6 / frame.scale) if thick else 0.0


def _led(frame: _Frame) -> Path:
    """The LED in its hole: a straight body with a rounded tip."""
    s = frame.section
    r, tip = s.led_body_mm / 2, s.back_mm + s.led_tip_mm
    shoulder = max(0.0, tip - r)
    dome = [
        frame.at(r * math.cos(t), shoulder + (tip - shoulder) * math.sin(t))
        for t in (math.pi * i / 16 for i in range(17))
    ]
    return Path((frame.at(-r, 0.0), frame.at(r, 0.0), *dome))


def _screw(frame: _Frame) -> tuple[Path, ...]:
    """Shank, head on the front and nut behind."""
    s = frame.section
    thread, x = s.screw_mm[0], _screw_x_mm(s)
    shank, wide = (x - thread / 2, x + thread / 2), (x - 0.95 * thread, x + 0.95 * thread)
    beyond = (_NUT + _PROUD) * thread
    return (
        *frame.boxes(-beyond, s.total_mm + beyond, shank),
        *frame.boxes(s.total_mm, _HEAD * thread, wide),
        *frame.boxes(-_NUT * thread, _NUT * thread, wide),
    )


def _dimensions(frame: _Frame) -> Iterator[Shape]:
    s = frame.section
    end = frame.at(_right_mm(s), 0.0)[0]
    rows = sorted(_rows(frame), key=lambda row: row.dot[1])
    yield from leaders(rows, x_mm=end + 13.0, room_mm=PAGE_MM[0] - end - 22.0)
    (left, foot), top = frame.at(_left_mm(s), 0.0), frame.at(0.0, s.total_mm)[1]
    yield from upright(x_mm=left - 7.0, low_mm=foot, high_mm=top, foot_mm=left, words=_mm(s.total_mm))
    tip, sheet = frame.at(0.0, s.back_mm + s.led_tip_mm), frame.at(0.0, s.piece_foot_mm)
    if sheet[1] - tip[1] > 5 * TYPE_MM:
        free = _mm(s.depth_mm - s.led_tip_mm)
        yield from upright(x_mm=tip[0], low_mm=tip[1], high_mm=sheet[1], foot_mm=tip[0], words=free)

    def level(ends: _Span, y: float, foot: float, words: str) -> Iterator[Shape]:
        one, other = (frame.at(x, 0.0)[0] for x in ends)
        yield from across(left_mm=one, right_mm=other, y_mm=y, foot_mm=foot, words=words)

    half, pocket = s.opening_mm / 2, s.opening_mm / 2 - s.ledge_mm
    yield from level((-half, half), top + 8.0, top, f"opening {_mm(s.opening_mm)}")
    yield from level((-pocket, pocket), foot - 8.0, foot, f"pocket {_mm(2 * pocket)}")
    if s.gap_mm:
        yield from level((-half - s.gap_mm, -half), top + 16.0, top, f"gap {_mm(s.gap_mm)}")


def _rows(frame: _Frame) -> Iterator[Leader]:
    """What is said at the right, each with the place that it names."""
    s = frame.section
    half, right = s.opening_mm / 2, _right_mm(s) - 1.0
    grid = f"light grid {s.layers} x {_mm(s.grid_mm)} = {_mm(s.depth_mm)}"
    rests = {
        "lip": f", lip {_mm(s.reach_mm or 0.0)}",
        "let-in": f", play {_mm(-(s.reach_mm or 0.0))}",
    }.get(s.fit, "")
    rows = [
        (right, s.back_mm / 2, f"back board {_mm(s.back_mm)}, {s.materials[0]}"),
        (0.0, s.back_mm + s.led_tip_mm * 0.4,
         f"LED {_mm(s.led_body_mm)}, hole {_mm(s.led_hole_mm)}, tip {_mm(s.led_tip_mm)} over the back board"),
        (right, s.back_mm + 0.6 * s.depth_mm, f"{grid}, {s.materials[1]}"),
        (right, s.face_foot_mm + s.face_mm / 2, f"face {_mm(s.face_mm)}, {s.materials[3]}"),
    ]  # fmt: skip
    if s.diffuser_mm:
        words = f"diffuser {_mm(s.diffuser_mm)}{rests}, {s.materials[2]}"
        end = right if s.reach_mm is None else half - 1.0
        rows.append((end, s.piece_foot_mm + 0.7 * s.diffuser_mm, words))
    if s.front_mm:
        rows.append((right, s.total_mm - s.front_mm / 2, f"front {_mm(s.front_mm)}, {s.materials[4]}"))
    thick, name = s.reflector
    if thick:
        rows.append(
            (half - s.ledge_mm - 1.0, s.back_mm + _seen_mm(frame) / 2, f"reflector {_mm(thick)}, {name}")
        )
    thread, length = s.screw_mm
    if thread:
        size = f"M{plain_number(thread)} x {_mm(length)}"
        rows.append((_screw_x_mm(s) + 0.6 * thread, -0.4 * thread, f"screw {size}, nut behind"))
    if _spacer(s)[1]:
        words = f"spacer {_mm(s.diffuser_mm)}"
        rows.append((_screw_x_mm(s) + 0.75 * thread, s.piece_foot_mm + 0.3 * s.diffuser_mm, words))
    for x, z, said in rows:
        yield Leader(frame.at(x, z), said)


def _sentences(s: Section) -> Iterator[str]:
    if s.fit == "let-in":
        yield (
            f"Each piece is let into the face with {_mm(-(s.reach_mm or 0.0))} of play all round and rests "
            f"on a ledge of {_mm(s.ledge_mm)}."
        )
    elif s.fit == "lip" and s.reach_mm is not None:
        spacers = f" Between the pieces put spacers {_mm(s.diffuser_mm)} thick at the fixing holes."
        yield (
            f"Each piece lies on the grid with a lip of {_mm(s.reach_mm)} all round; the face lies on the "
            f"pieces.{spacers if s.diffuser_mm >= SPACER_MM else ''}"
        )
    else:
        yield "The diffuser is one sheet between the grid and the face."
    beside = "The next pocket is at the left. " if s.gap_mm else ""
    yield f"{beside}The reader is above."


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} mm"
