"""Pieces on stock sheets: as few sheets as can be found, the last one used as little as can be."""

from __future__ import annotations

import functools
import math
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from segkit.fabrication.bottom_left import Placed
from segkit.fabrication.nest_strip import shortest, used_mm
from segkit.geometry.polygon import Outline, Point, area, bounds, rotate, translate

_DENSEST, _LOOSEST = 0.95, 0.4  # shares of a sheet between which the number of pieces is searched
_CLOSE = 1e-6

Frame = tuple[float, float, float, float]
Shape = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Piece:
    """A piece to be laid out: its label and its outline."""

    label: str
    outline: Outline


@dataclass(frozen=True)
class Nest:
    """Pieces in their places.

    Attributes:
        pieces: with their outlines moved into place, first sheet on top.
        sheets: frames (left, bottom, right, top) of the sheets needed; the last one only as far as it is
            used; the lower left corner of all is (0, 0).
        too_large: labels of the pieces that no sheet can hold; laid out below each other all the same.
        turned: whether the sheets lie with their height across.
    """

    pieces: tuple[Piece, ...]
    sheets: tuple[Frame, ...]
    too_large: tuple[str, ...]
    turned: bool = False


def lying_along_x(outline: Outline, axis: tuple[Point, Point]) -> Outline:
    """The outline turned so that its axis lies along x; a dot is left as it is."""
    (x1, y1), (x2, y2) = axis
    if math.dist(*axis) < 1e-9:
        return outline
    return rotate(outline, angle_deg=-math.degrees(math.atan2(y2 - y1, x2 - x1)))


def nested(
    pieces: Sequence[Piece], *, width_mm: float, height_mm: float, spacing_mm: float, grain: str = "none"
) -> Nest:
    """Pieces on sheets: the fewest sheets that are found, the last one used as little as can be.

    Both ways round of the sheet are tried. Sheets that can be alike are alike. The same pieces give the
    same layout, always: nothing is left to chance or to a clock.

    Args:
        pieces: at least one; lying along x without grain, as on the board with it.
        width_mm, height_mm: sheet, as bought.
        spacing_mm: between pieces, and to the edges.
        grain: ``none``, or how the grain runs on the finished board, ``up`` or ``across``; the grain of the
            sheet runs along its longer side, and every piece is turned so that it fits.

    Sources: arithmetic.

    Example:
        >>> square = Piece("1a", ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)))
        >>> nest = nested([square] * 5, width_mm=100, height_mm=100, spacing_mm=5)
        >>> len(nest.sheets), nest.pieces[0].outline[0], nest.pieces[4].outline[0]
        (2, (5.0, 60.0), (5.0, 5.0))
    """
    return _nested(tuple(pieces), (width_mm, height_mm), spacing_mm, grain)


@functools.lru_cache(maxsize=32)
def _nested(pieces: tuple[Piece, ...], stock: tuple[float, float], spacing_mm: float, grain: str) -> Nest:
    """Kept for when the same board is laid out again."""
    ways = []
    for turned in (False, True):
        size = stock[::-1] if turned else stock
        shapes, angles = _with_grain(pieces, size, grain)
        ways.append(_Sheets(size, spacing_mm).laid(pieces, shapes, angles, turned))
    return min(ways, key=lambda nest: (len(nest.too_large), len(nest.sheets), _taken(nest), nest.turned))


def stacks(pieces: Sequence[Piece]) -> tuple[tuple[str, ...], ...]:
    """Labels of the pieces that are alike: they can be clamped together and sanded as one stack.

    The largest stack first; turned pieces are alike if they are laid the same way.

    Example:
        >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
        >>> stacks([Piece("1a", square), Piece("1dp", square[:3]), Piece("2a", square)])
        (('1a', '2a'), ('1dp',))
    """
    alike: dict[frozenset[Point], list[str]] = {}
    for piece in pieces:
        alike.setdefault(frozenset(_shape(piece.outline)), []).append(piece.label)
    return tuple(sorted((tuple(labels) for labels in alike.values()), key=lambda labels: -len(labels)))


def _exact(placed: Placed, shape: Outline) -> Outline:
    """The piece itself where its rounded shape was placed."""
    turned = rotate(shape, angle_deg=placed.angle_deg)
    (x, y), (left, bottom) = bounds([turned])[:2], bounds([placed.outline])[:2]
    return translate(turned, dx_mm=left - x, dy_mm=bottom - y)


def _taken(nest: Nest) -> float:
    return round(sum((right - left) * (top - bottom) for left, bottom, right, top in nest.sheets), 3)


def _with_grain(
    pieces: Sequence[Piece], size: tuple[float, float], grain: str
) -> tuple[list[Outline], list[tuple[int, ...]]]:
    """Outlines turned as the grain asks, and the turns that each may still have."""
    if grain == "none":
        return [piece.outline for piece in pieces], [(0, 90)] * len(pieces)
    along_y = size[1] >= size[0]
    turn = 0 if (grain == "up") == along_y else 90
    return [rotate(piece.outline, angle_deg=turn) for piece in pieces], [(0,)] * len(pieces)


def _shape(outline: Outline) -> Shape:
    x, y, _, _ = bounds([outline])
    return tuple((round(u - x, 3), round(v - y, 3)) for u, v in outline)


@dataclass(frozen=True)
class _Sheets:
    size: tuple[float, float]
    spacing: float

    def laid(
        self,
        pieces: Sequence[Piece],
        shapes: Sequence[Outline],
        angles: Sequence[Sequence[int]],
        turned: bool,
    ) -> Nest:
        large = [i for i, shape in enumerate(shapes) if not self._fits(shape, angles[i])]
        waiting = [i for i in range(len(pieces)) if i not in set(large)]
        sheets: list[tuple[Placed, ...]] = []
        while waiting:
            first = self._one_sheet(waiting, shapes, angles)
            for placed in self._again(first, waiting, shapes):
                sheets.append(placed)
                used = {piece.index for piece in placed}
                waiting = [i for i in waiting if i not in used]
        return self._stacked(pieces, shapes, sheets, [(i, shapes[i]) for i in large], turned)

    def _fits(self, shape: Outline, angles: Sequence[int]) -> bool:
        left, bottom, right, top = bounds([shape])
        room = [side - 2 * self.spacing + _CLOSE for side in self.size]
        size = (right - left, top - bottom)
        return any(
            one <= room[0] and other <= room[1] for one, other in (size[:: -1 if a else 1] for a in angles)
        )

    def _one_sheet(
        self, waiting: Sequence[int], shapes: Sequence[Outline], angles: Sequence[Sequence[int]]
    ) -> tuple[Placed, ...]:
        """As many of the waiting pieces, in their order, as are found to fit on one sheet."""
        sheet = self.size[0] * self.size[1]
        mean = sum(area(shapes[i]) for i in waiting) / len(waiting)
        high = min(len(waiting), math.ceil(_DENSEST * sheet / mean))
        if (whole := self._try(waiting[:high], shapes, angles)) is not None:
            return whole
        low, best = 0, None
        start = min(high - 1, math.floor(_LOOSEST * sheet / mean))
        if start > 0 and (made := self._try(waiting[:start], shapes, angles)) is not None:
            low, best = start, made
        while low + 1 < high:
            middle = (low + high) // 2
            made = self._try(waiting[:middle], shapes, angles)
            low, high, best = (middle, high, made) if made is not None else (low, middle, best)
        return best or self._alone(waiting[0], shapes, angles)

    def _try(
        self, numbers: Sequence[int], shapes: Sequence[Outline], angles: Sequence[Sequence[int]]
    ) -> tuple[Placed, ...] | None:
        made = shortest(
            [shapes[i] for i in numbers],
            [angles[i] for i in numbers],
            width_mm=self.size[0],
            spacing_mm=self.spacing,
            highest_mm=self.size[1],
        )
        return None if made is None else tuple(replace(p, index=numbers[p.index]) for p in made)

    def _alone(
        self, number: int, shapes: Sequence[Outline], angles: Sequence[Sequence[int]]
    ) -> tuple[Placed, ...]:
        """One piece in the corner: it fits in one of its turns."""
        for angle in angles[number]:
            shape = rotate(shapes[number], angle_deg=angle)
            if self._fits(shape, (0,)):
                x, y, _, _ = bounds([shape])
                return (
                    Placed(number, angle, translate(shape, dx_mm=self.spacing - x, dy_mm=self.spacing - y)),
                )
        raise ValueError("a piece that does not fit was not sorted out")

    def _again(
        self, first: tuple[Placed, ...], waiting: Sequence[int], shapes: Sequence[Outline]
    ) -> list[tuple[Placed, ...]]:
        """The sheet, and the same layout again for as long as pieces of the same shapes are waiting."""
        need = Counter(_shape(shapes[piece.index]) for piece in first)
        queues: dict[Shape, list[int]] = {}
        used = {piece.index for piece in first}
        for number in waiting:
            if number not in used:
                queues.setdefault(_shape(shapes[number]), []).append(number)
        made = [first]
        while all(len(queues.get(shape, ())) >= count for shape, count in need.items()):
            made.append(self._copy(first, queues, shapes))
        return made

    @staticmethod
    def _copy(
        first: Sequence[Placed], queues: Mapping[Shape, list[int]], shapes: Sequence[Outline]
    ) -> tuple[Placed, ...]:
        return tuple(replace(piece, index=queues[_shape(shapes[piece.index])].pop(0)) for piece in first)

    def _stacked(
        self,
        pieces: Sequence[Piece],
        shapes: Sequence[Outline],
        sheets: Sequence[tuple[Placed, ...]],
        large: Sequence[tuple[int, Outline]],
        turned: bool,
    ) -> Nest:
        """Sheets one below the other, the last as long as it is used; too large pieces below them."""
        frames: list[Frame] = []
        found: list[Piece] = []
        y = 0.0
        for placed in sheets:
            last = placed is sheets[-1]
            height = used_mm(placed, self.spacing) if last else self.size[1]
            wide = max(p[0] for piece in placed for p in piece.outline) + self.spacing
            frames.append((0.0, y - height, wide if len(sheets) == 1 else self.size[0], y))
            for p in placed:
                exact = _exact(p, shapes[p.index])
                found.append(Piece(pieces[p.index].label, translate(exact, dx_mm=0.0, dy_mm=y - height)))
            y -= height + self.spacing
        for number, shape in large:
            left, bottom, right, top = bounds([shape])
            high = top - bottom + 2 * self.spacing
            frames.append((0.0, y - high, right - left + 2 * self.spacing, y))
            outline = translate(shape, dx_mm=self.spacing - left, dy_mm=y - high + self.spacing - bottom)
            found.append(Piece(pieces[number].label, outline))
            y -= high + self.spacing
        low = min(frame[1] for frame in frames)
        return Nest(
            tuple(Piece(p.label, translate(p.outline, dx_mm=0.0, dy_mm=-low)) for p in found),
            tuple((left, bottom - low, right, top - low) for left, bottom, right, top in frames),
            tuple(pieces[number].label for number, _ in large),
            turned,
        )
