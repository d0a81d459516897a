"""The whole job on one screen: a design in, every stage result out, with its findings and its worksheet."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from segkit import __version__
from segkit.design.chosen import Chosen, chosen_parts
from segkit.design.schema import Design
from segkit.drive import Result, Stage, budget_of, circuits_of, drive_stages
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import PowerBudget
from segkit.errors import InputError
from segkit.fabrication.cut_set import CutSet, cut_drawings
from segkit.fabrication.settings import MakeSettings
from segkit.findings import Finding, in_order
from segkit.firmware.table import GlyphTable, glyph_table
from segkit.geometry.board import Board, board_of
from segkit.geometry.checks import board_findings
from segkit.geometry.digit import DigitShape, one_piece_width
from segkit.glyphs import counts
from segkit.glyphs.bitmask import Active, parse_order
from segkit.glyphs.characters import Style
from segkit.glyphs.confusions import confusion_findings
from segkit.glyphs.polarity import active_for
from segkit.glyphs.text import expand, fit, lamps
from segkit.optics.diffuser import excites
from segkit.optics.placement import LedPlace, Lighting, led_places, light_board
from segkit.viewing.contrast import judge_contrast
from segkit.viewing.legibility import HeightAnswer, digit_height, judge_height, parse_eyesight
from segkit.viewing.luminance import judge_luminance, parse_light
from segkit.viewing.night import night_limit
from segkit.viewing.off_axis import hidden_share, off_axis
from segkit.viewing.proportions import judge_proportions
from segkit.wiring import shift_register
from segkit.wiring.channel_map import ChannelMap, channel_map
from segkit.working import Given, Line


@dataclass(frozen=True)
class Project:
    """A design and everything that follows from it.

    Attributes:
        name: name of the output folder.
        stamp: hash of the design and version: the same design gives the same files.
        design: what was asked.
        parts: the catalogue rows it names.
        reading: digit height by all criteria.
        board, lightings, places, circuits, budget, channels, table, cuts: results of the stages.
        sample: segments lit in the pictures, by digit.
        lines: the worksheet.
        findings: all verdicts, stops first.
    """

    name: str
    stamp: str
    design: Design
    parts: Chosen
    reading: HeightAnswer
    board: Board
    lightings: Mapping[str, Lighting]
    places: tuple[LedPlace, ...]
    circuits: Mapping[str, SegmentCircuit]
    budget: PowerBudget
    channels: ChannelMap
    table: GlyphTable
    cuts: CutSet
    sample: Mapping[int, frozenset[str]]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def solve(design: Design, *, name: str) -> Project:
    """Work out a whole design.

    Args:
        design: what was asked.
        name: name of the output folder, such as the design file without its suffix.

    Raises:
        InputError: values that fit their limits one by one but not each other, with their keys.
    """
    parts, stamp = chosen_parts(design), stamp_of(design)
    reading = _reading(design)
    shape = _shape(design, reading.height_mm)
    board = _board(design, shape)
    pocket = design.pocket
    lightings = light_board(
        board, led=parts.led, current_a=pocket.current_a, depth_mm=pocket.depth_mm, walls=parts.walls,
        diffuser=parts.diffuser, front=parts.front, evenness=pocket.evenness,
        per_segment=None if pocket.per_segment == "auto" else pocket.per_segment,
    )  # fmt: skip
    places = led_places(board, lightings)
    circuits = circuits_of(design, parts, lightings)
    order, active = parse_order(design.power.order), active_for(parts.sink)
    channels = channel_map(
        lamps=lamps(design.display.layout), register=parts.register, sink=parts.sink, order=order,
        first_digit=design.power.first_digit,
    )  # fmt: skip
    table = _table(design, channels, active, stamp)
    cuts = _cuts(design, parts, board, places, stamp)
    budget = budget_of(design, parts, board, circuits, digit_share=counts.lit_mean(table.style) / 7)
    results: list[Stage] = [
        *_legible(design, parts, board, reading),
        *_visible(design, parts, board, lightings),
        Result(counts.lines(table.style), _confusable(design, table.style)),
        Result(board.lines, (*board.findings, *board_findings(board))),
        *lightings.values(),
        *circuits.values(),
        *drive_stages(design, parts, board, circuits, channels, budget),
        budget,
        Result(shift_register.lines(channels), channels.findings),
        cuts,
    ]
    return Project(
        name=name, stamp=stamp, design=design, parts=parts, reading=reading, board=board, lightings=lightings,
        places=places, circuits=circuits, budget=budget, channels=channels, table=table, cuts=cuts,
        sample=_sample(design),
        lines=tuple(line for result in results for line in result.lines),
        findings=in_order(finding for result in results for finding in result.findings),
    )  # fmt: skip


def stamp_of(design: Design) -> str:
    """What every output is marked with: a hash of the design's values and the version; no clock.

    Comments and the order of keys in the file do not count.
    """
    text = design.model_dump_json(by_alias=True)
    return f"design {hashlib.sha256(text.encode()).hexdigest()[:12]}, segkit {__version__}"


def text_lamps(design: Design, text: str) -> Mapping[int, frozenset[str]]:
    """Segments lit by a text, by digit; all of them for an empty text.

    Raises:
        InputError: the text does not fit the layout or holds what seven segments cannot show.
    """
    found: dict[int, set[str]] = {}
    if not text:
        for digit, segment in lamps(design.display.layout):
            found.setdefault(digit, set()).add(segment)
    else:
        fitted = fit(text, layout=design.display.layout, style=_style(design), custom=_custom(design))
        found = {number: set(segments) for number, segments in enumerate(fitted.digits, 1)}
    return {digit: frozenset(segments) for digit, segments in found.items()}


def _sample(design: Design) -> Mapping[int, frozenset[str]]:
    try:
        return text_lamps(design, design.display.sample)
    except InputError as error:
        raise error.at(key="display.sample") from None


def _reading(design: Design) -> HeightAnswer:
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


def _shape(design: Design, height_mm: float) -> DigitShape:
    """The digit's lengths; a height that was worked out is rounded up to a whole millimetre."""
    digit = design.digit
    height = digit.height_mm or float(math.ceil(round(height_mm, 3)))
    stroke = digit.stroke * height
    if digit.width == "one-piece":
        width = one_piece_width(height_mm=height, stroke_mm=stroke, gap_mm=digit.gap_mm, ends=digit.ends)
    else:
        width = digit.width * height
    return DigitShape(
        height_mm=height,
        width_mm=width,
        stroke_mm=stroke,
        gap_mm=digit.gap_mm,
        ends=digit.ends,
        slant_deg=digit.slant_deg,
        point_mm=digit.point * stroke,
    )


def _height_line(design: Design, needed_mm: float, built_mm: float) -> Line:
    if design.digit.height_mm:
        given = (Given("H", built_mm, "mm", "digit.height of the design"),)
        return Line("viewing.height_built", "Digit height as built", "Hb", built_mm, "mm", "H", given,
                    "design-choice")  # fmt: skip
    given = (Given("H", round(needed_mm, 3), "mm", "digit height that was worked out"),)
    note = "rounded up to a whole millimetre"
    return Line("viewing.height_built", "Digit height as built", "Hb", built_mm, "mm", "ceil(H)", given,
                "arithmetic", note)  # fmt: skip


def _board(design: Design, shape: DigitShape) -> Board:
    digit = design.digit
    return board_of(
        layout=design.display.layout,
        shape=shape,
        small_ratio=digit.small,
        spacing_mm=digit.spacing * shape.height_mm,
        margin_mm=digit.margin_mm,
        fixing_hole_mm=digit.fixing_hole_mm,
    )


def _legible(design: Design, parts: Chosen, board: Board, answer: HeightAnswer) -> Iterable[Stage]:
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
    yield hidden_share(
        recess_mm=parts.face.thickness_mm if design.make.fit == "lip" else 0.0,
        opening_mm=(board.small_shape or shape).stroke_mm, angle_deg=reading.angle_deg,
        vertical_angle_deg=reading.vertical_angle_deg,
    )  # fmt: skip
    yield judge_proportions(
        height_mm=shape.height_mm, width_mm=shape.width_mm, stroke_mm=shape.stroke_mm,
        spacing_mm=design.digit.spacing * shape.height_mm, gap_mm=shape.gap_mm, distance_m=distance_m,
        eyesight=eyesight,
    )  # fmt: skip


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


def _visible(
    design: Design, parts: Chosen, board: Board, lightings: Mapping[str, Lighting]
) -> Iterable[Stage]:
    """Whether the dimmest kind of segment stands out by day, and whether the brightest dazzles at night."""
    by_light = sorted(lightings.values(), key=lambda lighting: lighting.luminance_cd_m2[1])
    dimmest, (_, lit_cd_m2, _) = by_light[0], by_light[0].luminance_cd_m2
    if lit_cd_m2 <= 0:
        return  # nothing to judge; the optics said why
    ambient_lx = parse_light(design.reading.light)
    tint = parts.front.transmittance if parts.front else 1.0
    yield judge_contrast(
        lit_cd_m2=lit_cd_m2, unlit_reflectance=dimmest.unlit_reflectance, ambient_lx=ambient_lx,
        face_reflectance=parts.face.reflectance * tint**2,
    )  # fmt: skip
    asked, findings = judge_luminance(lit_cd_m2=lit_cd_m2, ambient_lx=ambient_lx, colour=colour_seen(parts))
    yield Result(asked.lines, findings)
    area_m2 = board.width_mm * board.height_mm / 1e6
    yield night_limit(lit_cd_m2=by_light[-1].luminance_cd_m2[1], area_m2=area_m2)


def colour_seen(parts: Chosen) -> str:
    """Colour of the light that leaves the board: the LED's, or that of the fluorescence."""
    emission = glow_nm(parts)
    if not emission:
        return parts.led.colour
    return "green" if emission < 570 else "orange" if emission < 612 else "red"


def glow_nm(parts: Chosen) -> float:
    """Peak of the diffuser's fluorescence, nm; 0 where the LED does not make it glow."""
    return parts.diffuser.emission_nm if excites(parts.led, parts.diffuser) else 0.0


def _style(design: Design) -> Style:
    return Style(six=design.glyphs.six, seven=design.glyphs.seven, nine=design.glyphs.nine)


def _custom(design: Design) -> Mapping[str, str]:
    return design.glyphs.custom


def _confusable(design: Design, style: Style) -> tuple[Finding, ...]:
    return confusion_findings(_characters(design), style, _custom(design))


def _characters(design: Design) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*expand(design.glyphs.characters), *_custom(design))))


def _table(design: Design, channels: ChannelMap, active: Active, stamp: str) -> GlyphTable:
    try:
        return glyph_table(
            characters=_characters(design), order=channels.order, active=active, style=_style(design),
            title=design.display.title, stamp=stamp, channel_map=channels, custom=_custom(design),
        )  # fmt: skip
    except InputError as error:
        raise error.at(key="glyphs.characters") from None


def _cuts(design: Design, parts: Chosen, board: Board, places: tuple[LedPlace, ...], stamp: str) -> CutSet:
    make = design.make
    settings = MakeSettings(
        tool=make.tool, kerf_mm=make.kerf_mm, fit=make.fit, lip_mm=make.lip_mm,
        clearance_mm=make.clearance_mm, led_body_mm=parts.led.body_mm,
    )  # fmt: skip
    return cut_drawings(
        board, places, settings=settings, face=parts.face, grid=parts.grid, back=parts.back,
        diffuser=parts.diffuser, depth_mm=design.pocket.depth_mm, title=design.display.title, stamp=stamp,
    )  # fmt: skip
