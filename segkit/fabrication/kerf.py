"""Where the middle of the tool runs so that the finished edge comes out where it was drawn.

Kerf is the full width of the cut; the line moves by half of it: outward on what is kept, inward on
what falls out.
"""

from __future__ import annotations

from segkit.drawing.drawing import Circle, Path
from segkit.errors import InputError, Problem
from segkit.geometry.polygon import Outline, Point, offset


def around_kept(outline: Outline, *, kerf_mm: float) -> Path:
    """Tool path round a piece that is kept.

    Args:
        outline: finished edge, counter-clockwise.
        kerf_mm: full width of the cut, 0 or more.

    Sources: arithmetic.

    Example:
        >>> around_kept(((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0)), kerf_mm=0.2).points[0]
        (-0.1, -0.1)
    """
    return Path(moved_edge(outline, outward_mm=kerf_mm / 2))


def inside_opening(outline: Outline, *, kerf_mm: float) -> Path:
    """Tool path inside an opening; arguments as for ``around_kept``.

    Raises:
        InputError: the kerf is so wide that it swallows the opening.
    """
    return Path(moved_edge(outline, outward_mm=-kerf_mm / 2))


def inside_hole(centre: Point, *, diameter_mm: float, kerf_mm: float) -> Circle:
    """Tool path inside a round hole; a drill has no kerf.

    Raises:
        InputError: the hole is not wider than the cut.

    Example:
        >>> inside_hole((0, 0), diameter_mm=5.2, kerf_mm=0.2).radius_mm
        2.5
    """
    if diameter_mm <= kerf_mm:
        raise InputError(
            Problem(
                f"a hole of {diameter_mm:g} mm is not wider than the cut of {kerf_mm:g} mm.",
                value=f"{diameter_mm:g} mm",
                limit=f"above {kerf_mm:g} mm",
                remedy="Use a narrower tool for the holes, or drill them.",
            )
        )
    return Circle(centre, (diameter_mm - kerf_mm) / 2)


def moved_edge(outline: Outline, *, outward_mm: float) -> Outline:
    """The outline grown (positive) or shrunk (negative) by a distance, corners kept sharp.

    Raises:
        InputError: the piece is swallowed.
    """
    return offset(outline, distance_mm=outward_mm) if outward_mm else outline
