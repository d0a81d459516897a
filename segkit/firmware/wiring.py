"""Which lamps each output lights, in the order of sending: as planned, or as the board was really wired."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.glyphs.bitmask import Active
from segkit.glyphs.characters import in_order
from segkit.wiring.channel_map import BITS, ChannelMap, Lamp

_FULL = 0xFF


@dataclass(frozen=True)
class Output:
    """One output of the chain and what hangs on it.

    Attributes:
        number: 1 = the first output (QA) of chip 1, 9 = that of chip 2; what the walk test counts.
        chip: 1 = next to the controller.
        name: of the output, such as ``QA``.
        bit: bit of the chip's byte.
        lamps: what it lights, (digit, segment); empty for a spare or a dead output.
        also: lamps of other digits that come with them, which the code does not ask this output for.
    """

    number: int
    chip: int
    name: str
    bit: int
    lamps: tuple[Lamp, ...]
    also: tuple[Lamp, ...] = ()

    @property
    def lights(self) -> tuple[Lamp, ...]:
        """All that is lit with it, asked for or not."""
        return *self.lamps, *self.also


@dataclass(frozen=True)
class Wiring:
    """The whole chain.

    Attributes:
        chips: registers in the chain.
        active: ``high`` if a 1 lights.
        outputs: by number.
        as_built: True if the walk test has told it, False if it is the plan.
    """

    chips: int
    active: Active
    outputs: tuple[Output, ...]
    as_built: bool = False

    @property
    def rows(self) -> tuple[tuple[Output, ...], ...]:
        """One row a byte in the order of sending (the farthest chip first), bits 7 to 0."""
        by_chip = [self.outputs[at : at + BITS] for at in range(0, len(self.outputs), BITS)]
        return tuple(tuple(sorted(chip, key=lambda output: -output.bit)) for chip in reversed(by_chip))

    @property
    def lamps(self) -> frozenset[Lamp]:
        """All that can be lit."""
        return frozenset(lamp for output in self.outputs for lamp in output.lamps)


def planned(channels: ChannelMap, active: Active) -> Wiring:
    """The wiring of the channel map.

    Args:
        channels: which output lights which segment.
        active: ``high`` if a 1 lights.
    """
    outputs = tuple(
        Output(number, c.chip, c.output, c.bit, ((c.digit, c.segment),) if c.segment else ())
        for number, c in enumerate(channels.channels, start=1)
    )
    return Wiring(channels.chips, active, outputs)


def frame_of(wiring: Wiring, lit: Iterable[Lamp]) -> bytes:
    """The bytes that light ``lit``, in the order of sending; an output is on if any of its lamps is asked.

    Args:
        wiring: planned or as built.
        lit: (digit, segment), digit 1 = leftmost; what no output lights is left out.

    Returns:
        one byte for each chip.

    Example:
        >>> one = Wiring(1, "high", tuple(Output(n + 1, 1, "Q", n, ((1, "abcdefg"[n]),)) for n in range(7))
        ...     + (Output(8, 1, "Q", 7, ()),))
        >>> frame_of(one, [(1, "b"), (1, "c")]).hex()
        '06'
    """
    wanted = frozenset(lit)
    flip = 0 if wiring.active == "high" else _FULL
    return bytes(
        flip ^ sum(1 << output.bit for output in row if wanted.intersection(output.lamps))
        for row in wiring.rows
    )


def lit_by_frame(wiring: Wiring, frame: bytes) -> frozenset[Lamp]:
    """What a frame lights: the reverse of ``frame_of``.

    Args:
        wiring: planned or as built.
        frame: one byte for each chip, in the order of sending.

    Raises:
        InputError: more or fewer bytes than chips.
    """
    if len(frame) != wiring.chips:
        text = f"{len(frame)} bytes for a chain of {wiring.chips} chips."
        raise InputError(Problem(text, key="frame", limit="one byte for each chip"))
    flip = 0 if wiring.active == "high" else _FULL
    return frozenset(
        lamp
        for byte, row in zip(frame, wiring.rows, strict=True)
        for output in row
        if (byte ^ flip) >> output.bit & 1
        for lamp in output.lights
    )


def by_digit(lamps: Iterable[Lamp]) -> Mapping[int, frozenset[str]]:
    """The segments of each digit.

    Example:
        >>> {digit: sorted(names) for digit, names in by_digit([(1, "b"), (2, "a"), (1, "c")]).items()}
        {1: ['b', 'c'], 2: ['a']}
    """
    found: dict[int, set[str]] = {}
    for digit, segment in lamps:
        found.setdefault(digit, set()).add(segment)
    return {digit: frozenset(names) for digit, names in sorted(found.items())}


def written(lamps: Iterable[Lamp]) -> str:
    """Lamps as a person writes them: ``1a``, ``1a+1b``, ``-`` for none.

    Example:
        >>> written([(2, "dp"), (1, "a")]), written([])
        ('1a+2dp', '-')
    """
    return "+".join(f"{d}{name}" for d, names in by_digit(lamps).items() for name in in_order(names)) or "-"
