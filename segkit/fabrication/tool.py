"""What a tool can do at all: the narrowest slot it enters, the narrowest web it leaves."""

from __future__ import annotations

from collections.abc import Iterator

from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import near_pairs

#: Narrowest web that a tool leaves standing without breaking or burning it; source common-practice.
WEB_MM = {"knife": 2.0, "laser": 1.0, "router": 3.0, "drill": 1.0}
#: Narrowest opening that a tool cuts cleanly, beside its own width; source common-practice.
SLOT_MM = {"knife": 5.0, "laser": 0.5, "router": 0.5, "drill": 0.0}
#: How far a cut edge may be from where it was drawn; source common-practice.
EDGE_MM = {"knife": 0.3, "laser": 0.05, "router": 0.1, "drill": 0.3}
_CLOSE = 1e-6


def narrowest_slot_mm(settings: MakeSettings) -> float:
    """Narrowest opening that the tool cuts: its kerf and what it needs beside.

    Example:
        >>> narrowest_slot_mm(MakeSettings(tool="router", kerf_mm=6.0))
        6.5
    """
    return settings.cut_width_mm + SLOT_MM[settings.tool]


def tool_findings(board: Board, part: str, settings: MakeSettings) -> Iterator[Finding]:
    """Slots that the tool cannot enter and webs that it would break: ``slot-too-narrow``, ``web-too-thin``.

    Args:
        board: with the openings of the part.
        part: ``face`` or ``light_grid``; others have no openings.
        settings: the tool and its kerf.

    Sources: common-practice.
    """
    if part not in ("face", "light_grid") or settings.bulbs:
        return
    slot, narrow = narrowest_slot_mm(settings), min(segment.stroke_mm for segment in board.segments)
    if narrow < slot - _CLOSE:
        yield _finding(
            "stop", "slot-too-narrow", part, narrow, slot,
            f"The narrowest opening is {narrow:.3g} mm wide; a {settings.tool} with a cut of "
            f"{settings.cut_width_mm:g} mm needs {slot:g} mm.",
            "Take a narrower tool (make.kerf), or make the stroke wider.", (part,),
        )  # fmt: skip
    web = WEB_MM[settings.tool]
    pairs = near_pairs([o for s in board.segments for o in s.outlines], within_mm=web)
    if pairs and pairs[0].width_mm < web - 1e-3:
        yield _finding(
            "caution", "web-too-thin", part, pairs[0].width_mm, web,
            f"A web of {pairs[0].width_mm:.2g} mm stays between two openings; a {settings.tool} leaves "
            f"{web:g} mm standing safely.",
            "Make the gap wider, cut slowly, or take another tool.", (),
        )  # fmt: skip


def fit_findings(settings: MakeSettings) -> Iterator[Finding]:
    """Whether a let-in piece enters its opening at worst: ``piece-too-tight``.

    At worst the edge of the opening stands in by the tolerance and that of the piece out by it, so of the
    play on each side ``c - 2*t`` stays.

    Args:
        settings: tool, fit and clearance.

    Sources: common-practice.
    """
    play = worst_play_mm(settings)
    if settings.fit == "let-in" and play < -_CLOSE:
        needed = 2 * EDGE_MM[settings.tool]
        yield Finding(
            "caution", "piece-too-tight", "diffuser",
            f"A {settings.tool} cuts true to {EDGE_MM[settings.tool]:g} mm; at worst a let-in piece is "
            f"{-play:.2g} mm too large for its opening on each side, with "
            f"{settings.clearance_mm:g} mm of play.",
            value=settings.clearance_mm, limit=needed, unit="mm", source="common-practice",
            remedy=f"Make make.clearance {needed:g} mm, or sand the pieces to fit one by one.",
        )  # fmt: skip


def worst_play_mm(settings: MakeSettings) -> float:
    """Play that stays on each side of a let-in piece at worst: ``c - 2*t``; below 0 it does not go in.

    Example:
        >>> worst_play_mm(MakeSettings(tool="laser", fit="let-in", clearance_mm=0.3))
        0.2
    """
    return round(settings.clearance_mm - 2 * EDGE_MM[settings.tool], 9)


def _finding(
    level: str,
    code: str,
    part: str,
    value: float,
    limit: float,
    text: str,
    remedy: str,
    holds: tuple[str, ...],
) -> Finding:
    return Finding(
        "stop" if level == "stop" else "caution", code, part.replace("_", " "), text,
        value=round(value, 3), limit=limit, unit="mm", source="common-practice", remedy=remedy, holds=holds,
    )  # fmt: skip
