"""Paper that a home or office printer takes, and how much of it can be printed on."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.errors import InputError, Problem, nearest

INCH_MM = 25.4
#: Width and height in mm, upright. A4 and A3: ISO 216; Letter and Tabloid: sizes A and B of ASME Y14.1;
#: Legal: common practice.
PAPERS = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "letter": (8.5 * INCH_MM, 11 * INCH_MM),
    "legal": (8.5 * INCH_MM, 14 * INCH_MM),
    "tabloid": (11 * INCH_MM, 17 * INCH_MM),
}
STRIP_MM = 12.0  # along two sides of every page, for the rulers and the name


@dataclass(frozen=True)
class PaperSettings:
    """The paper and what the printer leaves free.

    Attributes:
        size: of ``PAPERS``.
        margin_mm: that the printer cannot print on, all round, 0 to 25 mm; source common-practice.
        overlap_mm: by which neighbouring pages show the same, 4 to 40 mm.

    Raises:
        InputError: unknown paper, or a size out of its range; all at once.

    Sources: iso-216, asme-y14-1, common-practice.
    """

    size: str = "a4"
    margin_mm: float = 6.0
    overlap_mm: float = 10.0

    def __post_init__(self) -> None:
        problems = []
        if self.size not in PAPERS:
            problems.append(
                Problem(
                    "unknown paper.",
                    key="size",
                    value=self.size,
                    limit=", ".join(PAPERS),
                    remedy=nearest(self.size, tuple(PAPERS)),
                )
            )
        for key, value, low, high in (
            ("margin", self.margin_mm, 0.0, 25.0),
            ("overlap", self.overlap_mm, 4.0, 40.0),
        ):
            if not (math.isfinite(value) and low <= value <= high):
                problems.append(
                    Problem(
                        f"{value:g} mm is out of range.",
                        key=key,
                        value=f"{value:g} mm",
                        limit=f"{low:g} mm to {high:g} mm",
                        remedy="Look up what your printer leaves free, or measure it on a full print.",
                    )
                )
        if problems:
            raise InputError(problems)

    def page_mm(self, *, turned: bool) -> tuple[float, float]:
        """Width and height of a page; turned for landscape.

        Example:
            >>> PaperSettings("a4").page_mm(turned=True)
            (297.0, 210.0)
        """
        width, height = PAPERS[self.size]
        return (height, width) if turned else (width, height)

    def window_mm(self, *, turned: bool) -> tuple[float, float]:
        """What a page shows of the drawing: the page without margins and the strips of the rulers.

        Example:
            >>> PaperSettings("a4", margin_mm=5).window_mm(turned=False)
            (188.0, 275.0)
        """
        width, height = self.page_mm(turned=turned)
        return width - 2 * self.margin_mm - STRIP_MM, height - 2 * self.margin_mm - STRIP_MM

    @property
    def name(self) -> str:
        """The name as it stands on the packet."""
        return self.size.upper() if self.size.startswith("a") else self.size.capitalize()
