"""One light pocket, its light, and the sums around it: a straight well with matt walls, back and diffuser.

``solver.pocket_light`` turns a ``Pocket`` and the places of its LEDs into a ``PocketLight``.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.geometry.polygon import Outline, Point, area, perimeter
from segkit.optics import view_factor
from segkit.optics.front_map import FrontMap
from segkit.optics.patches import clean_outline

#: Largest miss of the mean front illuminance against a tracing of photons through the same pocket, as a
#: share, over shapes, materials and beams; the tests hold it.
SOLVER_MISS = 0.003


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
        return area(self.outline)

    @property
    def wall_area_mm2(self) -> float:
        """Area of the walls all around."""
        return perimeter(self.outline) * self.depth_mm

    @property
    def gap_mm(self) -> float:
        """Clear height from the tips to the diffuser."""
        return self.depth_mm - self.tip_mm


@dataclass(frozen=True, eq=False)
class PocketLight:
    """What becomes of one lumen in a pocket.

    Attributes:
        front_per_flux: lumens that fall on the back of the diffuser per lumen of the LEDs, all bounces
            counted; above 1 where light comes back for another go.
        direct_share: share of the LEDs' light that meets the diffuser first.
        cavity_reflectance: share of light sent back into the pocket by the diffuser that returns to it.
        wall_loss, back_loss: shares of the LEDs' light that end in walls and back.
        energy_error: how far all shares together are from 1.
        closure_error: by how much the sums of direct light missed the LED's light before they were brought
            to it.
        map: the light on the diffuser, point by point.
    """

    front_per_flux: float
    direct_share: float
    cavity_reflectance: float
    wall_loss: float
    back_loss: float
    energy_error: float
    closure_error: float
    map: FrontMap


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


def refuse_pocket(pocket: Pocket, *, places: Sequence[Point]) -> None:
    """Raise one InputError with everything that makes a pocket impossible.

    Args:
        pocket: geometry and materials.
        places: the LEDs in the frame of the outline, mm.

    Raises:
        InputError: no clear height, shares that cannot be, no area, no LED or one outside.
    """
    problems: list[Problem] = []
    if not 0 <= pocket.tip_mm < math.inf:
        problems.append(
            Problem(
                "no height of an LED's tip above the back.",
                key="tip",
                value=f"{pocket.tip_mm:g} mm",
                limit="0 mm or more",
                remedy="Give the height from the back of the pocket to the top of the LED.",
            )
        )
    elif not pocket.gap_mm > 0 or not math.isfinite(pocket.depth_mm):
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
            problems.append(
                Problem(
                    "no reflectance of a real surface: each takes up some of the light.",
                    key=name.replace("_", " "),
                    value=f"{value:g}",
                    limit="0 to below 1",
                    remedy="White board or paint gives back 0.80 to 0.90, aluminium tape about 0.85.",
                )
            )
    problems += sheet_problems(
        key="diffuser", reflectance=pocket.diffuser_reflectance, transmittance=pocket.diffuser_transmittance
    )
    problems += _outline_problems(pocket.outline, places)
    if problems:
        raise InputError(problems)


def _outline_problems(outline: Outline, places: Sequence[Point]) -> list[Problem]:
    """What is impossible about an outline, or about the LEDs in a possible one."""
    try:
        clean_outline(outline)
    except InputError as error:
        return list(error.problems)
    if len(places) and view_factor.all_inside(outline, places):
        return []
    return [Problem("every LED must stand inside the pocket, and there must be one.", key="places")]


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
