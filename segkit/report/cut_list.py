"""What is cut, how often, from what, and which files were held back."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.catalog.part import Sheet
from segkit.drawing.writers import WRITERS
from segkit.fabrication.nesting import stacks
from segkit.fabrication.parts import diffuser_pieces
from segkit.findings import CUT_PARTS
from segkit.project import Project
from segkit.report.findings_table import PART_NAMES, held_parts
from segkit.units import plain_number


@dataclass(frozen=True)
class Cut:
    """One cut part.

    Attributes:
        part: name of ``findings.FILED_PARTS``.
        name: the same in words.
        file: file in the output folder; empty if held back.
        sheet: what it is cut from.
        count: how often.
        width_mm, height_mm: size of the page.
    """

    part: str
    name: str
    file: str
    sheet: Sheet
    count: int
    width_mm: float
    height_mm: float

    @property
    def text(self) -> str:
        """One sentence for the build book."""
        if not self.file:
            return f"Held back: see the findings. It would be cut from {self.sheet.name}."
        times = "once" if self.count == 1 else f"{self.count} times"
        size = f"{plain_number(round(self.width_mm, 1))} by {plain_number(round(self.height_mm, 1))} mm"
        others = ", ".join(suffix for suffix in WRITERS if not self.file.endswith(suffix))
        return f"Cut {times} from {self.sheet.name}; file {self.file} (also {others}), page {size}."


def cut_list(project: Project) -> tuple[Cut, ...]:
    """The cut parts from front to back; the reflector is held back with the back board.

    A front, which has no openings, is held back by what holds back all other parts.
    """
    return tuple(_cuts(project))


def _cuts(project: Project) -> Iterator[Cut]:
    parts, held = project.parts, held_parts(project.findings)
    sheets = {
        **({"front": parts.front} if parts.front else {}),
        "face": parts.face,
        "diffuser": parts.diffuser,
        "light_grid": parts.grid,
        "reflector": parts.reflector,
        "back_board": parts.back,
    }
    if "back_board" in held:  # it has the same LED holes
        held = held | {"reflector"}
    if held >= {*CUT_PARTS}:
        held = held | {"front"}
    for part, sheet in sheets.items():
        if not project.cuts.counts.get(part):
            continue  # a board of push-in bulbs has no grid, and few name a reflector
        drawing = None if part in held else project.cuts.drawings.get(part)
        yield Cut(
            part=part,
            name=PART_NAMES[part],
            file=f"fabrication/{part}.svg" if drawing else "",
            sheet=sheet,
            count=project.cuts.counts[part],
            width_mm=drawing.width_mm if drawing else 0.0,
            height_mm=drawing.height_mm if drawing else 0.0,
        )


def sanding_stacks(project: Project) -> tuple[tuple[str, ...], ...]:
    """Names of the diffuser pieces that are alike, the largest stack first.

    They can be clamped together and sanded to one line. Nothing where the diffuser is one sheet or none.

    Args:
        project: a solved design.
    """
    cuts = project.cuts
    if cuts.settings.fit == "sheet" or "diffuser" not in cuts.drawings:
        return ()
    return stacks(diffuser_pieces(project.board, cuts.settings, lip_mm=cuts.lip_mm))


def stack_texts(project: Project) -> tuple[str, ...]:
    """The stacks in words: how many pieces are alike, and which; single pieces are left out.

    Args:
        project: a solved design.
    """
    return tuple(
        f"{len(labels)} alike, to be clamped together and sanded as one stack: {', '.join(labels)}."
        for labels in sanding_stacks(project)
        if len(labels) > 1
    )


def to_csv(project: Project) -> str:
    """The cut list as CSV text: parts front to back, then the diffuser's stacks of equal pieces.

    Args:
        project: a solved design.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(
        ("part", "times", "sheet", "thickness, mm", "stock sheets", "length of cuts, m", "mass, kg", "file")
    )
    lines = {line.name: line.value for line in project.cuts.lines}
    for cut in cut_list(project):
        length, mass = (lines.get(f"fabrication.{what}.{cut.part}", 0.0) for what in ("cut_length", "mass"))
        numbers = (
            plain_number(cut.sheet.thickness_mm), str(project.cuts.stock_sheets.get(cut.part, 0)),
            plain_number(round(length, 2)), plain_number(round(mass, 2)),
        )  # fmt: skip
        writer.writerow((cut.name, cut.count, cut.sheet.name, *numbers, cut.file or "held back"))
    for labels in sanding_stacks(project):
        sheet = project.parts.diffuser
        name = f"diffuser {' '.join(labels)}"
        writer.writerow(
            (name, len(labels), sheet.name, plain_number(sheet.thickness_mm), "", "", "", "diffuser")
        )
    return text.getvalue()
