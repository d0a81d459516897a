"""Verdicts on a board before anything is cut: webs, corners, sheets, points, fixing holes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from segkit.catalog.part import Sheet
from segkit.findings import CUT_PARTS, Finding
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import (
    Outline,
    Web,
    bounds,
    clearance,
    near_pairs,
    overlap_area,
    turning_angles,
)
from segkit.geometry.sheets import larger_than_sheet
from segkit.units import plain_number

_CORNER_DEG = 20.0  # a turn above this is a corner, below it a chord of an arc
_UNSEEN_MM = 0.2  # material left in a corner that a piece does not notice; source common-practice
_MEASURE_MM = 1e-3  # a gap that is short by less than this is as asked
_OVERLAP_MM2 = 1e-6
#: Parts with an opening for each segment, so with webs between them.
OPEN_PARTS = ("light_grid", "face")
_WORDS = {"dp": "the point", "colon": "the colon"}

Placed = tuple[Segment, Outline]


def board_findings(board: Board) -> tuple[Finding, ...]:
    """Verdicts that hold whatever the board is cut from: overlaps, points too near, holes over openings.

    Sources: arithmetic.
    """
    return (
        *overlapping(board),
        *point_touching(board),
        *holes_over_openings(board, parts=("back_board", "light_grid", "face")),
    )


def part_findings(
    board: Board, part: str, sheet: Sheet, *, tool_radius_mm: float, opened: bool = True
) -> tuple[Finding, ...]:
    """Verdicts on one cut part: webs, inside corners, size of the stock sheet.

    Args:
        board: the board.
        part: ``back_board``, ``light_grid`` or ``face``; the first has no openings, so no webs and corners.
        sheet: what the part is cut from.
        tool_radius_mm: radius left in an inside corner: 0 for a knife, half the beam or bit otherwise.
        opened: False for a face of round holes, which has no openings either.

    Sources: the ``source`` of the sheet; arithmetic.
    """
    size = {"sheet_width_mm": sheet.width_mm, "sheet_height_mm": sheet.height_mm}
    findings = larger_than_sheet(board, part, **size)
    if part not in OPEN_PARTS or not opened:
        return findings
    webs = thin_webs(
        board, (part,), min_web_mm=sheet.min_web_mm, web_material=sheet.material, web_source=sheet.source
    )
    return (*webs, *inside_corners(board, part, tool_radius_mm=tool_radius_mm), *findings)


def _openings(board: Board) -> list[Placed]:
    return [(segment, outline) for segment in board.segments for outline in segment.outlines]


def _pairs(openings: Sequence[Placed], within_mm: float) -> tuple[Web, ...]:
    return near_pairs([outline for _, outline in openings], within_mm=within_mm)


def _between(one: Segment, other: Segment) -> str:
    first, second = (_WORDS.get(segment.name, segment.name) for segment in (one, other))
    if one.digit == other.digit:
        if one.name == other.name:
            return f"between the two dots of the colon after digit {one.digit}"
        return f"between {first} and {second} of digit {one.digit}"
    return f"between {first} of digit {one.digit} and {second} of digit {other.digit}"


def _mm(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} mm"


def _part(name: str) -> str:
    return name.replace("_", " ")


def _together(parts: Sequence[str]) -> str:
    return " and ".join(_part(part) for part in parts)


def thin_webs(
    board: Board,
    parts: Sequence[str],
    *,
    min_web_mm: float,
    web_material: str,
    web_source: str = "common-practice",
) -> tuple[Finding, ...]:
    """A stop where the board left between two openings, or at the rim, is thinner than the material holds.

    Args:
        board: the board.
        parts: cut parts with openings that are made of that material; they are held.
        min_web_mm: narrowest web that holds; 0 for no limit.
        web_material: name of the material, for the text.
        web_source: source key of the limit.
    """
    openings = _openings(board)
    webs = _pairs(openings, min_web_mm - _MEASURE_MM) if min_web_mm > _MEASURE_MM else ()
    findings = []
    subject = _together(parts)
    if webs and parts:
        where = _between(openings[webs[0].first][0], openings[webs[0].second][0])
        width = webs[0].width_mm
        others = "" if len(webs) == 1 else f", the narrowest of {len(webs)} that are too thin"
        text = (
            f"The web {where} is {_mm(width)} wide{others}; {web_material} needs {_mm(min_web_mm)} "
            "to survive the cutting."
        )
        keys = " and ".join(sorted({_size_of(openings, web) for web in webs}))
        remedy = f"Set {keys} to {_mm(min_web_mm)} or more, or choose a tougher material."
        findings.append(_stop("thin-web", subject, text, width, min_web_mm, web_source, remedy, tuple(parts)))
    if board.margin_mm < min_web_mm and parts:
        text = (
            f"The rim around the digits is {_mm(board.margin_mm)} wide; {web_material} needs "
            f"{_mm(min_web_mm)} to survive the cutting."
        )
        remedy = f"Set digit.margin to {_mm(min_web_mm)} or more; 40 mm also holds the fixing holes."
        findings.append(
            _stop("thin-rim", subject, text, board.margin_mm, min_web_mm, web_source, remedy, tuple(parts))
        )
    return tuple(findings)


def _size_of(openings: Sequence[Placed], web: Web) -> str:
    """Which size of the design sets the width of that web."""
    one, other = openings[web.first][0], openings[web.second][0]
    dots = {one.name, other.name} & set(_WORDS)
    return "digit.gap" if dots or one.digit == other.digit else "digit.spacing"


def _stop(
    code: str,
    subject: str,
    text: str,
    value: float,
    limit: float,
    source: str,
    remedy: str,
    holds: tuple[str, ...],
) -> Finding:
    return Finding("stop", code, subject, text, value, limit, "mm", source, remedy, holds)


def overlapping(board: Board) -> tuple[Finding, ...]:
    """A stop where two openings run into each other; it holds every part."""
    openings = _openings(board)
    for web in _pairs(openings, 0.0):
        shared = overlap_area(openings[web.first][1], openings[web.second][1])
        if shared > _OVERLAP_MM2:
            where = _between(openings[web.first][0], openings[web.second][0])
            text = f"The openings {where} overlap by {plain_number(shared, 3)} mm2."
            remedy = "Widen digit.gap or digit.spacing, or make the point smaller."
            return (
                Finding(
                    "stop", "overlap", "board", text, shared, 0.0, "mm2", "arithmetic", remedy, CUT_PARTS
                ),
            )
    return ()


def point_touching(board: Board) -> tuple[Finding, ...]:
    """A stop where a point stands nearer than the gap to c or d of its digit, or to the next digit."""
    openings = _openings(board)
    for web in _pairs(openings, board.shape.gap_mm - _MEASURE_MM):
        one, other = openings[web.first][0], openings[web.second][0]
        if "dp" in (one.name, other.name):
            text = (
                f"The clear distance {_between(one, other)} is {_mm(web.width_mm)}, less than the gap "
                f"of {_mm(board.shape.gap_mm)}."
            )
            remedy = "Make digit.point smaller or digit.spacing wider."
            return (
                _stop(
                    "point-touches",
                    f"point of digit {one.digit}",
                    text,
                    web.width_mm,
                    board.shape.gap_mm,
                    "arithmetic",
                    remedy,
                    OPEN_PARTS,
                ),
            )
    return ()


def holes_over_openings(board: Board, *, parts: Sequence[str]) -> tuple[Finding, ...]:
    """A stop where a fixing hole runs into an opening or over the edge of the board."""
    radius = board.fixing_hole_mm / 2
    boxes = [(bounds([outline]), outline) for _, outline in _openings(board)]
    for number, (x, y) in enumerate(board.fixings, start=1):
        edge = min(x, y, board.width_mm - x, board.height_mm - y)
        close = [
            outline
            for (x0, y0, x1, y1), outline in boxes
            if x0 - radius < x < x1 + radius and y0 - radius < y < y1 + radius
        ]
        near = min((-clearance(outline, (x, y)) for outline in close), default=math.inf)
        room = min(edge, near) - radius
        if room < 0:
            what = "an opening" if near < edge else "the edge of the board"
            text = (
                f"Fixing hole {number} of {_mm(board.fixing_hole_mm)} at {_mm(x)} from the left and {_mm(y)} "
                f"from the foot runs {_mm(-room)} into {what}."
            )
            remedy = "Widen digit.margin or use a smaller fixing hole."
            return (_stop("hole-over-opening", "board", text, room, 0.0, "arithmetic", remedy, tuple(parts)),)
    return ()


def inside_corners(board: Board, part: str, *, tool_radius_mm: float) -> tuple[Finding, ...]:
    """What a round tool leaves in the corners of the openings; a stop where it is wider than an opening.

    A tool of radius r leaves ``r*(1/sin(corner/2) - 1)`` of material in a corner.

    Args:
        board: the board.
        part: cut part with openings.
        tool_radius_mm: 0 for a knife, half the width of a bit or beam otherwise.

    Sources: arithmetic.
    """
    if tool_radius_mm <= 0:
        return ()
    narrowest = min(board.segments, key=lambda segment: segment.stroke_mm)
    if narrowest.stroke_mm < 2 * tool_radius_mm:
        text = (
            f"A tool {_mm(2 * tool_radius_mm)} wide does not fit into a {narrowest.kind} opening "
            f"{_mm(narrowest.stroke_mm)} wide."
        )
        remedy = "Use a finer tool or a wider stroke."
        value, limit = 2 * tool_radius_mm, narrowest.stroke_mm
        return (_stop("tool-too-wide", _part(part), text, value, limit, "arithmetic", remedy, (part,)),)
    corner = _sharpest_corner(board)
    left = tool_radius_mm * (1 / math.sin(corner / 2) - 1)
    if math.degrees(math.pi - corner) < _CORNER_DEG or left < _UNSEEN_MM:
        return ()
    text = (
        f"In the {_part(part)} the sharpest corner of an opening is {plain_number(math.degrees(corner), 3)} "
        f"deg; a tool of radius {_mm(tool_radius_mm)} rounds it and leaves {_mm(left)} standing there."
    )
    remedy = "File the corners, round the diffuser pieces to match, or choose rounded ends."
    return (
        Finding(
            "caution", "inside-corner", _part(part), text, tool_radius_mm, 0.0, "mm", "arithmetic", remedy
        ),
    )


def _sharpest_corner(board: Board) -> float:
    """Smallest inside angle [rad] of any opening; each kind has the same outlines."""
    outlines = {
        outline: None for segments in board.kinds().values() for s in segments[:8] for outline in s.outlines
    }
    return math.pi - max(max(turning_angles(outline)) for outline in outlines)
