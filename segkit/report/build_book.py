"""The build book: all chapters in order, in one HTML file that needs no other."""

from __future__ import annotations

import base64
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from segkit.electrical.segment_cable import parse_return
from segkit.findings import stops
from segkit.glyphs.characters import lookalikes
from segkit.project import Project
from segkit.report.bill_of_materials import Item, bill_of_materials
from segkit.report.captions import BARE_NOT_DRAWN, BULB_CAPTION, NOT_DRAWN, SECTION_CAPTION, captions
from segkit.report.cautions import cautions
from segkit.report.check_bar import check_bar_table
from segkit.report.circuit_rows import circuit_rows, circuit_text
from segkit.report.cut_list import Cut, cut_list
from segkit.report.drive_tables import drive_tables
from segkit.report.feed_tables import feed_tables
from segkit.report.findings_table import findings_table
from segkit.report.flashing import SHOWN, fault_rows, flashing_tables
from segkit.report.glance import glance, verdict
from segkit.report.kinds import kind_rows, kinds_caption
from segkit.report.lamp import lamp_svg
from segkit.report.lights import light_rows, lights_caption
from segkit.report.pictures import ledge_mm, lighted
from segkit.report.sources_list import sources_list
from segkit.report.stack import stack
from segkit.report.wiring_sheets import READING, wiring_sheets
from segkit.report.worksheet import worksheet
from segkit.sources import source
from segkit.units import length, plain_number
from segkit.wiring.cable_cores import cable_cores
from segkit.wiring.channel_table import byte_lines

CHAPTERS = (
    ("glance", "At a glance"),
    ("findings", "Findings"),
    ("reading", "How tall the digits must be"),
    ("light", "Light, and in which it can be read"),
    ("cutting", "Cutting"),
    ("parts", "Parts to buy"),
    ("circuit", "What lights a segment"),
    ("feed", "From the plug to the board"),
    ("wiring", "Which output lights which segment"),
    ("harness", "Wiring"),
    ("glyphs", "The glyph table"),
    ("flashing", "Flashing it"),
    ("worksheet", "Worksheet"),
    ("cautions", "Cautions"),
    ("limits", "What is not worked out"),
    ("sources", "Sources"),
)

#: What the reader must not take from the figures.
LIMITS = (
    "The light in a pocket is solved for matt walls, back and sheet and a typical LED: try one sample pocket "
    "before all are cut.",
    f"{NOT_DRAWN} Warming of the LEDs is left out of the light.",
    "The controller is not in the parts list, nor the supply of its logic unless the design names one.",
    "The rim of a let-in piece lies on its ledge and stays darker than the rest.",
    "LED figures are those of a typical row of the catalogue; measure the ones you bought.",
    "A battery is reckoned new and at room temperature; wind load, fixings and rain are not reckoned.",
    "Ringing on signal wires is judged by their length, not simulated: keep the chips close together.",
)

#: Those of ``LIMITS`` that are about pockets, and what stands in their place for push-in bulbs.
_OF_POCKETS = (LIMITS[0], LIMITS[1], LIMITS[3])
BARE_LIMITS = (
    "The light of bare bulbs is that of their beam as the catalogue has it, domes clear of the face: hold "
    "one beside a lamp that you know before all are pushed in.",
    f"{BARE_NOT_DRAWN} Warming of the bulbs is left out of the light.",
)


def build_book(project: Project, pictures: Mapping[str, str]) -> str:
    """The build book as HTML text.

    Args:
        project: what it is about.
        pictures: those of ``pictures.NAMES`` and the names of the cut parts to image data URIs; a part that
            is held back has none.
    """
    from jinja2 import Environment, StrictUndefined

    folder = files("segkit.report")
    environment = Environment(autoescape=True, undefined=StrictUndefined, keep_trailing_newline=True,
                              trim_blocks=False)  # fmt: skip
    template = environment.from_string((folder / "build_book.html.j2").read_text(encoding="utf-8"))
    css = (folder / "book.css").read_text(encoding="utf-8")
    return template.render(css=css, pictures=pictures, **_chapters(project, pictures))


def data_uri(content: bytes, kind: str) -> str:
    """A file as text inside a page.

    Example:
        >>> data_uri(b"<svg/>", "image/svg+xml")
        'data:image/svg+xml;base64,PHN2Zy8+'
    """
    return f"data:{kind};base64,{base64.b64encode(content).decode('ascii')}"


def _chapters(project: Project, pictures: Mapping[str, str]) -> dict[str, Any]:
    design = project.design
    return {
        "title": design.display.title,
        "name": project.name,
        "stamp": project.stamp,
        "stopped": stops(project.findings),
        "verdict": verdict(project),
        "chapters": CHAPTERS,
        "sample": f"“{design.display.sample}”" if design.display.sample else "every segment lit",
        "captions": captions(project, light=lighted(project).label, ledge=ledge_mm(project) > 0),
        "glance": glance(project),
        "findings": findings_table(project.findings, bare=project.parts.bare),
        "reader": _reader(project),
        "criteria": _criteria(project),
        "kinds": kind_rows(project),
        "kinds_caption": kinds_caption(project),
        "bare": project.parts.bare,
        "lights": light_rows(project),
        "light_caption": lights_caption(project),
        "asked_light": design.reading.light.strip().lower(),
        "stack": stack(project),
        "section_caption": SECTION_CAPTION if project.cuts.counts["light_grid"] else BULB_CAPTION,
        "sheets": [_sheet(cut, pictures) for cut in cut_list(project)],
        "check_bar": (check_bar_table(project),),
        "parts": [_part(item) for item in bill_of_materials(project)],
        "circuits": circuit_rows(project),
        "circuit_text": circuit_text(project),
        "feed_tables": feed_tables(project),
        "drive_tables": drive_tables(project),
        "channels": _channels(project),
        "bytes": byte_lines(project.channels),
        "cores": _cores(project),
        "wiring_sheets": wiring_sheets(project, pictures),
        "wiring_reading": READING,
        "glyphs": _glyphs(project),
        "glyph_text": _glyph_text(project),
        "flashing_tables": flashing_tables(project),
        "fault_rows": fault_rows(project),
        "faults_shown": SHOWN,
        "worksheet": worksheet(project.lines),
        "cautions": cautions(
            tool=design.make.tool, source=design.power.source, wavelength_nm=project.parts.led.wavelength_nm
        ),
        "limits": _limits(project),
        "sources": sources_list(project.lines, project.findings, project.parts.sources()),
    }


def _limits(project: Project) -> tuple[str, ...]:
    if not project.parts.bare:
        return LIMITS
    return (*BARE_LIMITS, *(text for text in LIMITS if text not in _OF_POCKETS))


def _reader(project: Project) -> str:
    asked = project.design.reading
    side = f", {plain_number(asked.angle_deg)}° to the side" if asked.angle_deg else ""
    return (
        f"For a reader with {asked.eyesight} at {length(asked.distance_mm)}{side}; the board has digits of "
        f"{length(project.board.shape.height_mm)}."
    )


def _criteria(project: Project) -> list[dict[str, str | bool]]:
    return [
        {
            "name": criterion.name,
            "height": length(criterion.height_mm),
            "angle": f"{plain_number(criterion.arcmin, 3)}′",
            "chosen": criterion.chosen,
            "remark": criterion.remark,
            "source": source(criterion.source).cited(),
        }
        for criterion in project.reading.criteria
    ]


def _sheet(cut: Cut, pictures: Mapping[str, str]) -> dict[str, str]:
    caption = "Seen from behind, mirrored." if cut.part == "back_board" else "Seen from the front."
    return {
        "title": cut.name[0].upper() + cut.name[1:],
        "text": cut.text,
        "picture": pictures.get(cut.part, ""),
        "caption": caption,
    }


def _part(item: Item) -> dict[str, str]:
    unit = "" if item.unit == "pcs" else f" {item.unit}"
    if item.buy == 1 and item.unit in ("sheets", "rolls"):
        unit = unit.removesuffix("s")
    return {
        "buy": f"{plain_number(item.buy)}{unit}",
        "used": plain_number(item.used),
        "what": item.what,
        "remark": item.remark,
        "id": item.id,
    }


def _channels(project: Project) -> list[dict[str, Any]]:
    return [
        {
            "digit": channel.digit or "",
            "segment": channel.segment or "spare",
            "chip": channel.chip,
            "output": channel.output,
            "pin": channel.pin,
            "sink_pin": channel.sink_pin or "",
            "bit": channel.bit,
            "place": channel.place,
        }
        for channel in project.channels.channels
    ]


def _cores(project: Project) -> list[dict[str, Any]]:
    """Digits wired alike with the colours of their cores; none where two wires feed the board."""
    if project.design.power.cable.carries != "segments":
        return []
    return [
        {
            "digits": f"Digit{'s' if len(cable.digits) > 1 else ''} {', '.join(map(str, cable.digits))}",
            "cores": cable.cores,
        }
        for cable in cable_cores(
            project.channels,
            project.parts.wire,
            commons=parse_return(project.design.power.cable.returns).cores,
        )
    ]


def _glyphs(project: Project) -> list[dict[str, str]]:
    table = project.table
    alike = lookalikes([g.char for g in table.glyphs], table.style, project.design.glyphs.custom)
    return [
        {
            "char": "blank" if glyph.char == " " else glyph.char,
            "lamp": lamp_svg(glyph.segments),
            "hex": f"0x{glyph.mask:02X}",
            "binary": f"{glyph.mask:08b}",
            "segments": " ".join(glyph.segments),
            "remark": "; ".join(
                f"looks like {', '.join(c for c in group if c != glyph.char)}"
                for group in alike
                if glyph.char in group
            ),
        }
        for glyph in table.glyphs
    ]


def _glyph_text(project: Project) -> str:
    table = project.table
    lit = "A 1 lights" if table.active == "high" else "A 0 lights"
    why = (
        "the sink inverts, so nothing else may"
        if table.active == "high"
        else "the outputs sink the current themselves"
    )
    return f"Bits 7 to 0 are {' '.join(table.order)}. {lit}: {why}."
