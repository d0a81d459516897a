"""Holes of the back board that are not for LEDs or fixings: drains of the pockets, the cable's way out."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from segkit.errors import InputError
from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import Outline, Point, offset
from segkit.optics.placement import LedPlace

WEB_MM = 2.0  # board between such a hole and the next hole or edge; source common-practice
RIM_MM = 0.5  # between a drain and the wall of its pocket: it must reach the lowest point
_STEP_MM = 2.0


def drains(pockets: Board, places: Sequence[LedPlace], settings: MakeSettings) -> tuple[Point, ...]:
    """A drain at the lowest point of each pocket, off the LED holes.

    Each pocket is a box of its own, so each has one. Where the lowest point is taken by an LED, the drain
    moves aside along the lower wall; where there is no room it is left out, and the LED's hole drains.

    Args:
        pockets: the pockets of the light grid.
        places: every LED.
        settings: size of drains and LED holes; no drains where that is 0.

    Sources: common-practice.
    """
    if not settings.drain_mm:
        return ()
    by_segment: dict[tuple[int, str], list[Point]] = {}
    for place in places:
        by_segment.setdefault((place.digit, place.segment), []).append(place.at)
    apart = (settings.drain_mm + settings.hole_mm) / 2 + WEB_MM / 2
    found = []
    for segment in pockets.segments:
        leds = by_segment.get((segment.digit, segment.name), [])
        found += [
            _lowest(outline, leds, settings.drain_mm / 2 + RIM_MM, apart) for outline in segment.outlines
        ]
    return tuple(at for at in found if at is not None)


def _lowest(outline: Outline, leds: Sequence[Point], inset: float, apart: float) -> Point | None:
    """The lowest point that a hole's middle can have, clear of the LEDs."""
    try:
        inner = offset(outline, distance_mm=-inset)
    except InputError:
        return None
    spots = sorted(_along(inner), key=lambda at: (round(at[1], 3), abs(at[0] - _middle(inner)), at[0]))
    return next((at for at in spots if all(math.dist(at, led) >= apart for led in leds)), None)


def _along(inner: Outline) -> Iterator[Point]:
    """Points along the lower edges, close together."""
    half = (min(y for _, y in inner) + max(y for _, y in inner)) / 2
    for (x1, y1), (x2, y2) in zip(inner, inner[1:] + inner[:1], strict=True):
        steps = 2 * max(1, math.ceil(math.dist((x1, y1), (x2, y2)) / _STEP_MM / 2))
        for i in range(steps):
            x, y = x1 + (x2 - x1) * i / steps, y1 + (y2 - y1) * i / steps
            if y <= half:
                yield x, y


def _middle(inner: Outline) -> float:
    return (min(x for x, _ in inner) + max(x for x, _ in inner)) / 2


def cable_exit(board: Board, settings: MakeSettings) -> Point | None:
    """Middle of the cable exit: in the lower margin, as near the middle as the fixings allow.

    Args:
        board: with its margin and fixings.
        settings: size of the exit; None where that is 0 or the margin has no room for it.

    Sources: common-practice.

    Example:
        >>> from segkit.geometry.digit import DigitShape
        >>> from segkit.geometry.board import board_of
        >>> shape = DigitShape(300, 165, 42, 5, "pointed", 0, 42)
        >>> board = board_of(layout="88:88", shape=shape, spacing_mm=60, margin_mm=40)
        >>> cable_exit(board, MakeSettings(cable_exit_mm=10))
        (472.0, 20.0)
    """
    size = settings.cable_exit_mm
    if not size or board.margin_mm < size + 2 * WEB_MM:
        return None
    y = board.margin_mm / 2
    apart = (size + board.fixing_hole_mm) / 2 + WEB_MM
    for step in range(math.floor(board.width_mm / 2 - size)):
        for x in (board.width_mm / 2 - step, board.width_mm / 2 + step):
            if all(math.dist((x, y), at) >= apart for at in board.fixings):
                return x, y
    return None


def hole_room_findings(board: Board, settings: MakeSettings) -> Iterator[Finding]:
    """Whether the cable exit finds room in the margin: ``no-cable-exit``."""
    if settings.cable_exit_mm and cable_exit(board, settings) is None:
        needed = settings.cable_exit_mm + 2 * WEB_MM
        yield Finding(
            "note",
            "no-cable-exit",
            "back board",
            f"A cable exit of {settings.cable_exit_mm:g} mm does not fit into the margin of "
            f"{board.margin_mm:g} mm; none is drawn.",
            value=board.margin_mm,
            limit=needed,
            unit="mm",
            source="common-practice",
            remedy=f"Widen digit.margin to {needed:g} mm, or lead the cable out of the box behind the board.",
        )
