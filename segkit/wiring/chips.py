"""References and pins of the chips on each card: registers, sinks, and what stands beside them."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.catalog.part import ShiftRegister, Sink
from segkit.wiring.channel_map import Channel, ChannelMap

#: Sinks that are the register itself.
OWN_OUTPUTS = ("register", "power-register", "constant-current")


@dataclass(frozen=True)
class SinkSeat:
    """Where a register output is made strong.

    Attributes:
        ref: ``U12`` (array), ``Q13`` (single part); empty if the register sinks the current itself.
        into, out: its pins.
    """

    ref: str
    into: str = ""
    out: str = ""


def register_ref(chip: int) -> str:
    """Reference of a register: ``U11`` on card 1."""
    return f"U{chip}1"


def capacitor_ref(chip: int) -> str:
    """Reference of the decoupling capacitor at a register."""
    return f"C{chip}1"


def gate_resistor_ref(channel: Channel) -> str:
    """Reference of the resistor from a gate to 0 V."""
    return f"R{channel.chip}{channel.bit + 1}"


def setting_resistor_ref(chip: int) -> str:
    """Reference of the resistor that sets the current of a chip's outputs."""
    return f"R{chip}9"


def separate(sink: Sink, register: ShiftRegister) -> bool:
    """Whether a part of its own follows the register."""
    return sink.type not in OWN_OUTPUTS and not register.sinks


def sink_seat(channel: Channel, channels: ChannelMap, *, sink: Sink, register: ShiftRegister) -> SinkSeat:
    """The sink behind an output.

    Args:
        channel: an output that lights something.
        channels: the whole chain.
        sink, register: catalogue parts.

    Sources: the ``source`` of the sink.

    Example:
        >>> from segkit.catalog.reader import register, sink
        >>> from segkit.wiring.channel_map import channel_map
        >>> parts = {"register": register("hc595"), "sink": sink("darlington-sink-8")}
        >>> chain = channel_map(lamps=[(1, "a")], order=("dp", "g", "f", "e", "d", "c", "b", "a"), **parts)
        >>> sink_seat(chain.channels[0], chain, **parts)
        SinkSeat(ref='U12', into='1', out='18')
    """
    if not separate(sink, register):
        return SinkSeat("")
    if sink.outputs == 1:
        return SinkSeat(f"Q{channel.chip}{channel.bit + 1}", "G", "D")
    package = 0
    if sink.outputs < len(register.output_pins):
        used = [c.bit for c in channels.channels if c.chip == channel.chip and c.segment]
        package = used.index(channel.bit) // sink.outputs
    place = sink.output_pins.index(channel.sink_pin)
    return SinkSeat(f"U{channel.chip}{2 + package}", str(sink.input_pins[place]), str(channel.sink_pin))
