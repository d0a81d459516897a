"""What LEDs of one bag and holes drilled by hand make of a solved map: evenness and equality as they come."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from segkit.geometry.polygon import Point
from segkit.optics import solver, view_factor
from segkit.optics.built import SOLVED_NOTE, named
from segkit.optics.pocket import Pocket
from segkit.working import Given, Line

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

#: Light of one LED against that of its neighbours from the same bag, one sigma (led-bins).
FLUX_SIGMA = 0.15

#: Place of a hole drilled by hand through a paper template, each way, one sigma, mm (common-practice).
PLACE_SIGMA_MM = 1.0

#: Boards drawn, segments looked at point by point, and the start of the random numbers.
BOARDS, SEGMENTS, SEED = 400, 400, 7

#: The share of the drawn ones that is worse than what is told.
WORSE = 0.05

_STEP_MM = 1.0  # over which the slope of the light is taken

#: A spot of light narrower than this (standard deviation) has no slope that holds over a hole's whole error:
#: its maps are then solved at so many places each way, three sigma to each side, and read between them.
_SHARP_MM, _KNOTS = 3.0, 5

_BLOCK = 512  # draws at a time

_OVER = "over the mean light without spread"


@dataclass(frozen=True)
class Spread:
    """One kind of segment as built, twentieth worst.

    Attributes:
        darkest, mean: light on the darkest spot and mean light of the segment whose evenness 5 % of the
            drawn ones do not reach, over the mean light of LEDs without spread.
        dimmest, brightest: mean light of two segments of the board whose ratio 5 % of the drawn boards do
            not reach, over the same.
        segments: of the kind on a board.
    """

    darkest: float
    mean: float
    dimmest: float
    brightest: float
    segments: int

    @property
    def evenness(self) -> float:
        """Darkest over mean, 5th percentile."""
        return self.darkest / self.mean

    @property
    def ratio(self) -> float:
        """Dimmest over brightest segment of a board, 5th percentile."""
        return self.dimmest / self.brightest


@lru_cache(maxsize=256)
def spread(
    pocket: Pocket, *, places: tuple[Point, ...], exponent: float, outlines: int, segments: int
) -> Spread:
    """Evenness and equality under spread of the LEDs' light and of their places, seeded.

    Every LED gets a light drawn from a normal distribution (sigma 15 %, never below a tenth), and a place
    (sigma 1 mm each way, no nearer to a wall than half its way there). Its map moves with the place by the
    slope and the bend of the solved maps a millimetre to each side; where the spots of light are narrow, it
    is read between maps solved all around.

    Args:
        pocket: geometry and materials.
        places: LEDs in the frame of the outline, mm.
        exponent: m of ``photometry.lobe_exponent``.
        outlines: outlines in a segment, each with these places; the segment's light is their mean.
        segments: of the kind on a board, at least 1.

    Raises:
        InputError: as ``solver.light_columns``.

    Sources: pocket-study, led-bins; common-practice for the holes.

    Example:
        >>> bar = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
        >>> white = Pocket(bar, 35, 6, 0.85, 0.85, 0.40, 0.50)
        >>> five = tuple((x, 0.0) for x in (-46.0, -23.0, 0.0, 23.0, 46.0))
        >>> drawn = spread(white, places=five, exponent=4.82, outlines=1, segments=28)
        >>> 0.6 < drawn.evenness < 0.8, 0.6 < drawn.ratio < 0.9
        (True, True)
    """
    import numpy as np

    random = np.random.default_rng(SEED)
    sharp = pocket.gap_mm / math.sqrt(exponent + 3) < _SHARP_MM
    terms, scale = (_knots if sharp else _terms)(pocket, places, exponent)
    drawn = _drawn(random, pocket, places, SEGMENTS)
    maps = _factors(pocket, places, drawn, sharp=sharp) @ terms
    levels, means = maps.min(axis=1), maps.mean(axis=1)
    worst = int(np.argsort(levels / means, kind="stable")[int(WORSE * SEGMENTS)])
    many, light = _drawn(random, pocket, places, BOARDS * segments * outlines), terms.mean(axis=1)
    blocks = [many[:, at : at + _BLOCK] for at in range(0, many.shape[1], _BLOCK)]
    mean = np.concatenate([_factors(pocket, places, block, sharp=sharp) @ light for block in blocks])
    each = mean.reshape(BOARDS, segments, outlines).mean(axis=2)
    low, high = each.min(axis=1), each.max(axis=1)
    board = int(np.argsort(low / high, kind="stable")[int(WORSE * BOARDS)])
    return Spread(
        darkest=float(levels[worst] / scale),
        mean=float(means[worst] / scale),
        dimmest=float(low[board] / scale),
        brightest=float(high[board] / scale),
        segments=segments,
    )


def _terms(pocket: Pocket, places: tuple[Point, ...], exponent: float) -> tuple[Array, float]:
    """Map, slopes and bends of each LED: (5 x LEDs, cells); and the mean light of all without spread."""
    import numpy as np

    steps = [_step_of(pocket, place) for place in places]
    moved: list[Point] = list(places)
    for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        moved += [(px + x * step, py + y * step) for (px, py), step in zip(places, steps, strict=True)]
    columns = solver.light_columns(pocket, places=moved, exponent=exponent).reshape(5, len(places), -1)
    here, right, left, up, down = columns
    over = np.asarray(steps)[:, None]
    terms = np.concatenate(
        [
            here,
            (right - left) / (2 * over),
            (up - down) / (2 * over),
            (right + left - 2 * here) / (2 * over**2),
            (up + down - 2 * here) / (2 * over**2),
        ]
    )
    return terms / len(places), float(here.mean())


def _knots(pocket: Pocket, places: tuple[Point, ...], exponent: float) -> tuple[Array, float]:
    """Maps of each LED all around its place: (LEDs x knots x knots, cells); and the mean without spread."""
    steps = [knot / (_KNOTS // 2) - 1 for knot in range(_KNOTS)]
    moved = [
        (x + dx * reach, y + dy * reach)
        for (x, y), reach in zip(places, _reaches(pocket, places), strict=True)
        for dx in steps
        for dy in steps
    ]
    columns = solver.light_columns(pocket, places=moved, exponent=exponent)
    return columns / len(places), float(columns[_KNOTS**2 // 2 :: _KNOTS**2].mean())


def _reaches(pocket: Pocket, places: Sequence[Point]) -> list[float]:
    """How far the solved maps of each LED go."""
    return [min(3 * max(PLACE_SIGMA_MM, 1e-3), _room(pocket, place)) for place in places]


def _step_of(pocket: Pocket, place: Point) -> float:
    return min(_STEP_MM, _room(pocket, place))


def _room(pocket: Pocket, place: Point) -> float:
    """How far an LED may stray: half its way to the nearest wall."""
    return max(1e-3, view_factor.clearance(pocket.outline, place) / 2)


def _drawn(random: np.random.Generator, pocket: Pocket, places: Sequence[Point], draws: int) -> Array:
    """Light, and places along and across against the planned ones: (3, draws, LEDs)."""
    import numpy as np

    count = len(places)
    flux = np.maximum(random.normal(1.0, FLUX_SIGMA, (draws, count)), 0.1)
    room = np.asarray([_room(pocket, place) for place in places])
    x, y = (np.clip(random.normal(0.0, PLACE_SIGMA_MM, (draws, count)), -room, room) for _ in "xy")
    return np.stack([flux, x, y])


def _factors(pocket: Pocket, places: Sequence[Point], drawn: Array, *, sharp: bool) -> Array:
    """Factors of the terms of each draw: (draws, terms)."""
    import numpy as np

    flux, x, y = drawn
    if not sharp:
        return np.concatenate([flux, flux * x, flux * y, flux * x**2, flux * y**2], axis=1)
    reach, knots = np.asarray(_reaches(pocket, places)), np.arange(_KNOTS)
    # each place lies between two knots, each way, and takes of both in proportion
    along, across = (
        np.maximum(0.0, 1 - np.abs((np.clip(v / reach, -1, 1) + 1)[:, :, None] * (_KNOTS // 2) - knots))
        for v in (x, y)
    )
    both: Array = flux[:, :, None, None] * along[:, :, :, None] * across[:, :, None, :]
    return both.reshape(len(flux), -1)


def spread_lines(kind: str, drawn: Spread) -> tuple[Line, ...]:
    """Working of the spread of one kind.

    Args:
        kind: ``Segment.kind``.
        drawn: of ``spread``.
    """
    note = (
        f"LEDs of one bag ({100 * FLUX_SIGMA:.0f} % sigma) and holes by hand ({PLACE_SIGMA_MM:g} mm sigma); "
        f"{SEGMENTS} segments and {BOARDS} boards drawn, always the same; {SOLVED_NOTE}"
    )
    return (
        Line(
            named("evenness_built", kind), "evenness that 19 of 20 segments reach as built", "U_built",
            drawn.evenness, "", "E_dark/E_mean",
            (
                Given("E_dark", drawn.darkest, "", f"darkest spot of the segment on that limit, {_OVER}"),
                Given("E_mean", drawn.mean, "", f"mean light of that segment, {_OVER}"),
            ),
            "led-bins", note,
        ),
        Line(
            named("segment_ratio", kind),
            f"dimmest over brightest of {drawn.segments} such segments, reached by 19 of 20 boards", "q",
            drawn.ratio, "", "E_dim/E_bright",
            (
                Given("E_dim", drawn.dimmest, "", f"dimmest segment of the board on that limit, {_OVER}"),
                Given("E_bright", drawn.brightest, "", f"brightest segment of that board, {_OVER}"),
            ),
            "led-bins", note,
        ),
    )  # fmt: skip
