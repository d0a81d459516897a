"""The pictures of a project: lit close up, in every light, to a reader's eye, and as a map of luminance."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from segkit.fabrication.pockets import pockets_or_openings
from segkit.fabrication.settings import MakeSettings
from segkit.optics.stations import bay_of
from segkit.preview.colours import lit_colour
from segkit.preview.lit import lit_drawing
from segkit.preview.luminance_map import Panel, luminance_map
from segkit.preview.scene import Lamp, Subject
from segkit.preview.sheet import png, sheet
from segkit.preview.views import PICTURE_PX, Light, Reader, by_readers, close_up, in_lights
from segkit.report.captions import BARE_EYE_NOTES, BARE_LIGHT_NOTES, EYE_NOTES, LIGHT_NOTES, NOT_DRAWN
from segkit.sight import glow_nm
from segkit.units import length, plain_number
from segkit.viewing.legibility import parse_eyesight
from segkit.viewing.luminance import LIGHTS, light_text, parse_light

if TYPE_CHECKING:
    from segkit.drawing.drawing import Drawing
    from segkit.preview.lit import Lit
    from segkit.project import Project

#: The pictures by name; each is the file ``preview/<name>.png``.
NAMES = ("lit", "lights", "eye", "luminance_map")

PANEL_PX = 640  # longer side of the board on a sheet of several pictures
FROM_SIDE_DEG = 45.0  # drawn where the design asks for no angle


@dataclass(frozen=True)
class Lighted:
    """A light on the board and what to call it.

    Attributes:
        light: what falls on the board, and how far the LEDs are dimmed.
        label: such as ``dusk (400 lx)``.
    """

    light: Light
    label: str


def subject_of(project: Project, lit: Lit | None = None) -> Subject:
    """What the pictures show: the board as it is built and wired.

    Args:
        project: a solved design.
        lit: segments lit, by digit; the design's sample if left out.
    """
    parts, make = project.parts, project.design.make
    tint = parts.front.transmittance if parts.front else 1.0
    lamps = {
        kind: Lamp(
            project.luminance[kind][1],
            lighting.unlit_reflectance,
            lighting.front,
            lighting.dots,
            lighting.places_mm,
        )
        for kind, lighting in project.lightings.items()
    }
    return Subject(
        board=project.board,
        pockets=pockets_or_openings(project.board, ledge_mm=ledge_mm(project)),
        lit=project.sample if lit is None else lit,
        lamps=lamps,
        colour=lit_colour(parts.led.colour, emission_nm=glow_nm(parts)),
        face_reflectance=parts.face.reflectance * tint**2,
        recess_mm=parts.face.thickness_mm if make.fit == "lip" and not parts.bare else 0.0,
    )


def flat(project: Project, lit: Lit, *, colour: str) -> Drawing:
    """The board lit in flat colours: its segments, or its bulbs where they are bare.

    Args:
        project: a solved design.
        lit: segments lit, by digit.
        colour: of the light, ``#rrggbb``.
    """
    bulbs = project.places if project.parts.bare else ()
    return lit_drawing(
        project.board, lit, colour=colour, title=f"{project.design.display.title}, lit", stamp=project.stamp,
        bulbs=bulbs, bulb_mm=project.parts.led.body_mm,
    )  # fmt: skip


def lighted(project: Project, text: str = "") -> Lighted:
    """A light by its name or illuminance, with the LEDs dimmed as the design has them there.

    Args:
        project: a solved design.
        text: such as ``dusk`` or ``4000 lx``; the design's light if left out.

    Raises:
        InputError: no such light.

    Sources: illuminance-lists for the names.
    """
    named = (text or project.design.reading.light).strip().lower()
    ambient_lx = parse_light(named)
    share = {light.name: light.share for light in project.lights}.get(named, 1.0)
    label = light_text(ambient_lx)
    if share == 0:
        return Lighted(Light(ambient_lx), f"{label}, lit though it must be off then")
    dimmed = "" if share == 1 else f", dimmed to {plain_number(100 * share, 2)} %"
    return Lighted(Light(ambient_lx, share), label + dimmed)


def pictures(project: Project) -> dict[str, bytes]:
    """Every picture of ``NAMES`` as the bytes of a PNG file; no map where no diffuser spreads the light.

    Args:
        project: a solved design.
    """
    subject = subject_of(project)
    return {
        "lit": png(close_up(subject, lighted(project).light, width_px=PICTURE_PX)),
        "lights": _lights(project, subject),
        "eye": _eye(project, subject),
        **({} if project.parts.bare else {"luminance_map": _map(project)}),
    }


def ledge_mm(project: Project) -> float:
    """How much narrower the pockets are than the openings, all round, mm; 0 where pieces have a lip.

    Args:
        project: a solved design.
    """
    make = project.design.make
    return MakeSettings(fit=make.fit, lip_mm=make.lip_mm).ledge_mm


def _lights(project: Project, subject: Subject) -> bytes:
    """The board in each light that has a name, and in the design's own."""
    asked = project.design.reading.light.strip().lower()
    names = [*LIGHTS, *([] if asked in LIGHTS else [asked])]
    shares = {light.name: light.share for light in project.lights}
    rows = [(name, lighted(project, name)) for name in names]
    dark = replace(rows[0][1].light, drive=0.0)
    lights = [dark if shares.get(name) == 0 else row.light for name, row in rows]
    labels = [_in_light(project, name, row.label, asked=name == asked) for name, row in rows]
    reading, bare = project.design.reading, project.parts.bare
    drawn = in_lights(
        subject, lights, distance_m=reading.distance_mm / 1000, width_px=PANEL_PX,
        eyesight=parse_eyesight(reading.eyesight) if bare else None,
    )  # fmt: skip
    title, wide = f"{project.design.display.title}: in every light", _wide(project)
    notes = BARE_LIGHT_NOTES if bare else LIGHT_NOTES
    return png(
        sheet(list(zip(drawn, labels, strict=True)), title=title, notes=notes, columns=2 if wide else 3)
    )


def _in_light(project: Project, name: str, label: str, *, asked: bool) -> str:
    light = next((light for light in project.lights if light.name == name), None)
    mark = f"{label} (asked)" if asked else label
    if light is None:
        return mark
    if not light.share:
        return f"{light_text(light.ambient_lx)}: must be switched off"
    unlit, face = (_floored(ratio) for ratio in (light.against_unlit, light.against_face))
    return f"{mark}: {light.verdict}, {unlit}:1 to unlit, {face}:1 to the face"


def _floored(ratio: float) -> str:
    """A contrast that is never rounded up to a limit that it misses."""
    return plain_number(math.floor(10 * ratio) / 10, 3) if ratio < 100 else str(math.floor(ratio))


def _eye(project: Project, subject: Subject) -> bytes:
    """The board sharp, and as the asked eyes see it: from afar, from twice as far, from the side."""
    reading, named = project.design.reading, lighted(project)
    eyes, far_m = parse_eyesight(reading.eyesight), reading.distance_mm / 1000
    side_deg = reading.angle_deg or FROM_SIDE_DEG
    who, far, twice = f"eyes {reading.eyesight}", length(reading.distance_mm), length(2 * reading.distance_mm)
    rows = (
        (Reader(far_m), "sharp, to compare"),
        (Reader(far_m, eyes), f"{who}, {far} away"),
        (Reader(2 * far_m, eyes), f"{who}, {twice} away: twice"),
        (Reader(far_m, eyes, side_deg), f"{who}, {far} away, {plain_number(side_deg)} deg to the right"),
    )
    drawn = by_readers(subject, named.light, [reader for reader, _ in rows], width_px=PANEL_PX)
    title = f"{project.design.display.title} as a reader sees it: {named.label}"
    panels = list(zip(drawn, (label for _, label in rows), strict=True))
    notes = BARE_EYE_NOTES if project.parts.bare else EYE_NOTES
    return png(sheet(panels, title=title, notes=notes, columns=2 if _wide(project) else 4))


def _wide(project: Project) -> bool:
    return project.board.width_mm >= project.board.height_mm


def _map(project: Project) -> bytes:
    pockets = pockets_or_openings(project.board, ledge_mm=ledge_mm(project)).kinds()
    panels = [
        Panel(
            _kind_title(project, kind),
            bay_of(pockets[kind][0]).outline,
            lighting.front,
            project.luminance[kind][1],
            lighting.places_mm[0] if lighting.places_mm else (),
        )
        for kind, lighting in project.lightings.items()
    ]
    note = f"Rings: LEDs. {NOT_DRAWN}"
    return luminance_map(panels, title=f"{project.design.display.title}: light on the segments", note=note)


def _kind_title(project: Project, kind: str) -> str:
    lighting, (low, mean, high) = project.lightings[kind], project.luminance[kind]
    if lighting.front is None or lighting.evenness is None:
        return f"{kind}: the diffuser does not go on, so no light is worked out"
    one = ", one of its two dots" if len(lighting.places_mm) > 1 else ""
    share = plain_number(100 * lighting.evenness, 2)
    spread = f"low {plain_number(low, 3)}, high {plain_number(high, 3)}"
    return f"{kind}{one}: mean {plain_number(mean, 3)} cd/m² ({spread}), darkest {share} % of it"
