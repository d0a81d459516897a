"""The fewest LEDs that light one outline as evenly as asked, and the best that any number could do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from segkit.optics.candidates import Candidates, mirrored_cells
from segkit.optics.patterns import MOST_ROWS, Pattern, Plan, crowded, pattern, plans, room_for, row_offsets
from segkit.optics.pocket import Pocket
from segkit.optics.stations import Bay

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.floating[Any]]

#: LEDs in one outline that a search goes up to.
MOST_LEDS = 60

#: More LEDs are not worth it where the target is out of reach and they gain less than this.
_WORTH = 0.02

#: What reading between worked-out places may be off by; better ones are worked out exactly.
_NEARLY = 0.01


@dataclass(frozen=True)
class Layout:
    """Where the LEDs of one outline go.

    Attributes:
        pattern: the places.
        evenness: darkest cell over the mean, 0 to 1.
        met: whether it is as even as asked.
        bound: the most even that LEDs of any number and strength on such rows could make it; None when not
            asked for (the target is met) or a dot.
    """

    pattern: Pattern
    evenness: float
    met: bool
    bound: float | None = None


@lru_cache(maxsize=512)
def best_layout(
    bay: Bay,
    pocket: Pocket,
    exponent: float,
    *,
    body_mm: float,
    evenness: float,
    rows: int | None = None,
    least: int = 1,
    most: int | None = None,
) -> Layout:
    """The fewest LEDs that reach an evenness, at their best places.

    Every number from the least (in a dot beyond a dozen every fourth part more) is tried in one row, then
    in more rows up to the asked number, over ends millimetre by millimetre and a few distances of the rows;
    the winner is worked out exactly. Out of reach, the fewest LEDs that come within 0.02 of the best found;
    with ``least = most`` the best places for that number.

    Args:
        bay: outline in its own frame.
        pocket: the same outline, with depth and materials.
        exponent: m of ``photometry.lobe_exponent``.
        body_mm: diameter of an LED's body, mm.
        evenness: darkest over mean that is asked, 0.3 to 0.95.
        rows: 1 to 4, or None for as few as do it; a dot has rings and no rows.
        least, most: LEDs to try; None for as many as go in, 60 at most.

    Raises:
        InputError: as ``solver.light_columns``.

    Sources: pocket-study.
    """
    table = _candidates(bay, pocket, exponent, body_mm)
    best = _fewest(table, evenness=evenness, rows=rows, least=least, most=most)
    if best.met or bay.dot:
        return best
    bound = row_bound(bay, pocket, exponent, body_mm=body_mm, rows=rows)
    return Layout(best.pattern, best.evenness, False, bound=bound)


def rows_allowed(bay: Bay, *, rows: int | None, body_mm: float) -> tuple[int, ...]:
    """Numbers of rows that may be tried: those that go in; the one asked for, or as many as go in.

    Args:
        bay: outline in its own frame.
        rows: asked for, or None.
        body_mm: diameter of a body.
    """
    if bay.dot:
        return (1,)
    asked = range(1, (rows or MOST_ROWS) + 1)
    fitting = tuple(r for r in asked if row_offsets(bay, rows=r, body_mm=body_mm)) or (1,)
    return fitting if rows is None else fitting[-1:]


@lru_cache(maxsize=512)
def row_bound(bay: Bay, pocket: Pocket, exponent: float, *, body_mm: float, rows: int | None) -> float:
    """How even LEDs of any number and strength in so many rows could make a bar: linear programming.

    Args:
        bay, pocket, exponent, body_mm: as in ``best_layout``; the bay no dot.
        rows: 1 to 4, or None for all that go in.

    Returns:
        darkest over mean, 0 to 1.
    """
    table = _candidates(bay, pocket, exponent, body_mm)
    return _bound(table, rows_allowed(bay, rows=rows, body_mm=body_mm))


@lru_cache(maxsize=64)
def _candidates(bay: Bay, pocket: Pocket, exponent: float, body_mm: float) -> Candidates:
    return Candidates(bay, pocket, exponent, body_mm)


def _fewest(table: Candidates, *, evenness: float, rows: int | None, least: int, most: int | None) -> Layout:
    bay, body = table.bay, table.body_mm
    allowed = rows_allowed(bay, rows=rows, body_mm=body)
    room = min(MOST_LEDS, max(room_for(bay, rows=r, body_mm=body) for r in allowed))
    found: list[Layout] = []
    for total in _totals(least, max(least, min(room, most or room)), dot=bay.dot):
        best: Layout | None = None
        for count in allowed:
            layout = _best_of(table, total=total, rows=count, target=evenness)
            if layout and (best is None or layout.evenness > best.evenness + _WORTH / 2):
                best = layout
            if best and best.met:
                return best
        if best:
            found.append(best)
    if not found:
        return _crowded(table, total=least, target=evenness)
    top = max(layout.evenness for layout in found)
    return next(layout for layout in found if layout.evenness >= top - _WORTH)


def _totals(least: int, most: int, *, dot: bool) -> Iterator[int]:
    """Numbers of LEDs to try, rising: all of them; beyond a dozen in a dot a few of them, since rings are
    alike."""
    total = least
    while total <= most:
        yield total
        step = 1 if not dot or total < 12 else total // 4
        total = min(total + step, most) if total < most else most + 1


def _best_of(table: Candidates, *, total: int, rows: int, target: float) -> Layout | None:
    """The most even pattern of so many LEDs in so many rows, worked out exactly; None where none goes in."""
    tries: list[tuple[float, Plan, float]] = []
    for plan in plans(table.bay, total=total, rows=rows, body_mm=table.body_mm):
        maps = table.maps(plan)
        levels = maps.min(axis=1) / maps.mean(axis=1)
        top = int(levels.argmax())
        tries.append((float(levels[top]), plan, plan.reaches_mm[top]))
    if not tries:
        return None
    level, plan, reach = max(tries, key=lambda each: each[0])
    chosen = pattern(table.bay, plan, reach_mm=reach, body_mm=table.body_mm)
    if level >= target - _NEARLY and not table.bay.dot:
        level = exact_evenness(table, chosen)
    return Layout(chosen, level, level >= target)


def exact_evenness(table: Candidates, chosen: Pattern) -> float:
    """Darkest over mean of a pattern, from the light at its very places."""
    light = table.columns(chosen.places).mean(axis=0)
    return float(light.min() / light.mean())


def _crowded(table: Candidates, *, total: int, target: float) -> Layout:
    """More LEDs than go in: evenly along the row all the same, for the finding that says so."""
    chosen = crowded(table.bay, total=total, body_mm=table.body_mm)
    level = exact_evenness(table, chosen)
    return Layout(chosen, level, level >= target)


def _bound(table: Candidates, allowed: tuple[int, ...]) -> float:
    """Largest least light for a mean of 1 over the strengths of all places of the rows."""
    import numpy as np
    from scipy.optimize import linprog

    columns = np.concatenate([_folded(table, offset) for offset in _offsets(table, allowed)])
    columns = columns / columns.mean(axis=1)[:, None]
    columns = columns[:, _kept(table)]
    count, cells = columns.shape
    held = np.hstack([-columns.T, np.ones((cells, 1))])
    solved = linprog(
        c=np.append(np.zeros(count), -1.0), A_ub=held, b_ub=np.zeros(cells),
        A_eq=np.append(np.ones(count), 0.0)[None, :], b_eq=[1.0], bounds=(0, None), method="highs",
    )  # fmt: skip
    return -float(solved.fun or 0.0)


def _offsets(table: Candidates, allowed: tuple[int, ...]) -> Iterator[float]:
    """All row places of the plans; the rows below the axis left out where the pocket is alike there."""
    seen: set[float] = set()
    alike = mirrored_cells(table.pocket, 1, -1) is not None
    for rows in allowed:
        for offsets in row_offsets(table.bay, rows=rows, body_mm=table.body_mm):
            seen.update(offset for offset in offsets if not alike or offset >= 0)
    yield from sorted(seen)


def _folded(table: Candidates, offset: float) -> Array:
    """Columns of a row, each with its mirror images where the pocket is alike: fewer for the same bound."""
    columns = table.line(offset).columns
    turned = mirrored_cells(table.pocket, -1, 1)
    if turned is not None:
        half = (len(columns) + 1) // 2
        columns = (columns[:half] + columns[:half][:, list(turned)]) / 2
    across = mirrored_cells(table.pocket, 1, -1)
    return columns if across is None else (columns + columns[:, list(across)]) / 2


def _kept(table: Candidates) -> list[int]:
    """Cells that stand for all, by symmetry."""
    kept = set(range(len(table.line(0.0).columns[0])))
    for along, across in ((-1, 1), (1, -1)):
        turned = mirrored_cells(table.pocket, along, across)
        if turned is not None:
            kept = {cell for cell in kept if cell <= turned[cell] or turned[cell] not in kept}
    return sorted(kept)
