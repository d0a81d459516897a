"""What must be said with each picture: how it was made, and what it cannot show."""

from __future__ import annotations

from collections.abc import Mapping

from segkit.project import Project
from segkit.sight import glow_nm
from segkit.units import length, plain_number

#: What the model of the pocket leaves out.
NOT_DRAWN = (
    "Not modelled: the LED's body and its hole, side lobes of its beam, spread of light inside the sheet, "
    "light that leaks between pockets."
)
#: What the model of bare bulbs leaves out.
BARE_NOT_DRAWN = (
    "Not modelled: side lobes of the bulbs' beams, bulbs that are off, light that falls from the bulbs on "
    "the face."
)
_GLARE = "A screen cannot show glare, nor a light brighter than itself."
_PLAIN = (
    "The mirror image in a glossy front, the colours of what reflects and the glow of a fluorescent sheet by "
    "day are left out."
)
_EXPOSED = "Each picture is exposed as an eye that has got used to that light, on a wall of 18 % grey."
_HAZE = "The haze at night is light of the LEDs that strays within the eye."
_SCALE = (
    "All at the same scale: from twice as far the board is drawn as large and twice as blurred. From the "
    "side it is narrower, and the edge of a thick face hides part of each segment; that cut edge is drawn "
    "like the face. Bars as wide as the smallest gap that the eyes resolve keep a tenth of their contrast; "
    "your own eyes add their blur."
)

#: Under the cross-section, of pockets and of push-in bulbs.
SECTION_CAPTION = (
    "Through a segment and the next one, at the smallest gap, and through a fixing; where they lie differs. "
    "To print: fabrication/cross_section.pdf."
)
BULB_CAPTION = "Through a row of bulbs and a fixing. To print: fabrication/cross_section.pdf."
_BARE_EYES = "Drawn from the front, as blurred as the asked eyes see it from the asked distance."
_BARE_PLAIN = "The mirror image in a glossy front and the colours of what reflects are left out."
_BARE_SCALE = (
    "All at the same scale: from twice as far the board is drawn as large and twice as blurred. From the "
    "side it is narrower, and the bulbs send less light there, as their beam has it. Bars as wide as the "
    "smallest gap that the eyes resolve keep a tenth of their contrast; your own eyes add their blur."
)

#: On the sheet of lights, one paragraph each.
LIGHT_NOTES = (
    _EXPOSED,
    _HAZE,
    "The ratios are contrasts of the dimmest kind of segment, lit; 3:1 is the least for both.",
    NOT_DRAWN,
    f"{_PLAIN} {_GLARE}",
)
#: On the sheet of a reader's views.
EYE_NOTES = (_SCALE, f"{NOT_DRAWN} {_GLARE}")
#: The same for a board of push-in bulbs.
BARE_LIGHT_NOTES = (
    *LIGHT_NOTES[:2],
    f"{LIGHT_NOTES[2]} They are those of the mean over a segment, towards the reader.",
    f"{_BARE_EYES} Nearer, where the bulbs are seen one by one, each of them stands out more.",
    BARE_NOT_DRAWN,
    f"{_BARE_PLAIN} {_GLARE}",
)
BARE_EYE_NOTES = (_BARE_SCALE, f"{BARE_NOT_DRAWN} {_GLARE}")


def captions(project: Project, *, light: str, ledge: bool) -> Mapping[str, str]:
    """What stands under each picture in the build book, with what it leaves out.

    Args:
        project: a solved design.
        light: what the light of the close-up is called.
        ledge: whether let-in pieces lie on a ledge.
    """
    if project.parts.bare:
        return _bare(project, light)
    bracket = " Under a fluorescent sheet the luminance is the middle of a wide bracket."
    glows = bracket if glow_nm(project.parts) else ""
    rim = " The rim of a let-in piece lies on its ledge and is drawn unlit." if ledge else ""
    return {
        "lit": f"Worked out for {light} at the current that flows, each place by the solved map of its kind "
        "of segment. The luminances have their true ratios; the picture is exposed for its brightest place. "
        f"{_as_large(project)} {NOT_DRAWN} {_PLAIN}{rim}{glows}",
        "lights": f"{_EXPOSED} {_HAZE} {_PLAIN} {_GLARE}",
        "eye": f"{_SCALE} {_GLARE}",
        "luminance_map": "Rings: LEDs. All kinds have the same scale. Solved for matt walls, back and sheet "
        f"and typical LEDs; low and high are for dim and bright parts. {NOT_DRAWN}{glows}",
    }


def _bare(project: Project, light: str) -> Mapping[str, str]:
    """The captions of a board of push-in bulbs, which has no map of a diffuser."""
    return {
        "lit": f"Worked out for {light} at the current that flows, seen from the front: each bulb a disc as "
        "large as its body, with its share of the light of the segment. The picture is exposed for the mean "
        "over the brightest segment, which the contrasts are of, or for white paper in this light if that is "
        "brighter; bulbs brighter than that are cut, all else has its true ratio. "
        f"{_as_large(project)} {BARE_NOT_DRAWN} {_BARE_PLAIN}",
        "lights": f"{_EXPOSED} {_BARE_EYES} {_HAZE} {_BARE_PLAIN} {_GLARE}",
        "eye": f"{_BARE_SCALE} {_GLARE}",
    }


def _as_large(project: Project) -> str:
    distance_mm = project.design.reading.distance_mm
    widths = plain_number(distance_mm / project.board.width_mm, 2)
    return (
        f"From {widths} times its width away it looks as large as the board does from {length(distance_mm)}."
    )
