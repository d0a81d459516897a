"""The wire list on paper: every connection from pin to pin with colour, size and length, as CSV."""

from __future__ import annotations

import csv
import io
import math

from segkit.units import plain_number
from segkit.wiring.channel_map import Channel
from segkit.wiring.circuit import seat_of
from segkit.wiring.colours import name_of
from segkit.wiring.harness import Harness, NumberedRun
from segkit.wiring.plan import CONNECTOR_PINS, PLUS_PIN, Plan, connector
from segkit.wiring.run import Run

COLUMNS = (
    "wire", "group", "from", "from pin", "to", "to pin", "digit", "segment", "string", "LED", "polarity",
    "connector", "pole", "chip", "output", "output pin", "sink pin", "core", "colour", "wire to use",
    "route mm", "slack mm", "cut mm",
)  # fmt: skip
#: What is written where no wire is cut.
_MADE = {"leads": "leads of the parts", "card": "on the card", "plus": "on the strip of the connector"}


def rows(whole: Harness) -> tuple[tuple[str, ...], ...]:
    """All connections in the order of their numbers; cells in the order of ``COLUMNS``.

    Args:
        whole: the wiring of the board.

    Source: wire-slack.
    """
    outputs = {(c.digit, c.segment): c for c in whole.plan.wired}
    return tuple(_row(whole.plan, wire, outputs.get(_lamp(wire.run))) for wire in whole.wires)


def to_csv(whole: Harness) -> str:
    """The wire list as CSV text: heading, one line for each connection, line ends of one character.

    Args:
        whole: the wiring of the board.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(rows(whole))
    return text.getvalue()


def _lamp(run: Run) -> tuple[int, str]:
    """What a wire lights; a plus wire lights nothing of its own."""
    return (run.digit, run.segment) if run.group != "plus" else (0, "")


def _row(plan: Plan, wire: NumberedRun, channel: Channel | None) -> tuple[str, ...]:
    run = wire.run
    pole = _pole(run)
    return (
        wire.number,
        run.group,
        *run.start,
        *run.end,
        str(run.digit or ""),
        run.segment,
        str(run.string or ""),
        _leds(run),
        polarity(run),
        connector(run.digit) if pole else "",
        str(pole or ""),
        *_output(plan, channel),
        run.code,
        name_of(run.code),
        wire.size.name if wire.size else _MADE[run.group if run.group == "plus" else run.make],
        plain_number(run.route_mm, 4) if run.make != "card" else "",
        plain_number(math.ceil(run.slack_mm), 4) if wire.size else "",
        plain_number(run.cut_mm, 6) if wire.size else "",
    )


def polarity(run: Run) -> str:
    """``+`` for a wire that is on plus, ``-`` for the other side of the LEDs, ``K to A`` for a link between
    two LEDs; empty for signals.

    Args:
        run: the wire.

    Example:
        >>> polarity(Run("string", "leads", "IN_1a1_1", ("D1a1", "K"), ("D1a2", "A"), ()))
        'K to A'
    """
    ends = [pin for ref, pin in (run.start, run.end) if ref[0] == "D"]
    if len(ends) == 2 and ends[0] != ends[1]:
        return f"{ends[0]} to {ends[1]}"
    if run.net.startswith(("LED_PLUS", "SUPPLY", "IN_")):
        return "+"
    return "-" if run.net.startswith(("SEG_", "ZERO")) else ""


def _leds(run: Run) -> str:
    """Numbers of the LEDs at the ends."""
    stem = f"D{run.digit}{run.segment}"
    numbers = [ref.removeprefix(stem) for ref, _ in (run.start, run.end) if ref[0] == "D"]
    return " to ".join(numbers)


def _pole(run: Run) -> int:
    """Pole of the digit's connector that the wire belongs to."""
    if run.group == "plus" or run.net.startswith("LED_PLUS_"):
        return PLUS_PIN
    return CONNECTOR_PINS.get(run.segment, 0)


def _output(plan: Plan, channel: Channel | None) -> tuple[str, str, str, str]:
    if channel is None:
        return "", "", "", ""
    seat = seat_of(plan, channel)
    return str(channel.chip), channel.output, str(channel.pin), f"{seat.ref} {seat.out}".strip()
