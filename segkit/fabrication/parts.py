"""The four parts that are cut, each in the board's own frame, seen from the front."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence

from segkit.drawing.drawing import Circle, Path, Point, Shape
from segkit.fabrication.holes import cable_exit, drains
from segkit.fabrication.kerf import around_kept, inside_hole, inside_opening, moved_edge
from segkit.fabrication.layers import PartShapes
from segkit.fabrication.marks import (
    centre_marks,
    digit_names,
    middle,
    name_in,
    names_in_openings,
    piece_name,
    polarity_marks,
    side_marks,
)
from segkit.fabrication.nesting import Nest, Piece, lying_along_x, nested
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Outline
from segkit.optics.placement import LedPlace

TAB_MM = 6.0  # width of a tab, and length of the tick that shows it; source common-practice
BRIDGE_MM = 3.0  # sheet that stays between two cuts, and to the edge; source common-practice


def face_shapes(board: Board, settings: MakeSettings, *, joints: Sequence[float] = ()) -> PartShapes:
    """The face, or with the board's pockets a layer of the light grid: openings, the edge, fixing holes.

    The finished openings are the segments' outlines; each line is moved inward by half the kerf, the
    edge outward. joints are the places where panels meet; each panel has its own outline.
    """
    kerf = settings.cut_width_mm
    return PartShapes(
        fixing_holes=fixing_holes(board, kerf_mm=settings.hole_cut_mm),
        openings=tuple(inside_opening(o, kerf_mm=kerf) for s in board.segments for o in s.outlines),
        outlines=_edges(board, joints, kerf_mm=kerf),
        guides=_tabs((outline for s in board.segments for outline in s.outlines), settings),
        notes=(
            *names_in_openings(board, kerf_mm=kerf),
            *centre_marks(board),
            *side_marks(board, type_mm=settings.type_mm),
        ),
    )


def back_board_shapes(
    board: Board, places: Sequence[LedPlace], settings: MakeSettings, *, joints: Sequence[float] = ()
) -> PartShapes:
    """The back board as seen from the front: LED holes, fixing holes, the pockets as guides, polarity.

    Holes are drawn at their finished diameter; for a laser, which cuts them, half a kerf inside it.
    Each LED's ``+`` is on its right in crossbars (so on the left as seen from behind) and above it in
    uprights, the other way round where it is turned.
    """
    kerf, hole = settings.hole_cut_mm, settings.hole_mm
    segments = {(segment.digit, segment.name): segment for segment in board.segments}
    polarity = [
        mark
        for pocket in _by_pocket(places)
        for mark in _polarity(
            segments[pocket[0].digit, pocket[0].segment],
            pocket,
            hole_mm=hole,
            free_mm=smallest_pitch_mm(pocket) - hole,
        )
    ]
    return PartShapes(
        led_holes=tuple(inside_hole(p.at, diameter_mm=hole, kerf_mm=kerf) for p in places),
        fixing_holes=fixing_holes(board, kerf_mm=kerf),
        other_holes=_other_holes(board, places, settings),
        outlines=_edges(board, joints, kerf_mm=settings.cut_width_mm),
        guides=tuple(Path(o) for s in board.segments for o in s.outlines),
        notes=(
            *polarity,
            *centre_marks(board),
            *digit_names(board),
            *side_marks(board, type_mm=settings.type_mm),
        ),
    )


def _other_holes(board: Board, places: Sequence[LedPlace], settings: MakeSettings) -> tuple[Circle, ...]:
    kerf = settings.hole_cut_mm
    way_out = cable_exit(board, settings)
    return (
        *(
            inside_hole(at, diameter_mm=settings.drain_mm, kerf_mm=kerf)
            for at in drains(board, places, settings)
        ),
        *([inside_hole(way_out, diameter_mm=settings.cable_exit_mm, kerf_mm=kerf)] if way_out else []),
    )


def whole_sheet_shapes(board: Board, settings: MakeSettings, *, joints: Sequence[float] = ()) -> PartShapes:
    """A sheet over the whole board: its edge and the fixing holes; the openings of the face as guides."""
    return PartShapes(
        fixing_holes=fixing_holes(board, kerf_mm=settings.hole_cut_mm),
        outlines=_edges(board, joints, kerf_mm=settings.cut_width_mm),
        guides=tuple(Path(o) for s in board.segments for o in s.outlines),
        notes=(*centre_marks(board), *side_marks(board, type_mm=settings.type_mm)),
    )


def bulb_board_shapes(
    board: Board, places: Sequence[LedPlace], settings: MakeSettings, *, joints: Sequence[float] = ()
) -> PartShapes:
    """The one board of push-in bulbs, seen from the front: their holes, the edge, the segments as guides."""
    kerf = settings.hole_cut_mm
    return PartShapes(
        led_holes=tuple(
            inside_hole(place.at, diameter_mm=settings.hole_mm, kerf_mm=kerf) for place in places
        ),
        fixing_holes=fixing_holes(board, kerf_mm=kerf),
        outlines=_edges(board, joints, kerf_mm=settings.cut_width_mm),
        guides=tuple(Path(o) for s in board.segments for o in s.outlines),
        notes=(*centre_marks(board), *digit_names(board), *side_marks(board, type_mm=settings.type_mm)),
    )


def diffuser_pieces(board: Board, settings: MakeSettings, *, lip_mm: float) -> tuple[Piece, ...]:
    """The finished diffuser pieces: openings grown by the lip, or shrunk by the clearance.

    They lie along x; with a grain they stand as on the board.

    Raises:
        InputError: the clearance swallows a piece.
    """
    outward = lip_mm if settings.fit == "lip" else -settings.clearance_mm
    return tuple(
        Piece(piece_name(segment, which), _laid(moved_edge(outline, outward_mm=outward), axis, settings))
        for segment in board.segments
        for which, (outline, axis) in enumerate(zip(segment.outlines, segment.axes, strict=True))
    )


def _laid(outline: Outline, axis: tuple[Point, Point], settings: MakeSettings) -> Outline:
    """Lying along x; as on the board where a grain must run one way in all pieces."""
    return lying_along_x(outline, axis) if settings.grain == "none" else outline


def diffuser_nest(
    pieces: Sequence[Piece], settings: MakeSettings, *, sheet_width_mm: float, sheet_height_mm: float
) -> Nest:
    """The tool paths round the pieces in rows on sheets, with a bridge of sheet between the cuts.

    Between two tool paths half a cut is lost on either side, so they stand a kerf and a bridge apart.
    """
    kerf = settings.cut_width_mm
    paths = [Piece(piece.label, around_kept(piece.outline, kerf_mm=kerf).points) for piece in pieces]
    return nested(
        paths,
        width_mm=sheet_width_mm,
        height_mm=sheet_height_mm,
        spacing_mm=kerf + BRIDGE_MM,
        grain=settings.grain,
    )


def diffuser_shapes(nest: Nest, settings: MakeSettings) -> PartShapes:
    """The nested tool paths with the names of the pieces; a frame round each sheet if there are several."""
    sheets = nest.sheets if len(nest.sheets) > 1 else ()
    frames = (Path(((x1, y1), (x2, y1), (x2, y2), (x1, y2))) for x1, y1, x2, y2 in sheets)
    return PartShapes(
        outlines=tuple(Path(piece.outline) for piece in nest.pieces),
        guides=(*frames, *_tabs((piece.outline for piece in nest.pieces), settings)),
        notes=tuple(_piece_mark(piece) for piece in nest.pieces),
    )


def fixing_holes(board: Board, *, kerf_mm: float) -> tuple[Circle, ...]:
    """The fixing holes, the same in face, grid and back."""
    return tuple(inside_hole(at, diameter_mm=board.fixing_hole_mm, kerf_mm=kerf_mm) for at in board.fixings)


def homes_of(board: Board, places: Iterable[LedPlace]) -> Iterator[tuple[LedPlace, Segment, int]]:
    """Each LED with its segment and which of its outlines it is nearest to."""
    segments = {(segment.digit, segment.name): segment for segment in board.segments}
    for place in places:
        yield place, *_nearest(segments[place.digit, place.segment], place)


def _nearest(segment: Segment, place: LedPlace) -> tuple[Segment, int]:
    spans = [math.dist(middle(axis), place.at) for axis in segment.axes]
    return segment, spans.index(min(spans))


def smallest_pitch_mm(places: Sequence[LedPlace]) -> float:
    """Smallest distance between two LEDs of one segment [mm]; infinite if each has one."""
    pairs = (pair for pocket in _by_pocket(places) for pair in itertools.combinations(pocket, 2))
    return min((math.dist(one.at, other.at) for one, other in pairs), default=math.inf)


def _by_pocket(places: Sequence[LedPlace]) -> list[list[LedPlace]]:
    """The LEDs of each segment together, in the order they come."""
    pockets: dict[tuple[int, str], list[LedPlace]] = {}
    for place in places:
        pockets.setdefault((place.digit, place.segment), []).append(place)
    return list(pockets.values())


def _polarity(
    segment: Segment, pocket: Sequence[LedPlace], *, hole_mm: float, free_mm: float
) -> Iterator[Path]:
    for place in pocket:
        _, which = _nearest(segment, place)
        yield from polarity_marks(
            place.at, segment.axes[which], hole_mm=hole_mm, free_mm=free_mm, turned=place.turned
        )


def _edges(board: Board, joints: Sequence[float], *, kerf_mm: float) -> tuple[Path, ...]:
    """The outline of the board, or of each panel."""
    h = board.height_mm
    ends = (0.0, *joints, board.width_mm)
    return tuple(
        around_kept(((left, 0.0), (right, 0.0), (right, h), (left, h)), kerf_mm=kerf_mm)
        for left, right in itertools.pairwise(ends)
    )


def _tabs(outlines: Iterable[Outline], settings: MakeSettings) -> tuple[Path, ...]:
    """Ticks where a router leaves what would come loose hanging: two on each opening or piece."""
    if settings.tool != "router":
        return ()
    return tuple(tick for outline in outlines for tick in tab_ticks(outline))


def tab_ticks(outline: Outline) -> tuple[Path, ...]:
    """Short lines across the two longest edges, at their middles: there a tab is left.

    Example:
        >>> [tick.points[0] for tick in tab_ticks(((0.0, 0.0), (40.0, 0.0), (40.0, 9.0), (0.0, 9.0)))]
        [(20.0, -3.0), (20.0, 12.0)]
    """
    edges = sorted(
        zip(outline, outline[1:] + outline[:1], strict=True), key=lambda edge: -round(math.dist(*edge), 6)
    )[:2]
    ticks = []
    for (x1, y1), (x2, y2) in edges:
        length = math.dist((x1, y1), (x2, y2))
        x, y, dx, dy = (x1 + x2) / 2, (y1 + y2) / 2, (y2 - y1) / length, (x1 - x2) / length
        half = TAB_MM / 2
        ticks.append(Path(((x + half * dx, y + half * dy), (x - half * dx, y - half * dy)), closed=False))
    return tuple(ticks)


def _piece_mark(piece: Piece) -> Shape:
    xs, ys = [x for x, _ in piece.outline], [y for _, y in piece.outline]
    at: Point = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    return name_in(piece.label, at, stroke_mm=min(max(xs) - min(xs), max(ys) - min(ys)))
