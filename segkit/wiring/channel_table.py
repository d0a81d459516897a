"""The channel map on paper: a table for the bench and the same as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence

from segkit.wiring.channel_map import Channel, ChannelMap, Lamp

#: What each output lights, by chip and name of the output.
Built = Mapping[tuple[int, str], Sequence[Lamp]]
COLUMNS = ("digit", "segment", "chip", "output", "pin", "sink pin", "bit", "place")


def row(channel: Channel) -> tuple[str, ...]:
    """The cells of one output, in the order of ``COLUMNS``; a spare output says so."""
    digit, segment = (str(channel.digit), channel.segment) if channel.segment else ("", "spare")
    sink_pin = str(channel.sink_pin) if channel.sink_pin else ""
    return (
        digit,
        segment,
        str(channel.chip),
        channel.output,
        str(channel.pin),
        sink_pin,
        str(channel.bit),
        str(channel.place),
    )


def rows(channels: ChannelMap) -> tuple[tuple[str, ...], ...]:
    """All outputs by chip and output, spare ones in their places."""
    return tuple(row(channel) for channel in channels.channels)


def to_csv(channels: ChannelMap, built: Built | None = None) -> str:
    """The channel map as CSV text: heading, one line for each output, line ends of one character.

    ``place`` counts the bits of the stream from 0, the first that is shifted. Digit and segment are the plan;
    after a walk test the last column, ``as built``, is what the output really lights.

    Args:
        channels: the plan.
        built: what each output lights by the walk test, by chip and output; None where there was none.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    if built is None:
        writer.writerow(COLUMNS)
        writer.writerows(rows(channels))
        return text.getvalue()
    writer.writerow((*COLUMNS, "as built"))
    for channel in channels.channels:
        lit = " and ".join(f"{segment} of {digit}" for digit, segment in built[channel.chip, channel.output])
        writer.writerow((*row(channel), lit or "nothing"))
    return text.getvalue()


def byte_lines(channels: ChannelMap) -> tuple[str, ...]:
    """One sentence for each byte, in the order of sending: which chip, and what bits 7 to 0 light.

    These lines stand in the head of the glyph tables.
    """
    lines = []
    for chip in range(channels.chips, 0, -1):
        outputs = sorted((c for c in channels.channels if c.chip == chip), key=lambda c: -c.bit)
        digits = sorted({c.digit for c in outputs if c.segment})
        named = " and ".join(f"digit {n}" for n in digits) or "nothing"
        inside = " ".join(_lamp(c, several=len(digits) > 1) for c in outputs)
        sent = channels.chips - chip + 1
        lines.append(f"byte {sent}: chip {chip}, {named}; bits 7 to 0: {inside}")
    return tuple(lines)


def _lamp(channel: Channel, *, several: bool) -> str:
    if not channel.segment:
        return "spare"
    return f"{channel.segment}/{channel.digit}" if several else channel.segment
