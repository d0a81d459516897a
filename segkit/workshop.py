"""What the workshop is told: tool, fit and colours, and the paper of the templates, from the design."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from segkit.catalog.part import Sheet
from segkit.design.chosen import Chosen
from segkit.design.levers import OF_POCKETS
from segkit.design.schema import Design
from segkit.fabrication.bulb_section import BulbSection
from segkit.fabrication.cut_set import CutSet, cut_drawings
from segkit.fabrication.layers import Palette
from segkit.fabrication.lip import smallest_gap_mm
from segkit.fabrication.mounting import mounting_findings, mounting_lines
from segkit.fabrication.paper import PaperSettings
from segkit.fabrication.reflector import deep_reflector
from segkit.fabrication.screws import Screw, screw_line, screw_through
from segkit.fabrication.section import Section
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.templates import too_many_findings
from segkit.fabrication.tiling import pages_line
from segkit.fabrication.trial import TrialReader
from segkit.fabrication.weather import Site, bulb_weather_findings, growth_line, weather_findings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.checks import board_findings
from segkit.optics.placement import LedPlace
from segkit.stage import Result

#: Findings of the geometry on pieces that are cut.
_OF_PIECES = ("one-piece-digit",)


def settings_of(design: Design, parts: Chosen) -> MakeSettings:
    """Tool, kerf, fit, holes and colours.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
    """
    make = design.make
    return MakeSettings(
        tool=make.tool, kerf_mm=make.kerf_mm, fit=make.fit, lip_mm=make.lip_mm,
        clearance_mm=make.clearance_mm, led_body_mm=parts.led.body_mm, grain=make.grain,
        construction=make.construction, led_hole_mm=make.bulb_hole_mm if parts.bare else None,
        palette=Palette(**design.colours.model_dump()), cable_exit_mm=make.cable_exit_mm,
        drain_mm=make.drain_mm if design.site.place == "outdoors" else 0.0,
    )  # fmt: skip


def drawn_board(board: Board, *, bare: bool) -> Result:
    """What the geometry says; of openings and pieces nothing where bulbs are pushed into a whole sheet.

    Args:
        board: from the geometry.
        bare: True for a board of push-in bulbs.
    """
    if not bare:
        return Result(board.lines, (*board.findings, *board_findings(board)))
    return Result(board.lines, tuple(one for one in board.findings if one.code not in _OF_PIECES))


def unused_keys(design: Design) -> Result:
    """A note on keys of the file that have no part in a board of push-in bulbs: ``keys-not-used``.

    Args:
        design: what was asked.
    """
    if design.make.construction == "pockets":
        return Result()
    written = {
        f"{name}.{type(section).model_fields[field].alias or field}"
        for name, section in (("pocket", design.pocket), ("make", design.make))
        for field in section.model_fields_set
    }
    told = [key for key in OF_POCKETS if key in written]
    if not told:
        return Result()
    text = (
        f"A board of push-in bulbs has no pocket, grid, back board or diffuser; not used: {', '.join(told)}."
    )
    return Result(findings=(Finding("note", "keys-not-used", "design", text, remedy="Leave them out."),))


def cut_parts(
    design: Design,
    parts: Chosen,
    board: Board,
    places: Sequence[LedPlace],
    *,
    settings: MakeSettings,
    stamp: str,
) -> CutSet:
    """All cut sheets; of a front, and of a reflector that can be cut (not paint), if the design names them.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        places: every LED.
        settings: of ``settings_of``.
        stamp: design hash and version.
    """
    return cut_drawings(
        board, places, settings=settings, face=parts.face, grid=parts.grid, back=parts.back,
        diffuser=parts.diffuser, depth_mm=design.pocket.depth_mm, title=design.display.title, stamp=stamp,
        reflector=cut_reflector(design, parts), lining_mm=lining_mm(parts), front=parts.front,
    )  # fmt: skip


def cut_reflector(design: Design, parts: Chosen) -> Sheet | None:
    """The reflector if the design names one that is cut to pieces; None for paint, or for none.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
    """
    return parts.reflector if design.pocket.reflector and parts.reflector.width_mm else None


def lining_mm(parts: Chosen) -> float:
    """Thickness of what lines the walls of the pockets; 0 for bare walls."""
    return parts.walls.thickness_mm if parts.walls.role == "lining" else 0.0


def paper_of(design: Design) -> PaperSettings:
    """The paper, its margin and overlap.

    Args:
        design: what was asked.
    """
    return PaperSettings(design.paper.size, design.paper.margin_mm, design.paper.overlap_mm)


def site_of(design: Design) -> Site:
    """Where the board hangs.

    Args:
        design: what was asked.
    """
    return Site(**design.site.model_dump())


def mounted(design: Design, parts: Chosen, board: Board, cuts: CutSet, *, depth_mm: float) -> Result:
    """What hangs on the fixings, and what the weather does.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        cuts: the cut parts with their masses.
        depth_mm: of the pockets as built.
    """
    site = site_of(design)
    masses = [line.value for line in cuts.lines if line.name.startswith("fabrication.mass.")]
    lines = list(mounting_lines(board, site, mass_kg=sum(masses)))
    findings = [*mounting_findings(board, {line.name: line for line in lines})]
    if found := screw_of(parts, board, cuts):
        lines.append(screw_line(found[1], stack_mm=found[0]))
    sheets = {
        "face": parts.face,
        "light_grid": parts.grid,
        "diffuser": parts.diffuser,
        "back_board": parts.back,
    }
    used = {part: sheet for part, sheet in sheets.items() if cuts.counts.get(part)}
    if site.place != "indoors":
        longest = max(board.width_mm, board.height_mm)
        lines += [growth_line(part, sheet, site, length_mm=longest) for part, sheet in used.items()]
    if cuts.counts.get("reflector"):
        findings += deep_reflector(parts.reflector, tip_mm=parts.led.tip_mm, depth_mm=depth_mm)
    if parts.bare:
        findings += bulb_weather_findings(parts.face, site)
    elif used.keys() == sheets.keys():
        findings += weather_findings(board, cuts.pockets, sheets, cuts.settings, site, depth_mm=depth_mm)
    return Result(tuple(lines), tuple(findings))


def printed(design: Design, board: Board) -> Result:
    """How many pages the template of the face takes.

    Args:
        design: what was asked.
        board: from the geometry.

    Raises:
        InputError: the paper shows no more than the overlap.
    """
    paper = paper_of(design)
    line = pages_line("face", paper, width_mm=board.width_mm, height_mm=board.height_mm)
    return Result((line,), tuple(too_many_findings(board, paper)))


def screw_of(parts: Chosen, board: Board, cuts: CutSet) -> tuple[float, Screw] | None:
    """Thickness of all sheets together [mm], and the screw through them; None without fixing holes.

    Args:
        parts: the catalogue rows.
        board: from the geometry.
        cuts: the cut parts.
    """
    if not board.fixings:
        return None
    thick = stack_mm(parts, board, cuts)
    return thick, screw_through(stack_mm=thick, hole_mm=board.fixing_hole_mm)


def stack_mm(parts: Chosen, board: Board, cuts: CutSet) -> float:
    """Thickness of all sheets together, without LEDs, wires and fixings.

    Args:
        parts: the catalogue rows.
        board: from the geometry.
        cuts: the cut parts.
    """
    if parts.bare:
        return parts.face.thickness_mm + (parts.front.thickness_mm if parts.front else 0.0)
    return _section(parts, board, cuts).total_mm


def section_of(parts: Chosen, board: Board, cuts: CutSet) -> Section:
    """The stack cut through the widest segment, for the drawing.

    Args:
        parts: the catalogue rows.
        board: from the geometry.
        cuts: the cut parts.
    """
    found = screw_of(parts, board, cuts)
    section = _section(parts, board, cuts)
    return replace(section, screw_mm=(found[1].thread_mm, found[1].length_mm)) if found else section


def bulb_section_of(parts: Chosen, board: Board, cuts: CutSet, *, pitch_mm: float, bulbs: int) -> BulbSection:
    """The board of push-in bulbs cut along a row, for the drawing.

    Args:
        parts: the catalogue rows.
        board: from the geometry.
        cuts: the cut parts.
        pitch_mm: between the bulbs of a row.
        bulbs: in that row.
    """
    found = screw_of(parts, board, cuts)
    screw = (found[1].thread_mm, found[1].length_mm) if found else (0.0, 0.0)
    face = parts.face
    return BulbSection(
        face.thickness_mm, face.name, cuts.settings.hole_mm, pitch_mm, face.reflectance, bulbs, screw
    )


def _section(parts: Chosen, board: Board, cuts: CutSet) -> Section:
    settings, front = cuts.settings, parts.front
    reach = {"lip": cuts.lip_mm, "let-in": -settings.clearance_mm, "sheet": None}[settings.fit]
    gap = smallest_gap_mm(board)
    return Section(
        back_mm=parts.back.thickness_mm, grid_mm=parts.grid.thickness_mm, layers=cuts.counts["light_grid"],
        diffuser_mm=parts.diffuser.thickness_mm, face_mm=parts.face.thickness_mm,
        front_mm=front.thickness_mm if front else 0.0,
        opening_mm=max(segment.stroke_mm for segment in board.segments), ledge_mm=settings.ledge_mm,
        reach_mm=reach, gap_mm=gap if math.isfinite(gap) else 0.0, led_body_mm=settings.led_body_mm,
        led_hole_mm=settings.hole_mm, led_tip_mm=parts.led.tip_mm, fit=settings.fit,
        materials=(parts.back.name, parts.grid.name, parts.diffuser.name, parts.face.name,
                   front.name if front else ""),
        reflector=(parts.reflector.thickness_mm, parts.reflector.name) if cuts.counts.get("reflector")
        else (0.0, ""),
        face_reflectance=parts.face.reflectance,
    )  # fmt: skip


def trial_reader(design: Design) -> TrialReader:
    """Who will read the board, for the scale trial.

    Args:
        design: what was asked.
    """
    reading = design.reading
    return TrialReader(reading.distance_mm / 1000, reading.angle_deg, reading.eyesight, reading.light)
