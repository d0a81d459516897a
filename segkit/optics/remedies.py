"""What would make an uneven segment even: depth, beam, rows or more LEDs, each solved and not guessed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TypeVar

from segkit.geometry.polygon import Point
from segkit.optics import solver
from segkit.optics.patterns import MOST_ROWS, Pattern, row_offsets
from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.search import Layout, best_layout, row_bound
from segkit.optics.stations import Bay

#: Full beam angles [deg] that LEDs are sold with (common practice).
BEAMS_DEG = (30, 45, 60, 90, 120, 140)

#: A pocket is not tried deeper than this many times its depth: the remedy would be another design.
_DEEPEST = 3.0

#: Depths that LEDs are placed anew in.
_DEPTHS = 5

Step = TypeVar("Step")

#: Steps of depth that one search looks at.
_LOOKS = 5

_MILLIMETRE = 1.0


@dataclass(frozen=True)
class Uneven:
    """A layout that misses the evenness asked for, and what may be changed about it.

    Attributes:
        bay: outline in its own frame.
        pocket: depth and materials.
        pattern: the layout.
        full_angle_deg, body_mm: of the LED.
        evenness: darkest over mean, asked for.
        rows: asked for, or None.
        count: LEDs in an outline that the builder asked for, or None.
        own: whether the places are the builder's own.
        layer_mm: thickness of a layer of the light grid, or None for depths of whole millimetres.
    """

    bay: Bay
    pocket: Pocket
    pattern: Pattern
    full_angle_deg: float
    body_mm: float
    evenness: float
    rows: int | None
    count: int | None
    own: bool
    layer_mm: float | None


@dataclass(frozen=True)
class Remedies:
    """What would do, each alone; None where nothing of the kind does.

    Two together are looked for only where at most more LEDs do it alone, and those may be many.

    Attributes:
        depth_mm: least depth found for the same LEDs in the same places.
        beam_deg: narrowest usual beam for as many LEDs.
        rows: more rows, and the LEDs in all of them.
        leds: LEDs placed by the toolkit, and the rows they stand in.
        deep: LEDs placed anew in a deeper pocket: its depth, the LEDs, and their rows.
        wide: LEDs of a wider beam placed anew: the beam, the LEDs, and their rows.
    """

    depth_mm: float | None
    beam_deg: int | None
    rows: tuple[int, int] | None
    leds: tuple[int, int] | None
    deep: tuple[float, int, int] | None = None
    wide: tuple[int, int, int] | None = None

    @property
    def sentence(self) -> str:
        """The remedies in one sentence.

        Example:
            >>> Remedies(32, 90, (2, 8), None).sentence
            '32 mm deep, or 2 rows with 8 LEDs in all, or LEDs of 90 deg would do.'
        """
        parts = []
        if self.depth_mm is not None:
            parts.append(f"{self.depth_mm:g} mm deep")
        if self.leds is not None:
            parts.append(_leds_in_rows(*self.leds))
        if self.rows is not None:
            parts.append(f"{self.rows[0]} rows with {self.rows[1]} LEDs in all")
        if self.beam_deg is not None:
            parts.append(f"LEDs of {self.beam_deg} deg")
        if self.deep is not None:
            parts.append(f"{self.deep[0]:g} mm deep with {_leds_in_rows(*self.deep[1:])}")
        if self.wide is not None:
            beam, leds, rows = self.wide
            parts.append(_leds_in_rows(leds, rows, f" of {beam} deg"))
        if parts:
            return f"{', or '.join(parts)} would do."
        return (
            "Neither a pocket up to three times as deep, nor more LEDs or rows that go in, nor wider LEDs "
            "would do: change the size of the segment, or ask for less."
        )


def _leds_in_rows(leds: int, rows: int, kind: str = "") -> str:
    return f"{leds} LED{'s' if leds > 1 else ''}{kind}" + (f" in {rows} rows" if rows > 1 else "")


@lru_cache(maxsize=256)
def remedies(uneven: Uneven) -> Remedies:
    """What would make the segment as even as asked, changing one thing at a time, or else two.

    Depths are looked for by halving between the first one that does and the last that does not, in whole
    layers (or steps of a twelfth of the depth where layers are thin); beams from the narrowest up.

    Args:
        uneven: the layout.

    Sources: pocket-study.
    """
    alone = Remedies(depth_mm=_depth(uneven), beam_deg=_beam(uneven), rows=_rows(uneven), leds=_leds(uneven))
    if any((alone.depth_mm, alone.beam_deg, alone.rows)):
        return alone
    return replace(alone, deep=_deep(uneven), wide=_wide(uneven))


def evenness_of(pocket: Pocket, *, places: tuple[Point, ...], exponent: float) -> float:
    """Darkest over mean of LEDs at given places.

    Args:
        pocket: geometry and materials.
        places: (along, across), mm, inside.
        exponent: m of ``photometry.lobe_exponent``.
    """
    light = solver.light_columns(pocket, places=places, exponent=exponent).mean(axis=0)
    return float(light.min() / light.mean())


def _depth(uneven: Uneven) -> float | None:
    depth, exponent = uneven.pocket.depth_mm, lobe_exponent(uneven.full_angle_deg)
    layer = uneven.layer_mm or _MILLIMETRE
    step = layer * max(1, math.ceil(depth / 12 / layer)) if not uneven.layer_mm else layer

    def does(steps: int) -> bool:
        pocket = replace(uneven.pocket, depth_mm=depth + steps * step)
        return evenness_of(pocket, places=uneven.pattern.places, exponent=exponent) >= uneven.evenness

    most = math.floor(depth * (_DEEPEST - 1) / step)
    below, above = 0, 1
    while above <= most and not does(above):
        below, above = above, above * 2
    if above > most:
        return None
    for _ in range(_LOOKS):
        if above - below <= 1:
            break
        middle = (below + above) // 2
        below, above = (below, middle) if does(middle) else (middle, above)
    return round(depth + above * step, 2)


def _deep(uneven: Uneven) -> tuple[float, int, int] | None:
    """The least of a few depths, up to three times the depth, in which LEDs placed anew do it."""
    depth, layer = uneven.pocket.depth_mm, uneven.layer_mm or _MILLIMETRE
    parts = [math.floor(depth * (_DEEPEST - 1) * part / _DEPTHS / layer) for part in range(1, _DEPTHS + 1)]
    depths = [round(depth + layers * layer, 2) for layers in dict.fromkeys(parts) if layers]

    def at(deeper: float) -> Layout | None:
        changed = replace(uneven, pocket=replace(uneven.pocket, depth_mm=deeper))
        return _search(changed, exponent=None, rows=uneven.rows, least=1, most=None)

    found = _first(depths, at)
    return found and (found[0], len(found[1].pattern.places), found[1].pattern.rows)


def _wide(uneven: Uneven) -> tuple[int, int, int] | None:
    """The narrowest usual beam, wider than the LED's, with which LEDs placed anew do it."""

    def at(beam: int) -> Layout | None:
        return _search(uneven, exponent=lobe_exponent(beam), rows=uneven.rows, least=1, most=None)

    found = _first([beam for beam in BEAMS_DEG if beam > uneven.full_angle_deg], at)
    return found and (found[0], len(found[1].pattern.places), found[1].pattern.rows)


def _first(tries: Sequence[Step], at: Callable[[Step], Layout | None]) -> tuple[Step, Layout] | None:
    """The first of rising steps that does, by halving: deeper and wider are taken to be more even."""
    low, high, best = 0, len(tries) - 1, None
    while low <= high:
        middle = high if best is None else (low + high) // 2
        found = at(tries[middle])
        if found:
            best, high = (tries[middle], found), middle - 1
        elif best is None:
            return None
        else:
            low = middle + 1
    return best


def _beam(uneven: Uneven) -> int | None:
    """The narrowest beam that does it: with the same places, or with as many LEDs at their best places."""
    for beam in BEAMS_DEG:
        if beam <= uneven.full_angle_deg:
            continue
        exponent = lobe_exponent(beam)
        if evenness_of(uneven.pocket, places=uneven.pattern.places, exponent=exponent) >= uneven.evenness:
            return beam
        if uneven.own:
            continue
        count = len(uneven.pattern.places)
        if _search(uneven, exponent=exponent, rows=uneven.pattern.rows, least=count, most=count):
            return beam
    return None


def _rows(uneven: Uneven) -> tuple[int, int] | None:
    """The fewest rows, more than there are, in which any number of LEDs does it."""
    if uneven.bay.dot or uneven.rows is None:
        return None  # every number of rows has been tried, or is by the remedy of more LEDs
    for rows in range(uneven.pattern.rows + 1, MOST_ROWS + 1):
        if not row_offsets(uneven.bay, rows=rows, body_mm=uneven.body_mm):
            return None
        found = _search(uneven, exponent=None, rows=rows, least=1, most=None)
        if found:
            return rows, len(found.pattern.places)
    return None


def _leds(uneven: Uneven) -> tuple[int, int] | None:
    if uneven.count is None and not uneven.own:
        return None
    rows = None if uneven.bay.dot else uneven.rows
    found = _search(uneven, exponent=None, rows=rows, least=1, most=None)
    return (len(found.pattern.places), found.pattern.rows) if found else None


def _search(
    uneven: Uneven, *, exponent: float | None, rows: int | None, least: int, most: int | None
) -> Layout | None:
    """A layout that is even enough, or None; not looked for where no LEDs in such rows could be."""
    bay, pocket, body, asked = uneven.bay, uneven.pocket, uneven.body_mm, uneven.evenness
    lobe = exponent if exponent is not None else lobe_exponent(uneven.full_angle_deg)
    if not bay.dot and row_bound(bay, pocket, lobe, body_mm=body, rows=rows) < asked:
        return None
    found = best_layout(bay, pocket, lobe, body_mm=body, evenness=asked, rows=rows, least=least, most=most)
    return found if found.met else None
