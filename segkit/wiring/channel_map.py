"""Which output lights which segment: every (digit, segment) to chip, output, pin and place in the stream."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.findings import Finding


@dataclass(frozen=True)
class Channel:
    """One register output.

    Attributes:
        chip: 1 = the chip next to the controller.
        output: name of the output, such as ``QA``.
        pin: pin number of the output on the register.
        bit: bit number in the byte of this chip, 7 = most significant, sent first.
        place: place in the stream of the whole chain, 0 = the first bit that is shifted.
        digit: digit it drives, 1 = leftmost as the reader sees it; 0 for a spare output.
        segment: ``a`` to ``g``, ``dp``, ``colon``; empty for a spare output.
        sink_pin: output pin of the sink behind it; 0 if it has none or is a single part.
    """

    chip: int
    output: str
    pin: int
    bit: int
    place: int
    digit: int
    segment: str
    sink_pin: int = 0


@dataclass(frozen=True)
class ChannelMap:
    """The whole chain.

    Attributes:
        order: segment names of a byte, most significant bit first.
        chips: number of chips.
        channels: one for each output of the chain, by chip and then by output.
        findings: verdicts.
    """

    order: tuple[str, ...]
    chips: int
    channels: tuple[Channel, ...]
    findings: tuple[Finding, ...]

    @property
    def spares(self) -> tuple[Channel, ...]:
        """Outputs that light nothing."""
        return tuple(channel for channel in self.channels if not channel.segment)
