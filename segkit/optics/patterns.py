"""Where the LEDs of one outline may stand: rows along a bar, rings in a dot."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.geometry.polygon import Point
from segkit.optics.stations import BETWEEN_BODIES_MM, ROOM_AROUND_MM, Bay, reach

#: Rows that a plan can have.
MOST_ROWS = 4

#: How many distances of the outer rows from the axis are tried, and how many radii of a ring.
_OFFSETS, _RADII = 3, 8

#: Ends that are tried: every millimetre, but no more than this many.
_ENDS = 60

_NUMBER = ("no", "one", "two", "three", "four")


@dataclass(frozen=True)
class Pattern:
    """LEDs of one outline.

    Attributes:
        places: (along, across) from the middle of the axis, mm; row by row, every second row backwards, so
            that the wire runs from each LED to the next one.
        rows: rows along the axis; 1 for a ring.
        pitch_mm: between neighbours in the longest row or around the ring; 0 for one LED.
        words: the same in words.
    """

    places: tuple[Point, ...]
    rows: int
    pitch_mm: float
    words: str


@dataclass(frozen=True)
class Plan:
    """A family of patterns that differ in one length: how far the ends (or the ring) reach.

    Attributes:
        counts: LEDs in each row; for a ring (around, in the middle).
        offsets_mm: distance of each row from the axis; empty for a ring.
        reaches_mm: the family: half the length of the longest row, or the radius, falling.
    """

    counts: tuple[int, ...]
    offsets_mm: tuple[float, ...]
    reaches_mm: tuple[float, ...]

    @property
    def total(self) -> int:
        """LEDs of the plan."""
        return sum(self.counts)


def plans(bay: Bay, *, total: int, rows: int, body_mm: float) -> tuple[Plan, ...]:
    """The families with so many LEDs in so many rows; none where the bodies do not go in.

    A dot has one LED in its middle, a pair, a ring, or a ring around one in the middle; ``rows`` is 1 there.

    Args:
        bay: outline in its own frame.
        total: LEDs, at least 1.
        rows: 1 to 4.
        body_mm: diameter of a body, mm.

    Example:
        >>> bar = Bay(((-60, -10), (60, -10), (60, 10), (-60, 10)), 120, False)
        >>> plan = plans(bar, total=3, rows=1, body_mm=5)[0]
        >>> plan.counts, plan.reaches_mm[:3]
        ((3,), (56.3, 56.0, 55.0))
    """
    if bay.dot:
        return tuple(_rings(bay, total=total, body_mm=body_mm)) if rows == 1 else ()
    return tuple(
        plan
        for offsets in row_offsets(bay, rows=rows, body_mm=body_mm)
        for counts in _splits(total, rows)
        if (plan := _row_plan(bay, counts=counts, offsets=offsets, body_mm=body_mm))
    )


def row_offsets(bay: Bay, *, rows: int, body_mm: float) -> tuple[tuple[float, ...], ...]:
    """Distances from the axis [mm] at which so many rows can lie: a few ways, symmetric, closest first.

    Args:
        bay: outline in its own frame.
        rows: 1 to 4.
        body_mm: diameter of a body, mm.

    Example:
        >>> bar = Bay(((-60, -10), (60, -10), (60, 10), (-60, 10)), 120, False)
        >>> row_offsets(bar, rows=2, body_mm=5)
        ((-3.0, 3.0), (-4.65, 4.65), (-6.3, 6.3))
        >>> row_offsets(bar, rows=4, body_mm=5)
        ()
    """
    across = reach(bay.outline, start=(0.0, 0.0), way=(0.0, 1.0), room_mm=body_mm / 2 + ROOM_AROUND_MM)
    if across is None:
        return ((0.0,),) if rows == 1 else ()
    if rows == 1:
        return ((0.0,),)
    widest = min(-across[0], across[1])
    closest = (body_mm + BETWEEN_BODIES_MM) * (rows - 1) / 2
    if widest < closest - 1e-9:
        return ()
    steps = 1 if widest - closest < 0.5 else _OFFSETS
    found = []
    for step in range(steps):
        outer = closest + (widest - closest) * step / max(1, steps - 1)
        found.append(tuple(round(outer * (2 * row / (rows - 1) - 1), 3) for row in range(rows)))
    return tuple(found)


def row_range(bay: Bay, *, offset_mm: float, body_mm: float) -> tuple[float, float]:
    """First and last place along a row at a distance from the axis, with room for the body; mm.

    Args:
        bay: outline in its own frame.
        offset_mm: of the row from the axis.
        body_mm: diameter of a body.

    Returns:
        the range along the axis; (0, 0) where nothing has room.
    """
    room = body_mm / 2 + ROOM_AROUND_MM - 1e-6
    return reach(bay.outline, start=(0.0, offset_mm), way=(1.0, 0.0), room_mm=room) or (0.0, 0.0)


def room_for(bay: Bay, *, rows: int, body_mm: float) -> int:
    """How many bodies go in, in so many rows; at least 1.

    Args:
        bay: outline in its own frame.
        rows: 1 to 4; a dot counts one.
        body_mm: diameter of a body, mm.

    Example:
        >>> room_for(Bay(((-60, -10), (60, -10), (60, 10), (-60, 10)), 120, False), rows=1, body_mm=5)
        19
    """
    pitch = body_mm + BETWEEN_BODIES_MM
    if bay.dot:
        radius, around = _widest_ring(bay, count=24, body_mm=body_mm), 1
        while 2 * radius * math.sin(math.pi / (around + 1)) >= pitch:
            around += 1
        return around + (1 if around > 1 and radius >= pitch else 0)
    best = 1
    for offsets in row_offsets(bay, rows=rows, body_mm=body_mm):
        ranges = [row_range(bay, offset_mm=offset, body_mm=body_mm) for offset in offsets]
        best = max(best, sum(int((high - low) / pitch + 1e-6) + 1 for low, high in ranges))
    return best


def fractions(count: int, longest: int) -> tuple[float, ...]:
    """Places in a row as shares of its reach, -1 to 1: even; a row one shorter stands in the gaps.

    Example:
        >>> fractions(3, 3), fractions(2, 3)
        ((-1.0, 0.0, 1.0), (-0.5, 0.5))
    """
    if count == 1:
        return (0.0,)
    edge = 1 - 1 / count if longest == count + 1 else 1.0
    return tuple(edge * (2 * index / (count - 1) - 1) for index in range(count))


def units(plan: Plan) -> tuple[Point, ...]:
    """Directions of a ring's LEDs as unit vectors; (0, 0) for the middle. The first stands at the left.

    Example:
        >>> units(Plan((2, 1), (), (5.0,)))
        ((-1.0, 0.0), (1.0, 0.0), (0.0, 0.0))
    """
    around, middle = plan.counts
    turns = [math.pi + 2 * math.pi * index / around for index in range(around)]
    ring = tuple((round(math.cos(turn), 9) + 0.0, round(math.sin(turn), 9) + 0.0) for turn in turns)
    return ring + ((0.0, 0.0),) * middle


def pattern(bay: Bay, plan: Plan, *, reach_mm: float, body_mm: float) -> Pattern:
    """One pattern of a family.

    Args:
        bay: outline in its own frame.
        plan: of ``plans``.
        reach_mm: half the length of the longest row, or the radius; one of ``plan.reaches_mm``.
        body_mm: diameter of a body.
    """
    if bay.dot:
        return _ring_pattern(plan, reach_mm)
    longest, places, backwards = max(plan.counts), [], False
    spare = plan.reaches_mm[0] - reach_mm
    for count, offset in zip(plan.counts, plan.offsets_mm, strict=True):
        low, high = row_range(bay, offset_mm=offset, body_mm=body_mm)
        half, middle = (high - low) / 2 - spare, (high + low) / 2
        row = [
            (round(middle + half * part, 4) + 0.0, round(offset, 4) + 0.0)
            for part in fractions(count, longest)
        ]
        places += row[::-1] if backwards else row
        backwards = not backwards
    pitch = 2 * reach_mm / (longest - 1) if longest > 1 else 0.0
    return Pattern(tuple(places), len(plan.counts), pitch, _row_words(plan, pitch))


def crowded(bay: Bay, *, total: int, body_mm: float) -> Pattern:
    """So many LEDs evenly along the axis or around a ring, whether their bodies go in or not.

    Args:
        bay: outline in its own frame.
        total: LEDs, at least 1.
        body_mm: diameter of a body.
    """
    if bay.dot:
        widest = _widest_ring(bay, count=24, body_mm=body_mm) or bay.length_mm / 4
        return _ring_pattern(Plan((total, 0), (), (widest,)), widest)
    low, high = row_range(bay, offset_mm=0.0, body_mm=body_mm)
    half = (high - low) / 2 or bay.length_mm / 4
    if total > 1:  # half a pitch before the ends, where the room allows it
        half = min(half, bay.length_mm / 2 * (1 - 1 / total))
    middle, pitch = (high + low) / 2, 2 * half / (total - 1) if total > 1 else 0.0
    places = tuple((round(middle + half * part, 4) + 0.0, 0.0) for part in fractions(total, total))
    return Pattern(places, 1, pitch, _row_words(Plan((total,), (0.0,), (half,)), pitch))


def _row_words(plan: Plan, pitch_mm: float) -> str:
    rows, total = len(plan.counts), plan.total
    if total == 1:
        return "one LED in the middle"
    if rows == 1:
        return f"one row of {total}, {pitch_mm:.1f} mm apart"
    apart = abs(plan.offsets_mm[1] - plan.offsets_mm[0])
    alike = len(set(plan.counts)) == 1
    *first, last = map(str, plan.counts)
    each = last if alike else f"{', '.join(first)} and {last}"
    return f"{_NUMBER[rows]} rows of {each}, {pitch_mm:.1f} mm apart, the rows {apart:.1f} mm apart"


def _ring_pattern(plan: Plan, radius_mm: float) -> Pattern:
    around, middle = plan.counts
    if plan.total == 1:
        return Pattern(((0.0, 0.0),), 1, 0.0, "one LED in the middle")
    places = tuple((round(radius_mm * x, 4) + 0.0, round(radius_mm * y, 4) + 0.0) for x, y in units(plan))
    pitch = 2 * radius_mm * math.sin(math.pi / around)
    words = (
        f"a pair {pitch:.1f} mm apart" if around == 2 else f"a ring of {around}, radius {radius_mm:.1f} mm"
    )
    return Pattern(places, 1, pitch, words + (" and one in the middle" if middle else ""))


def _splits(total: int, rows: int) -> Iterator[tuple[int, ...]]:
    """Ways to share LEDs out over rows: mirror-like across the axis, two rows also in a zigzag."""
    if rows == 1:
        yield (total,)
    elif rows == 2 and total >= 2:
        yield (total // 2, total - total // 2)
    elif rows == 3:
        third = round(total / 3)
        for outer in range(max(1, third - 1), third + 2):
            if total - 2 * outer >= 1:
                yield (outer, total - 2 * outer, outer)
    elif rows == 4 and total % 2 == 0:
        quarter = total // 4
        for outer in {max(1, quarter), quarter + 1}:
            if (inner := total // 2 - outer) >= 1:
                yield (outer, inner, inner, outer)


def _step(count: int, longest: int) -> float:
    """Distance between neighbours of a row as a share of its reach; 0 for one LED."""
    places = fractions(count, longest)
    return places[1] - places[0] if count > 1 else 0.0


def _row_plan(
    bay: Bay, *, counts: tuple[int, ...], offsets: tuple[float, ...], body_mm: float
) -> Plan | None:
    pitch, longest = body_mm + BETWEEN_BODIES_MM, max(counts)
    ranges = [row_range(bay, offset_mm=offset, body_mm=body_mm) for offset in offsets]
    halves = [(high - low) / 2 for low, high in ranges]
    needed = [pitch / step if (step := _step(count, longest)) else 0.0 for count in counts]
    if any(half < need - 1e-9 for half, need in zip(halves, needed, strict=True)):
        return None
    if longest == 1:
        return Plan(counts, offsets, (halves[0],))
    reference = halves[counts.index(longest)]
    spare = min(half - need for half, need in zip(halves, needed, strict=True))
    return Plan(counts, offsets, _falling(reference, reference - spare))


def _falling(highest: float, lowest: float) -> tuple[float, ...]:
    """The highest reach, then whole millimetres (more where they are many) down to the lowest."""
    step = max(1.0, math.ceil((highest - lowest) / _ENDS))
    found, value = [round(highest, 4)], float(math.floor(highest - 1e-6))
    while value >= max(lowest, 0.5):
        found.append(value)
        value -= step
    return tuple(found)


def _widest_ring(bay: Bay, *, count: int, body_mm: float) -> float:
    """Largest radius at which so many bodies around the middle have room before the walls; 0 for none."""
    room, widest = body_mm / 2 + ROOM_AROUND_MM - 1e-6, math.inf
    for way in units(Plan((count, 0), (), ())):
        found = reach(bay.outline, start=(0.0, 0.0), way=way, room_mm=room)
        widest = min(widest, found[1] if found else 0.0)
    return max(0.0, widest)


def _rings(bay: Bay, *, total: int, body_mm: float) -> Iterator[Plan]:
    if total == 1:
        yield Plan((1, 0), (), (0.0,))
        return
    pitch = body_mm + BETWEEN_BODIES_MM
    for middle in (0, 1) if total > 3 else (0,):
        around = total - middle
        widest = _widest_ring(bay, count=around, body_mm=body_mm)
        least = max(pitch / (2 * math.sin(math.pi / around)), pitch * middle)
        if widest >= least - 1e-9:
            steps = 1 if widest - least < 0.2 else _RADII
            span = widest - least
            yield Plan(
                (around, middle), (), tuple(widest - span * step / max(1, steps - 1) for step in range(steps))
            )
