"""All cut sheets of a board, with their working and verdicts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Drawing
from segkit.errors import InputError
from segkit.fabrication import checks, wording
from segkit.fabrication.bulbs import bulb_findings
from segkit.fabrication.cut_sheet import SheetText, on_sheet
from segkit.fabrication.holes import cable_exit, hole_room_findings
from segkit.fabrication.layers import LINE_MM, PartShapes, part_layers
from segkit.fabrication.lines import (
    built_depth_line,
    cut_length_line,
    grid_layers_line,
    led_hole_line,
    lip_lines,
    stock_sheets_line,
)
from segkit.fabrication.lip import smallest_gap_mm, widest_lip_mm
from segkit.fabrication.mirror import mirrored
from segkit.fabrication.panels import joints, judged
from segkit.fabrication.parts import (
    back_board_shapes,
    bulb_board_shapes,
    diffuser_nest,
    diffuser_pieces,
    diffuser_shapes,
    face_shapes,
    whole_sheet_shapes,
)
from segkit.fabrication.pockets import ledge_findings, ledge_lines, pockets_or_openings
from segkit.fabrication.reflector import (
    floor_play_mm,
    floors,
    reflector_findings,
    reflector_lines,
    reflector_nest,
    reflector_shapes,
    tape_line,
    tape_mm,
)
from segkit.fabrication.reflector import hole_mm as reflector_hole_mm
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.stock import kept_mm2, many_sheets, mass_line, yield_line
from segkit.fabrication.tool import fit_findings, tool_findings
from segkit.findings import CUT_PARTS, Finding, in_order
from segkit.geometry.board import Board
from segkit.geometry.checks import part_findings
from segkit.geometry.polygon import Point, area
from segkit.optics.placement import LedPlace
from segkit.working import Line


@dataclass(frozen=True)
class CutSet:
    """What the cutter gets.

    Attributes:
        drawings: by part name, of ``findings.FILED_PARTS``; a part that cannot be drawn is missing and has
            a stop finding.
        counts: how many times each sheet is cut.
        stock_sheets: sheets to buy for each part.
        lines, findings: working and verdicts.
        pockets: the board with the grid's pockets in place of the face's openings.
        settings: tool, kerf, fit and holes they were drawn with.
        lip_mm: of the diffuser pieces; 0 where they are let in.
    """

    drawings: Mapping[str, Drawing]
    counts: Mapping[str, int]
    stock_sheets: Mapping[str, int]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    pockets: Board
    settings: MakeSettings = field(default_factory=MakeSettings)
    lip_mm: float = 0.0


def cut_drawings(
    board: Board,
    places: Sequence[LedPlace],
    *,
    settings: MakeSettings,
    face: Sheet,
    grid: Sheet,
    back: Sheet,
    diffuser: Sheet,
    depth_mm: float,
    title: str,
    stamp: str = "",
    reflector: Sheet | None = None,
    lining_mm: float = 0.0,
    front: Sheet | None = None,
) -> CutSet:
    """Face, light grid, back board (seen from behind) and diffuser pieces as true-size sheets.

    Args:
        board: all segments in place [mm].
        places: every LED, as seen from the front.
        settings: tool, kerf, fit and holes.
        face, grid, back, diffuser: the sheets they are cut from.
        depth_mm: depth of the pockets that was asked for, above 0.
        title: of the design, written on each sheet.
        stamp: design hash and version, written on each sheet.
        reflector: sheet of the pieces on the floors of the pockets, or None for none.
        lining_mm: thickness of what lines the walls of the pockets, 0 or more.
        front: tinted sheet over the whole face, or None for none.

    Findings of level stop hold the parts that they spoil. Sources: kerf-practice, led-hole-practice,
    laser-materials, common-practice.

    Example:
        >>> CUT_PARTS
        ('back_board', 'light_grid', 'diffuser', 'face')
    """
    if settings.bulbs:
        return _bulb_set(_Job(board, board, tuple(places), settings, 0.0, title, stamp), face, front)
    gap_mm = smallest_gap_mm(board)
    widest = widest_lip_mm(board, gap_mm=gap_mm, clearance_mm=settings.clearance_mm)
    lip = lip_lines(settings, gap_mm=gap_mm, widest_mm=widest)
    layers = grid_layers_line(grid, depth_mm=depth_mm)
    counts = {part: int(layers.value) if part == "light_grid" else 1 for part in CUT_PARTS}
    pockets = pockets_or_openings(board, ledge_mm=settings.ledge_mm)
    job = _Job(board, pockets, tuple(places), settings, lip[-1].value if lip else 0.0, title, stamp)
    sheets = {"back_board": back, "light_grid": grid, "diffuser": diffuser, "face": face}
    made = {part: job.part(part, sheets[part], counts[part]) for part in CUT_PARTS if counts[part]}
    if reflector is not None:
        made["reflector"] = job.reflector(reflector, lining_mm)
        counts["reflector"] = int(made["reflector"].drawing is not None)
    if front is not None:
        counts["front"] = 1
        made["front"] = job.part("front", front, 1)
    whole = job.whole(grid, depth_mm=depth_mm, layers=counts["light_grid"])
    if lip:
        whole += checks.lip_findings(lip_mm=lip[-1].value, limit_mm=lip[0].value, gap_mm=gap_mm)
    return CutSet(
        drawings={part: one.drawing for part, one in made.items() if one.drawing is not None},
        counts=counts,
        stock_sheets={part: one.stock_sheets for part, one in made.items()},
        lines=(
            layers,
            built_depth_line(grid, depth_mm=depth_mm),
            *lip,
            *ledge_lines(settings),
            led_hole_line(settings),
            *(line for one in made.values() for line in one.lines),
        ),
        findings=in_order([*whole, *(finding for one in made.values() for finding in one.findings)]),
        pockets=pockets,
        settings=settings,
        lip_mm=job.lip_mm,
    )


def _bulb_set(job: _Job, sheet: Sheet, front: Sheet | None) -> CutSet:
    """One board with holes, and a front if there is one: no grid, no diffuser, no back board."""
    sheets, settings = {"face": sheet} | ({"front": front} if front else {}), job.settings
    made = {part: job.part(part, one, 1) for part, one in sheets.items()}
    bulbs = bulb_findings(job.board, job.places, sheet, settings)
    return CutSet(
        drawings={part: one.drawing for part, one in made.items() if one.drawing is not None},
        counts=dict.fromkeys(CUT_PARTS, 0) | dict.fromkeys(made, 1),
        stock_sheets={part: one.stock_sheets for part, one in made.items()},
        lines=(led_hole_line(settings), *(line for one in made.values() for line in one.lines)),
        findings=in_order(
            [*checks.kerf_findings(settings), *bulbs, *(f for one in made.values() for f in one.findings)]
        ),
        pockets=job.board,
        settings=settings,
    )


@dataclass(frozen=True)
class _Made:
    """One part: its sheet (None if it cannot be drawn), stock to buy, working and verdicts."""

    drawing: Drawing | None
    stock_sheets: int
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class _Job:
    """What all sheets of a board have in common."""

    board: Board
    pockets: Board
    places: tuple[LedPlace, ...]
    settings: MakeSettings
    lip_mm: float
    title: str
    stamp: str

    def whole(self, grid: Sheet, *, depth_mm: float, layers: int) -> list[Finding]:
        """Verdicts that are not on one part alone."""
        board, settings = self.board, self.settings
        return [
            *checks.grid_findings(grid, depth_mm=depth_mm, layers=layers),
            *checks.kerf_findings(settings),
            *ledge_findings(board, settings),
            *hole_room_findings(board, settings),
            *fit_findings(settings),
            *checks.hole_findings(self.pockets, self.places, hole_mm=settings.hole_mm),
        ]

    def part(self, part: str, sheet: Sheet, count: int) -> _Made:
        """One part, or the reason why it cannot be drawn."""
        material = tuple(checks.material_findings(part, sheet, self.settings))
        try:
            made = self._made(part, sheet, count)
        except InputError as error:
            return _Made(None, 0, (), (*material, _cannot_draw(part, error)))
        mass = made.lines[-1].value
        many = many_sheets(part, sheet, stock_sheets=made.stock_sheets, count=count, mass_kg=mass)
        return replace(made, findings=(*material, *made.findings, *many))

    def _made(self, part: str, sheet: Sheet, count: int) -> _Made:
        if part == "front":
            return self._one_sheet(part, sheet)
        return self._diffuser(sheet) if part == "diffuser" else self._board_part(part, sheet, count)

    def _board_part(self, part: str, sheet: Sheet, count: int) -> _Made:
        settings, board = self.settings, self.board if part == "face" else self.pockets
        opened = part != "back_board" and not settings.bulbs
        found = part_findings(board, part, sheet, tool_radius_mm=settings.corner_radius_mm, opened=opened)
        places = joints(board, sheet, holes=self._round_holes(part), hole_mm=settings.hole_mm) or ()
        findings = (*judged(found, part, sheet, places), *tool_findings(board, part, settings))
        shapes, text = self._shapes(part, sheet, count, places)
        drawn = self._drawing(part, shapes, board.width_mm, board.height_mm)
        page = self._page(mirrored(drawn) if part == "back_board" else drawn, text)
        stock = stock_sheets_line(part, board, sheet, count=count, panels=len(places) + 1)
        kept = kept_mm2(board, opened=opened)
        lines = (
            stock,
            cut_length_line(part, shapes, count, settings),
            mass_line(part, sheet, kept_mm2=kept, count=count),
        )
        return _Made(page, int(stock.value), lines, findings)

    def _round_holes(self, part: str) -> tuple[Point, ...]:
        """Middles of what a joint of the back board keeps clear of, the rim of the cable exit among them."""
        if part != "back_board":
            return ()
        way_out, reach = cable_exit(self.board, self.settings), self.settings.cable_exit_mm / 2
        rim = [(way_out[0] + side * reach, way_out[1]) for side in (-1, 0, 1)] if way_out else []
        return (*(place.at for place in self.places), *rim)

    def _shapes(
        self, part: str, sheet: Sheet, count: int, places: tuple[float, ...]
    ) -> tuple[PartShapes, SheetText]:
        settings = self.settings
        hole = self.board.fixing_hole_mm if self.board.fixings else 0.0
        if part == "back_board":
            leds, turned = len(self.places), sum(place.turned for place in self.places)
            text = wording.back_board(sheet, settings, leds=leds, turned=turned, fixing_hole_mm=hole)
            return back_board_shapes(self.pockets, self.places, settings, joints=places), text
        if part == "light_grid":
            text = wording.light_grid(sheet, settings, count=count, fixing_hole_mm=hole)
            return face_shapes(self.pockets, settings, joints=places), text
        if settings.bulbs:
            text = wording.bulb_board(sheet, settings, bulbs=len(self.places), fixing_hole_mm=hole)
            return bulb_board_shapes(self.board, self.places, settings, joints=places), text
        text = wording.face(sheet, settings, fixing_hole_mm=hole)
        return face_shapes(self.board, settings, joints=places), text

    def _one_sheet(self, part: str, sheet: Sheet) -> _Made:
        """A sheet without openings over the whole board: the front, or a diffuser of one sheet."""
        board, settings = self.board, self.settings
        places = joints(board, sheet) or ()
        shapes = whole_sheet_shapes(board, settings, joints=places)
        hole = board.fixing_hole_mm if board.fixings else 0.0
        words = wording.front if part == "front" else wording.diffuser_sheet
        drawn = self._drawing(part, shapes, board.width_mm, board.height_mm)
        page = self._page(drawn, words(sheet, settings, fixing_hole_mm=hole))
        stock = stock_sheets_line(part, board, sheet, count=1, panels=len(places) + 1)
        lines = (
            stock,
            cut_length_line(part, shapes, 1, settings),
            mass_line(part, sheet, kept_mm2=kept_mm2(board, opened=False), count=1),
        )
        found = part_findings(board, part, sheet, tool_radius_mm=0.0)
        return _Made(page, int(stock.value), lines, judged(found, part, sheet, places))

    def _diffuser(self, sheet: Sheet) -> _Made:
        settings = self.settings
        if settings.fit == "sheet":
            return self._one_sheet("diffuser", sheet)
        pieces = diffuser_pieces(self.board, settings, lip_mm=self.lip_mm)
        nest = diffuser_nest(pieces, settings, sheet_width_mm=sheet.width_mm, sheet_height_mm=sheet.height_mm)
        shapes = diffuser_shapes(nest, settings)
        width, height = max(frame[2] for frame in nest.sheets), max(frame[3] for frame in nest.sheets)
        sheets = len(nest.sheets)
        text = wording.diffuser(sheet, settings, pieces=len(pieces), sheets=sheets, lip_mm=self.lip_mm)
        page = self._page(self._drawing("diffuser", shapes, width, height), text)
        kept = sum(area(piece.outline) for piece in pieces)
        lines = (
            yield_line(sheet, kept_mm2=kept, sheets=sheets),
            cut_length_line("diffuser", shapes, 1, settings),
            mass_line("diffuser", sheet, kept_mm2=kept, count=1),
        )
        return _Made(page, sheets, lines, tuple(checks.piece_findings(nest, sheet)))

    def reflector(self, sheet: Sheet, lining_mm: float) -> _Made:
        """The pieces on the floors of the pockets, or the reason why they cannot be drawn."""
        settings, play = self.settings, floor_play_mm(self.settings, lining_mm=lining_mm)
        material = tuple(checks.material_findings("reflector", sheet, settings))
        try:
            pieces = floors(self.pockets, self.places, settings, play_mm=play)
            nest = reflector_nest(pieces, settings, sheet)
            shapes = reflector_shapes(pieces, nest, settings, play_mm=play)
        except InputError as error:
            return _Made(None, 0, (), (*material, _cannot_draw("reflector", error)))
        found = (*material, *reflector_findings(pieces, nest, settings, sheet, play_mm=play))
        if not nest.pieces:
            return _Made(None, 0, (), found)
        text = wording.reflector(
            sheet, settings, pieces=len(nest.pieces), sheets=len(nest.sheets), play_mm=play,
            hole_mm=reflector_hole_mm(settings, play_mm=play),
        )  # fmt: skip
        width, height = max(frame[2] for frame in nest.sheets), max(frame[3] for frame in nest.sheets)
        lines = (
            *reflector_lines(pieces, settings, lining_mm=lining_mm),
            cut_length_line("reflector", shapes, 1, settings),
            mass_line("reflector", sheet, kept_mm2=sum(area(piece.outline) for piece in pieces), count=1),
        )
        page = self._page(self._drawing("reflector", shapes, width, height), text)
        if sheet.role != "lining":
            return _Made(page, len(nest.sheets), lines, found)
        rolls = math.ceil(tape_mm(nest) / sheet.height_mm - 1e-9)
        return _Made(page, rolls, (*lines, tape_line(nest)), found)

    def _page(self, drawn: Drawing, text: SheetText) -> Drawing:
        stamp = (f"Made from {self.stamp}",) if self.stamp else ()
        text = replace(text, title=self.title, lines=(*text.lines, *stamp), type_mm=self.settings.type_mm)
        return on_sheet(drawn, text, palette=self.settings.palette)

    def _drawing(self, part: str, shapes: PartShapes, width: float, height: float) -> Drawing:
        layers = part_layers(shapes, self.settings.palette, line_mm=LINE_MM[self.settings.tool])
        name = f"{self.title}: {part.replace('_', ' ')}"
        return Drawing(name, width, height, layers, stamp=self.stamp)


def _cannot_draw(part: str, error: InputError) -> Finding:
    problem = error.problems[0]
    return Finding(
        "stop",
        "cannot-cut",
        part.replace("_", " "),
        f"The {part.replace('_', ' ')} cannot be drawn: {problem.text}",
        value=problem.value or None,
        limit=problem.limit or None,
        source="arithmetic",
        remedy=problem.remedy,
        holds=(part,),
    )
