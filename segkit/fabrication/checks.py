"""What would go wrong at the bench: materials, holes, lips and pieces.

Webs, inside corners and the size of the board against its sheet are judged by the geometry.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from segkit.catalog.part import Sheet
from segkit.fabrication.nesting import Nest
from segkit.fabrication.parts import homes_of, smallest_pitch_mm
from segkit.fabrication.settings import LASER_KERF_MM, MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import clearance
from segkit.optics.placement import LedPlace

HOLE_MARGIN_MM = 1.0  # between an LED hole and its pocket's wall; source common-practice
HOLE_WEB_MM = 1.0  # between two LED holes; source common-practice
NARROW_LIP_MM = 1.0  # less than this holds no glue; source common-practice
DEPTH_OFF_MM = 0.5  # by so much the built depth may differ from the one asked for unremarked


def material_findings(part: str, sheet: Sheet, settings: MakeSettings) -> Iterator[Finding]:
    """Whether the tool cuts the sheet: ``no-laser``, ``tool-cannot-cut``.

    A machine that would spoil the sheet holds the file back. A knife does not: its file has no kerf in
    it and serves as a template for another hand tool.
    """
    subject = part.replace("_", " ")
    others = _listed(tool for tool in sheet.tools if tool != settings.tool)
    if settings.tool == "laser" and sheet.caution == "no-laser":
        yield Finding(
            "stop",
            "no-laser",
            subject,
            f"{sheet.name} must not go into a laser cutter: PVC gives off chlorine, which is poisonous and "
            "eats the machine; polycarbonate catches fire and gives off soot.",
            value="laser",
            limit=others,
            source="laser-materials",
            remedy=f"Cut it with a {others}, or choose another sheet, such as acrylic."
            if others
            else "Choose another sheet.",
            holds=(part,),
        )
    elif settings.tool == "drill":
        if part != "back_board":
            yield _drill_finding(part, others)
    elif settings.tool not in sheet.tools:
        by_hand = settings.tool == "knife"
        yield Finding(
            "caution" if by_hand else "stop",
            "tool-cannot-cut",
            subject,
            f"A {settings.tool} does not cut {sheet.name}."
            + (" The file is drawn without kerf, as a template to mark it out by." if by_hand else ""),
            value=settings.tool,
            limit=others,
            source=sheet.source,
            remedy=f"Have it cut with a {others}, or choose another sheet."
            if others
            else "Choose another sheet.",
            holds=() if by_hand else (part,),
        )


def _drill_finding(part: str, others: str) -> Finding:
    return Finding(
        "caution",
        "tool-cannot-cut",
        part.replace("_", " "),
        f"A drill makes round holes; it does not cut the outlines of the {part.replace('_', ' ')}. "
        "The file is drawn without kerf, as a template to mark it out by.",
        value="drill",
        limit=others,
        source="common-practice",
        remedy=f"Cut it with a {others}, or drill the corners and saw from hole to hole.",
    )


def grid_findings(sheet: Sheet, *, depth_mm: float, layers: int) -> Iterator[Finding]:
    """Whether whole layers make another depth than the one that was asked for: ``grid-deeper``."""
    made = layers * sheet.thickness_mm
    if abs(made - depth_mm) > DEPTH_OFF_MM + 1e-9:
        yield Finding(
            "note",
            "grid-deeper",
            "light grid",
            f"{layers} layers of {sheet.thickness_mm:g} mm make pockets {made:g} mm deep; {depth_mm:g} mm "
            f"was asked for. Light, lining and sheets are reckoned with the {made:g} mm that are built.",
            value=made,
            limit=depth_mm,
            unit="mm",
            source="arithmetic",
            remedy=f"Set the depth to {made:g} mm, or take a sheet whose layers come nearer to it.",
        )


def kerf_findings(settings: MakeSettings) -> Iterator[Finding]:
    """A kerf that is not used, or that looks like half of one: ``knife-kerf``, ``kerf-unusual``.

    Args:
        settings: the tool and the kerf that was given.

    Sources: kerf-practice, common-practice.
    """
    kerf, (low, high) = settings.kerf_mm, LASER_KERF_MM
    if settings.tool == "knife" and kerf:
        yield Finding(
            "note", "knife-kerf", "kerf",
            f"A knife parts the sheet without taking any away, so the kerf of {kerf:g} mm is not used.",
            value=kerf, limit=0.0, unit="mm", source="common-practice",
            remedy="Leave the kerf out, or name the tool that has it.",
        )  # fmt: skip
    if settings.tool == "laser" and kerf is not None and not low <= kerf <= high:
        half = f"; {kerf:g} mm looks like half of {2 * kerf:g} mm" if kerf < low <= 2 * kerf <= high else ""
        yield Finding(
            "note", "kerf-unusual", "kerf",
            f"Lasers cut {low:g} to {high:g} mm wide{half}. Kerf is the full width of the cut; the lines are "
            "moved by half of it here.",
            value=kerf, limit=low if kerf < low else high, unit="mm", source="kerf-practice",
            remedy="Cut a single line in your own sheet, measure the gap that it leaves, and give make.kerf "
            "that width.",
        )  # fmt: skip


def lip_findings(*, lip_mm: float, limit_mm: float, gap_mm: float) -> Iterator[Finding]:
    """Whether neighbouring lips meet, or are too narrow to glue: ``lip-overlap``, ``narrow-lip``."""
    if lip_mm > limit_mm + 1e-9:
        yield Finding(
            "stop",
            "lip-overlap",
            "diffuser",
            f"Lips of {lip_mm:g} mm from both sides do not fit into a gap of {gap_mm:.3g} mm; "
            f"the most is {limit_mm:.3g} mm.",
            value=lip_mm,
            limit=round(limit_mm, 3),
            unit="mm",
            source="arithmetic",
            remedy=_lip_remedy(limit_mm),
            holds=("diffuser",),
        )
    elif lip_mm < NARROW_LIP_MM:
        yield Finding(
            "caution",
            "narrow-lip",
            "diffuser",
            f"A lip of {lip_mm:.2g} mm is too narrow to glue.",
            value=round(lip_mm, 3),
            limit=NARROW_LIP_MM,
            unit="mm",
            source="common-practice",
            remedy="Make the gap between the segments wider, let the pieces in, or use one sheet for all.",
        )


def _lip_remedy(limit_mm: float) -> str:
    narrower = math.floor(limit_mm * 10) / 10
    if narrower < NARROW_LIP_MM:
        return "Make the gap wider, or let the pieces into the openings."
    return f"Make the lip {narrower:g} mm, or the gap wider, or let the pieces into the openings."


def piece_findings(nest: Nest, sheet: Sheet) -> Iterator[Finding]:
    """Whether each piece, with its lip, comes out of one sheet: ``larger-than-sheet``."""
    if nest.too_large:
        yield Finding(
            "stop",
            "larger-than-sheet",
            "diffuser",
            f"{len(nest.too_large)} diffuser pieces ({nest.too_large[0]} first) are larger than a sheet of "
            f"{sheet.name}, {sheet.width_mm:.0f} x {sheet.height_mm:.0f} mm.",
            value=len(nest.too_large),
            limit=0,
            source=sheet.source,
            remedy="Buy a larger sheet, or make the digits smaller.",
            holds=("diffuser",),
        )


def hole_findings(board: Board, places: Sequence[LedPlace], *, hole_mm: float) -> Iterator[Finding]:
    """LED holes against pocket walls and each other.

    Codes: ``led-outside-pocket``, ``led-near-wall``, ``led-holes-meet``.
    """
    margins: dict[str, float] = {}
    for place, segment, which in homes_of(board, places):
        margin = clearance(segment.outlines[which], place.at) - hole_mm / 2
        margins[segment.kind] = min(margin, margins.get(segment.kind, math.inf))
    for kind, margin in margins.items():
        if margin < HOLE_MARGIN_MM - 1e-9:
            yield _wall_finding(kind, margin, hole_mm)
    web = smallest_pitch_mm(places) - hole_mm
    if web < HOLE_WEB_MM - 1e-9:
        yield Finding(
            "stop" if web <= 0 else "caution",
            "led-holes-meet",
            "back board",
            f"Two LED holes of {hole_mm:g} mm leave {max(web, 0):.2g} mm of board between them."
            if web > 0
            else f"Two LED holes of {hole_mm:g} mm run into each other.",
            value=round(web, 2),
            limit=HOLE_WEB_MM,
            unit="mm",
            source="common-practice",
            remedy="Use fewer LEDs in a segment, or smaller ones.",
            holds=("back_board",) if web <= 0 else (),
        )


def _wall_finding(kind: str, margin: float, hole_mm: float) -> Finding:
    outside = margin < 0
    return Finding(
        "stop" if outside else "caution",
        "led-outside-pocket" if outside else "led-near-wall",
        f"{kind} segments",
        f"An LED hole of {hole_mm:g} mm cuts {-margin:.2g} mm into the wall of its pocket."
        if outside
        else f"An LED hole of {hole_mm:g} mm comes within {margin:.2g} mm of the wall of its pocket.",
        value=round(margin, 2),
        limit=HOLE_MARGIN_MM,
        unit="mm",
        source="common-practice",
        remedy="Make the stroke wider, or use smaller or fewer LEDs.",
        holds=("back_board",) if outside else (),
    )


def _listed(words: Iterable[str]) -> str:
    *first, last = [*words] or [""]
    return f"{', '.join(first)} or {last}" if first else last
