"""Boards larger than a stock sheet: joined from panels, with joints that cross no segment and no hole."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.catalog.part import Sheet
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import Point, bounds

CLEAR_MM = 3.0  # least board between a joint and an opening or a hole; source common-practice
ROOM_MM = 20.0  # what is left there where the free strip is wide enough; else the joint lies in its middle
_CLOSE = 1e-6

Span = tuple[float, float]


def joints(
    board: Board, sheet: Sheet, *, holes: Sequence[Point] = (), hole_mm: float = 0.0
) -> tuple[float, ...] | None:
    """Places of upright joints [mm] for the fewest panels that stock sheets hold.

    The panels are as even as the free strips allow; in a strip the joint keeps 20 mm from its ends, or lies
    in its middle, unless the sheet does not reach so far.

    Args:
        board: the board.
        sheet: stock; it may be turned.
        holes: further holes to be kept clear of; openings and fixings always are.
        hole_mm: their diameter.

    Returns:
        nothing for a board that fits, the joints in rising order, or None where no joint is free.

    Sources: arithmetic, common-practice.
    """
    if _fits(board, sheet):
        return ()
    widths = [
        across
        for across, up in ((sheet.width_mm, sheet.height_mm), (sheet.height_mm, sheet.width_mm))
        if board.height_mm <= up + _CLOSE
    ]
    taken = [(low - hole_mm / 2, high + hole_mm / 2) for low, high in ((x, x) for x, _ in holes)]
    taken += [(x - board.fixing_hole_mm / 2, x + board.fixing_hole_mm / 2) for x, _ in board.fixings]
    taken += [bounds([outline])[::2] for s in board.segments for outline in s.outlines]
    free = _free(taken, board.width_mm)
    found = [way for width in widths if (way := _placed(free, board.width_mm, width)) is not None]
    return min(found, key=len) if found else None


def _fits(board: Board, sheet: Sheet) -> bool:
    size, stock = sorted((board.width_mm, board.height_mm)), sorted((sheet.width_mm, sheet.height_mm))
    return size[0] <= stock[0] + _CLOSE and size[1] <= stock[1] + _CLOSE


def _free(taken: Sequence[Span], width: float) -> list[Span]:
    """Strips that nothing takes, with the clearance to both sides."""
    free: list[Span] = []
    at = 0.0
    for low, high in sorted(taken):
        if low - CLEAR_MM > at + _CLOSE:
            free.append((at, low - CLEAR_MM))
        at = max(at, high + CLEAR_MM)
    return [*free, (at, width)] if at < width else free


def _placed(free: Sequence[Span], width: float, widest: float) -> tuple[float, ...] | None:
    """The fewest panels, then as even as the free strips allow."""
    farthest = _spread(free, width, widest)
    if farthest is None:
        return None
    count = len(farthest) + 1
    places: list[float] = []
    for number in range(1, count):
        before = places[-1] if places else 0.0
        low, high = max(before, width - (count - number) * widest), before + widest
        spots = [_nearest(strip, low, high, width * number / count) for strip in free]
        within = [spot for spot in spots if spot is not None]
        if not within:
            return farthest
        places.append(min(within, key=lambda spot: abs(spot - width * number / count)))
    return tuple(places)


def _nearest(strip: Span, low: float, high: float, target: float) -> float | None:
    """The place in a strip that is nearest to the target, with room to both ends where a panel reaches it."""
    start, end = max(strip[0], low), min(strip[1], high)
    if start > end:
        return None
    room = min(ROOM_MM, (strip[1] - strip[0]) / 2)
    wished = min(max(target, strip[0] + room), strip[1] - room)
    return min(max(wished, start), end)


def _spread(free: Sequence[Span], width: float, widest: float) -> tuple[float, ...] | None:
    places: list[float] = []
    start = 0.0
    while width - start > widest + _CLOSE:
        reach = start + widest
        within = [
            strip for strip in free if strip[0] <= reach and strip[1] > start + _CLOSE and strip[0] > start
        ]
        if not within:
            return None
        low, high = within[-1]
        start = min((low + high) / 2, reach) if low > start else reach
        places.append(start)
    return tuple(places)


def judged(found: Sequence[Finding], part: str, sheet: Sheet, places: Sequence[float]) -> tuple[Finding, ...]:
    """The findings on a part, with the joints in place of the word that it is larger than the sheet.

    Args:
        found: on the part as one board.
        part: its name.
        sheet: stock.
        places: joints as drawn; nothing leaves the findings as they are.
    """
    if not places:
        return tuple(found)
    name = part.replace("_", " ")
    where = ", ".join(f"{place:.0f}" for place in places)
    joined = Finding(
        "caution",
        "joined-panels",
        name,
        f"The {name} is larger than a sheet of {sheet.name}; it is drawn as {len(places) + 1} panels that "
        f"meet {where} mm from the reader's left edge, where no segment and no hole is crossed.",
        value=len(places) + 1,
        limit=1,
        source=sheet.source,
        remedy="Cut each panel by its own outline and join them over a batten behind the joint; let no two "
        "layers have their joint in the same place without it.",
    )
    kept = [f for f in found if f.code != "larger-than-sheet" or f.level == "stop"]
    return (*kept, joined)
