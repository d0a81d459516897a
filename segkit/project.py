"""The whole job on one screen: a design in, every stage result out, with its findings and its worksheet."""

from __future__ import annotations

import hashlib
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit import __version__
from segkit.bench import measured
from segkit.circuits import Circuits, circuits_of
from segkit.design.chosen import Chosen, chosen_parts
from segkit.design.schema import Design
from segkit.drive import drive_stages, sink_heats
from segkit.electrical.meter import Meter
from segkit.electrical.package_heat import PackageHeat
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import PowerBudget
from segkit.errors import InputError
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.depth import built_depth_mm
from segkit.fabrication.pockets import pockets_or_openings
from segkit.feed import Feed, budget_of, feed_stages
from segkit.findings import Finding, in_order
from segkit.firmware.table import GlyphTable, glyph_table
from segkit.flash import Flashing, flashing
from segkit.geometry.board import Board, board_of
from segkit.geometry.digit import DigitShape, one_piece_width
from segkit.glyphs import counts
from segkit.glyphs.bitmask import Active, parse_order
from segkit.glyphs.confusions import confusion_findings
from segkit.glyphs.polarity import active_for
from segkit.glyphs.text import expand, fit, lamps
from segkit.loom import wired
from segkit.optics.bulbs import light_bulbs
from segkit.optics.dots import Bulbs
from segkit.optics.placement import LedPlace, Lighting, led_places, light_board
from segkit.pulsed import Pulsed, pulsed
from segkit.sight import Luminance, height_asked, legible, luminance_built, run_together, visible
from segkit.stage import Result, Stage
from segkit.viewing.all_lights import AllLights, InLight
from segkit.viewing.dots import Merging
from segkit.viewing.legibility import HeightAnswer
from segkit.viewing.night import NightLimit
from segkit.wiring import shift_register
from segkit.wiring.channel_map import ChannelMap, channel_map
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import as_wired
from segkit.working import Line
from segkit.workshop import cut_parts, drawn_board, mounted, printed, settings_of, unused_keys


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
        lights: the dimmest kind in every light, dark to bright; empty where there is no light to judge.
        luminance: of each kind at the current that flows, cd/m2: low, expected, high.
        depth_mm: of the pockets as built, which is what light, lining and sheets are reckoned with; 0 where
            there are none.
        merging: from where on bare bulbs run together; empty for pockets.
        sample: segments lit in the pictures, by digit.
        drive, heats, pulses: equal light and boards of parts as they come; sinks; dimming and turns.
        flash: tables and code for the controller, through the wiring as planned or as built.
        harness: parts, nets and wires of the board.
        meter: what a multimeter should read on it; None while the worksheet is still being made.
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
    luminance: Mapping[str, Luminance]
    lights: tuple[InLight, ...]
    merging: Merging
    budget: PowerBudget
    channels: ChannelMap
    table: GlyphTable
    cuts: CutSet
    depth_mm: float
    sample: Mapping[int, frozenset[str]]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    drive: Circuits
    heats: tuple[PackageHeat, ...]
    pulses: Pulsed
    flash: Flashing
    harness: Harness
    meter: Meter | None = None


def solve(design: Design, *, name: str) -> Project:
    """Work out a whole design.

    Args:
        design: what was asked.
        name: name of the output folder, such as the design file without its suffix.

    Raises:
        InputError: values that fit their limits one by one but not each other, with their keys.
    """
    parts, stamp = chosen_parts(design), stamp_of(design)
    reading = height_asked(design)
    board = _board(design, _shape(design, reading.height_mm))
    settings = settings_of(design, parts)
    depth_mm = 0.0 if parts.bare else built_depth_mm(parts.grid, depth_mm=design.pocket.depth_mm)
    lightings = _light(design, parts, pockets_or_openings(board, ledge_mm=settings.ledge_mm), depth_mm)
    drive = circuits_of(design, parts, board, lightings)
    strings = drive.strings(board, led_places(board, lightings))
    places = as_wired(led_places(board, lightings), strings)
    circuits = drive.by_kind
    luminance = luminance_built(design.pocket.current_a, lightings, circuits)
    channels = _channels(design, parts)
    table = _table(design, channels, active_for(parts.sink), stamp)
    cuts = cut_parts(design, parts, board, places, settings=settings, stamp=stamp)
    feed = Feed(design, parts, board, circuits)
    budget = budget_of(feed)
    seen = tuple(visible(design, parts, board, lightings, circuits))
    heats = sink_heats(design, parts, board, circuits, channels, shares=feed.content.shares)
    pulses = pulsed(design, parts, circuits, all_on_a=budget.all_on_a, night_share=_night(seen))
    flash = flashing(design, table=table, channels=channels, register=parts.register, dimmed=pulses.dimmed)
    harness = wired(
        design, parts, board, strings=strings, circuits=circuits, channels=channels,
        budget=budget, stamp=stamp,
    )  # fmt: skip
    project = Project(
        name=name, stamp=stamp, design=design, parts=parts, reading=reading, board=board, lightings=lightings,
        places=places, circuits=circuits, luminance=luminance, budget=budget,
        lights=tuple(light for stage in seen if isinstance(stage, AllLights) for light in stage.lights),
        merging=run_together(design, lightings), channels=channels, table=table,
        cuts=cuts, depth_mm=depth_mm, sample=_sample(design), lines=(), findings=(), drive=drive, heats=heats,
        pulses=pulses, flash=flash, harness=harness,
    )  # fmt: skip
    return _finished(project, _stages(project, seen, feed))


def _finished(project: Project, results: list[Stage]) -> Project:
    """The project with its worksheet, what a meter reads on it, and its verdicts."""
    lines = tuple(line for result in results for line in result.lines)
    meter = measured(project.design, project.parts, project.board, project.circuits, lines)
    kept = (one for result in results for one in result.findings if project.drive.kept(one))
    return replace(project, meter=meter, lines=(*lines, *meter.lines), findings=in_order(kept))


def _stages(project: Project, seen: tuple[Stage, ...], feed: Feed) -> list[Stage]:
    """All that has working and verdicts, in the order of the job."""
    design, parts, board, channels = project.design, project.parts, project.board, project.channels
    return [
        *legible(design, parts, board, project.reading),
        project.merging,
        *seen,
        Result(counts.lines(project.table.style), _confusable(design)),
        drawn_board(board, bare=parts.bare),
        *project.lightings.values(),
        *project.drive.stages(),
        *drive_stages(
            design, parts, board, project.circuits, channels, heats=project.heats,
            active=project.table.active,
        ),
        *feed_stages(feed, channels, project.budget),
        project.budget,
        *project.pulses.stages(),
        Result(shift_register.lines(channels), channels.findings),
        project.harness,
        project.flash,
        project.cuts,
        mounted(design, parts, board, project.cuts, depth_mm=project.depth_mm),
        printed(design, board),
        unused_keys(design),
    ]  # fmt: skip


def _night(seen: tuple[Stage, ...]) -> float:
    """Share of full luminance that the surroundings allow at night; 1 where no limit holds."""
    return next((stage.share for stage in seen if isinstance(stage, NightLimit)), 1.0)


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
        fitted = fit(
            text, layout=design.display.layout, style=design.glyphs.style, custom=design.glyphs.custom
        )
        found = {number: set(segments) for number, segments in enumerate(fitted.digits, 1)}
    return {digit: frozenset(segments) for digit, segments in found.items()}


def _sample(design: Design) -> Mapping[int, frozenset[str]]:
    try:
        return text_lamps(design, design.display.sample)
    except InputError as error:
        raise error.at(key="display.sample") from None


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


def _confusable(design: Design) -> tuple[Finding, ...]:
    glyphs = design.glyphs
    return confusion_findings(_characters(design), glyphs.style, glyphs.custom)


def _characters(design: Design) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*expand(design.glyphs.characters), *design.glyphs.custom)))


def _channels(design: Design, parts: Chosen) -> ChannelMap:
    return channel_map(
        lamps=lamps(design.display.layout), register=parts.register, sink=parts.sink,
        order=parse_order(design.power.order), first_digit=design.power.first_digit,
    )  # fmt: skip


def _table(design: Design, channels: ChannelMap, active: Active, stamp: str) -> GlyphTable:
    try:
        return glyph_table(
            characters=_characters(design), order=channels.order, active=active, style=design.glyphs.style,
            title=design.display.title, stamp=stamp, channel_map=channels, custom=design.glyphs.custom,
        )  # fmt: skip
    except InputError as error:
        raise error.at(key="glyphs.characters") from None


def _light(design: Design, parts: Chosen, pockets: Board, depth_mm: float) -> dict[str, Lighting]:
    pocket, reading = design.pocket, design.reading
    if parts.bare:
        bulbs = Bulbs(
            parts.led, pocket.current_a, design.make.bulb_pitch_mm, parts.face, parts.front,
            reading.angle_deg, reading.vertical_angle_deg,
        )  # fmt: skip
        return light_bulbs(pockets, bulbs)
    return light_board(
        pockets, led=parts.led, current_a=pocket.current_a, depth_mm=depth_mm, walls=parts.walls,
        diffuser=parts.diffuser, front=parts.front, evenness=pocket.evenness,
        per_segment=None if pocket.per_segment == "auto" else pocket.per_segment,
        rows=None if pocket.rows == "auto" else pocket.rows, reflector=parts.reflector,
        places={kind.replace("-", " "): own for kind, own in pocket.places.items()},
        layer_mm=parts.grid.thickness_mm,
    )  # fmt: skip
