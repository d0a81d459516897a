"""In which lights a board can be read, from night to full sun, and what would do in the others."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from segkit.findings import Finding
from segkit.units import plain_number
from segkit.viewing import limits
from segkit.viewing.contrast import (
    LEAST,
    MATT_BLACK,
    Against,
    contrast,
    contrast_line,
    percent_down,
    rounded_up,
    step_of,
    verdict_of,
)
from segkit.viewing.luminance import (
    DAY_CEILING_CD_M2,
    LIGHTS,
    LOWEST_CLASS,
    asked_luminance,
    light_text,
)
from segkit.working import Given, Line

GLOSS = 0.04  # one surface of acrylic or glass seen straight on (fresnel-gloss)
_DARKEST = 0.02  # no paint or foam that a builder can get is darker; what is asked for below is out of reach


@dataclass(frozen=True)
class Cure:
    """What would lift the contrast in one light to 3:1, each by itself; 0 where it cannot or need not.

    Attributes:
        luminance_cd_m2: of the lit segment by its own light.
        tint: share of light that a tint over the whole face must pass at most, on top of any that is there.
        face: reflectance of the face at most, as seen through any front.
    """

    luminance_cd_m2: float
    tint: float
    face: float


@dataclass(frozen=True)
class InLight:
    """The board in one light.

    Attributes:
        name: key of ``LIGHTS``.
        ambient_lx: illuminance on the board.
        share: dimming, 1 for full; below it only at night.
        own_cd_m2: luminance of a lit segment by its own light, dimmed.
        lit_cd_m2, unlit_cd_m2, face_cd_m2: luminances with the light that they send back.
        asked_cd_m2: what road signs are asked for in this light.
        against_unlit, against_face: contrast.
        verdict: word for the poorer contrast, as in ``contrast.verdict_of``.
        limit, source: the step that the verdict is held against, and where it is from.
        cure: what would make it readable; None where it is.
    """

    name: str
    ambient_lx: float
    share: float
    own_cd_m2: float
    lit_cd_m2: float
    unlit_cd_m2: float
    face_cd_m2: float
    asked_cd_m2: float
    against_unlit: float
    against_face: float
    verdict: str
    limit: float
    source: str
    cure: Cure | None

    @property
    def worse(self) -> float:
        """The poorer of the two contrasts."""
        return min(self.against_unlit, self.against_face)


@dataclass(frozen=True)
class AllLights:
    """The board in every light of ``LIGHTS``, dark to bright.

    Attributes:
        lights: one record a light.
        lines, findings: working and verdict.
    """

    lights: tuple[InLight, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def all_lights(
    *,
    lit_cd_m2: float,
    unlit_reflectance: float,
    face_reflectance: float,
    colour: str = "white",
    night_share: float = 1.0,
    judged: str = "",
    bare: bool = False,
) -> AllLights:
    """Contrast and verdict of one segment in every light, and what would do where it cannot be read.

        C = (L + R E/pi) / (Rb E/pi), at least 3
        by light:  L >= (3 Rb - R) E/pi
        by a tint: T <= pi L / ((3 Rb - R) E)      (it takes T of the light, T^2 of the reflections)
        by a face: Rf <= (R + pi L/E) / 3;  pi L / (2 E) where the segments reflect as the face does

    Args:
        lit_cd_m2: luminance of a lit segment by its own light, cd/m2.
        unlit_reflectance: of the segment's front seen from outside, 0.001 to 1.
        face_reflectance: of the face, 0.001 to 1.
        colour: key of ``luminance.COLOUR_FACTORS``.
        night_share: dimming at night, 0 (switched off: judged as if lit) to 1.
        judged: light that has a verdict of its own already: no note if it is the only one that fails.
        bare: True where no sheet covers the lamps: a segment then reflects what its face reflects.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: diffuse-veil, iso-9241-3 (3:1), nureg-0700 (6:1, 10:1), en-12966-l3, plg05-2015.

    Example:
        >>> seen = all_lights(lit_cd_m2=5000.0, unlit_reflectance=0.05, face_reflectance=0.05)
        >>> [(light.name, light.verdict) for light in seen.lights][-2:]
        [('shade', 'excellent'), ('sun', 'readable')]
    """
    limits.check(
        lit_cd_m2=lit_cd_m2, unlit_reflectance=unlit_reflectance, face_reflectance=face_reflectance,
    )  # fmt: skip
    seen, lines = [], []
    for name in LIGHTS:
        share = night_share if name == "night" and night_share > 0 else 1.0
        light, working = _in_light(
            name, lit_cd_m2=lit_cd_m2 * share, unlit=unlit_reflectance, face=face_reflectance, colour=colour,
            bare=bare,
        )  # fmt: skip
        seen.append(replace(light, share=night_share if name == "night" else 1.0))
        lines += working
    covered = 0.0 if bare else unlit_reflectance
    return AllLights(tuple(seen), tuple(lines), _judge(seen, judged, unlit=covered, face=face_reflectance))


def _in_light(
    name: str, *, lit_cd_m2: float, unlit: float, face: float, colour: str, bare: bool
) -> tuple[InLight, list[Line]]:
    ambient_lx = LIGHTS[name]
    backgrounds: dict[Against, float] = {"unlit": unlit, "face": face}
    ratios = {}
    lines = []
    for against, background in backgrounds.items():
        given = {
            "lit_cd_m2": lit_cd_m2, "reflectance": unlit, "ambient_lx": ambient_lx,
            "background_reflectance": background,
        }  # fmt: skip
        ratios[against] = contrast(**given)
        lines.append(_renamed(contrast_line(against, ratio=ratios[against], **given), name))
    asked = asked_luminance(ambient_lx=ambient_lx, colour=colour)
    lines += [_renamed(line, name) for line in asked.lines]
    worse = min(ratios.values())
    limit, source = step_of(worse)
    cure = None
    if verdict_of(worse) == "washed out":
        cure = cure_for(lit_cd_m2=lit_cd_m2, unlit=unlit, face=face, ambient_lx=ambient_lx, bare=bare)
        lines += _cure_lines(name, cure, lit_cd_m2=lit_cd_m2, unlit=unlit, face=face, bare=bare)
    light = InLight(
        name, ambient_lx, 1.0, lit_cd_m2, lit_cd_m2 + _sent_back(unlit, ambient_lx),
        _sent_back(unlit, ambient_lx), _sent_back(face, ambient_lx), asked.cd_m2, ratios["unlit"],
        ratios["face"], verdict_of(worse), limit, source, cure,
    )  # fmt: skip
    return light, lines


def _sent_back(reflectance: float, ambient_lx: float) -> float:
    """Luminance of a matt surface, cd/m2: ``R E / pi``."""
    return reflectance * ambient_lx / math.pi


def _renamed(line: Line, light: str) -> Line:
    return replace(
        line, name=f"{line.name}.{light}", title=f"{line.title.replace(' in this light', '')}: {light}"
    )


def cure_for(*, lit_cd_m2: float, unlit: float, face: float, ambient_lx: float, bare: bool = False) -> Cure:
    """Luminance, tint or face that by itself gives 3:1 against both unlit segments and face.

    Args:
        lit_cd_m2: luminance of the lit segment by its own light, cd/m2.
        unlit, face: reflectances, 0.001 to 1.
        ambient_lx: illuminance on the board, lx.
        bare: True where the segments reflect as the face does.

    Example:
        >>> cure = cure_for(lit_cd_m2=500.0, unlit=0.5, face=0.05, ambient_lx=5000.0)
        >>> round(cure.luminance_cd_m2), round(cure.tint, 3), cure.face
        (1592, 0.314, 0.0)
    """
    veil = (LEAST * max(unlit, face) - unlit) * ambient_lx / math.pi
    own = math.pi * lit_cd_m2 / ambient_lx
    if bare:
        return Cure(veil, min(1.0, lit_cd_m2 / veil), own / (LEAST - 1))
    darker = (unlit + own) / LEAST
    unlit_stands = contrast(
        lit_cd_m2=lit_cd_m2, reflectance=unlit, ambient_lx=ambient_lx, background_reflectance=unlit
    )
    face_helps = unlit_stands >= LEAST and darker < face
    return Cure(veil, min(1.0, lit_cd_m2 / veil), darker if face_helps else 0.0)


def _cure_lines(
    name: str, cure: Cure, *, lit_cd_m2: float, unlit: float, face: float, bare: bool
) -> list[Line]:
    """Working of the cures: luminance and tint always, a darker face where it does."""
    given = (
        Given("R", unlit, "", "reflectance of the segment's front"),
        Given(
            "Rb", max(unlit, face), "", f"reflectance of the {'face' if face > unlit else 'unlit segment'}"
        ),
        Given("E", LIGHTS[name], "lx", "illuminance on the board"),
        Given("C", LEAST, "", "contrast asked for"),
    )
    own = Given("L", lit_cd_m2, "cd/m2", "luminance of the segment by its own light")
    lines = [
        Line(
            f"viewing.needed_luminance.{name}", f"Luminance that would be readable: {name}", "L_need",
            cure.luminance_cd_m2, "cd/m2", "(C*Rb - R)*E/pi", given, "iso-9241-3",
        ),
        Line(
            f"viewing.needed_tint.{name}", f"Tint that would make it readable: {name}", "T_need",
            cure.tint, "", "pi*L/((C*Rb - R)*E)", (own, *given), "iso-9241-3",
            "share of light it passes at most, on top of any front that is there",
        ),
    ]  # fmt: skip
    if cure.face:
        formula, sent_back = ("pi*L/E/(C - 1)", ()) if bare else ("(R + pi*L/E)/C", given[:1])
        lines.append(
            Line(
                f"viewing.needed_face.{name}", f"Face that would make it readable: {name}", "R_need",
                cure.face, "", formula, (own, *sent_back, given[2], given[3]), "iso-9241-3",
                "reflectance at most, as seen through any front",
            )
        )  # fmt: skip
    return lines


def _judge(lights: list[InLight], judged: str, *, unlit: float, face: float) -> tuple[Finding, ...]:
    """One note that names the lights; none where the board can be read in all of them."""
    good = [light for light in lights if light.cure is None]
    bad = [light for light in lights if light.cure is not None]
    if not bad or [light.name for light in bad] == [judged]:
        return ()
    readable = ", ".join(light_text(light.ambient_lx) for light in good)
    failing = ", ".join(f"{light_text(light.ambient_lx)} {_floored(light.worse):.1f}:1" for light in bad)
    text = f"Can be read at: {readable or 'none of the lights'}. Washed out at: {failing}; "
    text += f"at least {plain_number(LEAST)}:1 is needed."
    return (
        Finding(
            "note", "unreadable-lights", "lit segments", text, _floored(bad[-1].worse), LEAST, "",
            bad[-1].source, _remedy(bad, unlit=unlit, face=face),
        ),
    )  # fmt: skip


def _floored(ratio: float) -> float:
    """Rounded down, so that a text never rounds up to the limit."""
    return math.floor(10 * ratio) / 10


def _remedy(bad: list[InLight], *, unlit: float, face: float) -> str:
    """What would do in the mildest light that fails, and in the brightest; the face first."""
    first = [_face_first(bad[0])] if face > max(unlit, MATT_BLACK) else []
    ends = bad[:1] if len(bad) == 1 else [bad[0], bad[-1]]
    return " ".join([*first, *(_what_would_do(light) for light in ends), "Or hood it, or turn it away."])


def _face_first(light: InLight) -> str:
    black = _sent_back(MATT_BLACK, light.ambient_lx)
    return (
        f"The face first: in {light.name} it sends back {plain_number(light.face_cd_m2, 3)} cd/m², a matt "
        f"black one ({plain_number(100 * MATT_BLACK)} %) {plain_number(black, 3)}."
    )


def _what_would_do(light: InLight) -> str:
    cure = light.cure
    assert cure is not None
    ways = []
    if cure.face >= _DARKEST:
        ways.append(f"a face that reflects {percent_down(cure.face)} at most")
    kept = cure.tint * light.own_cd_m2
    tinted = kept >= LOWEST_CLASS * light.asked_cd_m2
    if tinted:
        left = f"{plain_number(kept, 2)} cd/m²"
        ways.append(f"a tint that passes {percent_down(cure.tint)} at most and leaves {left}")
    asked = f"{rounded_up(cure.luminance_cd_m2)} cd/m²"
    if cure.luminance_cd_m2 > DAY_CEILING_CD_M2:
        asked += f", more than the {DAY_CEILING_CD_M2:.0f} that no sign should pass"
    ways.append(asked)
    weak = "" if tinted else " (a tint alone leaves too little light)"
    return f"For {light.name}: {', or '.join(ways)}{weak}."


def mirror_note(ambient_lx: float) -> Finding:
    """What a glossy front mirrors on top of everything else; it depends on where the sky stands.

    An even sky that gives E on the board has the luminance E/pi, and 4 % of it comes back.

    Args:
        ambient_lx: illuminance on the board, lx.

    Example:
        >>> mirror_note(5000.0).value
        63.7
    """
    image = GLOSS * ambient_lx / math.pi
    text = (
        f"The glossy front mirrors about {plain_number(100 * GLOSS)} % of what stands before it: under an "
        f"even sky at {light_text(ambient_lx)} about {plain_number(image, 2)} cd/m² over lit, unlit and face "
        "alike, not in the contrasts here; the image of the sun itself blinds."
    )
    return Finding(
        "note", "mirror-image", "front", text, round(image, 1), None, "cd/m2", "fresnel-gloss",
        "Tilt the board so that it mirrors something dark, or take a matt front.",
    )  # fmt: skip
