"""What each cut sheet says, in plain words."""

from __future__ import annotations

from segkit.catalog.part import Sheet
from segkit.fabrication.cut_sheet import SheetText
from segkit.fabrication.settings import MakeSettings

_NAMES = "2c is segment c of digit 2, and 2: the colon after it."


def face(sheet: Sheet, settings: MakeSettings) -> SheetText:
    """The sheet of the face."""
    return SheetText(
        "FACE: SEEN FROM THE FRONT",
        "as the reader sees it",
        (*_common(sheet, settings), f"The names stand on what falls out: {_NAMES}"),
    )


def light_grid(sheet: Sheet, settings: MakeSettings, *, count: int) -> SheetText:
    """The sheet of one layer of the light grid, cut ``count`` times."""
    lining = () if sheet.opaque else ("This sheet lets light through: line the walls of the pockets.",)
    made = count * sheet.thickness_mm
    return SheetText(
        f"LIGHT GRID: CUT {count} x",
        "seen from the front",
        (
            *_common(sheet, settings),
            f"Cut {count} x and stack them: {count} x {sheet.thickness_mm:g} mm = {made:g} mm deep.",
            *lining,
        ),
    )


def back_board(sheet: Sheet, settings: MakeSettings, *, leds: int) -> SheetText:
    """The sheet of the back board."""
    return SheetText(
        "BACK BOARD: SEEN FROM BEHIND",
        "mirrored: digit 1 is on the right here",
        (
            *_common(sheet, settings),
            f"{leds} LED holes of {settings.hole_mm:g} mm. The cross (+) marks the side of the long lead, "
            "the dash that of the short lead and of the flat on the rim.",
            "As you see it here, + is on the left in segments that lie and on top in segments that stand.",
        ),
    )


def diffuser(sheet: Sheet, settings: MakeSettings, *, pieces: int, sheets: int, lip_mm: float) -> SheetText:
    """The sheet of the diffuser pieces."""
    fit = (
        f"Each piece lies over its pocket with a lip of {lip_mm:.3g} mm all round."
        if settings.fit == "lip"
        else f"Each piece is let into its opening with {settings.clearance_mm:g} mm of play all round."
    )
    several = (f"{sheets} stock sheets are needed: one in each thin frame.",) if sheets > 1 else ()
    return SheetText(
        f"DIFFUSER: {pieces} PIECES",
        "seen from the front; keep the named side towards the reader",
        (*_common(sheet, settings), fit, f"Copy each name onto its piece: {_NAMES}", *several),
    )


def _common(sheet: Sheet, settings: MakeSettings) -> tuple[str, ...]:
    kerf = settings.cut_width_mm
    line = (
        f"Kerf {kerf:g} mm, full width, is already in the lines: cut along their middle."
        if kerf
        else "No kerf: cut on the line."
    )
    thick = f"{sheet.thickness_mm:g} mm"
    return (
        f"Material: {sheet.name}{'' if thick in sheet.name else f', {thick}'}. Tool: {settings.tool}. {line}",
        "True size: print at 100 %, then measure the three bars.",
    )
