"""The whole job on one screen: a design in, every stage result out, with its findings and its worksheet."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Protocol

from segkit import __version__
from segkit.design.chosen import Chosen, chosen_parts
from segkit.design.schema import Design
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.cable import cable_run
from segkit.electrical.driver import package_load
from segkit.electrical.logic_level import register_input_findings
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import Load, PowerBudget, power_budget
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
    circuits = _circuits(design, parts, lightings)
    order, active = parse_order(design.power.order), active_for(parts.sink)
    channels = channel_map(
        lamps=lamps(design.display.layout), register=parts.register, sink=parts.sink, order=order,
        first_digit=design.power.first_digit,
    )  # fmt: skip
    table = _table(design, channels, active, stamp)
    cuts = _cuts(design, parts, board, places, stamp)
    budget = _budget(design, parts, board, circuits)
    results: list[_Stage] = [
        *_viewing(design, parts, board, reading, lightings),
        _Result(counts.lines(table.style), confusion_findings(_characters(design), table.style)),
        _Result(board.lines, (*board.findings, *board_findings(board))),
        *lightings.values(),
        *circuits.values(),
        *_drive(design, parts, board, circuits, channels),
        budget,
        _Result(shift_register.lines(channels), channels.findings),
        cuts,
    ]
    return Project(
        name=name, stamp=stamp, design=design, parts=parts, reading=reading, board=board, lightings=lightings,
        places=places, circuits=circuits, budget=budget, channels=channels, table=table, cuts=cuts,
        sample=_sample(design),
        lines=tuple(line for result in results for line in result.lines),
        findings=in_order(finding for result in results for finding in result.findings),
    )  # fmt: skip


class _Stage(Protocol):
    """What every stage result has: its working and its verdicts."""

    @property
    def lines(self) -> tuple[Line, ...]: ...

    @property
    def findings(self) -> tuple[Finding, ...]: ...


@dataclass(frozen=True)
class _Result:
    """Lines and findings of a step that has no record of its own to keep."""

    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()


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


def _viewing(
    design: Design, parts: Chosen, board: Board, answer: HeightAnswer, lightings: Mapping[str, Lighting]
) -> Iterable[_Stage]:
    """Whether what was drawn and lit can be read from where the reader stands."""
    reading, shape = design.reading, board.shape
    eyesight, ambient_lx = parse_eyesight(reading.eyesight), parse_light(reading.light)
    small = board.small_shape or shape
    yield answer
    yield _Result(
        (_height_line(design, answer.height_mm, shape.height_mm),),
        judge_height(
            height_mm=small.height_mm, distance_m=reading.distance_mm / 1000, eyesight=eyesight,
            angle_deg=reading.angle_deg, vertical_angle_deg=reading.vertical_angle_deg,
            stroke_ratio=design.digit.stroke, comfort=reading.comfort,
        ),
    )  # fmt: skip
    yield off_axis(
        width_mm=shape.width_mm, height_mm=shape.height_mm, angle_deg=reading.angle_deg,
        vertical_angle_deg=reading.vertical_angle_deg,
    )  # fmt: skip
    recess_mm = parts.face.thickness_mm if design.make.fit == "lip" else 0.0
    yield hidden_share(recess_mm=recess_mm, opening_mm=small.stroke_mm, angle_deg=reading.angle_deg)
    yield judge_proportions(
        height_mm=shape.height_mm, width_mm=shape.width_mm, stroke_mm=shape.stroke_mm,
        spacing_mm=design.digit.spacing * shape.height_mm, gap_mm=shape.gap_mm,
        distance_m=reading.distance_mm / 1000, eyesight=eyesight,
    )  # fmt: skip
    dimmest = min(lightings.values(), key=lambda lighting: lighting.luminance_cd_m2[1])
    lit_cd_m2 = dimmest.luminance_cd_m2[1]
    if lit_cd_m2 <= 0:
        return  # nothing to judge; the optics said why
    tint = parts.front.transmittance if parts.front else 1.0
    yield judge_contrast(
        lit_cd_m2=lit_cd_m2, unlit_reflectance=dimmest.unlit_reflectance, ambient_lx=ambient_lx,
        face_reflectance=parts.face.reflectance * tint**2,
    )  # fmt: skip
    asked, findings = judge_luminance(lit_cd_m2=lit_cd_m2, ambient_lx=ambient_lx, colour=colour_seen(parts))
    yield _Result(asked.lines, findings)
    yield night_limit(lit_cd_m2=lit_cd_m2, area_m2=board.width_mm * board.height_mm / 1e6)


def colour_seen(parts: Chosen) -> str:
    """Colour of the light that leaves the board: the LED's, or that of the fluorescence."""
    emission = parts.diffuser.emission_nm
    if not emission:
        return parts.led.colour
    return "green" if emission < 570 else "orange" if emission < 612 else "red"


def _circuits(design: Design, parts: Chosen, lightings: Mapping[str, Lighting]) -> dict[str, SegmentCircuit]:
    power, supply = design.power, parts.supply
    return {
        kind: segment_circuit(
            kind=kind, led=parts.led, leds=lighting.count, sink=parts.sink, supply_v=supply.nominal_v,
            supply_min_v=supply.min_v, supply_max_v=supply.max_v, current_a=design.pocket.current_a,
            series=power.values, tolerance=power.tolerance,
            in_series=None if power.in_series is None else min(power.in_series, lighting.count),
        )
        for kind, lighting in lightings.items()
    }  # fmt: skip


def _drive(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit], channels: ChannelMap
) -> Iterable[_Stage]:
    """The sink package with most to carry, the logic levels, the cable."""
    power, sink = design.power, parts.sink
    kinds = {(segment.digit, segment.name): segment.kind for segment in board.segments}
    packages: dict[tuple[int, int], list[SegmentCircuit]] = {}
    for channel in channels.channels:
        if channel.segment:
            place = (channel.chip, channel.bit // max(1, min(sink.outputs, 8)) if sink.outputs < 7 else 0)
            packages.setdefault(place, []).append(circuits[kinds[channel.digit, channel.segment]])
    fullest = max(packages.values(), key=lambda some: sum(c.highest_a for c in some))[: sink.outputs]
    yield package_load(
        sink, outputs_a=tuple(circuit.highest_a for circuit in fullest),
        outputs_v=_constant_current_v(parts, fullest), supply_max_v=parts.supply.max_v, logic_v=power.logic_v,
        drive_v=parts.supply.nominal_v - parts.led.vf_v * fullest[0].strings[0].leds,
    )  # fmt: skip
    controller_v = power.controller_v or power.logic_v
    yield _Result(
        findings=register_input_findings(parts.register, register_v=power.logic_v, controller_v=controller_v)
    )
    yield _cable(design, parts, board, circuits)


def _constant_current_v(parts: Chosen, circuits: Iterable[SegmentCircuit]) -> tuple[float, ...] | None:
    """A constant-current sink takes all that the string leaves of the supply."""
    if parts.sink.type != "constant-current":
        return None
    return tuple(max(0.0, parts.supply.max_v - c.strings[0].leds * parts.led.vf_min_v) for c in circuits)


def _cable(design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit]) -> _Stage:
    """Segments: a cable for each digit, one core a segment. Supply: two wires for the whole board."""
    cable = design.power.cable
    headroom_v = min(string.headroom_v for circuit in circuits.values() for string in circuit.strings)
    if headroom_v <= 0:
        return _Result()  # nothing left to lose; the string said so
    busiest = max(circuits.values(), key=lambda circuit: circuit.current_a)
    per_digit = max(sum(1 for s in board.segments if s.digit == n) for n in range(1, board.digits + 1))
    lamps_on_it = per_digit if cable.carries == "segments" else len(board.segments)
    return cable_run(
        parts.wire, length_m=cable.length_mm / 1000, segment_a=busiest.current_a, headroom_v=headroom_v,
        segments=lamps_on_it, fewest=2 if cable.carries == "segments" else min(2, lamps_on_it),
    )  # fmt: skip


def _budget(
    design: Design, parts: Chosen, board: Board, circuits: Mapping[str, SegmentCircuit]
) -> PowerBudget:
    steady = ("point", "colon")
    loads = [
        Load(
            kind=kind, count=len(segments), current_a=circuits[kind].current_a,
            highest_a=circuits[kind].highest_a,
            mean_share=1.0 if kind.split()[-1] in steady else counts.lit_mean(_style(design)) / 7,
        )
        for kind, segments in board.kinds().items()
    ]  # fmt: skip
    apart = design.power.cable.carries == "segments"
    return power_budget(
        loads, supply=parts.supply, wire_a=parts.wire.max_current_a, cables=board.digits if apart else 1
    )


def _style(design: Design) -> Style:
    return Style(six=design.glyphs.six, seven=design.glyphs.seven, nine=design.glyphs.nine)


def _custom(design: Design) -> Mapping[str, str]:
    return design.glyphs.custom


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
