"""One fault that a board may have, with what it would make of a text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from segkit.glyphs.chain import Bits, Lit

Shows = Callable[[Lit], tuple[Lit, ...]]
OnBits = Callable[[Bits], tuple[Bits, ...]]


@dataclass(frozen=True)
class Suspect:
    """One fault.

    Attributes:
        code: its short name.
        text: what is wrong, without the full stop.
        remedy: where to look.
        shows: what a board with this fault makes of what is meant to be lit; several where it is not certain.
        faults: how many things are broken.
        on_bits: what it does to the bits on the wire, where that is what it does.
    """

    code: str
    text: str
    remedy: str
    shows: Shows
    faults: int = 1
    on_bits: OnBits | None = None


def only(digits: Sequence[int], shows: Shows) -> Shows:
    """The fault in these digits alone; all others are right.

    Args:
        digits: numbers, 1 = leftmost.
        shows: what the fault does to a whole board.
    """

    def shown(lit: Lit) -> tuple[Lit, ...]:
        right = frozenset(lamp for lamp in lit if lamp[0] not in digits)
        return tuple(right | frozenset(lamp for lamp in one if lamp[0] in digits) for one in shows(lit))

    return shown


def lamp_named(name: str) -> str:
    """A segment, point or colon in a sentence.

    Example:
        >>> lamp_named("dp"), lamp_named("b")
        ('the point', 'segment b')
    """
    return {"dp": "the point", "colon": "the colon"}.get(name, f"segment {name}")


def digits_named(numbers: Sequence[int]) -> str:
    """Digits in a sentence.

    Example:
        >>> digits_named([2]), digits_named([1, 3])
        ('digit 2', 'digits 1, 3')
    """
    return ("digit " if len(numbers) == 1 else "digits ") + ", ".join(str(n) for n in numbers)
