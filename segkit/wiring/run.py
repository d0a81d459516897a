"""One wire: what it joins, how it lies, how long it is cut."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from segkit.geometry.polygon import Point
from segkit.wiring.plan import Pin

Group = Literal["card", "string", "plus", "segment", "cable", "supply", "chain"]
#: ``wire``: cut from a reel; ``leads``: leads of parts that reach; ``card``: a track or link of a card;
#: ``core``: one core of a cable.
Make = Literal["wire", "leads", "card", "core"]
#: Longest link that the leads of LED and resistor make by themselves, mm; source led-lead-pitch.
LEADS_MM = 18.0
#: A loom is never drawn as straight as on paper: share added to the route. Source wire-slack.
SLACK_SHARE = 0.10
#: Added for each end: at a soldered lead, and at a connector, mm. Source wire-slack.
JOINT_MM, TERMINAL_MM = 10.0, 40.0
#: Wires are cut to the next length of this step, mm.
CUT_STEP_MM = 5.0
#: Points closer than this are one, mm.
_SAME_MM = 1e-6


@dataclass(frozen=True)
class Run:
    """One connection between two pins.

    Attributes:
        group: what it belongs to.
        make: how it is made.
        net: what it is electrically.
        start, end: (reference, pin).
        route: on the board, front view [mm], from start to end; empty for a link on a card.
        code: core colour, two-letter codes; empty for leads and cards.
        current_a: highest current in it, everything lit.
        digit, segment, string: where it belongs; 0 and empty where it belongs to none.
        beyond_mm: length that does not lie on the board: the cable of the design.
    """

    group: Group
    make: Make
    net: str
    start: Pin
    end: Pin
    route: tuple[Point, ...]
    code: str = ""
    current_a: float = 0.0
    digit: int = 0
    segment: str = ""
    string: int = 0
    beyond_mm: float = 0.0

    @property
    def route_mm(self) -> float:
        """Length as it lies, without slack."""
        return path_mm(self.route) + self.beyond_mm

    @property
    def slack_mm(self) -> float:
        """What is added to the route before rounding up; nothing for leads and cards.

        Formula: ``0.10*route + 10 mm for an end at a lead, 40 mm for one at a connector``.
        """
        if self.make not in ("wire", "core"):
            return 0.0
        ends = sum(JOINT_MM if ref[0] in "DR" else TERMINAL_MM for ref, _ in (self.start, self.end))
        return SLACK_SHARE * path_mm(self.route) + ends

    @property
    def cut_mm(self) -> float:
        """Length to cut: route and slack, up to the next 5 mm; 0 for leads and cards."""
        if self.make not in ("wire", "core"):
            return 0.0
        return CUT_STEP_MM * math.ceil((self.route_mm + self.slack_mm) / CUT_STEP_MM - 1e-9)


def path_mm(points: Sequence[Point]) -> float:
    """Length of a polyline; 0 for fewer than two points.

    Example:
        >>> path_mm([(0, 0), (3, 0), (3, 4)])
        7.0
    """
    return sum(math.dist(one, other) for one, other in pairwise(points))


def without_detours(points: Sequence[Point]) -> tuple[Point, ...]:
    """A polyline that never runs back on itself, without doubled points.

    Args:
        points: of the polyline, mm.

    Source: arithmetic.

    Example:
        >>> without_detours([(0, 0), (5, 0), (2, 0), (2, 3)])
        ((0, 0), (2, 0), (2, 3))
    """
    kept: list[Point] = []
    for point in points:
        kept.append(point)
        while len(kept) > 2 and _turns_back(*kept[-3:]):
            del kept[-2]
        if len(kept) > 1 and math.dist(kept[-2], kept[-1]) < _SAME_MM:
            kept.pop()
    return tuple(kept)


def _turns_back(one: Point, corner: Point, other: Point) -> bool:
    (ax, ay), (bx, by) = (
        (corner[0] - one[0], corner[1] - one[1]),
        (other[0] - corner[0], other[1] - corner[1]),
    )
    across = abs(ax * by - ay * bx) / (math.hypot(ax, ay) * math.hypot(bx, by) or 1.0)
    return ax * bx + ay * by < 0 and across < _SAME_MM


def tidy(points: Sequence[Point]) -> tuple[Point, ...]:
    """A polyline without doubled points.

    Example:
        >>> tidy([(0, 0), (0, 0), (1, 0)])
        ((0, 0), (1, 0))
    """
    kept: list[Point] = []
    for point in points:
        if not kept or math.dist(kept[-1], point) > _SAME_MM:
            kept.append(point)
    return tuple(kept) if len(kept) > 1 or not points else (points[0], points[-1])
