"""The grid's pockets: as wide as the face's openings, or narrower by a ledge on which let-in pieces rest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from segkit.errors import InputError
from segkit.fabrication.kerf import moved_edge
from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board, Segment
from segkit.working import Given, Line

NARROW_REST_MM = 1.0  # less ledge than this under a piece holds no glue; source common-practice
_HOLDS = ("back_board", "light_grid")


def pocket_board(board: Board, *, ledge_mm: float) -> Board:
    """The board with pockets in place of openings: each outline moved inward by the ledge.

    Args:
        board: with the face's openings.
        ledge_mm: 0 or more; 0 gives the board as it is.

    Raises:
        InputError: the ledge swallows a pocket.

    Sources: arithmetic.
    """
    if not ledge_mm:
        return board
    return replace(board, segments=tuple(_narrowed(segment, ledge_mm) for segment in board.segments))


def pockets_or_openings(board: Board, *, ledge_mm: float) -> Board:
    """As ``pocket_board``; the openings where the ledge swallows a pocket (``ledge_findings`` stops)."""
    try:
        return pocket_board(board, ledge_mm=ledge_mm)
    except InputError:
        return board


def ledge_lines(settings: MakeSettings) -> tuple[Line, ...]:
    """The ledge of let-in pieces, what of it stays under a piece pushed aside, and how loose a piece would be
    if the lines were not moved for the kerf; nothing for lips.
    """
    if settings.fit != "let-in":
        return ()
    asked = settings.lip_mm is not None
    ledge = Line(
        "fabrication.ledge", "ledge under the let-in diffuser pieces", "L", settings.ledge_mm, "mm", "w",
        (Given("w", settings.ledge_mm, "mm", "ledge asked for" if asked else "usual ledge"),),
        "design-choice" if asked else "common-practice",
        "the grid's pockets are narrower than the face's openings by this, all round",
    )  # fmt: skip
    rest = Line(
        "fabrication.ledge_rest", "ledge that stays under a piece pushed aside", "r",
        settings.ledge_mm - 2 * settings.clearance_mm, "mm", "L - 2*c",
        (
            Given("L", settings.ledge_mm, "mm", "ledge"),
            Given("c", settings.clearance_mm, "mm", "play round the piece"),
        ),
        "arithmetic",
    )  # fmt: skip
    kerf = settings.cut_width_mm
    loose = Line(
        "fabrication.kerf_play", "play of a piece and an opening of one size if no line were moved", "P",
        2 * kerf, "mm", "2*k", (Given("k", kerf, "mm", "kerf, the full width of the cut"),), "kerf-practice",
        "the piece loses one kerf and the opening gains one; here each line is moved by half a kerf for it",
    )  # fmt: skip
    return (ledge, rest, loose) if kerf else (ledge, rest)


def ledge_findings(board: Board, settings: MakeSettings) -> Iterator[Finding]:
    """Whether pieces rest on the ledge and an LED still fits the pocket: ``no-ledge``, ``narrow-ledge``,
    ``ledge-leaves-no-pocket``.
    """
    if settings.fit != "let-in":
        return
    rest = settings.ledge_mm - 2 * settings.clearance_mm
    if rest < NARROW_REST_MM - 1e-9:
        yield _rest_finding(settings, rest)
    widths = {segment.kind: segment.stroke_mm - 2 * settings.ledge_mm for segment in board.segments}
    kind = min(widths, key=lambda name: widths[name])
    if _swallowed(board, settings.ledge_mm) or widths[kind] < settings.hole_mm - 1e-9:
        yield _pocket_finding(settings, kind, max(0.0, widths[kind]))


def _narrowed(segment: Segment, ledge_mm: float) -> Segment:
    return replace(
        segment,
        outlines=tuple(moved_edge(outline, outward_mm=-ledge_mm) for outline in segment.outlines),
        length_mm=segment.length_mm - 2 * ledge_mm,
        stroke_mm=segment.stroke_mm - 2 * ledge_mm,
    )


def _swallowed(board: Board, ledge_mm: float) -> bool:
    try:
        pocket_board(board, ledge_mm=ledge_mm)
    except InputError:
        return True
    return False


def _rest_finding(settings: MakeSettings, rest: float) -> Finding:
    falls = rest <= 0
    ledge, play = f"{settings.ledge_mm:g} mm", f"{settings.clearance_mm:g} mm"
    enough = 2 * settings.clearance_mm + NARROW_REST_MM
    return Finding(
        "stop" if falls else "caution",
        "no-ledge" if falls else "narrow-ledge",
        "light grid",
        f"A let-in piece with {play} of play on each side can slip off its ledge of {ledge} and fall through."
        if falls
        else f"Of the ledge of {ledge}, only {rest:.2g} mm stays under a let-in piece pushed aside "
        f"by its play of {play}; that is too narrow to glue.",
        value=round(rest, 3),
        limit=NARROW_REST_MM,
        unit="mm",
        source="common-practice",
        remedy=f"Make make.lip {enough:g} mm or more, or the clearance smaller.",
        holds=("light_grid",) if falls else (),
    )


def _pocket_finding(settings: MakeSettings, kind: str, width_mm: float) -> Finding:
    ledge = f"a ledge of {settings.ledge_mm:g} mm all round"
    return Finding(
        "stop",
        "ledge-leaves-no-pocket",
        f"{kind} segments",
        f"With {ledge}, the pocket is {width_mm:.3g} mm wide; "
        f"the LED needs a hole of {settings.hole_mm:g} mm."
        if width_mm
        else f"With {ledge}, no pocket is left.",
        value=round(width_mm, 3),
        limit=settings.hole_mm,
        unit="mm",
        source="arithmetic",
        remedy="Make the stroke wider, the ledge (make.lip) narrower, use a smaller LED, "
        "or let the pieces lie over the openings with a lip.",
        holds=_HOLDS,
    )
