"""The bytes of a chain of registers, in the order in which they are shifted, and a chain to try them on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from segkit.errors import InputError, Problem
from segkit.glyphs.bitmask import Active
from segkit.wiring.channel_map import BITS, ChannelMap, Lamp
from segkit.working import Given, Line

_FULL = 0xFF


def frame(channels: ChannelMap, lit: Iterable[Lamp], *, active: Active = "high") -> bytes:
    """The bytes that light exactly ``lit``, in the order of sending: last chip first, each bit 7 first.

    Args:
        channels: the channel map of the board.
        lit: (digit, segment), digit 1 = leftmost.
        active: ``high`` if a 1 lights; spare outputs stay dark.

    Returns:
        one byte for each chip.

    Raises:
        InputError: a lamp that the board does not have.

    Source keys: ``register-hc595``.
    """
    wanted = set(lit)
    known = {(c.digit, c.segment): c for c in channels.channels if c.segment}
    strange = sorted(wanted - set(known))
    if strange:
        named = ", ".join(f"{name} of digit {digit}" for digit, name in strange)
        raise InputError(Problem("not on this board.", key="lit", value=named))
    values = [0 if active == "high" else _FULL] * channels.chips
    for lamp in wanted:
        values[channels.chips - known[lamp].chip] ^= 1 << known[lamp].bit
    return bytes(values)


def bits(frame_bytes: bytes) -> tuple[int, ...]:
    """The bit stream of a frame, first bit first.

    Example:
        >>> bits(b"\\x06")
        (0, 0, 0, 0, 0, 1, 1, 0)
    """
    return tuple(byte >> bit & 1 for byte in frame_bytes for bit in range(BITS - 1, -1, -1))


@dataclass(frozen=True)
class Chain:
    """A chain of registers with output latches, as its function table says.

    Attributes:
        stages: the shift stages, from QA of chip 1 to QH of the last chip.
        outputs: the latched outputs in the same order; anything at all before the first latch pulse.
    """

    stages: tuple[int, ...]
    outputs: tuple[int, ...]

    @classmethod
    def powered_on(cls, chips: int, *, outputs: tuple[int, ...] | None = None) -> Chain:
        """A chain of ``chips`` after power-on, outputs as given or all high."""
        size = chips * BITS
        return cls(stages=(0,) * size, outputs=outputs if outputs is not None else (1,) * size)

    def shifted(self, stream: Iterable[int]) -> Chain:
        """After one clock pulse for each bit: stages take their neighbour's bit, QA of chip 1 the new one."""
        stages = self.stages
        for bit in stream:
            stages = (bit, *stages[:-1])
        return replace(self, stages=stages)

    def latched(self) -> Chain:
        """After a latch pulse: the outputs take what the stages hold."""
        return replace(self, outputs=self.stages)

    def cleared(self) -> Chain:
        """After a pulse on the clear input: the stages are empty, the outputs keep what they had."""
        return replace(self, stages=(0,) * len(self.stages))

    def level(self, *, chip: int, bit: int) -> int:
        """The level of one output, chip from 1 and bit from 0 = QA."""
        return self.outputs[(chip - 1) * BITS + bit]


def lit_by(channels: ChannelMap, chain: Chain, *, active: Active = "high") -> frozenset[Lamp]:
    """What a chain lights on a board wired as ``channels`` says."""
    on = 1 if active == "high" else 0
    return frozenset(
        (c.digit, c.segment)
        for c in channels.channels
        if c.segment and chain.level(chip=c.chip, bit=c.bit) == on
    )


def lines(channels: ChannelMap) -> tuple[Line, ...]:
    """The working of the chain: bits of a frame and spare outputs."""
    chips = Given("N", float(channels.chips), "", "registers in the chain")
    width = Given("w", float(BITS), "", "outputs of a register")
    total = len(channels.channels)
    used = Given("u", float(total - len(channels.spares)), "", "segments, points and colons")
    return (
        Line(
            "wiring.frame_bits", "bits of a frame", "B", float(total), "", "N*w", (chips, width), "arithmetic"
        ),
        Line(
            "wiring.spare_outputs",
            "spare outputs",
            "s",
            float(len(channels.spares)),
            "",
            "N*w - u",
            (chips, width, used),
            "arithmetic",
        ),
    )
