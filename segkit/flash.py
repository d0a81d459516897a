"""What the controller of a design gets: tables and code, for the board as planned or as it was wired."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit.catalog.part import ShiftRegister
from segkit.design.chosen import chosen_parts
from segkit.design.schema import Design
from segkit.electrical.dimming import Dimming
from segkit.electrical.logic_level import register_input_findings
from segkit.errors import InputError
from segkit.findings import Finding
from segkit.firmware import cost
from segkit.firmware.as_built import as_built, as_built_findings
from segkit.firmware.driver import Driver, Pins, RegisterPins, brightness, driver
from segkit.firmware.exporters import export_all, export_frames
from segkit.firmware.frames import FrameTable, frame_table
from segkit.firmware.source_code import source_code
from segkit.firmware.table import GlyphTable, glyph_table
from segkit.firmware.turns import Turns, turns
from segkit.firmware.wiring import Wiring, planned, written
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import plain_text
from segkit.glyphs.polarity import active_for
from segkit.glyphs.segments import COLON, POINT
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import ChannelMap, channel_map
from segkit.wiring.channel_table import Built
from segkit.working import Line

_LOW_V = 3.3  # of most controllers that run MicroPython; source common-practice


@dataclass(frozen=True)
class Flashing:
    """Tables and code of a board.

    Attributes:
        planned: the wiring by the channel map.
        table: the byte of each character, in the order and polarity of the board.
        frames: every character on every digit, through the wiring as it is.
        driver: what the code is written from.
        lines: the working of flash and RAM.
        findings: verdicts on the board as built.
    """

    planned: Wiring
    table: GlyphTable
    frames: FrameTable
    driver: Driver
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]

    @property
    def built(self) -> Built | None:
        """What each output lights by the walk test; None where there was none."""
        wiring = self.driver.wiring
        return {(one.chip, one.name): one.lights for one in wiring.outputs} if wiring.as_built else None


def flashing(
    design: Design, *, table: GlyphTable, channels: ChannelMap, register: ShiftRegister, dimmed: Dimming
) -> Flashing:
    """Tables and code for the board, which is as the walk test found it where the design says so.

    Args:
        design: what was asked.
        table: the characters, in the order and polarity planned.
        channels: which output lights which segment, as planned.
        register: of the chain.
        dimmed: levels of brightness.

    Raises:
        InputError: a map as built that does not fit the board; keys as in the design file.
    """
    plan = planned(channels, table.active)
    wiring = wired(design, plan)
    if wiring.as_built:
        table = _made_again(table, wiring, design)
    in_turn, notes = _turns(design, table, dimmed)
    code = driver(
        layout=design.display.layout,
        wiring=wiring,
        table=_with_sample(table, design),
        sample=design.display.sample,
        serial=design.firmware.serial,
        pins=Pins(**design.firmware.pins.model_dump()),
        gpio=Pins(**design.firmware.gpio.model_dump()),
        register=RegisterPins(register.data_pin, register.clock_pin, register.latch_pin, register.enable_pin),
        bright=brightness(dimmed, frequency_hz=design.dimming.frequency_hz),
        clock_hz=design.power.signals.clock_hz,
        turns=in_turn,
    )
    return Flashing(
        planned=plan,
        table=table,
        frames=frame_table(table, wiring),
        driver=code,
        lines=cost.lines(code),
        findings=(*as_built_findings(plan, wiring), *notes, *_low_level(design, register)),
    )


def plan_of(design: Design) -> Wiring:
    """The wiring by the design alone, without its light and its sheets.

    Args:
        design: what was asked.

    Raises:
        InputError: a layout that cannot be wired.
    """
    parts = chosen_parts(design)
    channels = channel_map(
        lamps=lamps(design.display.layout), register=parts.register, sink=parts.sink,
        order=parse_order(design.power.order), first_digit=design.power.first_digit,
    )  # fmt: skip
    return planned(channels, active_for(parts.sink))


def wired(design: Design, plan: Wiring) -> Wiring:
    """The wiring as the walk test found it, or as planned where there was none.

    Args:
        design: what was asked.
        plan: the wiring by the channel map.

    Raises:
        InputError: a map that does not fit the board.
    """
    built = design.as_built
    if not built.chips and built.active is None:
        return plan
    if not built.chips:
        return replace(plan, active=built.active or plan.active, as_built=True)
    try:
        return as_built(plan, chips=built.chips, active=built.active)
    except InputError as error:
        keyed = [replace(problem, key=f"as_built.{problem.key}") for problem in error.problems]
        raise InputError(keyed) from None


def _turns(design: Design, table: GlyphTable, dimmed: Dimming) -> tuple[Turns | None, tuple[Finding, ...]]:
    """Timing of the digits where the design has all of them take turns, or why there is no code for it."""
    asked, own = design.turns, lamps(design.display.layout)
    digits = max(digit for digit, _ in own)
    if asked.digits == 1:
        return None, ()
    if asked.digits != digits:
        return None, (_no_turns(f"the round is of {asked.digits} digits and the board has {digits}"),)
    if any((digit, POINT) in own and (digit, COLON) in own for digit in range(1, digits + 1)):
        return None, (_no_turns("a digit with a point and a colon has nine lamps"),)
    try:
        timing = turns(
            digits=digits, order=table.order, active=table.active, refresh_hz=asked.refresh_hz,
            dark_s=asked.dark_s, dimmed=dimmed,
        )  # fmt: skip
    except InputError as error:
        return None, (_no_turns(error.problems[0].text.rstrip(".")),)
    return timing, ()


def _no_turns(why: str) -> Finding:
    return Finding(
        level="note",
        code="no-code-for-turns",
        subject="digits in turn",
        text=f"There is code for the static board alone: {why}.",
        source="turn-taking-practice",
        remedy="Let all digits of the board, two to eight, take turns in one round: [turns] digits.",
    )


def firmware_files(made: Flashing) -> Mapping[str, bytes]:
    """Every file of the firmware, path inside the output folder to content.

    Args:
        made: from ``flashing``.
    """
    texts = {**export_all(made.table), **source_code(made.driver)}
    return {
        **{f"firmware/{name}": text.encode("utf-8") for name, text in texts.items()},
        **{f"firmware/{name}": content for name, content in export_frames(made.frames).items()},
    }


def _made_again(table: GlyphTable, wiring: Wiring, design: Design) -> GlyphTable:
    """The table in the polarity of the board as it is, with its real wiring in the heading."""
    again = glyph_table(
        characters=[glyph.char for glyph in table.glyphs], order=table.order, active=wiring.active,
        style=table.style, title=table.title, stamp=table.stamp, custom=design.glyphs.custom,
    )  # fmt: skip
    lines = [
        f"byte {sent}: chip {row[0].chip}; bits 7 to 0: {' '.join(written(output.lights) for output in row)}"
        for sent, row in enumerate(wiring.rows, start=1)
    ]
    warning = "The board is not wired as planned (walk test): take the frame table, or the code beside it."
    return replace(again, chain=(*lines, warning))


def _low_level(design: Design, register: ShiftRegister) -> tuple[Finding, ...]:
    """Whether a board of 3.3 V, as most that run MicroPython are, drives the registers as they are."""
    logic_v = design.power.logic_v
    if design.power.controller_v or not register_input_findings(
        register, register_v=logic_v, controller_v=_LOW_V
    ):
        return ()
    return (
        Finding(
            "note", "controller-level", "controller",
            f"Most boards that run MicroPython give {_LOW_V:g} V, which these registers on {logic_v:g} V do "
            f"not surely take for a 1; the controller is reckoned with {logic_v:g} V.",
            value=logic_v, limit=_LOW_V, unit="V", source=register.source,
            remedy=f'For such a board write controller = "{_LOW_V:g} V" and read what the check asks for: '
            "other registers, or these on that voltage.",
        ),
    )  # fmt: skip


def _with_sample(table: GlyphTable, design: Design) -> GlyphTable:
    """The table with the characters of the sample text, which the code shows first."""
    extra = [char for char in plain_text(design.display.sample) if char not in ".,:"]
    return glyph_table(
        characters=[*(glyph.char for glyph in table.glyphs), *extra], order=table.order, active=table.active,
        style=table.style, title=table.title, stamp=table.stamp, custom=design.glyphs.custom,
    )  # fmt: skip
