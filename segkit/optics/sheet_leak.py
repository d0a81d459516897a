"""A diffuser of one sheet: light that wanders in it from a lit segment to its unlit neighbour."""

from __future__ import annotations

import math

from segkit.findings import Finding
from segkit.units import plain_number
from segkit.working import Given, Line

LEAST, PREFERRED = 3.0, 10.0  # lit to unlit; iso-9241-3, nureg-0700
SPREAD = 2.0  # the estimate may be off by this factor; source sheet-leak


def edge_share(*, thickness_mm: float, gap_mm: float) -> float:
    """Luminance at the near edge of an unlit segment over that of its lit neighbour.

    ``s = (1 - g/sqrt(g^2 + t^2))/2``.

    What enters the rear of the sheet over the lit pocket goes on in all directions alike, so that the front
    at a distance ``g`` from its edge has the view factor of a half-plane ``t`` behind it. At no gap that is
    one half. Scattering in the sheet, light kept in by its faces and what a white wall under the gap throws
    back change it by less than a factor of 2 for gaps of one and two thicknesses, and by 2.4 at three: single
    rays traced in sheets of index 1.49 say so in the tests. Dense or clear sheets leak less.

    Args:
        thickness_mm: of the sheet, 0 or more.
        gap_mm: between the openings, 0 or more; of both one above 0.

    Sources: sheet-leak.

    Example:
        >>> round(edge_share(thickness_mm=3, gap_mm=4), 12)
        0.1
    """
    return (1 - gap_mm / math.hypot(gap_mm, thickness_mm)) / 2


def gap_for(ratio: float, *, thickness_mm: float) -> float:
    """Gap at which the edge of the neighbour is that much darker: ``t*c/sqrt(1 - c^2)``, ``c = 1 - 2/r``.

    Args:
        ratio: lit over the edge of the unlit neighbour, above 2.
        thickness_mm: of the sheet.

    Sources: sheet-leak.

    Example:
        >>> gap_for(10, thickness_mm=3)
        4.0
    """
    cosine = 1 - 2 / ratio
    return round(thickness_mm * cosine / math.sqrt(1 - cosine**2), 9)


def leak_line(*, thickness_mm: float, gap_mm: float) -> Line:
    """The working of ``edge_share``; arguments as there.

    Sources: sheet-leak.
    """
    return Line(
        "optics.sheet_leak", "luminance at the edge of an unlit segment over that of its lit neighbour", "s",
        edge_share(thickness_mm=thickness_mm, gap_mm=gap_mm), "", "(1 - g/sqrt(g**2 + t**2))/2",
        (
            Given("g", gap_mm, "mm", "smallest gap between openings"),
            Given("t", thickness_mm, "mm", "thickness of the sheet"),
        ),
        "sheet-leak", "light that wanders in the sheet; an estimate, half to twice that",
    )  # fmt: skip


def leak_finding(*, thickness_mm: float, gap_mm: float) -> Finding:
    """What leaks, and whether a digit can be misread for it: ``light-crosses-sheet``, a caution below 10:1.

    Args:
        thickness_mm: of the one sheet, above 0.
        gap_mm: smallest gap between openings, above 0.

    Sources: sheet-leak, iso-9241-3, nureg-0700.

    Example:
        >>> leak_finding(thickness_mm=3, gap_mm=2).level
        'caution'
    """
    share = edge_share(thickness_mm=thickness_mm, gap_mm=gap_mm)
    ratio = 1 / share if share > 1e-9 else 1e9
    if ratio < LEAST:
        verdict, limit = f"Below {LEAST:g}:1 it is taken for lit.", LEAST
    elif ratio < PREFERRED:
        verdict, limit = f"{PREFERRED:g}:1 or more is asked for, so that no digit is misread.", PREFERRED
    else:
        verdict, limit = "That is read right; in the dark it is seen as a soft rim.", PREFERRED
    return Finding(
        "caution" if ratio < PREFERRED else "note", "light-crosses-sheet", "diffuser",
        f"The diffuser is one sheet of {plain_number(thickness_mm)} mm: light wanders in it across the gap "
        f"of {plain_number(gap_mm, 3)} mm, and the near edge of an unlit segment glows with about "
        f"{100 * share:.2g} % of its lit neighbour, {_floored(ratio)}:1 (an estimate, half to twice that). "
        f"{verdict}",
        value=round(ratio, 3), limit=limit, source="iso-9241-3" if limit == LEAST else "nureg-0700",
        remedy=_remedy(thickness_mm, gap_mm),
    )  # fmt: skip


def _floored(ratio: float) -> str:
    return plain_number(math.floor(10 * ratio) / 10 if ratio < 20 else math.floor(ratio))


def _remedy(thickness_mm: float, gap_mm: float) -> str:
    sure = gap_for(SPREAD * PREFERRED, thickness_mm=thickness_mm)
    thin = math.floor(10 * thickness_mm * gap_mm / sure) / 10
    sheet = f"a sheet of at most {thin:g} mm or " if thin >= 0.1 else ""
    less = (
        f"With {sheet}a gap of {math.ceil(2 * sure) / 2:g} mm it is {PREFERRED:g}:1 even at worst. "
        if gap_mm < sure
        else ""
    )
    return (
        f"Single pieces (make.fit lip or let-in) stop it. {less}Or cut the sheet through along the middle of "
        "the gaps and set strips of black card in; a groove from behind, painted black, lessens it."
    )
