"""Reflector: a piece for the floor of each pocket, with its LED holes, nested on the sheet or the tape."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Circle, Path, Shape
from segkit.fabrication.holes import drains
from segkit.fabrication.kerf import around_kept, inside_hole, moved_edge
from segkit.fabrication.layers import PartShapes
from segkit.fabrication.marks import name_in, piece_name
from segkit.fabrication.nesting import Nest, Piece, lying_along_x, nested
from segkit.fabrication.parts import BRIDGE_MM, homes_of, tab_ticks
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.tool import EDGE_MM
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import Outline, Point, area, bounds, clearance, translate
from segkit.optics.placement import LedPlace
from segkit.working import Given, Line

LENGTH_MM = 600.0  # of a tape, laid flat for cutting; source common-practice
THIN_MM = 0.5  # a reflector up to this changes nothing that could be measured; source common-practice
WEB_MM = 1.0  # between two holes of a piece, and to its edge; source common-practice


@dataclass(frozen=True)
class Floor:
    """A piece of reflector, finished, in the board's frame as seen from the front [mm].

    Attributes:
        label: as on the diffuser pieces.
        outline: the pocket's floor less the play.
        leds, drains: middles of its holes.
        axis: of the segment.
    """

    label: str
    outline: Outline
    leds: tuple[Point, ...]
    drains: tuple[Point, ...]
    axis: tuple[Point, Point]

    @property
    def holes(self) -> tuple[Point, ...]:
        """LED holes, then drains."""
        return (*self.leds, *self.drains)


def floor_play_mm(settings: MakeSettings, *, lining_mm: float) -> float:
    """Play of a piece on each side: ``max(c, 2*t) + l``, so that it goes in at worst, past the lining.

    Args:
        settings: tool and clearance.
        lining_mm: thickness of what lines the walls, 0 for none.

    Sources: common-practice.

    Example:
        >>> floor_play_mm(MakeSettings(tool="laser", clearance_mm=0.3), lining_mm=0.05)
        0.35
    """
    return round(max(settings.clearance_mm, 2 * EDGE_MM[settings.tool]) + lining_mm, 9)


def floors(
    pockets: Board, places: Sequence[LedPlace], settings: MakeSettings, *, play_mm: float
) -> tuple[Floor, ...]:
    """One piece for each pocket.

    Args:
        pockets: the pockets of the light grid.
        places: every LED.
        settings: size of LED holes and drains.
        play_mm: on each side.

    Raises:
        InputError: the play swallows a piece.

    Sources: arithmetic.
    """
    leds: dict[tuple[int, str, int], list[Point]] = {}
    for place, segment, which in homes_of(pockets, places):
        leds.setdefault((segment.digit, segment.name, which), []).append(place.at)
    wet = drains(pockets, places, settings)
    return tuple(
        Floor(
            piece_name(segment, which),
            moved_edge(outline, outward_mm=-play_mm),
            tuple(leds.get((segment.digit, segment.name, which), ())),
            tuple(at for at in wet if clearance(outline, at) > 0),
            axis,
        )
        for segment in pockets.segments
        for which, (outline, axis) in enumerate(zip(segment.outlines, segment.axes, strict=True))
    )


def reflector_nest(pieces: Sequence[Floor], settings: MakeSettings, sheet: Sheet) -> Nest:
    """The tool paths round the pieces on sheets, or on lengths of tape that can be handled, with bridges.

    Pieces that do not fit are named in ``too_large`` and are not laid.

    Args:
        pieces: of ``floors``, at least one.
        settings: kerf.
        sheet: with its width and height.

    Sources: arithmetic.
    """
    kerf = settings.cut_width_mm
    paths = [
        Piece(one.label, lying_along_x(around_kept(one.outline, kerf_mm=kerf).points, one.axis))
        for one in pieces
    ]
    spacing, wide = kerf + BRIDGE_MM, sheet.width_mm
    long = sheet.height_mm
    if sheet.role == "lining":
        longest = max(bounds([path.outline])[2] - bounds([path.outline])[0] for path in paths)
        long = min(long, max(LENGTH_MM, longest + 2 * spacing))
    nest = nested(paths, width_mm=wide, height_mm=long, spacing_mm=spacing)
    if nest.too_large:
        fitting = [path for path in paths if path.label not in nest.too_large]
        if not fitting:
            return replace(nest, pieces=(), sheets=())
        kept = nested(fitting, width_mm=wide, height_mm=long, spacing_mm=spacing)
        nest = replace(kept, too_large=nest.too_large)
    beside = sheet.role == "lining" and not nest.turned
    return _side_by_side(nest, spacing) if beside else nest


def _side_by_side(nest: Nest, spacing: float) -> Nest:
    """Lengths of tape beside each other instead of in one long row, none of them lying across."""
    wide = max(right - left for left, _, right, _ in nest.sheets)
    steps = [(i * (wide + spacing), -bottom) for i, (_, bottom, _, _) in enumerate(nest.sheets)]
    pieces = [
        Piece(piece.label, translate(piece.outline, dx_mm=dx, dy_mm=dy))
        for piece in nest.pieces
        for (dx, dy), (_, bottom, _, top) in zip(steps, nest.sheets, strict=True)
        if bottom <= piece.outline[0][1] <= top
    ]
    sheets = [
        (left + dx, 0.0, right + dx, top + dy)
        for (dx, dy), (left, _, right, top) in zip(steps, nest.sheets, strict=True)
    ]
    return replace(nest, pieces=tuple(pieces), sheets=tuple(sheets))


def tape_mm(nest: Nest) -> float:
    """Length of a tape that the pieces take: all its lengths together."""
    return sum(right - left if nest.turned else top - bottom for left, bottom, right, top in nest.sheets)


def tape_line(nest: Nest) -> Line:
    """The length of tape that the nested pieces take, in metres.

    Args:
        nest: of ``reflector_nest``, on a tape.

    Sources: arithmetic.
    """
    return Line(
        "fabrication.reflector_tape", "tape that the nested reflector pieces take", "l_t",
        tape_mm(nest) / 1000, "m", "l/1000",
        (Given("l", tape_mm(nest), "mm", "all lengths on the cut sheet together, with what lies between"),),
        "arithmetic",
    )  # fmt: skip


def hole_mm(settings: MakeSettings, *, play_mm: float) -> float:
    """Diameter of the LED holes of a piece: that of the back board and the play on both sides: ``d + 2*p``.

    A piece pushed aside by its play then hides no LED.

    Example:
        >>> hole_mm(MakeSettings(led_body_mm=5), play_mm=0.6)
        6.2
    """
    return settings.hole_mm + 2 * play_mm


def reflector_shapes(
    pieces: Sequence[Floor], nest: Nest, settings: MakeSettings, *, play_mm: float
) -> PartShapes:
    """The nested pieces with their holes, seen from the front; a frame round each sheet if there are several.

    Args:
        pieces: of ``floors``.
        nest: of ``reflector_nest``.
        settings: kerf, tool, size of holes.
        play_mm: on each side.

    Raises:
        InputError: a hole is not wider than the cut.
    """
    kerf, laid = settings.cut_width_mm, {piece.label: piece.outline for piece in nest.pieces}
    moves = {
        one.label: _Move(around_kept(one.outline, kerf_mm=kerf).points, laid[one.label])
        for one in pieces
        if one.label in laid
    }

    def holes(of: str, wide_mm: float) -> tuple[Circle, ...]:
        return tuple(
            inside_hole(moves[one.label].to(at), diameter_mm=wide_mm, kerf_mm=settings.hole_cut_mm)
            for one in pieces
            if one.label in moves
            for at in getattr(one, of)
        )

    frames = nest.sheets if len(nest.sheets) > 1 else ()
    ticks = (tick for outline in laid.values() for tick in tab_ticks(outline))
    guides: tuple[Shape, ...] = (
        *(Path(((x1, y1), (x2, y1), (x2, y2), (x1, y2))) for x1, y1, x2, y2 in frames),
        *(ticks if settings.tool == "router" else ()),
    )
    return PartShapes(
        led_holes=holes("leds", hole_mm(settings, play_mm=play_mm)),
        other_holes=holes("drains", settings.drain_mm + 2 * play_mm),
        outlines=tuple(Path(outline) for outline in laid.values()),
        guides=guides,
        notes=tuple(_mark(one, moves[one.label]) for one in pieces if one.label in moves),
    )


def reflector_lines(pieces: Sequence[Floor], settings: MakeSettings, *, lining_mm: float) -> tuple[Line, ...]:
    """Play, LED holes and area of the pieces.

    Args:
        pieces: of ``floors``.
        settings: tool, clearance, size of the LED holes.
        lining_mm: thickness of what lines the walls.

    Sources: common-practice, arithmetic.
    """
    play, edge = floor_play_mm(settings, lining_mm=lining_mm), EDGE_MM[settings.tool]
    covered = sum(area(one.outline) for one in pieces)
    return (
        Line(
            "fabrication.reflector_play", "play of a reflector piece on each side", "p", play, "mm",
            "max(c, 2*t) + l",
            (
                Given("c", settings.clearance_mm, "mm", "clearance"),
                Given("t", edge, "mm", f"a {settings.tool} cuts true to this, pocket and piece alike"),
                Given("l", lining_mm, "mm", "lining of the walls"),
            ),
            "common-practice",
        ),
        Line(
            "fabrication.reflector_hole", "LED holes of the reflector pieces", "d_r",
            hole_mm(settings, play_mm=play), "mm", "d_h + 2*p",
            (
                Given("d_h", settings.hole_mm, "mm", "LED holes of the back board"),
                Given("p", play, "mm", "play of a piece"),
            ),
            "arithmetic", "a piece pushed aside hides no LED",
        ),
        Line(
            "fabrication.reflector_area", "reflector over all floors of pockets", "A", covered / 1e6, "m2",
            "a/1e6", (Given("a", covered, "mm2", "all pieces, holes not taken off"),), "arithmetic",
        ),
    )  # fmt: skip


def reflector_findings(
    pieces: Sequence[Floor], nest: Nest, settings: MakeSettings, sheet: Sheet, *, play_mm: float
) -> Iterator[Finding]:
    """Webs beside the holes, and pieces wider than the sheet: ``reflector-web``, ``reflector-in-strips``.

    Args:
        pieces, nest, settings, play_mm: as in ``reflector_shapes``.
        sheet: what they are cut from.

    Sources: common-practice, arithmetic.
    """
    if nest.too_large:
        yield Finding(
            "caution", "reflector-in-strips", "reflector",
            f"{len(nest.too_large)} of the floors of the pockets ({nest.too_large[0]} first) are larger than "
            f"{sheet.name}, {sheet.width_mm:g} x {sheet.height_mm:g} mm less {BRIDGE_MM:g} mm at the edges; "
            "those are not on the cut sheet.",
            value=len(nest.too_large), limit=0, source=sheet.source,
            remedy="Lay strips side by side there and cut the LED holes out in place, or take a wider sheet.",
        )  # fmt: skip
    web = min((_web_mm(one, settings, play_mm) for one in pieces), default=math.inf)
    if web < WEB_MM - 1e-9:
        yield Finding(
            "note" if sheet.thickness_mm <= THIN_MM else "caution", "reflector-web", "reflector",
            f"Between the holes of a reflector piece, or to its edge, {web:.2g} mm of {sheet.name} stay."
            if web > 0
            else f"The holes of a reflector piece of {sheet.name} run into each other or over its edge.",
            value=round(web, 2), limit=WEB_MM, unit="mm", source="common-practice",
            remedy="Snip it away there with scissors."
            if sheet.thickness_mm <= THIN_MM
            else "Use fewer LEDs in a segment, or smaller ones, or paint the backs of the pockets instead.",
        )  # fmt: skip


def deep_reflector(sheet: Sheet, *, tip_mm: float, depth_mm: float) -> Iterator[Finding]:
    """Whether the reflector takes depth that the light is reckoned with: ``reflector-takes-depth``.

    Args:
        sheet: of the reflector.
        tip_mm: of the LEDs over the back board.
        depth_mm: of the pockets over the back board.

    Sources: common-practice.
    """
    thick = sheet.thickness_mm
    if thick > THIN_MM:
        yield Finding(
            "caution", "reflector-takes-depth", "reflector",
            f"{sheet.name} is {thick:g} mm thick: on the back board it leaves pockets {depth_mm - thick:g} "
            f"mm deep, and tips {max(tip_mm - thick, 0.0):g} mm over it. The light is reckoned with "
            f"{depth_mm:g} and {tip_mm:g} mm.",
            value=thick, limit=THIN_MM, unit="mm", source="common-practice",
            remedy="Take a tape, card or paint, or put the LEDs so much further through the back board and "
            "make the grid so much deeper.",
        )  # fmt: skip


def _web_mm(piece: Floor, settings: MakeSettings, play_mm: float) -> float:
    """Narrowest strip beside a hole of a piece."""
    led, drain = hole_mm(settings, play_mm=play_mm) / 2, settings.drain_mm / 2 + play_mm
    holes = [*((at, led) for at in piece.leds), *((at, drain) for at in piece.drains)]
    rims = [clearance(piece.outline, at) - radius for at, radius in holes if radius == led]
    webs = [math.dist(one, other) - r1 - r2 for i, (one, r1) in enumerate(holes) for other, r2 in holes[:i]]
    return min((*rims, *webs), default=math.inf)


@dataclass(frozen=True)
class _Move:
    """From the board's frame to where a piece lies on its sheet."""

    before: Outline
    after: Outline

    def to(self, at: Point) -> Point:
        (x0, y0), (x1, y1) = self.before[:2]
        (u0, v0), (u1, v1) = self.after[:2]
        turn = math.atan2(v1 - v0, u1 - u0) - math.atan2(y1 - y0, x1 - x0)
        dx, dy = at[0] - x0, at[1] - y0
        return (
            u0 + dx * math.cos(turn) - dy * math.sin(turn),
            v0 + dx * math.sin(turn) + dy * math.cos(turn),
        )


def _mark(piece: Floor, move: _Move) -> Shape:
    """The name where the holes leave most room."""
    left, low, right, high = bounds([piece.outline])
    spots = [
        (left + (right - left) * i / 24, low + (high - low) * j / 24)
        for i in range(1, 24)
        for j in range(1, 24)
    ]

    def room(at: Point) -> float:
        hole = min((math.dist(at, hole) for hole in piece.holes), default=math.inf)
        return round(min(hole - 3.0, clearance(piece.outline, at)), 3)

    best = max(spots, key=lambda at: (room(at), at))
    return name_in(piece.label, move.to(best), stroke_mm=max(2 * room(best), 2.0))
