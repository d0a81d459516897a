"""Symbols of a schematic: resistor, diode that emits light, capacitor, 0 V, supply, boxes with pins."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Path, Point
from segkit.wiring.pen import Pen, text_mm

PIN_TYPE_MM, NAME_TYPE_MM, VALUE_TYPE_MM = 2.6, 3.2, 2.8
_RESISTOR_LONG, _RESISTOR_WIDE = 7.5, 2.8


def resistor(pen: Pen, start: Point, end: Point, ref: str, value: str) -> None:
    """A box between two points, name and value beside it. Source: iec-60617."""
    mx, my = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    long, wide = min(_RESISTOR_LONG, 0.7 * length) / 2, _RESISTOR_WIDE / 2
    one, other = (mx - ux * long, my - uy * long), (mx + ux * long, my + uy * long)
    pen.line(start, one)
    pen.line(other, end)
    corners = tuple(
        (mx + ux * a * long - uy * b * wide, my + uy * a * long + ux * b * wide)
        for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))
    )
    pen.put("line", Path(corners))
    if abs(uy) > abs(ux):
        pen.text((mx + wide + 1.2, my + 0.4), ref, VALUE_TYPE_MM)
        pen.text((mx + wide + 1.2, my - 3.0), value, VALUE_TYPE_MM)
    else:
        pen.text((mx, my + wide + 0.9), f"{ref}  {value}", VALUE_TYPE_MM, anchor="middle")


def led_down(pen: Pen, at: Point, ref: str, *, reach: float, room: float = math.inf) -> None:
    """A light-emitting diode with its anode on top, from ``reach`` above to ``reach`` below the point.

    Its reference takes ``room`` on the left at most, mm.

    Source: iec-60617 (triangle, bar, two arrows).
    """
    x, y = at
    half = min(2.2, 0.55 * reach)
    pen.line((x, y + reach), (x, y + half))
    pen.line((x, y - half), (x, y - reach))
    pen.put("line", Path(((x - half, y + half), (x + half, y + half), (x, y - half))))
    pen.line((x - half, y - half), (x + half, y - half))
    for shift in (0.0, 1.5):
        sx, sy = x + half + 0.5, y - 0.3 + shift * 0.8 - 0.6
        tip = (sx + 2.2, sy + 1.3)
        pen.line((sx, sy), tip)
        pen.put("solid", Path((tip, (tip[0] - 1.0, tip[1] - 0.1), (tip[0] - 0.4, tip[1] - 0.9))))
    size = min(PIN_TYPE_MM, PIN_TYPE_MM * room / text_mm(ref, PIN_TYPE_MM))
    pen.text((x - half - 1.0, y - 0.9), ref, size, anchor="end")


def capacitor(pen: Pen, top: Point, foot: Point, ref: str, value: str) -> None:
    """Two plates on the way down from one point to another. Source: iec-60617."""
    x, middle = top[0], (top[1] + foot[1]) / 2
    pen.line(top, (x, middle + 0.8))
    pen.line((x, middle - 0.8), foot)
    for y in (middle + 0.8, middle - 0.8):
        pen.line((x - 2.6, y), (x + 2.6, y), ink="heavy")
    pen.text((x + 3.6, middle + 0.4), ref, VALUE_TYPE_MM)
    pen.text((x + 3.6, middle - 3.0), value, VALUE_TYPE_MM)


def zero(pen: Pen, at: Point) -> None:
    """The sign of the common 0 V, hanging from a point. Source: iec-60617."""
    x, y = at
    pen.line((x, y), (x, y - 2.5))
    for number, half in enumerate((2.4, 1.6, 0.8)):
        pen.line((x - half, y - 2.5 - number), (x + half, y - 2.5 - number))


def plus(pen: Pen, at: Point, words: str) -> None:
    """A supply: a short bar on top of a line, with its voltage."""
    x, y = at
    pen.line((x, y), (x, y + 2.5))
    pen.line((x - 2.4, y + 2.5), (x + 2.4, y + 2.5), ink="heavy")
    pen.text((x, y + 4.0), words, VALUE_TYPE_MM, anchor="middle")


def join(pen: Pen, at: Point) -> None:
    """The dot where wires join."""
    pen.dot(at, 0.7, ink="joint")


def transistor(pen: Pen, at: Point, ref: str) -> None:
    """An N-channel MOSFET as a box of three pins: gate left, drain right, source to 0 V below."""
    x, y = at
    pen.box(x - 4, y - 3, 8, 6)
    pen.centred((x, y), ref, PIN_TYPE_MM)
    for dx, dy, words in ((-6.0, 0.7, "G"), (4.6, 0.7, "D")):
        pen.text((x + dx, y + dy), words, 2.0)


def mosfet(pen: Pen, at: Point) -> None:
    """An N-channel MOSFET: drain on top, source below, gate on the right. Source: iec-60617."""
    x, y = at
    pen.line((x, y + 8), (x, y + 2.2), (x + 2, y + 2.2))
    pen.line((x, y - 8), (x, y - 2.2), (x + 2, y - 2.2))
    for half in (2.2, 0.0, -2.2):
        pen.line((x + 2, y + half - 0.9), (x + 2, y + half + 0.9), ink="heavy")
    pen.line((x + 3.2, y + 3), (x + 3.2, y - 3))
    pen.line((x, y - 2.2), (x, y), (x + 2, y))
    pen.put("solid", Path(((x + 1.8, y), (x + 0.5, y + 0.7), (x + 0.5, y - 0.7))))
    pen.line((x + 3.2, y), (x + 18, y))


def inverter(pen: Pen, at: Point, *, left: float, right: float, towards: int = 1) -> None:
    """A sink of an array, which turns the level over, with its lines to both sides.

    towards is 1 where the output is on the right, -1 where it is on the left.
    """
    x, y = at
    tip = x + 1.8 * towards
    pen.put("line", Path(((x - 3 * towards, y - 2.4), (x - 3 * towards, y + 2.4), (tip, y))))
    pen.dot((tip + 0.8 * towards, y), 0.8, ink="line")
    ends = (x - 3 * towards, tip + 1.6 * towards)
    pen.line((left, y), (min(ends), y))
    pen.line((max(ends), y), (right, y))


def led_in_hole(pen: Pen, anode: Point, cathode: Point, *, radius: float) -> None:
    """An LED in its hole: a triangle that points with the current, a bar at the cathode.

    Args:
        pen: the page.
        anode, cathode: where the leads are, page mm; they give the direction.
        radius: of the hole, page mm.

    Source: iec-60617.
    """
    x, y = (anode[0] + cathode[0]) / 2, (anode[1] + cathode[1]) / 2
    length = math.dist(anode, cathode)
    ux, uy = (cathode[0] - anode[0]) / length, (cathode[1] - anode[1]) / length
    tip, half = 0.5 * radius, 0.55 * radius
    pen.dot((x, y), radius, ink="blank")
    pen.dot((x, y), radius, ink="line")
    bar_x, bar_y = x + ux * tip, y + uy * tip
    back_x, back_y = x - ux * tip, y - uy * tip
    corners = (
        (bar_x, bar_y),
        (back_x - uy * half, back_y + ux * half),
        (back_x + uy * half, back_y - ux * half),
    )
    pen.put("solid", Path(corners))
    pen.line((bar_x - uy * half, bar_y + ux * half), (bar_x + uy * half, bar_y - ux * half), ink="line")
    pen.line((x - ux * radius, y - uy * radius), (back_x, back_y), ink="line")
    pen.line((bar_x, bar_y), (x + ux * radius, y + uy * radius), ink="line")


@dataclass(frozen=True)
class PinRow:
    """A pin of a box: its number, its name, and how high it stands on the page."""

    number: str
    name: str
    y: float


def chip(
    pen: Pen, *, left: float, foot: float, wide: float, high: float, name: str, kind: str,
    left_pins: Sequence[PinRow] = (), right_pins: Sequence[PinRow] = (),
) -> None:  # fmt: skip
    """A box with its name on top, pin names inside and pin numbers outside.

    Args:
        pen: the page.
        left, foot: lower left corner, mm.
        wide, high: size, mm.
        name: reference.
        kind: second line, such as the type.
        left_pins, right_pins: pins.

    Source: iec-60617.
    """
    pen.box(left, foot, wide, high, ink="line")
    pen.text((left + wide / 2, foot + high + 4.6), name, NAME_TYPE_MM, anchor="middle")
    pen.text((left + wide / 2, foot + high + 1.2), kind, PIN_TYPE_MM, anchor="middle")
    for pin in left_pins:
        pen.text((left + 1.2, pin.y - 0.9), pin.name, PIN_TYPE_MM)
        pen.text((left - 0.8, pin.y + 0.7), pin.number, 2.3, anchor="end")
    for pin in right_pins:
        pen.text((left + wide - 1.2, pin.y - 0.9), pin.name, PIN_TYPE_MM, anchor="end")
        pen.text((left + wide + 0.8, pin.y + 0.7), pin.number, 2.3)
