"""The other way to build a segment: bulbs pushed into a row of holes. Whether hole, bulb and sheet agree."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence

from segkit.catalog.part import Sheet
from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace
from segkit.units import plain_number

WEB_MM = 2.0  # sheet between two holes; source common-practice
#: A push fit is this much wider than the body, in soft and in rigid sheet; source led-hole-practice.
SOFT_MM, RIGID_MM = 0.0, 0.2
_SOFT = ("foam board",)
PLAY_MM = 0.3  # bodies vary by so much: off the push fit by more, a bulb is loose, or splits soft sheet
RIM_MM = 0.8  # by so much the rim of an LED is wider than its body; source common-practice


def bulb_findings(
    board: Board, places: Sequence[LedPlace], sheet: Sheet, settings: MakeSettings
) -> Iterator[Finding]:
    """Whether bulbs hold in their holes, and the holes leave sheet between them.

    Codes: ``bulb-hole-tight``, ``bulb-hole-loose``, ``bulb-holes-meet``, ``bulb-at-fixing``.

    Args:
        board: all segments in place.
        places: every bulb.
        sheet: that the holes are made in.
        settings: tool, body of the bulb and its hole.

    Sources: led-hole-practice, common-practice.
    """
    yield from fit_findings(sheet, hole_mm=settings.hole_mm, body_mm=settings.led_body_mm)
    hole = settings.hole_mm
    web = min((math.dist(a.at, b.at) for a, b in _neighbours(places)), default=math.inf) - hole
    if web < WEB_MM - 1e-9:
        yield _web_finding(
            "bulb-holes-meet", f"Two bulb holes of {hole:g} mm leave", web,
            "Widen the pitch (make.bulb_pitch), or take smaller bulbs.",
        )  # fmt: skip
    apart = min((math.dist(place.at, at) for place in places for at in board.fixings), default=math.inf)
    beside = apart - (hole + board.fixing_hole_mm) / 2
    if beside < WEB_MM - 1e-9:
        yield _web_finding(
            "bulb-at-fixing", "A bulb hole and a fixing hole leave", beside, "Widen digit.margin."
        )


def _neighbours(places: Sequence[LedPlace]) -> Iterator[tuple[LedPlace, LedPlace]]:
    """All pairs within a digit."""
    for _, digit in itertools.groupby(places, key=lambda place: place.digit):
        yield from itertools.combinations(digit, 2)


def _web_finding(code: str, lead: str, web: float, remedy: str) -> Finding:
    return Finding(
        "stop" if web <= 0 else "caution", code, "face",
        f"{lead} {max(web, 0.0):.2g} mm of sheet between them.",
        value=round(web, 2), limit=WEB_MM, unit="mm", source="common-practice", remedy=remedy,
        holds=("face",) if web <= 0 else (),
    )  # fmt: skip


def fit_findings(sheet: Sheet, *, hole_mm: float, body_mm: float) -> Iterator[Finding]:
    """Whether a body goes into its hole and stays there.

    A push fit is as wide as the body in soft foam and 0.2 mm wider in rigid sheet.

    Args:
        sheet: that the hole is in.
        hole_mm: its diameter.
        body_mm: diameter of the bulb's body.

    Sources: led-hole-practice, common-practice.
    """
    soft = sheet.material in _SOFT
    push = body_mm + (SOFT_MM if soft else RIGID_MM)
    fit = f"{plain_number(hole_mm, 3)} mm in {sheet.name} for a body of {plain_number(body_mm, 3)} mm"
    if hole_mm < (push - PLAY_MM if soft else body_mm) - 1e-9:
        yield Finding(
            "caution" if soft else "stop", "bulb-hole-tight", "face",
            f"Holes of {fit}: the bulbs {'split the sheet' if soft else 'do not go in'}.",
            value=hole_mm, limit=round(push, 2), unit="mm", source="led-hole-practice",
            remedy=f'Set make.bulb_hole = "{push:g} mm", or take smaller bulbs (pocket.led).',
            holds=() if soft else ("face",),
        )  # fmt: skip
    elif hole_mm > push + PLAY_MM + 1e-9:
        through = hole_mm >= body_mm + RIM_MM - 1e-9
        yield Finding(
            "caution", "bulb-hole-loose", "face",
            f"Holes of {fit}: the bulbs {'fall through' if through else 'fall out'} unless they are glued.",
            value=hole_mm, limit=round(push, 2), unit="mm", source="led-hole-practice",
            remedy=f'Set make.bulb_hole = "{push:g} mm" for a push fit, or take larger bulbs (pocket.led).',
        )  # fmt: skip
