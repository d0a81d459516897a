"""Outdoors: sheets that grow and soften in the sun, that soak in the rain, and boxes that breathe."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from segkit.catalog.part import Sheet
from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.geometry.polygon import area
from segkit.units import plain_number
from segkit.working import Given, Line

PLACES = ("indoors", "sheltered", "outdoors")
ASSEMBLED_C = 20.0
_SLOT_MM = 0.5  # play of a screw in its hole; source common-practice
_SOAKS = ("foam board", "MDF", "hardboard", "tracing paper", "plywood")
_SOFTENS = {"foamed PVC": 60.0, "acrylic": 80.0}  # degC, service limit; source board-materials
_DARK = 0.1  # reflectance
_IN_SUN_K = 30.0  # a dark sheet in the sun is so much warmer than the air; source common-practice


@dataclass(frozen=True)
class Site:
    """Where the board hangs.

    Attributes:
        place: ``indoors``, ``sheltered`` (outdoors, out of rain and wind) or ``outdoors``.
        gust_m_s: strongest gust to reckon with, above 0.
        coldest_c, hottest_c: of the air.
    """

    place: str = "indoors"
    gust_m_s: float = 28.0
    coldest_c: float = -15.0
    hottest_c: float = 40.0


def growth_line(part: str, sheet: Sheet, site: Site, *, length_mm: float) -> Line:
    """How much a sheet grows from its coldest to its hottest: ``a*L*dT``.

    Args:
        part: name of the part.
        sheet: what it is cut from.
        site: temperatures of the air; a dark sheet in the sun is taken 30 K warmer.
        length_mm: its longest side, above 0.

    Sources: the ``source`` of the sheet; common-practice for the sun.
    """
    rise = hottest(sheet, site) - site.coldest_c
    return Line(
        f"fabrication.growth.{part}", f"growth of the {part.replace('_', ' ')}, cold to hot", "d",
        sheet.expansion_per_k * length_mm * rise, "mm", "a*L*dT",
        (
            Given("a", sheet.expansion_per_k, "1/K", f"expansion of {sheet.name}"),
            Given("L", length_mm, "mm", "longest side"),
            Given("dT", rise, "K", "from the coldest air to the sheet at its hottest"),
        ),
        sheet.source,
    )  # fmt: skip


def hottest(sheet: Sheet, site: Site) -> float:
    """Temperature of a sheet at its hottest [degC]: of the air, in the sun 30 K more if it is dark."""
    return site.hottest_c + (_IN_SUN_K if site.place == "outdoors" and sheet.reflectance < _DARK else 0.0)


def weather_findings(
    board: Board,
    pockets: Board,
    sheets: Mapping[str, Sheet],
    settings: MakeSettings,
    site: Site,
    *,
    depth_mm: float,
) -> Iterator[Finding]:
    """What sun, rain and frost do; nothing indoors.

    Codes: ``expansion-slots``, ``piece-jams``, ``soft-in-sun``, ``not-weatherproof``, ``vent-and-drain``.

    Args:
        board, pockets: with the openings of the face and of the grid.
        sheets: by part.
        settings: fit and clearance.
        site: where it hangs.
        depth_mm: of the pockets.

    Sources: board-materials, common-practice, gas-law.
    """
    if site.place == "indoors":
        return
    yield from _slots(board, sheets, site)
    if settings.fit == "let-in":
        yield from _jams(board, sheets, settings, site)
    for part, sheet in sheets.items():
        yield from _sheet_findings(part, sheet, site)
    yield _breathing(pockets, site, depth_mm)


def bulb_weather_findings(face: Sheet, site: Site) -> Iterator[Finding]:
    """What sun and rain do to a board of push-in bulbs; nothing indoors.

    Codes: ``soft-in-sun``, ``not-weatherproof``, ``open-rear``.

    Args:
        face: the sheet that the bulbs stand in.
        site: where it hangs.

    Sources: board-materials, common-practice.
    """
    if site.place == "indoors":
        return
    yield from _sheet_findings("face", face, site)
    yield Finding(
        "caution", "open-rear", "bulb board",
        "Leads, resistors and wires lie open on the rear, and water runs in round each bulb.",
        value=site.place, source="common-practice",
        remedy="Put a box with holes at its foot behind it, a bead of clear sealant round each bulb, and "
        "varnish over the joints.",
    )  # fmt: skip


def _slots(board: Board, sheets: Mapping[str, Sheet], site: Site) -> Iterator[Finding]:
    if not board.fixings:
        return
    back = sheets["back_board"]
    reach = max(abs(x - board.width_mm / 2) for x, _ in board.fixings)
    for part in ("face", "light_grid"):
        sheet = sheets[part]
        hot, cold = hottest(sheet, site) - ASSEMBLED_C, ASSEMBLED_C - site.coldest_c
        play = max(hot, cold) * abs(sheet.expansion_per_k - back.expansion_per_k) * reach
        if play > _SLOT_MM:
            length = math.ceil(2 * play + board.fixing_hole_mm)
            yield Finding(
                "caution", "expansion-slots", part.replace("_", " "),
                f"Between cold and hot, {sheet.name} moves {play:.2g} mm over the {back.name} at the "
                f"outermost screws, which have {_SLOT_MM:g} mm of play.",
                value=round(play, 2), limit=_SLOT_MM, unit="mm", source=sheet.source,
                remedy=f"Make the outer fixing holes of the {part.replace('_', ' ')} slots {length} mm long, "
                "along the board; fix it tight only in the middle.",
            )  # fmt: skip


def _jams(board: Board, sheets: Mapping[str, Sheet], settings: MakeSettings, site: Site) -> Iterator[Finding]:
    piece, face = sheets["diffuser"], sheets["face"]
    longest = max(segment.length_mm for segment in board.segments)
    grown = piece.expansion_per_k * (hottest(piece, site) - ASSEMBLED_C)
    shrunk = face.expansion_per_k * (hottest(face, site) - ASSEMBLED_C)
    tight = max(
        grown - shrunk, (face.expansion_per_k - piece.expansion_per_k) * (ASSEMBLED_C - site.coldest_c)
    )
    closing = tight * longest
    if closing > 2 * settings.clearance_mm:
        yield Finding(
            "caution", "piece-jams", "diffuser",
            f"The longest let-in piece, {longest:.0f} mm, closes in on its opening by {closing:.2g} mm; "
            f"its play of {settings.clearance_mm:g} mm on each side is less.",
            value=round(closing, 2), limit=2 * settings.clearance_mm, unit="mm", source=piece.source,
            remedy=f"Make make.clearance {math.ceil(closing * 5) / 10:g} mm or more.",
        )  # fmt: skip


def _sheet_findings(part: str, sheet: Sheet, site: Site) -> Iterator[Finding]:
    name = part.replace("_", " ")
    limit, hot = _SOFTENS.get(sheet.material), hottest(sheet, site)
    if limit is not None and hot > limit - 1e-9:
        yield Finding(
            "caution", "soft-in-sun", name,
            f"Dark {sheet.name} in the sun reaches about {hot:.0f} °C; it softens and warps "
            f"from {limit:.0f} °C on.",
            value=hot, limit=limit, unit="°C", source="board-materials",
            remedy="Take a light colour, aluminium composite, or hang the board in the shade.",
        )  # fmt: skip
    if site.place == "outdoors" and sheet.material in _SOAKS:
        yield Finding(
            "caution", "not-weatherproof", name,
            f"{sheet.name} takes up water and swells; the {name} will not last in the rain.",
            value=sheet.material, source="board-materials",
            remedy="Take aluminium composite, acrylic or another plastic, or seal all faces and edges and "
            "hang the board under a roof.",
        )  # fmt: skip


def breath_litres(volume_l: float, *, hot_c: float, cold_c: float) -> float:
    """Outside air that a box draws in when it cools: ``V*(1 - T1/T2)`` with absolute temperatures.

    Args:
        volume_l: of the box in litres, above 0.
        hot_c, cold_c: temperatures of the air in it, cold below hot.

    Sources: gas-law.

    Example:
        >>> round(breath_litres(10, hot_c=60, cold_c=10), 2)
        1.5
    """
    return volume_l * (1 - (cold_c + 273.15) / (hot_c + 273.15))


def _breathing(pockets: Board, site: Site, depth_mm: float) -> Finding:
    litres = sum(area(o) for s in pockets.segments for o in s.outlines) * depth_mm / 1e6
    drawn = breath_litres(
        litres, hot_c=site.hottest_c + _IN_SUN_K / 2, cold_c=min(10.0, site.coldest_c + 20.0)
    )
    return Finding(
        "note", "vent-and-drain", "board",
        f"The pockets hold {plain_number(litres, 2)} litres; on an evening that cools them they draw in "
        f"about {plain_number(drawn, 2)} litres of damp air, sealed or not.",
        value=round(drawn, 2), unit="l", source="gas-law",
        remedy="Do not seal them: each pocket has a drain hole at its lowest point, the box behind wants two "
        "at its lowest corners, sheltered. Lead the cable in from below, with a loop that drips.",
    )  # fmt: skip
