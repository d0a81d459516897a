"""The paper templates of a board: finished edges at true size, tiled onto pages."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Drawing, Layer, Shape, Text
from segkit.errors import InputError
from segkit.fabrication.assembly_map import map_page
from segkit.fabrication.layers import LINE_MM, Palette, PartShapes, part_layers
from segkit.fabrication.marks import cross
from segkit.fabrication.mirror import mirrored
from segkit.fabrication.paper import PaperSettings
from segkit.fabrication.parts import (
    back_board_shapes,
    bulb_board_shapes,
    diffuser_nest,
    diffuser_pieces,
    diffuser_shapes,
    face_shapes,
)
from segkit.fabrication.reflector import floor_play_mm, floors, reflector_nest, reflector_shapes
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.tile_page import TemplateText, tile_page
from segkit.fabrication.tiling import TilePlan, fewest_pages, plan_tiles
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace

PUNCH_MM = 2.0  # cross in the middle of an LED hole; source common-practice
LARGEST_PAGES = 120  # of one template: more nobody tapes, and the sheets of the cutter are the way then


@dataclass(frozen=True)
class Template:
    """One template: the whole drawing, what its pages say, and how it is tiled."""

    part: str
    drawing: Drawing
    text: TemplateText
    plan: TilePlan


def templates(
    board: Board,
    pockets: Board,
    places: Sequence[LedPlace],
    *,
    settings: MakeSettings,
    paper: PaperSettings,
    lip_mm: float,
    diffuser: Sheet,
    title: str,
    stamp: str = "",
    reflector: Sheet | None = None,
    lining_mm: float = 0.0,
) -> tuple[Template, ...]:
    """The templates of face, light grid, back board, diffuser and reflector pieces, in that order.

    Finished edges are drawn, without kerf: a template is for a knife, a scriber or a drill. Where the
    face and the light grid have the same openings, one template serves both. The template of the back
    board is mirrored, since it is laid on the rear.

    Args:
        board: with the openings of the face.
        pockets: with those of the light grid.
        places: every LED, as seen from the front.
        settings: tool, fit and holes.
        paper: paper, margin and overlap.
        lip_mm: lip of the diffuser pieces; 0 for pieces that are let in.
        diffuser: sheet of the diffuser pieces.
        title, stamp: of the design.
        reflector: sheet or tape of the pieces on the floors of the pockets, or None for none.
        lining_mm: thickness of what lines the walls of the pockets, 0 or more.

    Returns:
        nothing where the face alone would take more than ``LARGEST_PAGES``.

    Raises:
        InputError: the paper shows no more than the overlap.
    """
    if fewest_pages(paper, width_mm=board.width_mm, height_mm=board.height_mm) > LARGEST_PAGES:
        return ()
    by_hand = replace(settings, tool="knife", kerf_mm=None, led_hole_mm=settings.hole_mm)
    made = _Maker(by_hand, paper, title, stamp)
    if settings.bulbs:
        return (made.template("face", bulb_board_shapes(board, places, by_hand), board, wording="bulbs"),)
    same = board.segments == pockets.segments
    found = [made.template("face", face_shapes(board, by_hand), board, wording="both" if same else "face")]
    if not same:
        found.append(made.template("light_grid", face_shapes(pockets, by_hand), board))
    back = back_board_shapes(pockets, places, by_hand)
    punches = tuple(arm for place in places for arm in cross(place.at, size_mm=PUNCH_MM))
    found.append(made.template("back_board", replace(back, notes=(*back.notes, *punches)), board))
    if settings.fit != "sheet":  # a diffuser of one sheet has the size of the board
        found += made.pieces(board, lip_mm=lip_mm, sheet=diffuser)
    if reflector is not None:
        play = floor_play_mm(settings, lining_mm=lining_mm)
        found += made.floors(pockets, places, sheet=reflector, play_mm=play)
    return tuple(found)


def too_many_findings(board: Board, paper: PaperSettings) -> Iterator[Finding]:
    """Whether the templates are left out since nobody tapes so many pages: ``templates-left-out``.

    Args:
        board: the board.
        paper: paper, margin and overlap.

    Raises:
        InputError: the paper shows no more than the overlap.
    """
    pages = fewest_pages(paper, width_mm=board.width_mm, height_mm=board.height_mm)
    if pages > LARGEST_PAGES:
        yield Finding(
            "note",
            "templates-left-out",
            "paper",
            f"A template of the face alone would take {pages} pages of {paper.name}; none are made.",
            value=pages,
            limit=LARGEST_PAGES,
            source="common-practice",
            remedy="Have the sheets cut or plotted from the SVG or DXF files, or take a larger paper.",
        )


def template_pages(
    made: Sequence[Template], *, paper: PaperSettings, settings: MakeSettings
) -> tuple[Drawing, ...]:
    """The pages of all templates: for each its map, then its tiles row by row."""
    return tuple(page for one in made for page in _pages(one, paper, settings.palette))


def _pages(one: Template, paper: PaperSettings, palette: Palette) -> Iterator[Drawing]:
    yield map_page(one.drawing, one.plan, text=one.text, paper=paper, palette=palette)
    for tile in one.plan.tiles:
        yield tile_page(one.drawing, one.plan, tile, text=one.text, paper=paper, palette=palette)


_TEXTS: Mapping[str, tuple[str, str, bool, tuple[str, ...]]] = {
    "both": (
        "FACE AND LIGHT GRID", "SEEN FROM THE FRONT", False,
        ("The face and every layer of the light grid have these openings: one print serves them all.",),
    ),
    "bulbs": (
        "BULB BOARD", "SEEN FROM THE FRONT", False,
        ("Punch the middle of each circle, then drill it; the bulbs are pushed in from behind.",),
    ),
    "face": ("FACE", "SEEN FROM THE FRONT", False, ()),
    "light_grid": (
        "LIGHT GRID", "SEEN FROM THE FRONT", False,
        ("Its pockets are narrower than the openings of the face: do not use one for the other.",),
    ),
    "back_board": (
        "BACK BOARD", "SEEN FROM BEHIND", True,
        ("Mirrored: lay it on the rear of the board, the side where you will solder, and drill from there. "
         "Digit 1 is on the right. Punch each cross before you drill.",),
    ),
    "diffuser": (
        "DIFFUSER PIECES", "SEEN FROM THE FRONT", False,
        ("Copy each name onto its piece.",),
    ),
    "reflector": (
        "REFLECTOR PIECES", "SEEN FROM THE FRONT", False,
        ("The side that shines is up. Copy each name onto the back of its piece; punch the LED holes "
         "before you cut the outlines.",),
    ),
}  # fmt: skip


@dataclass(frozen=True)
class _Maker:
    settings: MakeSettings
    paper: PaperSettings
    title: str
    stamp: str

    def template(self, part: str, shapes: PartShapes, board: Board, *, wording: str = "") -> Template:
        drawing = self._drawing(part, shapes, board.width_mm, board.height_mm)
        return self._made(part, mirrored(drawing) if part == "back_board" else drawing, wording or part)

    def pieces(self, board: Board, *, lip_mm: float, sheet: Sheet) -> Iterator[Template]:
        try:
            pieces = diffuser_pieces(board, self.settings, lip_mm=lip_mm)
        except InputError:
            return  # the clearance swallows a piece: a stop finding says so
        nest = diffuser_nest(
            pieces, self.settings, sheet_width_mm=sheet.width_mm, sheet_height_mm=sheet.height_mm
        )
        width, height = max(frame[2] for frame in nest.sheets), max(frame[3] for frame in nest.sheets)
        shapes = diffuser_shapes(nest, self.settings)
        yield self._made("diffuser", self._drawing("diffuser", shapes, width, height), "diffuser")

    def floors(
        self, pockets: Board, places: Sequence[LedPlace], *, sheet: Sheet, play_mm: float
    ) -> Iterator[Template]:
        try:
            pieces = floors(pockets, places, self.settings, play_mm=play_mm)
        except InputError:
            return  # the play swallows a piece: a stop finding says so
        nest = reflector_nest(pieces, self.settings, sheet)
        if not nest.pieces:
            return  # all are wider than the tape: a caution says so
        width, height = max(frame[2] for frame in nest.sheets), max(frame[3] for frame in nest.sheets)
        shapes = reflector_shapes(pieces, nest, self.settings, play_mm=play_mm)
        yield self._made("reflector", self._drawing("reflector", shapes, width, height), "reflector")

    def _made(self, part: str, drawing: Drawing, wording: str) -> Template:
        name, side, rear, notes = _TEXTS[wording]
        text = TemplateText(name, side, rear, notes, self.title, self.stamp)
        return Template(part, drawing, text, plan_tiles(drawing, self.paper))

    def _drawing(self, part: str, shapes: PartShapes, width: float, height: float) -> Drawing:
        layers = part_layers(shapes, self.settings.palette, line_mm=LINE_MM["knife"])
        inside = tuple(replace(layer, shapes=_inside(layer, width)) for layer in layers)
        return Drawing(f"{self.title}: {part.replace('_', ' ')}", width, height, inside, stamp=self.stamp)


def _inside(layer: Layer, width_mm: float) -> tuple[Shape, ...]:
    """Without the notes that stand beside the part."""
    return tuple(
        shape for shape in layer.shapes if not isinstance(shape, Text) or 0 <= shape.at[0] <= width_mm
    )
