"""A strip with stepped LED holes and a square to measure, cut from a scrap before the sheet is touched."""

from __future__ import annotations

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Drawing, Text
from segkit.fabrication.cut_sheet import SheetText, on_sheet
from segkit.fabrication.kerf import around_kept, inside_hole
from segkit.fabrication.layers import LINE_MM, PartShapes, part_layers
from segkit.fabrication.settings import MakeSettings
from segkit.units import plain_number

#: Steps from hole to hole: a beam or a bit can be set finer than drills are sold; source common-practice.
STEP_MM = {"laser": 0.1, "router": 0.1, "knife": 0.25, "drill": 0.25}
#: Holes below and above the planned one.
BELOW, ABOVE = 2, 4
SQUARE_MM = 20.0
_GAP_MM = 8.0


def step_diameters(settings: MakeSettings) -> tuple[float, ...]:
    """Diameters of the holes on the strip [mm], rising; the planned one is among them.

    Sources: led-hole-practice, common-practice.

    Example:
        >>> step_diameters(MakeSettings(tool="laser", led_body_mm=5.0))
        (5.0, 5.1, 5.2, 5.3, 5.4, 5.5, 5.6)
    """
    step = STEP_MM[settings.tool]
    smallest = max(settings.hole_cut_mm + 0.1, settings.hole_mm - BELOW * step)
    steps = (settings.hole_mm + k * step for k in range(-BELOW, ABOVE + 1))
    return tuple(round(size, 3) for size in steps if size >= smallest - 1e-9)


def trial_strip(sheet: Sheet, settings: MakeSettings, *, title: str, stamp: str = "") -> Drawing:
    """The strip on its page, drawn for the tool and its kerf like the parts.

    The square tells the kerf: if it measures less than 20 mm, the kerf is larger than was reckoned with, by
    as much.

    Args:
        sheet: of the back board; cut the strip from its offcut.
        settings: tool, kerf and LED.
        title, stamp: of the design.

    Sources: led-hole-practice, common-practice.
    """
    sizes = step_diameters(settings)
    pitch = max(sizes) + _GAP_MM
    height = max(SQUARE_MM, max(sizes) + 2 * _GAP_MM)
    width = _GAP_MM + pitch * len(sizes)
    kerf = settings.cut_width_mm
    centres = [(_GAP_MM / 2 + pitch * (k + 0.5), height / 2) for k in range(len(sizes))]
    square = width + _GAP_MM
    label_mm = min(3.5, 0.3 * pitch)
    shapes = PartShapes(
        led_holes=tuple(
            inside_hole(at, diameter_mm=size, kerf_mm=settings.hole_cut_mm)
            for at, size in zip(centres, sizes, strict=True)
        ),
        outlines=tuple(
            around_kept(((x, 0.0), (x + w, 0.0), (x + w, h), (x, h)), kerf_mm=kerf)
            for x, w, h in ((0.0, width, height), (square, SQUARE_MM, SQUARE_MM))
        ),
        notes=(
            *(
                Text((at[0], 1.5), plain_number(size), label_mm, "middle")
                for at, size in zip(centres, sizes, strict=True)
            ),
            Text((square + SQUARE_MM / 2, SQUARE_MM / 2 - 1.3), "20 mm", 3.6, "middle"),
        ),
    )
    layers = part_layers(shapes, settings.palette, line_mm=LINE_MM[settings.tool])
    drawn = Drawing(f"{title}: test strip", square + SQUARE_MM, height, layers, stamp=stamp)
    return on_sheet(drawn, _text(sheet, settings, title, stamp), palette=settings.palette)


def _text(sheet: Sheet, settings: MakeSettings, title: str, stamp: str) -> SheetText:
    kerf = settings.cut_width_mm
    square = (
        f"Measure the square: if it is not 20 mm, the kerf is {kerf:g} mm plus what is missing; write that "
        "as make.kerf and build again."
        if kerf
        else "Measure the square: if it is not 20 mm, the print or the cut is off."
    )
    made = (f"Made from {stamp}",) if stamp else ()
    return SheetText(
        "TEST STRIP",
        f"from an offcut of {sheet.name}",
        (
            f"Push an LED into each hole; take the one that grips without force. {settings.hole_mm:g} mm is "
            f"planned for a body of {settings.led_body_mm:g} mm.",
            square,
            *made,
        ),
        title,
    )
