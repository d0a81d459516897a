"""How it is made: tool and sheets, the paper of the templates, the colours of the operations."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from segkit import units
from segkit.design.own_sheet import AnySheet
from segkit.design.quantity import Checked, Quantity, asked
from segkit.design.section import Section
from segkit.errors import InputError, Problem


def _colour(text: str) -> str:
    """``#rrggbb`` in small letters."""
    small = text.lower()
    if len(small) != 7 or small[0] != "#" or set(small[1:]) - set("0123456789abcdef"):
        raise InputError(
            Problem("not a colour.", value=text, limit="#rrggbb", remedy='Write it as in "#1e88e5".')
        )
    return small


Colour = Annotated[str, Checked(_colour, "a colour written as #rrggbb")]


class Make(Section):
    """How it is made."""

    tool: Literal["knife", "laser", "router", "drill"] = asked(
        "knife",
        "What cuts the sheets; drill for a board of holes only, its edges sawn.",
    )
    kerf_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "8 mm")] | None = asked(
        None, "Full width of the cut; by the tool if left out: 0, 0.2 mm, 3 mm.", "kerf"
    )
    fit: Literal["lip", "let-in", "sheet"] = asked(
        "lip",
        "Diffuser pieces lie on the grid with a lip, or are let into the openings; or one sheet for all.",
    )
    construction: Literal["pockets", "string-bulbs"] = asked(
        "pockets",
        "How a segment is built: a light pocket behind a diffuser, or push-in miniature bulbs, described by "
        "pocket.led, in a row of holes, with no pocket and no diffuser.",
    )
    bulb_hole_mm: Annotated[float, Quantity(units.LENGTH, "2 mm", "20 mm")] | None = asked(
        None, "Hole of a push-in bulb; a push fit for its body if left out.", "bulb_hole"
    )
    bulb_pitch_mm: Annotated[float, Quantity(units.LENGTH, "4 mm", "200 mm")] = asked(
        "20 mm", "Distance between push-in bulbs that is aimed at.", "bulb_pitch"
    )
    lip_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "20 mm")] | None = asked(
        None,
        "Lip of a piece over its opening (what the gap allows if left out), or let-in ledge (2 mm).",
        "lip",
    )
    clearance_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "5 mm")] = asked(
        "0.3 mm", "Play around a let-in piece, and between neighbouring lips.", "clearance"
    )
    grain: Literal["none", "up", "across"] = asked(
        "none",
        "Direction of the grain or film of the diffuser on the finished board; pieces are then turned on the "
        "sheet so that it runs that way in all of them.",
    )
    cable_exit_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "60 mm")] = asked(
        "10 mm", "Hole for the cable in the back board, low in the middle; 0 mm for none.", "cable_exit"
    )
    drain_mm: Annotated[float, Quantity(units.LENGTH, "2 mm", "8 mm")] = asked(
        "3 mm", "Drain hole at the lowest point of each pocket of a board outdoors.", "drain"
    )
    face: AnySheet = asked("black-foam-board-5mm", "Sheet of the face; a black one sends least light back.")
    grid: AnySheet = asked("foam-board-5mm", "Sheet of the light grid; layers make the depth.")
    back: AnySheet = asked("foam-board-5mm", "Sheet of the back board.")


class Site(Section):
    """Where it hangs."""

    place: Literal["indoors", "sheltered", "outdoors"] = asked(
        "indoors", "sheltered: outdoors under a roof; outdoors: in rain, sun and wind."
    )
    gust_m_s: Annotated[float, Quantity(units.SPEED, "1 m/s", "90 m/s")] = asked(
        "28 m/s", "Strongest gust to reckon with; 28 m/s, 100 km/h, is a storm.", "gust"
    )
    coldest_c: Annotated[float, Field(ge=-60, le=30)] = asked(-15.0, "Coldest air in degrees Celsius.")
    hottest_c: Annotated[float, Field(ge=0, le=60)] = asked(
        40.0, "Hottest air in degrees Celsius; a dark sheet in the sun is taken 30 degrees warmer."
    )


class Buying(Section):
    """What the parts list reckons with."""

    currency: Annotated[str, Field(min_length=1, max_length=6)] = asked("EUR", "Currency of the prices.")
    prices: Annotated[dict[str, Annotated[float, Field(ge=0, le=1e6)]], Field(max_length=500)] = asked(
        {},
        'Your own prices for a sheet, roll, piece, metre or m², by catalogue id: "opal-acrylic-3mm" = 14.5.',
    )


class Paper(Section):
    """The paper of the templates."""

    size: Literal["a4", "a3", "letter", "legal", "tabloid"] = asked("a4", "Paper in the printer.")
    margin_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "25 mm")] = asked(
        "6 mm", "What the printer leaves free all round; most need 4 to 6 mm.", "margin"
    )
    overlap_mm: Annotated[float, Quantity(units.LENGTH, "4 mm", "40 mm")] = asked(
        "10 mm", "By which neighbouring pages show the same, to tape them.", "overlap"
    )


class Colours(Section):
    """Colours of the operations in the cutting files, as #rrggbb."""

    led_holes: Colour = asked("#2a0f5e", "LED holes.")
    fixing_holes: Colour = asked("#7a1fa2", "Fixing holes.")
    other_holes: Colour = asked("#00796b", "Drain holes and the cable exit.")
    openings: Colour = asked("#c2185b", "Openings, cut before the outline.")
    outline: Colour = asked("#1e88e5", "Outlines, cut last.")
    guides: Colour = asked("#b9bec4", "Thin lines for the eye.")
    notes: Colour = asked("#3d434a", "Texts and marks for people.")
