"""The light pocket behind one outline: a straight well with matt walls, a back and a diffuser in front.

``cavity_estimate`` is the one door to it: outline, materials and LED places in, ``PocketLight`` out.
It works with six zones (back, four rings of wall, front), each taken as evenly lit, so it gives the mean
of the front and no map. A solver of finer patches takes the same two arguments and fills the same record.

Not modelled: the LEDs' bodies and holes, side lobes, mirror-like walls (foil gives 0 to 13 % more than the
same reflectance spread evenly), spread of light inside the diffuser, leaks to the neighbours, coloured walls.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.geometry.polygon import Outline, Point
from segkit.optics import view_factor

#: Rings of wall between back and front.
RINGS = 4

#: What ``PocketLight.method`` says for ``cavity_estimate``.
ESTIMATE = "cavity estimate"

#: Largest miss of the mean front illuminance of the reference pocket, as a share, over all materials of
#: its table (black to 95 % white, 30 and 120 degrees); the test prints the misses one by one.
ESTIMATE_MISS = 0.03


@dataclass(frozen=True)
class Pocket:
    """One light pocket.

    Attributes:
        outline: corners in mm, convex.
        depth_mm: from the back to the diffuser.
        tip_mm: height of the LEDs' tips above the back.
        wall_reflectance, back_reflectance: 0 to below 1.
        diffuser_reflectance, diffuser_transmittance: of the diffuser, on the pocket's side.
    """

    outline: Outline
    depth_mm: float
    tip_mm: float
    wall_reflectance: float
    back_reflectance: float
    diffuser_reflectance: float
    diffuser_transmittance: float

    @property
    def front_area_mm2(self) -> float:
        """Area of the diffuser over the pocket."""
        return abs(view_factor.area(self.outline))

    @property
    def wall_area_mm2(self) -> float:
        """Area of the walls all around."""
        return view_factor.perimeter(self.outline) * self.depth_mm

    @property
    def gap_mm(self) -> float:
        """Clear height from the tips to the diffuser."""
        return self.depth_mm - self.tip_mm


@dataclass(frozen=True)
class PocketLight:
    """What becomes of one lumen in a pocket.

    Attributes:
        front_per_flux: lumens that fall on the back of the diffuser per lumen of the LEDs, all bounces
            counted; above 1 where light comes back for another go.
        direct_share: share of the LEDs' light that meets the diffuser first.
        wall_share: of the rest, the share that meets it after bouncing on walls and back.
        cavity_reflectance: share of light sent back into the pocket by the diffuser that returns to it.
        method: how it was found: ``cavity estimate``, or ``solved``.
        miss: largest known miss of ``front_per_flux``, as a share.
    """

    front_per_flux: float
    direct_share: float
    wall_share: float
    cavity_reflectance: float
    method: str
    miss: float


def plain_cavity(
    *,
    flux_lm: float,
    front_area_mm2: float,
    wall_area_mm2: float,
    back_area_mm2: float,
    wall_reflectance: float,
    back_reflectance: float,
    diffuser_reflectance: float,
) -> float:
    """Front illuminance [lx] by the integrating-sphere rule, to compare with: 16 to 36 % too low.

    Formula: ``E = flux / (A (1 - mean reflectance))``. It spreads all light evenly over all surfaces,
    while in a pocket the diffuser is met first.

    Args:
        flux_lm: light of all LEDs in the pocket, lm.
        front_area_mm2, wall_area_mm2, back_area_mm2: areas, mm2, above 0.
        wall_reflectance, back_reflectance, diffuser_reflectance: 0 to 1, not all 1.

    Raises:
        InputError: nothing in the pocket takes up light.

    Sources: sphere-sum.

    Example:
        >>> round(plain_cavity(flux_lm=1, front_area_mm2=2200, wall_area_mm2=6414, back_area_mm2=2200,
        ...     wall_reflectance=0.85, back_reflectance=0.85, diffuser_reflectance=0.4))
        383
    """
    lost_mm2 = (
        front_area_mm2 * (1 - diffuser_reflectance)
        + wall_area_mm2 * (1 - wall_reflectance)
        + back_area_mm2 * (1 - back_reflectance)
    )
    if lost_mm2 <= 0:
        raise InputError("nothing in the pocket takes up light: all reflectances are 1.")
    return flux_lm / lost_mm2 * 1e6


def cavity_estimate(pocket: Pocket, *, places: Sequence[Point], exponent: float) -> PocketLight:
    """Where the light of a pocket goes, from direct light and a sum over six zones.

    Formula: ``front_per_flux = (s + (1 - s) e) / (1 - rho_d R_c)`` with s the direct share through the
    outline, e the share of the rest that finds the front by way of walls and back, and R_c the cavity's
    reflectance. e and R_c come from the view factors between equal parallel cross-sections of the well,
    whose differences are those of the wall rings.

    Args:
        pocket: geometry and materials; the outline convex.
        places: the LEDs in the frame of the outline, mm, at least one, all inside.
        exponent: m of ``photometry.lobe_exponent``.

    Raises:
        InputError: no clear height, a wall that takes up nothing, a diffuser that gives more light than it
            gets, no LED or an LED outside the outline.

    Sources: view-factor-handbook, moreno-2006; checked on pocket-study.

    Example:
        >>> bar = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
        >>> white = Pocket(bar, 25, 6, 0.85, 0.85, 0.40, 0.50)
        >>> light = cavity_estimate(white, places=((-40, 0), (0, 0), (40, 0)), exponent=1)
        >>> round(light.front_per_flux, 2)
        1.01
    """
    _refuse(pocket, places)
    levels = [pocket.depth_mm * index / RINGS for index in range(RINGS + 1)]
    through = [_through(pocket, places, level_mm=level, exponent=exponent) for level in levels]
    direct = through[-1]
    first = [0.0] + [through[i] - through[i + 1] for i in range(RINGS)] + [0.0]
    exchange = _exchange(pocket, levels)
    by_walls = _arriving(pocket, exchange, first)[-1]
    leaving = [row[-1] / pocket.front_area_mm2 for row in exchange]
    returned = _arriving(pocket, exchange, leaving)[-1]
    return PocketLight(
        front_per_flux=(direct + by_walls) / (1 - pocket.diffuser_reflectance * returned),
        direct_share=direct,
        wall_share=by_walls / (1 - direct) if direct < 1 else 0.0,
        cavity_reflectance=returned,
        method=ESTIMATE,
        miss=ESTIMATE_MISS,
    )


def unlit_reflectance(
    *, diffuser_reflectance: float, diffuser_transmittance: float, cavity_reflectance: float
) -> float:
    """Reflectance of the unlit segment as seen from outside: its own and what comes back out of the pocket.

    Formula: ``R_off = rho_d + tau_d^2 R_c / (1 - rho_d R_c)``.

    Args:
        diffuser_reflectance, diffuser_transmittance: 0 to 1, together at most 1.
        cavity_reflectance: ``PocketLight.cavity_reflectance``, 0 to below 1.

    Example:
        >>> round(unlit_reflectance(
        ...     diffuser_reflectance=0.4, diffuser_transmittance=0.5, cavity_reflectance=0.599), 3)
        0.597
    """
    back_out = diffuser_transmittance**2 * cavity_reflectance
    return diffuser_reflectance + back_out / (1 - diffuser_reflectance * cavity_reflectance)


def _through(pocket: Pocket, places: Sequence[Point], *, level_mm: float, exponent: float) -> float:
    """Share of the LEDs' light that passes the cross-section at a level without touching a wall."""
    gap = level_mm - pocket.tip_mm
    shares = [view_factor.lobe_share(pocket.outline, place=p, gap_mm=gap, exponent=exponent) for p in places]
    return sum(shares) / len(shares)


def _exchange(pocket: Pocket, levels: Sequence[float]) -> list[list[float]]:
    """Exchange areas [mm2] between back, rings and front: area times view factor, both ways alike.

    Light between two cross-sections i and j is ``A F(i, j)``; what passes one section and not the next
    has met the ring between them.
    """
    size = RINGS + 2
    across = [
        pocket.front_area_mm2 * view_factor.parallel_outlines(pocket.outline, distance_mm=level)
        for level in levels
    ]

    def between(i: int, j: int) -> float:
        return across[abs(i - j)]

    table = [[0.0] * size for _ in range(size)]

    def put(i: int, j: int, value: float) -> None:
        table[i][j] = table[j][i] = max(0.0, value)

    put(0, size - 1, between(0, RINGS))
    for i in range(RINGS):
        put(0, i + 1, between(0, i) - between(0, i + 1))
        put(size - 1, i + 1, between(RINGS, i + 1) - between(RINGS, i))
        for j in range(i + 1, RINGS):
            nearer, farther = between(i + 1, j) - between(i + 1, j + 1), between(i, j) - between(i, j + 1)
            put(i + 1, j + 1, nearer - farther)
    ring_mm2 = pocket.wall_area_mm2 / RINGS
    for i in range(1, RINGS + 1):
        table[i][i] = max(0.0, ring_mm2 - sum(table[i]))
    return table


def _arriving(pocket: Pocket, exchange: list[list[float]], first: list[float]) -> list[float]:
    """Light that falls on each zone, all bounces counted, with a front that sends nothing back.

    Solves ``P_i = first_i + sum over j of rho_j P_j AF_ji / A_j``.
    """
    ring_mm2 = pocket.wall_area_mm2 / RINGS
    areas = [pocket.front_area_mm2, *[ring_mm2] * RINGS, pocket.front_area_mm2]
    mirror = [pocket.back_reflectance, *[pocket.wall_reflectance] * RINGS, 0.0]
    size = len(areas)
    matrix = [
        [(1.0 if i == j else 0.0) - mirror[j] * exchange[j][i] / areas[j] for j in range(size)]
        for i in range(size)
    ]
    return _solved(matrix, first)


def _solved(matrix: list[list[float]], right: list[float]) -> list[float]:
    """The solution of a small linear system that is dominated by its diagonal (so no row swaps)."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for i in range(size):
        for j in range(size):
            if j != i:
                factor = rows[j][i] / rows[i][i]
                rows[j] = [b - factor * a for a, b in zip(rows[i], rows[j], strict=True)]
    return [rows[i][size] / rows[i][i] for i in range(size)]


def _refuse(pocket: Pocket, places: Sequence[Point]) -> None:
    problems: list[Problem] = []
    if not pocket.gap_mm > 0 or pocket.tip_mm < 0 or not math.isfinite(pocket.depth_mm):
        problems.append(
            Problem(
                f"the LED's tip ({pocket.tip_mm:g} mm) must lie between the back and the diffuser.",
                key="depth",
                value=f"{pocket.depth_mm:g} mm",
                limit=f"above {pocket.tip_mm:g} mm",
                remedy="Make the pocket deeper or take a lower LED.",
            )
        )
    for name in ("wall_reflectance", "back_reflectance"):
        value = getattr(pocket, name)
        if not 0 <= value < 1:
            problems.append(Problem("no reflectance.", key=name, value=f"{value:g}", limit="0 to below 1"))
    problems += sheet_problems(
        key="diffuser", reflectance=pocket.diffuser_reflectance, transmittance=pocket.diffuser_transmittance
    )
    if len(pocket.outline) < 3 or pocket.front_area_mm2 <= 0:
        problems.append(Problem("the outline has no area.", key="outline"))
    elif not places or any(view_factor.clearance(pocket.outline, place) < 0 for place in places):
        problems.append(
            Problem("every LED must stand inside the pocket, and there must be one.", key="places")
        )
    if problems:
        raise InputError(problems)


def sheet_problems(*, key: str, reflectance: float, transmittance: float) -> list[Problem]:
    """What is impossible about a sheet: shares outside 0 to 1, or more light out than in.

    Args:
        key: what the sheet is, for the message.
        reflectance, transmittance: as shares.

    Example:
        >>> [str(problem) for problem in sheet_problems(key="diffuser", reflectance=0.4, transmittance=0.5)]
        []
    """
    problems = [
        Problem(f"no {name}.", key=key, value=f"{value:g}", limit="0 to 1")
        for name, value in (("reflectance", reflectance), ("transmittance", transmittance))
        if not 0 <= value <= 1
    ]
    total = reflectance + transmittance
    if not problems and total > 1 + 1e-9:
        problems.append(
            Problem(
                f"reflectance {reflectance:g} and transmittance {transmittance:g} come to {total:.2f}; "
                "a sheet cannot give back more light than it gets.",
                key=key,
                limit="together at most 1",
                remedy="Correct one of the two in the catalogue row or in the design file.",
            )
        )
    return problems
