"""The shortest layout of pieces on a strip of sheet: every way of laying them out is tried, the best kept."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from segkit.fabrication.bottom_left import Placed, bottom_left
from segkit.fabrication.columns import Kind, in_columns, in_regions, kinds_of
from segkit.geometry.polygon import Outline, area, bounds

FEW = 40  # up to so many pieces the general packing is tried as well ...
ALIKE = 3  # ... if they are of more kinds than this: fewer kinds lie better in columns
SOME = 6  # of more kinds than this columns are not tried
TRIED = 2  # layouts of the large pieces into whose gaps the small ones are put
_SMALL = 0.5  # of the area of the largest piece: what is smaller goes into gaps


def shortest(
    outlines: Sequence[Outline],
    angles: Sequence[Sequence[int]],
    *,
    width_mm: float,
    spacing_mm: float,
    highest_mm: float = float("inf"),
) -> tuple[Placed, ...] | None:
    """All pieces on a strip that is as short as can be found.

    Tried are: interlocking columns with strips beside them; the same for the large pieces, the small ones
    in the gaps; two regions; and for few pieces of many kinds the general packing. The same pieces give
    the same layout.

    Args:
        outlines: lying along x.
        angles: turns that each may have, of 0 and 90 degrees.
        width_mm: of the strip.
        spacing_mm: between pieces, and to the edges.
        highest_mm: most that the strip is long.

    Returns:
        the pieces in their places, or None where they do not fit.
    """
    best: tuple[Placed, ...] | None = None
    least = float("inf")
    for way in _ways(outlines, angles, width_mm, spacing_mm, highest_mm):
        if way is None or len(way) < len(outlines):
            continue
        length = used_mm(way, spacing_mm)
        if length <= highest_mm + 1e-6 and length < least - 1e-6:
            best, least = way, length
    return best


def used_mm(placed: Sequence[Placed], spacing_mm: float) -> float:
    """Length of sheet that a layout takes, with the spacing at both ends."""
    return bounds([piece.outline for piece in placed])[3] + spacing_mm


def _ways(
    outlines: Sequence[Outline],
    angles: Sequence[Sequence[int]],
    width: float,
    spacing: float,
    highest: float,
) -> Iterator[tuple[Placed, ...] | None]:
    kinds = kinds_of(outlines, angles, spacing_mm=spacing)
    sheet = {"width_mm": width, "spacing_mm": spacing}
    alike = len(kinds) <= SOME
    laid = in_columns(kinds, highest_mm=highest, **sheet) if alike else None
    yield laid
    large, small = _parted(kinds)
    if alike:
        yield from in_regions(kinds, highest_mm=highest, **sheet)
    if alike and small:
        bases = [in_columns(large, highest_mm=highest, **sheet), *in_regions(large, **sheet)]
        shortest_first = sorted((b for b in bases if b), key=lambda base: round(used_mm(base, spacing), 6))
        for base in shortest_first[:TRIED]:
            yield bottom_left(
                outlines, order=small, angles=angles, placed=base, width_mm=width, spacing_mm=spacing
            )
    if laid is None or (len(kinds) > ALIKE and len(outlines) <= FEW):
        order = sorted(range(len(outlines)), key=lambda i: (-round(area(outlines[i]), 3), i))
        for share in (1.0, 0.5):
            yield bottom_left(
                outlines, order=order, angles=angles, top_share=share, width_mm=width, spacing_mm=spacing
            )


def _parted(kinds: Sequence[Kind]) -> tuple[tuple[Kind, ...], tuple[int, ...]]:
    """The large kinds, and the numbers of the small pieces, largest first."""
    most = max(area(kind.outline) for kind in kinds)
    large = tuple(kind for kind in kinds if area(kind.outline) >= _SMALL * most)
    small = sorted((kind for kind in kinds if kind not in large), key=lambda kind: -area(kind.outline))
    return large, tuple(member for kind in small for member in kind.members)
