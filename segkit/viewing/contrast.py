"""Whether a lit segment stands out in the light that falls on the board."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from segkit.findings import Finding
from segkit.units import plain_number
from segkit.viewing import limits
from segkit.viewing.luminance import LOWEST_CLASS, asked_luminance, light_text
from segkit.working import Given, Line

Against = Literal["unlit", "face"]

MATT_BLACK = 0.05  # reflectance (lining-materials)
LEAST, GOOD, PREFERRED = 3.0, 6.0, 10.0  # iso-9241-3; nureg-0700, nureg-0700


@dataclass(frozen=True)
class Contrast:
    """Contrast of a lit segment, reflections included.

    Attributes:
        against_unlit: against an unlit segment, which decides what digit is read.
        against_face: against the face, which decides whether a digit is seen.
        verdict: ``washed out`` (below 3), ``readable`` (3 to 6), ``good`` (6 to 10) or ``excellent``.
        lines: the worksheet lines.
        findings: verdicts.
    """

    against_unlit: float
    against_face: float
    verdict: str
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def contrast(
    *, lit_cd_m2: float, reflectance: float, ambient_lx: float, background_reflectance: float
) -> float:
    """Luminance of the lit segment over that of its background, both with the light they reflect.

        C = (L + R E/pi) / (Rb E/pi)

    Args:
        lit_cd_m2: luminance of the segment by its own light, cd/m2.
        reflectance: diffuse reflectance R of the segment, 0 to 1.
        ambient_lx: illuminance E on the board, lx.
        background_reflectance: diffuse reflectance Rb of what it is seen against, 0.001 to 1.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: diffuse-veil.

    Example:
        >>> round(contrast(lit_cd_m2=500.0, reflectance=0.6, ambient_lx=500.0, background_reflectance=0.6), 1)
        6.2
    """
    limits.check(
        lit_cd_m2=lit_cd_m2, reflectance=reflectance, ambient_lx=ambient_lx,
        background_reflectance=background_reflectance,
    )  # fmt: skip
    background = background_reflectance * ambient_lx / math.pi
    return (lit_cd_m2 + reflectance * ambient_lx / math.pi) / background


def judge_contrast(
    *,
    lit_cd_m2: float,
    unlit_reflectance: float,
    ambient_lx: float,
    face_reflectance: float,
    colour: str = "white",
    bare: bool = False,
) -> Contrast:
    """Contrast against an unlit segment and against the face, and a verdict on the poorer of the two.

    At least 3:1; 6:1 is good, 10:1 preferred.

    Args:
        lit_cd_m2: luminance of a segment by its own light, cd/m2.
        unlit_reflectance: diffuse reflectance of the segment's front, seen from outside, 0.001 to 1.
        ambient_lx: illuminance on the board, lx.
        face_reflectance: diffuse reflectance of the face, 0.001 to 1.
        colour: key of ``luminance.COLOUR_FACTORS``; a tint is no remedy where it leaves too little of it.
        bare: True where no sheet covers the lamps: a segment then reflects what its face reflects.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: diffuse-veil, iso-9241-3 (3:1), nureg-0700 (6:1, 10:1).

    Example:
        >>> seen = judge_contrast(
        ...     lit_cd_m2=500.0, unlit_reflectance=0.6, ambient_lx=500.0, face_reflectance=0.05
        ... )
        >>> seen.verdict, round(seen.against_unlit, 1)
        ('good', 6.2)
    """
    limits.check(
        lit_cd_m2=lit_cd_m2, unlit_reflectance=unlit_reflectance, ambient_lx=ambient_lx,
        face_reflectance=face_reflectance,
    )  # fmt: skip
    backgrounds: dict[Against, float] = {"unlit": unlit_reflectance, "face": face_reflectance}
    ratios = {
        name: contrast(
            lit_cd_m2=lit_cd_m2, reflectance=unlit_reflectance, ambient_lx=ambient_lx,
            background_reflectance=background,
        )
        for name, background in backgrounds.items()
    }  # fmt: skip
    lines = tuple(
        contrast_line(
            name, ratio=ratios[name], lit_cd_m2=lit_cd_m2, reflectance=unlit_reflectance,
            ambient_lx=ambient_lx, background_reflectance=background,
        )
        for name, background in backgrounds.items()
    )  # fmt: skip
    worse: Against = "face" if bare else min(ratios, key=ratios.__getitem__)
    least_cd_m2 = LOWEST_CLASS * asked_luminance(ambient_lx=ambient_lx, colour=colour).cd_m2
    findings = _judge(
        worse, ratios[worse], lit_cd_m2, unlit_reflectance, ambient_lx, backgrounds[worse], least_cd_m2,
        bare=bare,
    )  # fmt: skip
    return Contrast(ratios["unlit"], ratios["face"], verdict_of(ratios[worse]), lines, findings)


def verdict_of(ratio: float) -> str:
    """The word for a contrast ratio.

    Example:
        >>> verdict_of(2.9), verdict_of(3.0), verdict_of(6.0), verdict_of(10.0)
        ('washed out', 'readable', 'good', 'excellent')
    """
    steps = ((LEAST, "washed out"), (GOOD, "readable"), (PREFERRED, "good"))
    return next((word for step, word in steps if ratio < step * (1 - 1e-9)), "excellent")


def step_of(ratio: float) -> tuple[float, str]:
    """The step that a ratio is held against, and its source: the next one up, or the last.

    Example:
        >>> step_of(2.0), step_of(5.0), step_of(20.0)
        ((3.0, 'iso-9241-3'), (6.0, 'nureg-0700'), (10.0, 'nureg-0700'))
    """
    steps = ((LEAST, "iso-9241-3"), (GOOD, "nureg-0700"))
    return next((step for step in steps if ratio < step[0] * (1 - 1e-9)), (PREFERRED, "nureg-0700"))


def contrast_line(
    against: Against,
    *,
    ratio: float,
    lit_cd_m2: float,
    reflectance: float,
    ambient_lx: float,
    background_reflectance: float,
) -> Line:
    """The working of one contrast.

    Args:
        against: what the lit segment is seen against.
        ratio: the contrast.
        lit_cd_m2, reflectance, ambient_lx, background_reflectance: as in ``contrast``.

    Example:
        >>> contrast_line("face", ratio=9.0, lit_cd_m2=100.0, reflectance=0.5, ambient_lx=50.0,
        ...     background_reflectance=0.1).name
        'viewing.contrast_face'
    """
    seen = {"unlit": "an unlit segment", "face": "the face"}[against]
    return Line(
        f"viewing.contrast_{against}", f"Contrast of a lit segment against {seen}", f"C_{against}", ratio, "",
        "(L + R*E/pi)/(Rb*E/pi)",
        (
            Given("L", lit_cd_m2, "cd/m2", "luminance of the segment by its own light"),
            Given("R", reflectance, "", "reflectance of the segment's front"),
            Given("E", ambient_lx, "lx", "illuminance on the board"),
            Given("Rb", background_reflectance, "", f"reflectance of {seen}"),
        ),
        "diffuse-veil",
    )  # fmt: skip


def _judge(
    name: str,
    ratio: float,
    lit_cd_m2: float,
    reflectance: float,
    ambient_lx: float,
    background: float,
    least_cd_m2: float,
    *,
    bare: bool,
) -> tuple[Finding, ...]:
    verdict = verdict_of(ratio)
    if verdict in ("good", "excellent"):
        return ()
    washed = verdict == "washed out"
    limit = LEAST if washed else GOOD
    seen = {"unlit": "unlit ones", "face": "the face"}[name]
    text = (
        f"At {light_text(ambient_lx)} lit segments of {plain_number(lit_cd_m2, 3)} cd/m² stand out from "
        f"{seen} only {math.floor(100 * ratio) / 100:.2f}:1; at least {plain_number(LEAST)}:1 is needed, "
        f"{plain_number(GOOD)}:1 is good."
    )
    remedy = _remedy(
        limit, lit_cd_m2=lit_cd_m2, reflectance=reflectance, ambient_lx=ambient_lx, background=background,
        least_cd_m2=least_cd_m2, bare=bare,
    )  # fmt: skip
    return (
        Finding(
            "caution" if washed else "note", "washed-out" if washed else "low-contrast", "lit segments", text,
            round(ratio, 3), limit, "", "iso-9241-3" if washed else "nureg-0700", remedy,
        ),
    )  # fmt: skip


def _remedy(
    limit: float,
    *,
    lit_cd_m2: float,
    reflectance: float,
    ambient_lx: float,
    background: float,
    least_cd_m2: float,
    bare: bool,
) -> str:
    """What reaches a contrast: a matt black face by itself, or what it takes with it; a tint, more light.

    A tint takes T of the light and T**2 of all reflections, so ``T = L pi / ((C Rb - R) E)``. Bare lamps
    stand in the face, so that a blacker one takes the reflection from the segment too.
    """
    ways, lead = [], ""
    blackest = MATT_BLACK if bare else max(reflectance, MATT_BLACK)
    if background > blackest:
        sent_back = blackest if bare else reflectance
        on_black = contrast(
            lit_cd_m2=lit_cd_m2, reflectance=sent_back, ambient_lx=ambient_lx, background_reflectance=blackest
        )
        if on_black >= limit:
            ways.append("use a matt black face")
        else:
            background, reflectance = blackest, sent_back
            lead = f"Use a matt black face, which brings {math.floor(100 * on_black) / 100:.2f}:1; with it, "
    needed = (limit * background - reflectance) * ambient_lx / math.pi
    tint = lit_cd_m2 / needed
    weak = tint * lit_cd_m2 < least_cd_m2
    if not weak:
        ways.append(
            f"take a tinted front, or a darker one, that passes {percent_down(tint)} at most of what comes "
            f"through now, which leaves {plain_number(tint * lit_cd_m2, 2)} cd/m²"
        )
    ways += [
        "turn the board out of the light or hood it",
        f"reach {rounded_up(needed)} cd/m²",
    ]
    text = f"{lead}{', '.join(ways[:-1])}, or {ways[-1]}."
    text += " A tinted or darker front alone would leave too little light." if weak else ""
    return text[0].upper() + text[1:]


def rounded_up(value: float) -> str:
    """A luminance to reach, rounded so that it never falls short: whole, or three digits of a large one.

    Example:
        >>> rounded_up(242.1), rounded_up(60555.2), rounded_up(3.0)
        ('243', '60600', '3')
    """
    step = 10.0 ** max(0, math.floor(math.log10(max(value, 1.0))) - 2) if value >= 10_000 else 1.0
    return plain_number(math.ceil(value / step - 1e-9) * step, 3)


def percent_down(share: float) -> str:
    """A share that must not be passed, in percent, rounded down to two digits.

    Example:
        >>> percent_down(0.897), percent_down(0.0187)
        ('89 %', '1.8 %')
    """
    step = 10.0 ** (math.floor(math.log10(max(100 * share, 1e-3)) + 1e-12) - 1)
    return f"{plain_number(math.floor(100 * share / step + 1e-9) * step, 2)} %"
