"""What a check bar that is not 100 mm long says, as a table of the build book."""

from __future__ import annotations

from segkit.fabrication.ruler import LONG_MM
from segkit.fabrication.wrong_scale import wrong_scales
from segkit.project import Project
from segkit.report.drive_tables import Table
from segkit.units import plain_number
from segkit.workshop import paper_of

_TEXT = (
    "Every file is at true size and says so in its own units; nothing needs scaling on the way to the knife, "
    "the laser or the printer. If the bar measures something else, find it here. For any other reading, the "
    "factor is 100 mm over the reading."
)
_HEAD = ("Bar measures", "A digit comes out", "Factor", "What happened", "What to do")


def check_bar_table(project: Project) -> Table:
    """Readings of the bar, what a digit would be cut to, the factor that mends it, cause and cure.

    Args:
        project: a solved design; its paper and the height of its digits.
    """
    tall = project.board.shape.height_mm
    rows = tuple(
        (
            f"{plain_number(round(one.bar_mm, 1))} mm",
            f"{plain_number(round(tall * one.bar_mm / LONG_MM))} mm",
            f"x {plain_number(one.factor, 5)}",
            one.cause,
            one.remedy,
        )
        for one in wrong_scales(paper_of(project.design))
    )
    return Table("If the check bar is not 100 mm long", _TEXT, _HEAD, rows, numbers=False)
