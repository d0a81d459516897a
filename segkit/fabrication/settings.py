"""How the board is made: tool, kerf, fits, holes and marks."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from segkit.errors import InputError, Problem, nearest
from segkit.fabrication.layers import Palette

TOOLS = ("knife", "laser", "router", "drill")
FITS = ("lip", "let-in", "sheet")
CONSTRUCTIONS = ("pockets", "string-bulbs")
GRAINS = ("none", "up", "across")

#: Full width of the cut by tool; source kerf-practice. A router's kerf is the diameter of its bit.
KERF_MM = {"knife": 0.0, "laser": 0.2, "router": 3.0, "drill": 0.0}
#: Narrowest and widest cut of a laser; source kerf-practice.
LASER_KERF_MM = (0.14, 0.3)
#: LED hole over LED body by tool; source led-hole-practice. A drilled hole in foam board grips by itself.
LED_CLEARANCE_MM = {"knife": 0.0, "laser": 0.2, "router": 0.2, "drill": 0.2}
LEDGE_MM = 2.0  # on which a let-in piece rests; source common-practice
WIDEST_LIP_MM = 5.0  # more lip than this costs sheet and holds no better; source common-practice


@dataclass(frozen=True)
class MakeSettings:
    """What the builder chose for the cutting.

    Attributes:
        tool: ``knife``, ``laser``, ``router`` or ``drill`` (round holes only, edges sawn on the line).
        kerf_mm: full width of the cut, 0 to 8 mm; None takes that of the tool. Knife and drill take none.
        fit: ``lip`` (diffuser pieces lie over the pockets with a lip), ``let-in`` (they sit in the
            openings) or ``sheet`` (one sheet as large as the board).
        lip_mm: how far a piece reaches over its opening, 0 to 20 mm; None takes what the gap allows. For
            let-in pieces the width of the ledge that they rest on; None takes 2 mm.
        clearance_mm: play round a let-in piece, and between neighbouring lips, 0 to 5 mm.
        led_body_mm: diameter of the LED's body.
        led_hole_mm: diameter of the LED or bulb holes; None takes the body and the tool's clearance.
        type_mm: size of the type of the notes; None takes one that suits the size of the sheet.
        palette: colours of the operations.
        grain: ``none``, or how the grain or film of the diffuser runs on the finished board: ``up`` or
            ``across``.
        cable_exit_mm: hole for the cable in the back board, 0 for none, to 60 mm.
        construction: ``pockets``, or ``string-bulbs`` (push-in bulbs in holes, no pocket, no diffuser).
        drain_mm: drain hole at the lowest point of each pocket, 0 for none, to 8 mm.

    Raises:
        InputError: unknown tool or fit, or a size out of its range; all at once.
    """

    tool: str = "knife"
    kerf_mm: float | None = None
    fit: str = "lip"
    lip_mm: float | None = None
    clearance_mm: float = 0.3
    led_body_mm: float = 5.0
    led_hole_mm: float | None = None
    type_mm: float | None = None
    palette: Palette = field(default_factory=Palette)
    grain: str = "none"
    construction: str = "pockets"
    cable_exit_mm: float = 0.0
    drain_mm: float = 0.0

    def __post_init__(self) -> None:
        problems = [
            *_unknown("tool", self.tool, TOOLS),
            *_unknown("fit", self.fit, FITS),
            *_unknown("grain", self.grain, GRAINS),
            *_unknown("construction", self.construction, CONSTRUCTIONS),
        ]
        for key, value, low, high in (
            ("kerf", self.kerf_mm, 0.0, 8.0),
            ("lip", self.lip_mm, 0.0, 20.0),
            ("clearance", self.clearance_mm, 0.0, 5.0),
            ("led_body", self.led_body_mm, 0.5, 50.0),
            ("led_hole", self.led_hole_mm, 0.5, 60.0),
            ("type", self.type_mm, 1.0, 50.0),
            ("cable_exit", self.cable_exit_mm, 0.0, 60.0),
            ("drain", self.drain_mm, 0.0, 8.0),
        ):
            problems += _out_of_range(key, value, low, high)
        if problems:
            raise InputError(problems)

    @property
    def cut_width_mm(self) -> float:
        """The kerf that the cut lines are moved for: none for a knife or a drill."""
        if self.tool in ("knife", "drill"):
            return 0.0
        return KERF_MM[self.tool] if self.kerf_mm is None else self.kerf_mm

    @property
    def hole_cut_mm(self) -> float:
        """The kerf that holes are drawn smaller by: only a laser cuts them, all others drill them."""
        return self.cut_width_mm if self.tool == "laser" else 0.0

    @property
    def ledge_mm(self) -> float:
        """How much narrower the grid's pockets are than the face's openings, all round; 0 with a lip."""
        if self.fit != "let-in":
            return 0.0
        return LEDGE_MM if self.lip_mm is None else self.lip_mm

    @property
    def corner_radius_mm(self) -> float:
        """Radius left in an inside corner: of a router's bit; that of a beam or a blade is not to be seen."""
        return self.cut_width_mm / 2 if self.tool == "router" else 0.0

    @property
    def hole_mm(self) -> float:
        """Diameter of a finished LED hole."""
        if self.led_hole_mm is not None:
            return self.led_hole_mm
        return self.led_body_mm + LED_CLEARANCE_MM[self.tool]

    @property
    def bulbs(self) -> bool:
        """Whether bulbs are pushed into a whole sheet, with no pocket and no diffuser."""
        return self.construction == "string-bulbs"


def _unknown(key: str, word: str, known: tuple[str, ...]) -> list[Problem]:
    if word in known:
        return []
    return [
        Problem(f"unknown {key}.", key=key, value=word, limit=", ".join(known), remedy=nearest(word, known))
    ]


def _out_of_range(key: str, value: float | None, low: float, high: float) -> list[Problem]:
    if value is None or (math.isfinite(value) and low <= value <= high):
        return []
    return [
        Problem(
            f"{value:g} mm is out of range.",
            key=key,
            value=f"{value:g} mm",
            limit=f"{low:g} mm to {high:g} mm",
            remedy="Measure it and write that size.",
        )
    ]
