"""Interlocking rows: equal pieces in columns, every other column half a pitch higher, and strips that stand.

For pieces that are alike in width this is near the best there is: the ends of one column lie in the
notches of the next. Whatever width is left over beside the columns is filled with pieces turned upright.
"""

from __future__ import annotations

import functools
import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from segkit.fabrication.bottom_left import Placed
from segkit.geometry.polygon import Outline, area, bounds, distance_when_moved, rotate, translate

_HALVINGS = 40
_SLACK = 1e-9
_CLOSE = 1e-6
_LOOK_BACK = 8  # levels below the one that a search by halves finds: more room is not always better used
_MOST_WAYS = 3000
_ALIKE = 1.03


@dataclass(frozen=True)
class Kind:
    """Pieces of one shape.

    Attributes:
        outline: lying, lower left corner at the origin.
        members: their numbers.
        angles: turns that they may have: 0 to lie in a column, 90 to stand in a strip.
        pitch_mm: from one to the next in a column.
        length_mm, height_mm: lying.
    """

    outline: Outline
    members: tuple[int, ...]
    angles: tuple[int, ...]
    pitch_mm: float
    length_mm: float
    height_mm: float


@dataclass(frozen=True)
class _Column:
    """A column of lying pieces: whose it is, where it starts, whether half a pitch higher."""

    kind: int
    x: float
    raised: bool


@dataclass(frozen=True)
class _Way:
    """Columns side by side, and how far they reach."""

    columns: tuple[_Column, ...]
    right: float


def kinds_of(
    outlines: Sequence[Outline], angles: Sequence[Sequence[int]], *, spacing_mm: float
) -> tuple[Kind, ...]:
    """Pieces grouped by shape, longest first.

    Args:
        outlines: lying along x.
        angles: turns that each may have.
        spacing_mm: between pieces.
    """
    groups: dict[tuple[Outline, tuple[int, ...]], list[int]] = {}
    for index, outline in enumerate(outlines):
        x, y, _, _ = bounds([outline])
        shape = tuple((round(u - x, 8), round(v - y, 8)) for u, v in outline)
        groups.setdefault((shape, tuple(angles[index])), []).append(index)
    pitches = [_pitch(shape, spacing_mm) for shape, _ in groups]
    made = [
        Kind(shape, tuple(members), turns, _shared(pitch, pitches), *bounds([shape])[2:])
        for ((shape, turns), members), pitch in zip(groups.items(), pitches, strict=True)
    ]
    return tuple(sorted(made, key=lambda kind: (-kind.length_mm, -kind.height_mm, kind.members)))


def in_columns(
    kinds: Sequence[Kind], *, width_mm: float, spacing_mm: float, highest_mm: float = math.inf
) -> tuple[Placed, ...] | None:
    """All pieces in columns and strips on the shortest piece of sheet.

    Args:
        kinds: from ``kinds_of``.
        width_mm: of the sheet.
        spacing_mm: between pieces, and to the edges.
        highest_mm: most that the sheet is long.

    Returns:
        the pieces in their places, or None where they do not fit.

    Column to column for pointed ends of 45 degrees: ``L + g*sqrt(2) - p/2``, with p the height of a piece
    and the spacing; for other ends it is measured on the outlines. Sources: arithmetic.

    Example:
        >>> from segkit.geometry.segment import segment_outline
        >>> flat = segment_outline(length_mm=120, stroke_mm=22, ends="pointed")
        >>> kinds = kinds_of([flat] * 28, [(0, 90)] * 28, spacing_mm=3)
        >>> done = in_columns(kinds, width_mm=600, spacing_mm=3)
        >>> len(done), round(bounds([piece.outline for piece in done])[3] + 3, 3)
        (28, 153.0)
    """
    job = _Job(tuple(kinds), width_mm - 2 * spacing_mm, spacing_mm)
    placed = job.shortest(highest_mm - 2 * spacing_mm)
    if placed is None:
        return None
    return tuple(_moved(piece, spacing_mm, spacing_mm) for piece in placed)


def _shared(pitch: float, pitches: Sequence[float]) -> float:
    """The widest pitch that is nearly this one: with the same pitch, columns of two kinds interlock."""
    return max(other for other in pitches if pitch <= other <= _ALIKE * pitch)


@functools.lru_cache(maxsize=256)
def _pitch(shape: Outline, spacing: float) -> float:
    """Least distance from one piece to the same above it."""
    clear = distance_when_moved(shape, shape)
    return _least(lambda dy: clear(0.0, dy), bounds([shape])[3] + spacing, spacing)


@functools.lru_cache(maxsize=1024)
def _advance(one: Outline, other: Outline, pitch: float, spacing: float, raised: bool) -> float:
    """Least distance from a column to the next, which starts half a pitch higher or as high."""
    clear = distance_when_moved(one, other)
    shifts = (pitch / 2, -pitch / 2) if raised else (0.0, pitch, -pitch)
    return _least(lambda dx: min(clear(dx, shift) for shift in shifts), bounds([one])[2] + spacing, spacing)


def _least(clear_at: Callable[[float], float], most: float, spacing: float) -> float:
    """Smallest move that keeps the spacing, found from a move that surely does."""
    low, high = 0.0, most
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if clear_at(middle) >= spacing - _SLACK else (middle, high)
    return high


def in_regions(
    kinds: Sequence[Kind], *, width_mm: float, spacing_mm: float, highest_mm: float = math.inf
) -> Iterator[tuple[Placed, ...]]:
    """Layouts in two regions: one kind by itself in columns, others stood beside it, the rest above.

    Better than ``in_columns`` where each kind alone suits the width well and all together do not.

    Args:
        kinds, width_mm, spacing_mm, highest_mm: as for ``in_columns``.

    Sources: arithmetic.
    """
    job = _Job(tuple(kinds), width_mm - 2 * spacing_mm, spacing_mm)
    for number, kind in enumerate(kinds):
        way = next((w for w in job.ways if {c.kind for c in w.columns} == {number}), None)
        if way is None or len(kinds) < 2:
            continue
        full, over = divmod(len(kind.members), len(way.columns))
        for rows in {full, full + 1} if over else {full}:
            if rows and (lower := job.lower(way, kind, rows)):
                top = bounds([piece.outline for piece in lower])[3]
                used = {piece.index for piece in lower}
                above = _without(kinds, used)
                rest = in_columns(above, width_mm=width_mm, spacing_mm=spacing_mm) if above else ()
                if rest is not None:
                    moved = [_moved(piece, spacing_mm, spacing_mm) for piece in lower]
                    moved += [_moved(piece, 0.0, top + spacing_mm) for piece in rest]
                    if bounds([piece.outline for piece in moved])[3] + spacing_mm <= highest_mm + _CLOSE:
                        yield tuple(moved)


def _without(kinds: Sequence[Kind], used: set[int]) -> tuple[Kind, ...]:
    left = [replace(kind, members=tuple(m for m in kind.members if m not in used)) for kind in kinds]
    return tuple(kind for kind in left if kind.members)


def _moved(piece: Placed, dx: float, dy: float) -> Placed:
    return replace(piece, outline=translate(piece.outline, dx_mm=dx, dy_mm=dy))


class _Job:
    """One set of pieces on one width of sheet."""

    def __init__(self, kinds: tuple[Kind, ...], width: float, spacing: float) -> None:
        self.kinds, self.width, self.spacing = kinds, width, spacing
        self._steps: dict[tuple[int, int, bool], float] = {}
        self.ways = sorted(self._all_ways(), key=lambda way: -round(way.right, 6))

    def shortest(self, highest: float) -> list[Placed] | None:
        """The lowest level that holds all pieces: found by halves, then a few levels below are tried."""
        levels = self._levels(highest)
        low, high, best = 0, len(levels) - 1, None
        if not levels or (last := self._filled(levels[-1])) is None:
            return None
        best = last
        while low < high:
            middle = (low + high) // 2
            made = self._filled(levels[middle])
            if made is None:
                low = middle + 1
            else:
                high, best = middle, made
        for level in levels[max(0, high - _LOOK_BACK) : high]:
            if (made := self._filled(level)) is not None:
                return made
        return best

    def lower(self, way: _Way, kind: Kind, rows: int) -> list[Placed]:
        """Columns of one kind, so many rows, and what stands beside them."""
        level = kind.height_mm + (rows - 1) * kind.pitch_mm
        level += kind.pitch_mm / 2 if any(column.raised for column in way.columns) else 0.0
        rooms = [self._room(column, level) for column in way.columns]
        room = self.width - way.right - self.spacing
        others = sorted(
            (k for k in self.kinds if k is not kind and 90 in k.angles), key=lambda k: -k.length_mm
        )
        rest = [0] * len(self.kinds)
        for other in others:
            number = self.kinds.index(other)
            for _ in other.members:
                rest[number] += 1
                if self._strips(rest, level, room) is None or other.length_mm > level:
                    rest[number] -= 1
                    break
        strips = self._strips(rest, level, room) or []
        return self._placed(way, rooms, strips, only_kind=kind)

    def _levels(self, highest: float) -> list[float]:
        """Heights at which one more piece fits somewhere, rising, from the least that the area asks for."""
        steps: set[float] = set()
        total = sum(len(kind.members) for kind in self.kinds)
        least = sum(len(k.members) * area(k.outline) for k in self.kinds) / max(self.width, _CLOSE)
        most = min(highest, max(3 * least, 4 * max((k.length_mm for k in self.kinds), default=0.0)))
        for kind in self.kinds:
            rows = min(total, math.ceil(most / kind.pitch_mm))
            steps |= {round(kind.height_mm + half * kind.pitch_mm / 2, 6) for half in range(2 * rows + 2)}
        for one, other in itertools.combinations_with_replacement(self.kinds, 2):
            for a, b in itertools.product(range(1 + math.ceil(most / one.length_mm)), range(7)):
                steps.add(round(a * one.length_mm + b * other.length_mm + (a + b - 1) * self.spacing, 6))
        fitting = sorted(level for level in steps if least - _CLOSE <= level <= most + _CLOSE)
        return [*fitting, highest] if math.isfinite(highest) else fitting

    def _all_ways(self) -> Iterator[_Way]:
        """Every choice of columns that the width holds, interlocked or side by side."""
        most = [self._most(kind) for kind in self.kinds]
        every = itertools.product(*(range(count + 1) for count in most))
        for counts in itertools.islice(every, _MOST_WAYS):
            for raised in (True, False):
                way = self._way(counts, raised)
                if way.right <= self.width + _CLOSE and (raised or len(way.columns) > 1):
                    yield way

    def _most(self, kind: Kind) -> int:
        if 0 not in kind.angles or kind.length_mm > self.width + _CLOSE:
            return 0
        step = _advance(kind.outline, kind.outline, kind.pitch_mm, self.spacing, True)
        return min(len(kind.members), math.floor((self.width - kind.length_mm) / step + _CLOSE) + 1)

    def _way(self, counts: tuple[int, ...], raised: bool) -> _Way:
        columns: list[_Column] = []
        x = right = 0.0
        for number, count in enumerate(counts):
            kind = self.kinds[number]
            for _ in range(count):
                if columns:
                    x += self._next(columns[-1].kind, number, raised)
                columns.append(_Column(number, x, raised and len(columns) % 2 == 1))
                right = max(right, x + kind.length_mm)
        return _Way(tuple(columns), right if columns else -self.spacing)

    def _next(self, before: int, after: int, raised: bool) -> float:
        """From one column to the next."""
        key = before, after, raised
        if key not in self._steps:
            one, other = self.kinds[before], self.kinds[after]
            same = abs(one.pitch_mm - other.pitch_mm) <= _CLOSE
            self._steps[key] = (
                _advance(one.outline, other.outline, one.pitch_mm, self.spacing, raised)
                if same
                else one.length_mm + self.spacing
            )
        return self._steps[key]

    def _filled(self, level: float) -> list[Placed] | None:
        """All pieces within that height, if one of the ways to share the width holds them."""
        for way in self.ways:
            rooms = [self._room(column, level) for column in way.columns]
            rest = self._rest(way, rooms)
            if not self._may_hold(rest, level, self.width - way.right - self.spacing):
                continue
            strips = self._strips(rest, level, self.width - way.right - self.spacing)
            if strips is not None:
                return self._placed(way, rooms, strips)
        return None

    def _room(self, column: _Column, level: float) -> int:
        kind = self.kinds[column.kind]
        free = level - kind.height_mm - (kind.pitch_mm / 2 if column.raised else 0.0)
        return max(0, math.floor(free / kind.pitch_mm + _CLOSE) + 1)

    def _rest(self, way: _Way, rooms: Sequence[int]) -> list[int]:
        """How many of each kind find no place in a column; a shorter one may lie in that of a longer."""
        room = [*rooms]
        rest = []
        for kind in self.kinds:
            need = len(kind.members)
            for at, column in enumerate(way.columns):
                if need and room[at] and self._lies_in(kind, self.kinds[column.kind]):
                    used = min(need, room[at])
                    room[at] -= used
                    need -= used
            rest.append(need)
        return rest

    def _lies_in(self, kind: Kind, owner: Kind) -> bool:
        return kind is owner or (
            0 in kind.angles
            and kind.length_mm <= owner.length_mm + _CLOSE
            and abs(kind.pitch_mm - owner.pitch_mm) <= _CLOSE
            and len(kind.outline) == len(owner.outline)
        )

    def _may_hold(self, rest: Sequence[int], level: float, room: float) -> bool:
        """A quick no: whether the strips that fit beside the columns are long enough in all."""
        waiting = [(kind, need) for kind, need in zip(self.kinds, rest, strict=True) if need]
        if not waiting:
            return True
        if any(90 not in kind.angles or kind.length_mm > level + _CLOSE for kind, _ in waiting):
            return False
        lowest = min(kind.height_mm for kind, _ in waiting)
        strips = math.floor((room + self.spacing) / (lowest + self.spacing) + _CLOSE)
        length = sum(need * (kind.length_mm + self.spacing) for kind, need in waiting)
        return strips * (level + self.spacing) + _CLOSE >= length

    def _strips(self, rest: Sequence[int], level: float, room: float) -> list[list[int]] | None:
        """Standing pieces: the highest and longest first, each in the first strip that has room above."""
        strips: list[list[int]] = []
        tops: list[float] = []
        used = -self.spacing
        numbers = sorted(range(len(rest)), key=lambda n: (-self.kinds[n].height_mm, -self.kinds[n].length_mm))
        for number in numbers:
            kind = self.kinds[number]
            for _ in range(rest[number]):
                at = next((i for i, top in enumerate(tops) if top + kind.length_mm <= level + _CLOSE), None)
                if at is None:
                    used += kind.height_mm + self.spacing
                    if used > room + _CLOSE:
                        return None
                    strips.append([])
                    tops.append(0.0)
                    at = len(strips) - 1
                strips[at].append(number)
                tops[at] += kind.length_mm + self.spacing
        return strips

    def _placed(
        self, way: _Way, rooms: Sequence[int], strips: Sequence[Sequence[int]], only_kind: Kind | None = None
    ) -> list[Placed]:
        placed: list[Placed] = []
        waiting = [[*kind.members] for kind in self.kinds]
        used = [0] * len(rooms)
        for number, kind in enumerate(self.kinds):
            if only_kind not in (None, kind):
                continue
            for at, column in enumerate(way.columns):
                owner = self.kinds[column.kind]
                lift = owner.pitch_mm / 2 if column.raised else 0.0
                x = column.x + (owner.length_mm - kind.length_mm) / 2
                while waiting[number] and used[at] < rooms[at] and self._lies_in(kind, owner):
                    shape = translate(kind.outline, dx_mm=x, dy_mm=lift + used[at] * owner.pitch_mm)
                    placed.append(Placed(waiting[number].pop(0), 0, shape))
                    used[at] += 1
        x = way.right + self.spacing
        for strip in strips:
            y = 0.0
            for number in strip:
                kind = self.kinds[number]
                shape = translate(rotate(kind.outline, angle_deg=90), dx_mm=x + kind.height_mm, dy_mm=y)
                placed.append(Placed(waiting[number].pop(0), 90, shape))
                y += kind.length_mm + self.spacing
            x += self.kinds[strip[0]].height_mm + self.spacing
        return placed
