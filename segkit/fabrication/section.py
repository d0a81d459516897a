"""The stack cut through a segment: every layer with its thickness, the pocket, the LED, the fixing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Drawing, Layer, Path, Point, Shape, Text
from segkit.fabrication.cut_sheet import size_to_fit, wrapped
from segkit.fabrication.layers import NOTE_MM, Palette
from segkit.units import plain_number

PAGE_MM = (297.0, 210.0)
SCALES = (5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.75, 0.5, 1 / 3, 0.25, 0.2, 0.1)
_TYPE_MM = 3.6
_FILLS = {
    "back": "#d8c7a6", "grid": "#e9dfc9", "diffuser": "#cfe3f2", "face": "#3a3f46", "front": "#9fb4c2",
    "led": "#c2185b", "air": "#fbf8ef",
}  # fmt: skip


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
        gap_mm: board between this opening and the next.
        led_body_mm, led_hole_mm, led_tip_mm: of the LED: body, hole, height of its tip above the back board.
        fit: ``lip``, ``let-in`` or ``sheet``.
        materials: names of back, grid, diffuser, face and front, the last empty for none.
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

    The front is on top. Layers that are hidden by nothing are filled; every sheet has its thickness and
    material beside it, the opening, the pocket and the lip theirs above and below.

    Args:
        section: sizes of the stack.
        palette: colours of the notes.
        title, stamp: of the design.

    Sources: arithmetic.
    """
    wide, high = _half_width(section) * 2, section.total_mm
    scale = next((s for s in SCALES if s * wide <= 130 and s * high <= 105), SCALES[-1])
    frame = _Frame(scale, (25.0, 62.0), section)
    ratio = f"{plain_number(scale)}:1" if scale >= 1 else f"1:{plain_number(round(1 / scale, 2))}"
    head = (
        Text((15.0, PAGE_MM[1] - 17.0), f"CROSS-SECTION OF A SEGMENT, {ratio}", 7.0),
        Text((15.0, PAGE_MM[1] - 25.0), title, 4.4),
        Text((15.0, 8.0), f"Made from {stamp}" if stamp else "", 2.6),
    )
    rows = wrapped(_sentences(section), width_mm=PAGE_MM[0] - 30, height_mm=_TYPE_MM)
    block = tuple(Text((15.0, 34.0 - i * 1.45 * _TYPE_MM), row, _TYPE_MM) for i, row in enumerate(rows))
    layers = [
        Layer(f"fill-{name}", "fill", tuple(shapes), _FILLS[name]) for name, shapes in _fills(frame) if shapes
    ]
    layers.append(
        Layer("edges", "note", tuple(s for _, shapes in _fills(frame) for s in shapes), "#222222", 0.25)
    )
    notes = tuple(
        text for text in (*head, *block, *_dimensions(frame)) if not isinstance(text, Text) or text.text
    )
    layers.append(Layer("dimensions", "note", notes, palette.notes, NOTE_MM))
    return Drawing(f"{title}: cross-section", *PAGE_MM, tuple(layers), background="#ffffff", stamp=stamp)


def _half_width(section: Section) -> float:
    return section.opening_mm / 2 + max(section.gap_mm, 8.0) + 6.0


@dataclass(frozen=True)
class _Frame:
    """From the stack (x from the middle of the segment, z from the rear) to the page."""

    scale: float
    corner: Point
    section: Section

    def at(self, x: float, z: float) -> Point:
        return (
            self.corner[0] + self.scale * (x + _half_width(self.section)),
            self.corner[1] + self.scale * z,
        )

    def box(self, left: float, right: float, low: float, high: float) -> Path:
        return Path((self.at(left, low), self.at(right, low), self.at(right, high), self.at(left, high)))


def _fills(frame: _Frame) -> list[tuple[str, Sequence[Shape]]]:
    s = frame.section
    half, edge = s.opening_mm / 2, _half_width(s)
    pocket, hole = half - s.ledge_mm, s.led_hole_mm / 2
    back = [frame.box(-edge, -hole, 0, s.back_mm), frame.box(hole, edge, 0, s.back_mm)]
    grid = [
        frame.box(left, right, s.back_mm + k * s.grid_mm, s.back_mm + (k + 1) * s.grid_mm)
        for k in range(s.layers)
        for left, right in ((-edge, -pocket), (pocket, edge))
    ]
    air = [frame.box(-pocket, pocket, s.back_mm, s.back_mm + s.depth_mm)]
    reach = edge if s.reach_mm is None else half + s.reach_mm
    piece = (
        [frame.box(-reach, reach, s.piece_foot_mm, s.piece_foot_mm + s.diffuser_mm)] if s.diffuser_mm else []
    )
    low = s.face_foot_mm
    face = [frame.box(-edge, -half, low, low + s.face_mm), frame.box(half, edge, low, low + s.face_mm)]
    front = [frame.box(-edge, edge, s.total_mm - s.front_mm, s.total_mm)] if s.front_mm else []
    return [
        ("air", air), ("back", back), ("grid", grid), ("diffuser", piece), ("face", face),
        ("front", front), ("led", [_led(frame)]),
    ]  # fmt: skip


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


def _dimensions(frame: _Frame) -> Iterator[Shape]:
    s = frame.section
    edge = _half_width(s)
    rows = [
        (0.0, s.back_mm, f"back board {_mm(s.back_mm)}, {s.materials[0]}"),
        (
            s.back_mm,
            s.piece_foot_mm,
            f"light grid {s.layers} x {_mm(s.grid_mm)} = {_mm(s.depth_mm)}, {s.materials[1]}",
        ),
    ]
    if s.diffuser_mm:
        rows.append(
            (
                s.piece_foot_mm,
                s.piece_foot_mm + s.diffuser_mm,
                f"diffuser {_mm(s.diffuser_mm)}, {s.materials[2]}",
            )
        )
    rows.append((s.face_foot_mm, s.face_foot_mm + s.face_mm, f"face {_mm(s.face_mm)}, {s.materials[3]}"))
    if s.front_mm:
        rows.append((s.total_mm - s.front_mm, s.total_mm, f"front {_mm(s.front_mm)}, {s.materials[4]}"))
    yield from _labels(frame, rows)
    yield from _upright(frame.at(-edge, 0.0), frame.at(-edge, s.total_mm), _mm(s.total_mm))
    half, top = s.opening_mm / 2, frame.at(0, s.total_mm)[1]
    yield from _across(
        frame.at(-half, 0)[0], frame.at(half, 0)[0], top + 9.0, top, f"opening {_mm(s.opening_mm)}"
    )
    foot = frame.at(0, 0)[1]
    pocket = half - s.ledge_mm
    yield from _across(
        frame.at(-pocket, 0)[0], frame.at(pocket, 0)[0], foot - 13.0, foot, f"pocket {_mm(2 * pocket)}"
    )
    yield from _across(
        frame.at(-s.led_hole_mm / 2, 0)[0], frame.at(s.led_hole_mm / 2, 0)[0], foot - 6.0, foot,
        f"hole {_mm(s.led_hole_mm)}", beside=True,
    )  # fmt: skip


def _labels(frame: _Frame, rows: Sequence[tuple[float, float, str]]) -> Iterator[Shape]:
    """A leader from the middle of each layer to its words at the right, kept apart from each other."""
    right = frame.at(_half_width(frame.section), 0.0)[0]
    x, room, last = right + 14.0, PAGE_MM[0] - right - 26.0, -1e9
    for low, high, words in rows:
        y = frame.at(0, (low + high) / 2)[1]
        size = size_to_fit(words, width_mm=room, largest_mm=_TYPE_MM)
        place = max(y, last + 1.7 * _TYPE_MM)
        last = place
        yield Path(((right, y), (right + 5.0, y), (x - 2.0, place)), closed=False)
        yield Text((x, place - 0.36 * size), words, size)


def _across(
    left: float, right: float, y: float, foot: float, words: str, *, beside: bool = False
) -> Iterator[Shape]:
    yield Path(((left, y), (right, y)), closed=False)
    for x in (left, right):
        yield Path(((x, foot), (x, y + (1.5 if y > foot else -1.5))), closed=False)
        yield Path(((x - 0.9, y - 0.9), (x + 0.9, y + 0.9)), closed=False)
    at = (right + 2.0, y - 0.36 * _TYPE_MM) if beside else ((left + right) / 2, y + 1.2)
    yield Text(at, words, _TYPE_MM, "start" if beside else "middle")


def _upright(low: Point, high: Point, words: str) -> Iterator[Shape]:
    x = low[0] - 6.0
    yield Path(((x, low[1]), (x, high[1])), closed=False)
    for _, y in (low, high):
        yield Path(((low[0], y), (x - 1.5, y)), closed=False)
        yield Path(((x - 0.9, y - 0.9), (x + 0.9, y + 0.9)), closed=False)
    yield Text((x - 1.4, (low[1] + high[1]) / 2), words, _TYPE_MM, "middle", 90.0)


def _sentences(s: Section) -> Iterator[str]:
    if s.fit == "let-in":
        yield (
            f"Each piece is let into the face with {_mm(-(s.reach_mm or 0.0))} of play all round and rests "
            f"on a ledge of {_mm(s.ledge_mm)}."
        )
    elif s.fit == "lip" and s.reach_mm is not None:
        yield (
            f"Each piece lies on the grid with a lip of {_mm(s.reach_mm)} all round; the face lies on the "
            f"pieces. Between the pieces put spacers {_mm(s.diffuser_mm)} thick at the fixing holes."
        )
    else:
        yield "The diffuser is one sheet between the grid and the face."
    air = s.depth_mm - s.led_tip_mm
    yield f"From the tip of the LED to the diffuser: {_mm(air)}. The reader is above."


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} mm"
