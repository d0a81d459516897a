"""The channel map on paper: a table for the bench and the same as CSV."""

from __future__ import annotations

import csv
import io

from segkit.wiring.channel_map import Channel, ChannelMap

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


def to_csv(channels: ChannelMap) -> str:
    """The channel map as CSV text: heading, one line for each output, line ends of one character.

    ``place`` counts the bits of the stream from 0, the first that is shifted.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows(rows(channels))
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
