"""The other way to build a segment: push-in miniature bulbs in a row of holes, no pocket and no diffuser."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point
from segkit.working import Given, Line

WEB_MM = 2.0  # sheet between two holes; source common-practice


BULB_NOTE = Finding(
    "caution",
    "bulbs-not-reckoned",
    "board",
    "Light, current and resistors are reckoned for LED pockets; a board of push-in bulbs lives by the "
    "data of its bulbs.",
    source="common-practice",
    remedy="Take voltage, current and brightness from the packet of the bulbs, and size the supply by them.",
)


@dataclass(frozen=True)
class BulbPlace:
    """A bulb in its hole: digit and segment as everywhere, its number in the segment from 1."""

    digit: int
    segment: str
    number: int
    at: Point


def bulb_count(segment: Segment, *, pitch_mm: float) -> int:
    """Bulbs in a segment: ``max(2, 1 + round((L - T)/p))``, one in each dot.

    Args:
        segment: with its length L and stroke T; the row ends half a stroke from either end.
        pitch_mm: distance that is aimed at, above 0.

    Sources: arithmetic.
    """
    if _dot(segment):
        return len(segment.outlines)
    return max(2, 1 + round((segment.length_mm - segment.stroke_mm) / pitch_mm))


def bulb_places(board: Board, *, pitch_mm: float) -> tuple[BulbPlace, ...]:
    """Every bulb, evenly along the centre lines, the rows ending half a stroke from the segment's ends.

    Args:
        board: all segments in place.
        pitch_mm: distance that is aimed at, above 0; the even pitch nearest to it is taken.

    Sources: arithmetic.

    Example:
        >>> from segkit.geometry.digit import DigitShape
        >>> from segkit.geometry.board import board_of
        >>> shape = DigitShape(300, 165, 42, 5, "pointed", 0, 42)
        >>> board = board_of(layout="8", shape=shape, spacing_mm=60, margin_mm=40)
        >>> len(bulb_places(board, pitch_mm=20))
        35
    """
    return tuple(place for segment in board.segments for place in _row(segment, pitch_mm))


def _dot(segment: Segment) -> bool:
    return all(math.dist(*axis) < 1e-9 for axis in segment.axes)


def _row(segment: Segment, pitch: float) -> Iterator[BulbPlace]:
    if _dot(segment):
        for number, (at, _) in enumerate(segment.axes, 1):
            yield BulbPlace(segment.digit, segment.name, number, at)
        return
    ((x1, y1), (x2, y2)) = segment.axes[0]
    length = math.dist((x1, y1), (x2, y2))
    inset = segment.stroke_mm / 2 / length
    count = bulb_count(segment, pitch_mm=pitch)
    for number in range(count):
        share = inset + (1 - 2 * inset) * number / (count - 1)
        yield BulbPlace(
            segment.digit, segment.name, number + 1, (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
        )


def bulb_line(segment: Segment, *, pitch_mm: float) -> Line:
    """Pitch of the bulbs in one kind of segment as built: ``(L - T)/(n - 1)``; for bars only."""
    count = bulb_count(segment, pitch_mm=pitch_mm)
    return Line(
        f"fabrication.bulb_pitch.{segment.kind.replace(' ', '-')}",
        f"pitch of the bulbs, {segment.kind}", "p",
        (segment.length_mm - segment.stroke_mm) / (count - 1), "mm", "(L - T)/(n - 1)",
        (
            Given("L", segment.length_mm, "mm", "length of the segment"),
            Given("T", segment.stroke_mm, "mm", "stroke: half of it is left free at either end"),
            Given("n", count, "", "bulbs"),
        ),
        "arithmetic", f"{pitch_mm:g} mm was asked for",
    )  # fmt: skip


def bulb_findings(board: Board, *, pitch_mm: float, hole_mm: float) -> Iterator[Finding]:
    """Whether the holes leave board between them: ``bulb-holes-meet``.

    Args:
        board: all segments in place.
        pitch_mm: distance that is aimed at.
        hole_mm: diameter of the holes.

    Sources: common-practice.
    """
    places = bulb_places(board, pitch_mm=pitch_mm)
    web = min((math.dist(a.at, b.at) for a, b in _neighbours(places)), default=math.inf) - hole_mm
    if web < WEB_MM - 1e-9:
        yield Finding(
            "stop" if web <= 0 else "caution",
            "bulb-holes-meet",
            "face",
            f"Two bulb holes of {hole_mm:g} mm leave {max(web, 0.0):.2g} mm of sheet between them.",
            value=round(web, 2),
            limit=WEB_MM,
            unit="mm",
            source="common-practice",
            remedy="Widen the pitch (make.bulb_pitch), or take smaller bulbs.",
            holds=("face",) if web <= 0 else (),
        )


def _neighbours(places: tuple[BulbPlace, ...]) -> Iterator[tuple[BulbPlace, BulbPlace]]:
    for _, digit in itertools.groupby(places, key=lambda place: place.digit):
        yield from itertools.combinations(digit, 2)
