"""Parts around the chips: boards to sit on, controller, logic supply, signal cable."""

from __future__ import annotations

import math
from collections.abc import Iterator

from segkit.firmware.cost import flash_bytes, ram_bytes
from segkit.project import Project
from segkit.report.feed_parts import CABLE_SLACK_M, FeedPart
from segkit.units import engineering, plain_number
from segkit.wiring.plan import CHAIN_POLES

#: Bytes of flash and RAM that the smallest usual controllers have, rising; source common-practice.
_FLASH_KB, _RAM_BYTES = (4, 8, 16, 32), (256, 512, 1024, 2048)
#: Left for the stack, and for the part of the program that reads a clock, buttons or a gauge, as a share.
_ROOM = 2.0


def logic_parts(project: Project) -> tuple[FeedPart, ...]:
    """Controller, its supply, its cable to the first card, and the boards of the cards.

    Args:
        project: what they are for.

    Sources: compiled-size; common-practice (room for a program of one's own, the rest of the words).
    """
    return (_cards(project), _controller(project), *_supply(project), *_signal_cable(project))


def _cards(project: Project) -> FeedPart:
    """The boards that carry the chips; how large follows from the parts that the builder takes."""
    parts, number = project.parts, project.channels.chips
    separate = parts.sink.id != parts.register.id and parts.sink.type != "register"
    with_sink = ", its sinks" if separate else ""
    where = f"one for each register{with_sink}, capacitor and connectors"
    return FeedPart(number, "pcs", "Perforated or strip board, holes 2.54 mm apart", where)


def _controller(project: Project) -> FeedPart:
    power, code = project.design.power, project.flash.driver
    pins = [name for name, number in code.pins.all if name != "enable" or code.register.enable]
    flash = _next(_FLASH_KB, _ROOM * flash_bytes(code) / 1024)
    ram = _next(_RAM_BYTES, _ROOM * ram_bytes(code))
    volts = plain_number(power.controller_v or power.logic_v)
    what = f"Microcontroller board, {volts} V outputs, {flash} KB of flash and {ram} bytes of RAM or more"
    timed = ", enable on a pin that a timer can pulse" if "enable" in pins else ""
    where = f"{len(pins)} outputs for {', '.join(pins)}{timed}; more for your clock, buttons or sensor"
    return FeedPart(1, "pcs", what, where)


def _next(sizes: tuple[int, ...], least: float) -> int:
    return next((size for size in sizes if size >= least), math.ceil(least))


def _supply(project: Project) -> Iterator[FeedPart]:
    """The logic's own supply, or the regulator that makes it from that of the LEDs."""
    power = project.design.power
    kind = {
        "none": "Supply", "linear": "Linear regulator", "step-down": "Small step-down module",
    }[power.regulator.kind]  # fmt: skip
    volts, amps = plain_number(power.logic_v), engineering(power.regulator.current_a, "A")
    where = "registers and controller"
    if power.regulator.kind == "none":
        where += ", a supply of their own; its 0 V joined to that of the LED supply"
    else:
        where += ", from the LED supply"
    yield FeedPart(1, "pcs", f"{kind} {volts} V, {amps} or more, regulated", where)


def _signal_cable(project: Project) -> Iterator[FeedPart]:
    """From a controller that is not at the board to the first card."""
    away_mm = project.design.power.signals.length_mm
    if away_mm is None or project.design.power.cable.carries == "segments":
        return
    metres = away_mm / 1000 + CABLE_SLACK_M
    where = f"controller to card 1: {', '.join(CHAIN_POLES)}"
    yield FeedPart(metres, "m", f"Signal cable, {len(CHAIN_POLES)} cores or more", where)
