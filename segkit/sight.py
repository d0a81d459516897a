"""What the reader sees: height, proportions, view from the side, light and contrast of a design."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.equal_light import mean_led_a
from segkit.electrical.string import SegmentCircuit
from segkit.fabrication.lip import smallest_gap_mm
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.optics.diffuser import excites
from segkit.optics.placement import Lighting
from segkit.optics.sheet_leak import leak_finding, leak_line
from segkit.stage import Result, Stage
from segkit.viewing.all_lights import all_lights, mirror_note
from segkit.viewing.contrast import judge_contrast
from segkit.viewing.dots import Merging, merging
from segkit.viewing.legibility import HeightAnswer, digit_height, judge_height, parse_eyesight
from segkit.viewing.luminance import LIGHTS, judge_luminance, parse_light
from segkit.viewing.night import night_limit
from segkit.viewing.off_axis import hidden_share, off_axis
from segkit.viewing.proportions import judge_proportions
from segkit.working import Given, Line

#: Low, expected, high, cd/m2.
Luminance = tuple[float, float, float]


def height_asked(design: Design) -> HeightAnswer:
    """The digit height that the reader needs, by all criteria."""
    reading = design.reading
    return digit_height(
        distance_m=reading.distance_mm / 1000,
        eyesight=parse_eyesight(reading.eyesight),
        angle_deg=reading.angle_deg,
        vertical_angle_deg=reading.vertical_angle_deg,
        stroke_ratio=design.digit.stroke,
        comfort=reading.comfort,
        baseline_m=None if reading.baseline_mm is None else reading.baseline_mm / 1000,
    )


def legible(design: Design, parts: Chosen, board: Board, answer: HeightAnswer) -> Iterable[Stage]:
    """Whether what was drawn can be told apart from where the reader stands."""
    reading, shape = design.reading, board.shape
    distance_m, eyesight = reading.distance_mm / 1000, parse_eyesight(reading.eyesight)
    yield answer
    yield Result(
        (_height_line(design, answer.height_mm, shape.height_mm),), tuple(_heights(design, board, eyesight))
    )
    yield off_axis(
        width_mm=shape.width_mm, height_mm=shape.height_mm, angle_deg=reading.angle_deg,
        vertical_angle_deg=reading.vertical_angle_deg,
    )  # fmt: skip
    if not parts.bare:
        yield hidden_share(
            recess_mm=parts.face.thickness_mm if design.make.fit == "lip" else 0.0,
            opening_mm=(board.small_shape or shape).stroke_mm, angle_deg=reading.angle_deg,
            vertical_angle_deg=reading.vertical_angle_deg,
        )  # fmt: skip
    yield judge_proportions(
        height_mm=shape.height_mm, width_mm=shape.width_mm, stroke_mm=shape.stroke_mm,
        spacing_mm=design.digit.spacing * shape.height_mm, gap_mm=shape.gap_mm, distance_m=distance_m,
        eyesight=eyesight, cut_out=not parts.bare,
    )  # fmt: skip


def run_together(design: Design, lightings: Mapping[str, Lighting]) -> Merging:
    """From where on bare bulbs are seen as one line; empty for pockets, which are one from anywhere.

    Args:
        design: what was asked.
        lightings: places and light of each kind.
    """
    reading = design.reading
    return merging(
        {kind: lighting.pitch_mm for kind, lighting in lightings.items() if lighting.dots},
        distance_m=reading.distance_mm / 1000, eyesight=parse_eyesight(reading.eyesight),
    )  # fmt: skip


def _height_line(design: Design, needed_mm: float, built_mm: float) -> Line:
    if design.digit.height_mm:
        given = (Given("H", built_mm, "mm", "digit.height of the design"),)
        return Line("viewing.height_built", "Digit height as built", "Hb", built_mm, "mm", "H", given,
                    "design-choice")  # fmt: skip
    given = (Given("H", round(needed_mm, 3), "mm", "digit height that was worked out"),)
    note = "rounded up to a whole millimetre"
    return Line("viewing.height_built", "Digit height as built", "Hb", built_mm, "mm", "ceil(H)", given,
                "arithmetic", note)  # fmt: skip


def _heights(design: Design, board: Board, eyesight: float) -> Iterable[Finding]:
    """Verdicts on the height of each size of digit on the board."""
    reading = design.reading
    for what, shape in (("digit", board.shape), ("small digit", board.small_shape)):
        if shape is not None:
            yield from judge_height(
                height_mm=shape.height_mm, distance_m=reading.distance_mm / 1000, eyesight=eyesight,
                angle_deg=reading.angle_deg, vertical_angle_deg=reading.vertical_angle_deg,
                stroke_ratio=design.digit.stroke, comfort=reading.comfort, what=what,
            )  # fmt: skip


def luminance_built(
    asked_a: float, lightings: Mapping[str, Lighting], circuits: Mapping[str, SegmentCircuit]
) -> dict[str, Luminance]:
    """Luminance of each kind at the current that flows: low, expected, high, cd/m2.

    Light goes with the current: the optics took the one asked for, the resistor to buy sets another.

    Args:
        asked_a: current asked for in a string, A.
        lightings: light at that current.
        circuits: what flows.
    """
    found = {}
    for kind, lighting in lightings.items():
        share = _flowing(circuits[kind]) / asked_a
        low, expected, high = lighting.luminance_cd_m2
        found[kind] = (low * share, expected * share, high * share)
    return found


def visible(
    design: Design,
    parts: Chosen,
    board: Board,
    lightings: Mapping[str, Lighting],
    circuits: Mapping[str, SegmentCircuit],
) -> Iterable[Stage]:
    """Whether the dimmest kind of segment stands out by day, and whether the brightest dazzles at night.

    The design's own light decides; the others are an ``AllLights`` among the stages, with one note at most.
    """
    asked_a = design.pocket.current_a
    luminance = luminance_built(asked_a, lightings, circuits)
    yield Result(_luminance_lines(asked_a, lightings, circuits, luminance))
    by_light = sorted(luminance, key=lambda kind: luminance[kind][1])
    lit_cd_m2 = luminance[by_light[0]][1]
    if lit_cd_m2 <= 0:
        return  # nothing to judge; the optics said why
    unlit, face = lightings[by_light[0]].unlit_reflectance, _face_seen(parts)
    ambient_lx, colour = parse_light(design.reading.light), colour_seen(parts)
    yield judge_contrast(
        lit_cd_m2=lit_cd_m2,
        unlit_reflectance=unlit,
        ambient_lx=ambient_lx,
        face_reflectance=face,
        colour=colour,
        bare=parts.bare,
    )
    asked, findings = judge_luminance(
        lit_cd_m2=lit_cd_m2, ambient_lx=ambient_lx, colour=colour, bare=parts.bare
    )
    yield Result(asked.lines, findings)
    named = design.reading.light.strip().lower()
    night = night_limit(
        lit_cd_m2=luminance[by_light[-1]][1], zone=design.reading.zone,
        area_m2=board.width_mm * board.height_mm / 1e6,
    )  # fmt: skip
    outdoors = named in LIGHTS  # an illuminance may be one indoors, where no night limit holds
    if outdoors:
        yield night
    yield all_lights(
        lit_cd_m2=lit_cd_m2, unlit_reflectance=unlit, face_reflectance=face, colour=colour,
        night_share=night.share if outdoors else 1.0, judged=named, bare=parts.bare,
    )  # fmt: skip
    if parts.front:
        yield Result((), (mirror_note(ambient_lx),))
    yield _through_the_sheet(design, parts, board)


def _through_the_sheet(design: Design, parts: Chosen, board: Board) -> Result:
    """What wanders in a diffuser of one sheet; nothing with single pieces, bulbs or a lone segment."""
    thick, gap = parts.diffuser.thickness_mm, smallest_gap_mm(board)
    if design.make.fit != "sheet" or design.make.construction != "pockets" or math.isinf(gap):
        return Result()
    return Result(
        (leak_line(thickness_mm=thick, gap_mm=gap),), (leak_finding(thickness_mm=thick, gap_mm=gap),)
    )


def _face_seen(parts: Chosen) -> float:
    """Reflectance of the face as the reader sees it, through the front if there is one."""
    return parts.face.reflectance * (parts.front.transmittance if parts.front else 1.0) ** 2


def _luminance_lines(
    asked_a: float,
    lightings: Mapping[str, Lighting],
    circuits: Mapping[str, SegmentCircuit],
    luminance: Mapping[str, Luminance],
) -> tuple[Line, ...]:
    lines = []
    for kind, (_, expected, _) in luminance.items():
        name, title = f"viewing.luminance.{kind.replace(' ', '-')}", f"Luminance of a lit {kind} as built"
        inputs = (
            Given("La", lightings[kind].luminance_cd_m2[1], "cd/m2", "at the current asked for"),
            Given("I", _flowing(circuits[kind]), "A", "that flows with the resistor to buy"),
            Given("Ia", asked_a, "A", "asked for"),
        )
        note = "estimate: light taken as proportional to current"
        lines.append(Line(name, title, "L", expected, "cd/m2", "La*I/Ia", inputs, "arithmetic", note))
    return tuple(lines)


def _flowing(circuit: SegmentCircuit) -> float:
    """Typical current of one LED of a segment, mean of all its LEDs, A."""
    return mean_led_a(circuit)


def colour_seen(parts: Chosen) -> str:
    """Colour of the light that leaves the board: the LED's, or that of the fluorescence."""
    emission = glow_nm(parts)
    if not emission:
        return parts.led.colour
    return "green" if emission < 570 else "orange" if emission < 612 else "red"


def glow_nm(parts: Chosen) -> float:
    """Peak of the diffuser's fluorescence, nm; 0 where the LED does not make it glow, or without one."""
    if parts.bare:
        return 0.0
    return parts.diffuser.emission_nm if excites(parts.led, parts.diffuser) else 0.0
