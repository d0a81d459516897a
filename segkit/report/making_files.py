"""The files of the workshop: every part in every format, the paper templates and the scale trial."""

from __future__ import annotations

from collections.abc import Iterator

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Drawing
from segkit.drawing.pdf import pdf_bytes
from segkit.drawing.writers import WRITERS
from segkit.fabrication.bulb_section import bulb_section_drawing
from segkit.fabrication.section import section_drawing
from segkit.fabrication.templates import Template, template_pages, templates
from segkit.fabrication.trial import scale_trial
from segkit.fabrication.trial_strip import trial_strip
from segkit.preview.colours import lit_colour
from segkit.project import Project
from segkit.report.cut_list import cut_list
from segkit.report.cut_list import to_csv as cut_list_csv
from segkit.report.findings_table import held_parts
from segkit.sight import glow_nm
from segkit.workshop import bulb_section_of, cut_reflector, lining_mm, paper_of, section_of, trial_reader

FOLDER = "fabrication"


def making_files(project: Project) -> dict[str, bytes]:
    """Every file of ``fabrication/``, and the cut list; path to content.

    A part that a stop finding holds back has neither file nor template. The templates are left out where
    they would take more pages than anybody tapes.

    Args:
        project: a solved design.
    """
    files = {
        f"{FOLDER}/{cut.part}{suffix}": write(project.cuts.drawings[cut.part])
        for cut in cut_list(project)
        if cut.file
        for suffix, write in WRITERS.items()
    }
    for name, drawing in extra_drawings(project).items():
        files |= {f"{FOLDER}/{name}{suffix}": write(drawing) for suffix, write in WRITERS.items()}
    pages = paper_pages(project)
    if pages:
        files[f"{FOLDER}/paper_templates.pdf"] = pdf_bytes(pages)
    files["report/cut_list.csv"] = cut_list_csv(project).encode()
    files[f"{FOLDER}/scale_trial.pdf"] = pdf_bytes([trial_page(project)])
    return files


def extra_drawings(project: Project) -> dict[str, Drawing]:
    """Drawings beside the parts: the cross-section, and the strip to try the holes on.

    Args:
        project: a solved design.
    """
    parts, cuts, title = project.parts, project.cuts, project.design.display.title
    if parts.bare:
        bar = next(lighting for lighting in project.lightings.values() if lighting.pitch_mm)
        row = bulb_section_of(parts, project.board, cuts, pitch_mm=bar.pitch_mm, bulbs=bar.count)
        cut = bulb_section_drawing(row, palette=cuts.settings.palette, title=title, stamp=project.stamp)
        strip = {"test_strip": _strip(project, parts.face)} if _cut(project, "face") else {}
        return {"cross_section": cut} | strip
    section = section_of(parts, project.board, cuts)
    drawn = {
        "cross_section": section_drawing(
            section, palette=cuts.settings.palette, title=title, stamp=project.stamp
        )
    }
    if _cut(project, "back_board"):
        drawn["test_strip"] = _strip(project, parts.back)
    return drawn


def _cut(project: Project, part: str) -> bool:
    return part in project.cuts.drawings and part not in held_parts(project.findings)


def _strip(project: Project, sheet: Sheet) -> Drawing:
    title = project.design.display.title
    return trial_strip(sheet, project.cuts.settings, title=title, stamp=project.stamp)


def paper_pages(project: Project) -> tuple[Drawing, ...]:
    """The pages of the paper templates, those of held parts left out.

    Args:
        project: a solved design.
    """
    return template_pages(
        tuple(_free(project)), paper=paper_of(project.design), settings=project.cuts.settings
    )


def _free(project: Project) -> Iterator[Template]:
    held = held_parts(project.findings)
    cuts, parts = project.cuts, project.parts
    made = templates(
        project.board, cuts.pockets, project.places, settings=cuts.settings, paper=paper_of(project.design),
        lip_mm=cuts.lip_mm, diffuser=parts.diffuser, title=project.design.display.title, stamp=project.stamp,
        reflector=cut_reflector(project.design, parts), lining_mm=lining_mm(parts),
    )  # fmt: skip
    yield from (one for one in made if one.part not in held and one.part in cuts.drawings)


def trial_page(project: Project) -> Drawing:
    """The scale trial of a project.

    Args:
        project: a solved design.
    """
    return scale_trial(
        project.board, project.sample, reader=trial_reader(project.design),
        colour=lit_colour(project.parts.led.colour, emission_nm=glow_nm(project.parts)),
        paper=paper_of(project.design), palette=project.cuts.settings.palette,
        title=project.design.display.title, stamp=project.stamp,
        bulbs=project.places if project.parts.bare else (), bulb_mm=project.parts.led.body_mm,
    )  # fmt: skip
