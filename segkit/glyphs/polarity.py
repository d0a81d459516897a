"""Which bit value lights a segment behind a sink: behind an inverting one 1 = lit, flipped nowhere else."""

from __future__ import annotations

from segkit.catalog.part import Sink
from segkit.findings import Finding
from segkit.glyphs.bitmask import Active, Order, mask, segments_from
from segkit.glyphs.characters import DEFAULT_STYLE, Style, segments_of
from segkit.glyphs.segments import POINT


def active_for(sink: Sink) -> Active:
    """The polarity that this sink asks for, with the LEDs on the positive rail.

    Args:
        sink: what switches the segments to ground.
    """
    return "high" if sink.inverts else "low"


def polarity_findings(
    sink: Sink, *, active: Active, order: Order, style: Style = DEFAULT_STYLE, example: str = "1"
) -> tuple[Finding, ...]:
    """Whether the bytes suit the sink.

    Args:
        sink: what switches the segments to ground.
        active: ``high`` if a 1 is meant to light, ``low`` if a 0 is.
        order: bit order, most significant first.
        style: how digits are drawn.
        example: the character by which the fault is shown.

    Returns:
        ``inverted-twice`` (stop) where an inverting sink gets flipped bytes, ``not-inverted`` (caution)
        where a sink that does not invert gets bytes with 1 = lit, otherwise nothing.
    """
    if active == active_for(sink):
        return ()
    right, sent = (mask(segments_of(example, style), order, way) for way in (active_for(sink), active))
    lights = spoken(segments_from(sent, order, active_for(sink)))
    shown = f'"{example}" goes out as 0x{sent:02X} instead of 0x{right:02X} and lights {lights}'
    if sink.inverts:
        return (
            Finding(
                level="stop",
                code="inverted-twice",
                subject=sink.name,
                text=f"The sink inverts already, so a 1 lights its segment; flipped once more, {shown}.",
                value=f"0x{sent:02X}",
                limit=f"0x{right:02X}",
                source=sink.source,
                remedy="Send the bytes with 1 = lit (--active high), though the digit has a common anode.",
            ),
        )
    return (
        Finding(
            level="caution",
            code="not-inverted",
            subject=sink.name,
            text=f"This output does not invert: with the LEDs on the positive rail a 0 lights; {shown}.",
            value=f"0x{sent:02X}",
            limit=f"0x{right:02X}",
            source=sink.source,
            remedy="Send the bytes with 0 = lit (--active low), unless the LEDs go from output to ground.",
        ),
    )


def spoken(segments: tuple[str, ...]) -> str:
    """Segment names for a sentence.

    Example:
        >>> spoken(("a", "d", "dp"))
        'a d and the point'
    """
    letters = " ".join(name for name in segments if name != POINT)
    if POINT not in segments:
        return letters or "nothing"
    return f"{letters} and the point" if letters else "the point"
