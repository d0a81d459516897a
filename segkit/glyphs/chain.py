"""A chain of registers as a row of bits: which lamp each bit lights, and what a fault does to the bits."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from segkit.glyphs.bitmask import Active, Order
from segkit.glyphs.segments import POINT
from segkit.glyphs.sighting import Lamp
from segkit.glyphs.text import lamps

_BITS, _FULL = 8, 0xFF
Lit = frozenset[Lamp]
Bits = tuple[bool, ...]


@dataclass(frozen=True)
class Chain:
    """A board as the bits see it.

    Attributes:
        layout: of the board, see ``text.lamps``.
        places: what each bit lights, in the order of sending: eight for each chip, the farthest first.
        active: ``high`` if a 1 lights.
    """

    layout: str
    places: tuple[tuple[Lamp, ...], ...]
    active: Active = "high"

    @cached_property
    def lamps(self) -> Lit:
        """All that the board has."""
        return frozenset(lamp for place in self.places for lamp in place)

    @cached_property
    def digits(self) -> tuple[int, ...]:
        """Numbers of the digits, 1 = leftmost; one that no output lights is there too."""
        return tuple(sorted({digit for digit, _ in lamps(self.layout)}))

    @cached_property
    def chip_of(self) -> Mapping[int, int]:
        """For each digit that has one the place of its chip in the order of sending, 0 = sent first."""
        counts: dict[int, Counter[int]] = {}
        for place, lit in enumerate(self.places):
            for digit, _ in lit:
                counts.setdefault(digit, Counter())[place // _BITS] += 1
        return {digit: found.most_common(1)[0][0] for digit, found in counts.items()}

    def bits(self, lit: Iterable[Lamp]) -> Bits:
        """For each place whether it is asked to light."""
        wanted = frozenset(lit)
        return tuple(not wanted.isdisjoint(place) for place in self.places)

    def lit(self, bits: Bits) -> Lit:
        """What is lit; the reverse of ``bits``."""
        return frozenset(lamp for on, place in zip(bits, self.places, strict=True) if on for lamp in place)

    def sent(self, bits: Bits) -> bytes:
        """The bytes on the wire, in the order of sending."""
        flip = 0 if self.active == "high" else _FULL
        return bytes(
            flip ^ int("".join("01"[on] for on in bits[at : at + _BITS]), 2)
            for at in range(0, len(bits), _BITS)
        )


def straight_chain(layout: str, *, order: Order, active: Active = "high") -> Chain:
    """A chain with one chip a digit, the leftmost digit next to the controller; colons are on no chip.

    Args:
        layout: of the board, see ``text.lamps``.
        order: segments of a byte, most significant bit first.
        active: ``high`` if a 1 lights.

    Raises:
        InputError: a layout that cannot be built.

    Example:
        >>> from segkit.glyphs.bitmask import parse_order
        >>> chain = straight_chain("8", order=parse_order("dp g f e d c b a"))
        >>> chain.sent(chain.bits([(1, "b"), (1, "c")])).hex()
        '06'
    """
    own = lamps(layout)
    digits = sorted({digit for digit, _ in own}, reverse=True)
    return Chain(
        layout,
        tuple(((digit, name),) if (digit, name) in own else () for digit in digits for name in order),
        active,
    )


def bytes_reversed(bits: Bits) -> tuple[Bits, ...]:
    """Each byte with its other end first."""
    return (tuple(on for at in range(0, len(bits), _BITS) for on in bits[at : at + _BITS][::-1]),)


def inverted(bits: Bits) -> tuple[Bits, ...]:
    """Every bit flipped."""
    return (tuple(not on for on in bits),)


def one_late(bits: Bits) -> tuple[Bits, ...]:
    """One clock pulse too few: every place gets the bit before; what the farthest gets is not known."""
    return tuple((filler, *bits[:-1]) for filler in (False, True))


def one_early(bits: Bits) -> tuple[Bits, ...]:
    """One clock pulse too many: every place gets the bit after; what the nearest gets is not known."""
    return tuple((*bits[1:], filler) for filler in (False, True))


def moved(chain: Chain, lit: Lit, source: Mapping[int, int]) -> tuple[Lit, ...]:
    """Each digit shows what another should: whole bytes where each digit has a chip of its own.

    Args:
        chain: the board.
        lit: what is meant.
        source: for each digit the one whose content it gets.
    """
    bits = chain.bits(lit)
    if sorted(chain.chip_of.values()) != list(range(len(bits) // _BITS)):
        swapped = {(digit, name) for digit, own in source.items() for number, name in lit if number == own}
        return (frozenset(swapped) & chain.lamps,)
    placed = list(bits)
    for digit, own in source.items():
        there, here = chain.chip_of[digit] * _BITS, chain.chip_of[own] * _BITS
        placed[there : there + _BITS] = bits[here : here + _BITS]
    return (chain.lit(tuple(placed)),)


def no_points(lit: Iterable[Lamp]) -> Lit:
    """What is lit without points and colons."""
    return frozenset(lamp for lamp in lit if len(lamp[1]) < len(POINT))
