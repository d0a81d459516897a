"""What each cut sheet says, in plain words."""

from __future__ import annotations

from segkit.catalog.part import Sheet
from segkit.fabrication.cut_sheet import SheetText
from segkit.fabrication.settings import MakeSettings

_NAMES = "2c is segment c of digit 2; 2:up and 2:low are the dots of the colon after it."


#: What keeps small pieces from coming loose, on the sheets that have such pieces.
_LOOSE = {
    "router": (
        "Ticks across an edge are marks, the line of the cut runs on: leave a tab of 6 mm there, half the "
        "sheet thick, so that nothing comes loose under the bit.",
    ),
    "laser": ("Lay a sheet of card under small pieces, so that none tips into the beam when it is free.",),
}


def face(sheet: Sheet, settings: MakeSettings, *, fixing_hole_mm: float = 0.0) -> SheetText:
    """The sheet of the face; fixing_hole_mm is 0 where there are no fixing holes, as in all sheets."""
    return SheetText(
        "FACE: SEEN FROM THE FRONT",
        "as the reader sees it",
        (
            *_common(sheet, settings),
            *_LOOSE.get(settings.tool, ()),
            *_fixing(settings, fixing_hole_mm),
            f"The names stand on what falls out: {_NAMES}",
        ),
    )


def light_grid(sheet: Sheet, settings: MakeSettings, *, count: int, fixing_hole_mm: float = 0.0) -> SheetText:
    """The sheet of one layer of the light grid, cut ``count`` times."""
    lining = () if sheet.opaque else ("This sheet lets light through: line the walls of the pockets.",)
    made = count * sheet.thickness_mm
    return SheetText(
        f"LIGHT GRID: CUT {count} x",
        "seen from the front",
        (
            *_common(sheet, settings),
            *_LOOSE.get(settings.tool, ()),
            f"Cut {count} x and stack them: {count} x {sheet.thickness_mm:g} mm = {made:g} mm deep.",
            *_ledge(settings),
            *_fixing(settings, fixing_hole_mm),
            *lining,
        ),
    )


def back_board(
    sheet: Sheet, settings: MakeSettings, *, leds: int, turned: int = 0, fixing_hole_mm: float = 0.0
) -> SheetText:
    """The sheet of the back board; turned LEDs have their plus the other way round."""
    but = f", but the other way round at {turned} LEDs whose row runs back: go by the marks" * (turned > 0)
    return SheetText(
        "BACK BOARD: SEEN FROM BEHIND",
        "mirrored: digit 1 is on the right here",
        (
            *_common(sheet, settings),
            *_fixing(settings, fixing_hole_mm, leds=leds),
            f"{leds} LED holes of {settings.hole_mm:g} mm. The cross (+) marks the side of the long lead, "
            "the dash that of the short lead and of the flat on the rim.",
            "As you see it here, + is on the left in segments that lie and on top in segments that stand"
            f"{but}.",
            *_other_holes(settings),
        ),
    )


def _other_holes(settings: MakeSettings) -> tuple[str, ...]:
    drain = (
        f"Drains of {settings.drain_mm:g} mm, one at the foot of each pocket." if settings.drain_mm else ""
    )
    way_out = (
        f"Cable exit of {settings.cable_exit_mm:g} mm in the lower margin." if settings.cable_exit_mm else ""
    )
    return tuple(filter(None, (" ".join(filter(None, (drain, way_out))),)))


def diffuser(sheet: Sheet, settings: MakeSettings, *, pieces: int, sheets: int, lip_mm: float) -> SheetText:
    """The sheet of the diffuser pieces."""
    fit = (
        f"Each piece lies over its pocket with a lip of {lip_mm:.3g} mm all round."
        if settings.fit == "lip"
        else f"Each piece is let into its opening of the face with {settings.clearance_mm:g} mm of play "
        f"all round and rests on the ledge of {settings.ledge_mm:g} mm that the narrower grid leaves."
    )
    several = (f"{sheets} stock sheets are needed: one in each thin frame.",) if sheets > 1 else ()
    return SheetText(
        f"DIFFUSER: {pieces} PIECES",
        "seen from the front; keep the named side towards the reader",
        (
            *_common(sheet, settings),
            *_LOOSE.get(settings.tool, ()),
            fit,
            f"Copy each name onto its piece: {_NAMES}",
            *several,
        ),
    )


def diffuser_sheet(sheet: Sheet, settings: MakeSettings, *, fixing_hole_mm: float = 0.0) -> SheetText:
    """A diffuser of one sheet."""
    return SheetText(
        "DIFFUSER: ONE SHEET",
        "seen from the front",
        (
            *_common(sheet, settings, opened=False),
            "It lies between the light grid and the face; the thin outlines show where light comes through.",
            *_fixing(settings, fixing_hole_mm),
        ),
    )


def front(sheet: Sheet, settings: MakeSettings, *, fixing_hole_mm: float = 0.0) -> SheetText:
    """The tinted front."""
    return SheetText(
        "FRONT: SEEN FROM THE FRONT",
        "as the reader sees it",
        (
            *_common(sheet, settings, opened=False),
            "It lies over the whole face; the thin outlines show the segments behind it and are not cut. "
            "Leave the protective film on until it is in place.",
            *_fixing(settings, fixing_hole_mm),
        ),
    )


def reflector(
    sheet: Sheet, settings: MakeSettings, *, pieces: int, sheets: int, play_mm: float, hole_mm: float
) -> SheetText:
    """The sheet of the reflector pieces."""
    what = "lengths of tape" if sheet.role == "lining" else "stock sheets"
    several = (f"{sheets} {what} are needed: one in each thin frame.",) if sheets > 1 else ()
    leads = " Metal must not touch the leads." if sheet.material == "aluminium" else ""
    return SheetText(
        f"REFLECTOR: {pieces} PIECES",
        "seen from the front; the side that shines towards the reader",
        (
            *_common(sheet, settings),
            *_LOOSE.get(settings.tool, ()),
            f"Each lies on the back board inside its pocket, with {play_mm:.3g} mm of play all round; the "
            f"LEDs stand through holes of {hole_mm:.3g} mm.{leads}",
            f"Copy each name onto the back of its piece: {_NAMES}",
            *several,
        ),
    )


def bulb_board(sheet: Sheet, settings: MakeSettings, *, bulbs: int, fixing_hole_mm: float = 0.0) -> SheetText:
    """The board of push-in bulbs."""
    return SheetText(
        "BULB BOARD: SEEN FROM THE FRONT",
        "as the reader sees it; bulbs are pushed in from behind",
        (
            *_common(sheet, settings),
            f"Holes of {settings.hole_mm:g} mm, one for each of {bulbs} bulbs. Try one in a scrap first: it "
            "should need a push. Push each until its dome stands clear of the front.",
            *_fixing(settings, fixing_hole_mm, leds=1),
        ),
    )


def _ledge(settings: MakeSettings) -> tuple[str, ...]:
    if settings.fit != "let-in":
        return ()
    return (
        f"The pockets are narrower than the openings of the face by a ledge of {settings.ledge_mm:g} mm all "
        "round: the diffuser pieces rest on it. Do not cut the grid from the sheet of the face.",
    )


def _fixing(settings: MakeSettings, fixing_hole_mm: float, *, leds: int = 0) -> tuple[str, ...]:
    """Diameter of the fixing holes, and how all holes of the sheet are drawn."""
    drawn = (
        "Holes are cut with the rest."
        if settings.tool == "laser"
        else "Circles of holes have the finished diameter: drill them."
    )
    if not fixing_hole_mm:
        return (drawn,) if leds else ()
    return (f"Fixing holes {fixing_hole_mm:g} mm, a cross over the middle of each. {drawn}",)


def _common(sheet: Sheet, settings: MakeSettings, *, opened: bool = True) -> tuple[str, ...]:
    kerf = settings.cut_width_mm
    line = (
        f"Kerf {kerf:g} mm, full width, is already in the lines: cut along their middle."
        if kerf
        else "No kerf: cut on the line."
    )
    thick = f"{sheet.thickness_mm:g} mm"
    inner = "then openings, " if opened and not settings.bulbs else ""
    return (
        f"Material: {sheet.name}{'' if thick in sheet.name else f', {thick}'}. Tool: {settings.tool}. {line}",
        f"Order of work: holes, {inner}the outline last. "
        "True size: print at 100 %, then measure the three bars.",
    )
