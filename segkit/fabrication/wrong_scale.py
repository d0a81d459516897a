"""What the check bar of 100 mm measures when a program or a printer has changed the size of a file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from segkit.fabrication.paper import INCH_MM, PaperSettings
from segkit.fabrication.ruler import LONG_MM

#: Units to the inch that programs take for granted where they ignore those of the file; 96 is that of the web
#: (W3C CSS 2.1, section 4.3.2), 72 that of the printer's point, 90 that of older drawing programs.
PER_INCH = 96
_OTHERS = {72: "the printer's points", 90: "an older habit of drawing programs"}


@dataclass(frozen=True)
class WrongScale:
    """One way in which a size goes wrong.

    Attributes:
        bar_mm: what the bar of 100 mm measures.
        cause: what happened, in words.
        remedy: what to do.
    """

    bar_mm: float
    cause: str
    remedy: str

    @property
    def factor(self) -> float:
        """What would bring the bar back to 100 mm: ``100/bar``."""
        return LONG_MM / self.bar_mm


def wrong_scales(paper: PaperSettings) -> tuple[WrongScale, ...]:
    """The usual wrong sizes, the smallest bar first.

    Args:
        paper: of the templates; a printer that fits a page of this size into its margins shrinks it.

    Sources: css-units, common-practice.

    Example:
        >>> [(round(one.bar_mm, 2), round(one.factor, 4)) for one in wrong_scales(PaperSettings("a4"))][:3]
        [(3.94, 25.4), (26.46, 3.7795), (75.0, 1.3333)]
    """
    return tuple(sorted({*_units(), *_fitted(paper)}, key=lambda one: one.bar_mm))


def _units() -> Iterator[WrongScale]:
    ask = "Import it again with millimetres as the unit; only where it does not ask, scale by the factor."
    yield WrongScale(LONG_MM / INCH_MM, "a program took inches for the file's millimetres on export", ask)
    yield WrongScale(LONG_MM * INCH_MM, "a program took the file's millimetres for inches", ask)
    yield WrongScale(LONG_MM * INCH_MM / PER_INCH, "a program took pixels for millimetres", ask)
    yield WrongScale(LONG_MM * PER_INCH / INCH_MM, "a program took the file's millimetres for pixels", ask)
    for per_inch, habit in _OTHERS.items():
        low, high = LONG_MM * per_inch / PER_INCH, LONG_MM * PER_INCH / per_inch
        yield WrongScale(low, f"{per_inch} units an inch ({habit}) met {PER_INCH}", ask)
        yield WrongScale(high, f"{PER_INCH} units an inch met {per_inch} ({habit})", ask)


def _fitted(paper: PaperSettings) -> Iterator[WrongScale]:
    _, long = paper.page_mm(turned=False)
    if paper.margin_mm:
        share = (long - 2 * paper.margin_mm) / long
        yield WrongScale(
            LONG_MM * share,
            f"the print dialogue fitted the page into margins of {paper.margin_mm:g} mm",
            "Print it again at 100 %, or actual size.",
        )
