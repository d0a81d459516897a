"""Which core of a digit's cable goes to which segment."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.glyphs.segments import ALL, COLON
from segkit.wiring.channel_map import ChannelMap

COMMON = "common"
#: Colour of a core that the cable does not have, or whose colour is the builder's choice.
NO_CORE, ANY = "no core left", "any"


@dataclass(frozen=True)
class Core:
    """One core: ``common`` or the segment it lights, and its colour."""

    lamp: str
    colour: str


@dataclass(frozen=True)
class DigitCable:
    """Digits whose cables are wired alike.

    Attributes:
        digits: 1 = leftmost.
        cores: the common first, then the segments in the order a to g, dp, colon.
    """

    digits: tuple[int, ...]
    cores: tuple[Core, ...]


def cable_cores(channels: ChannelMap, wire: Wire, *, commons: int = 1) -> tuple[DigitCable, ...]:
    """The cores of each digit's cable by colour, digits that are alike together.

    Args:
        channels: which output lights which segment.
        wire: the cable; the first of its colours is the common.
        commons: cores that the common has side by side; 0 where it is a wire of its own.

    Source: the ``source`` of the wire.
    """
    alike: dict[tuple[str, ...], list[int]] = {}
    for digit in sorted({channel.digit for channel in channels.channels if channel.segment}):
        own = {channel.segment for channel in channels.channels if channel.digit == digit}
        lamps = tuple(name for name in (*ALL, COLON) if name in own)
        alike.setdefault(lamps, []).append(digit)
    return tuple(
        DigitCable(tuple(digits), _coloured((*(COMMON,) * commons, *lamps), wire))
        for lamps, digits in alike.items()
    )


def _coloured(lamps: tuple[str, ...], wire: Wire) -> tuple[Core, ...]:
    spare = (NO_CORE,) * len(lamps)
    colours = (ANY,) * wire.cores if wire.colours == (ANY,) else wire.colours
    return tuple(Core(lamp, colour) for lamp, colour in zip(lamps, (*colours, *spare), strict=False))
