"""Faults of wires and outputs: a segment dark or stuck, a digit dark, two exchanged, digits from behind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from segkit.glyphs.chain import Chain, Lit
from segkit.glyphs.readings import mirrored, turned
from segkit.glyphs.segments import SEGMENTS
from segkit.glyphs.suspect import Shows, Suspect, digits_named, lamp_named, only

_WALK = "Light one output after the other and write down what each one lights."


def one_segment(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    """A segment dark or stuck in the digits that are wrong.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong.
    """
    scope = frozenset(wrong)
    everywhere = len(wrong) > 1 and scope == frozenset(chain.digits)
    every = "every digit" if everywhere else digits_named(wrong)
    for name in sorted({name for digit, name in chain.lamps if digit in scope}):
        those = frozenset((digit, name) for digit in scope) & chain.lamps
        yield Suspect(
            "segment-dark",
            f"{lamp_named(name)} stays dark in {every}",
            (f"So many wires seldom fail together: look first for its bit in the table. {_dead(name)}")
            if everywhere
            else _dead(name),
            _without(those),
            faults=len(wrong),
        )
        yield Suspect(
            "segment-stuck",
            f"{lamp_named(name)} is lit in {every} where it should be dark",
            f"Look for a shorted output or a bridge of solder at {lamp_named(name)}.",
            _with(those),
            faults=len(wrong),
        )


def _dead(name: str) -> str:
    return f"Look for an open wire, a dead output or a dead LED string at {lamp_named(name)}."


def dark_digits(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    """Nothing lit in the digits that are wrong.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong.
    """
    if not wrong:
        return
    those = frozenset(lamp for lamp in chain.lamps if lamp[0] in wrong)
    by_chip = sorted(chain.digits, key=lambda digit: chain.chip_of.get(digit, 0))  # the farthest first
    todo = "Look at the common lead, the plug and the register of what is dark."
    if len(wrong) > 1 and set(by_chip[: len(wrong)]) == set(wrong):
        todo += (
            " These are the last along the chain: look at the wires into the first of them: data, clock, "
            "latch, output-enable, both rails."
        )
    whole = len(wrong) == len(chain.digits) > 1
    what = "nothing is lit in any digit" if whole else f"nothing is lit in {digits_named(wrong)}"
    yield Suspect("digit-dark", what, todo, _without(those))


def _without(those: Lit) -> Shows:
    return lambda lit: (lit - those,)


def _with(those: Lit) -> Shows:
    return lambda lit: (lit | those,)


def crossed(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    """Two segments exchanged, everywhere or in the digits that are wrong.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong.
    """
    names = sorted({name for _, name in chain.lamps})
    for one, other in combinations(names, 2):
        crossing = _renamed(chain, {one: other, other: one})
        yield Suspect(
            "pair-swapped",
            f"{lamp_named(one)} and {lamp_named(other)} are exchanged in every digit",
            "Exchange the two in the bit order of the table, or run the walk test, which finds the order.",
            crossing,
        )
        if 0 < len(wrong) < len(chain.digits):
            yield Suspect(
                "pair-swapped",
                f"{lamp_named(one)} and {lamp_named(other)} are exchanged in {digits_named(wrong)}",
                f"Exchange the two wires of {digits_named(wrong)}. {_WALK}",
                only(wrong, crossing),
                faults=len(wrong),
            )


def seen_from_behind(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    """Digits mirrored or turned, everywhere or where they are wrong.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong.
    """
    for code, what, todo, change in (
        (
            "digits-mirrored", "left and right are exchanged",
            "Wired from behind by the front view: b and f, c and e change places on the wiring sheet.",
            mirrored,
        ),
        (
            "digits-turned", "the segments are where they are after half a turn",
            "The digit is built in upside down, or wired with the board held so: turn it, or its map.",
            turned,
        ),
    ):  # fmt: skip
        new = {name: change((name,))[0] for name in SEGMENTS}
        yield Suspect(code, f"{what} in every digit", todo, _renamed(chain, new))
        if 0 < len(wrong) < len(chain.digits):
            yield Suspect(
                code, f"{what} in {digits_named(wrong)}", todo, only(wrong, _renamed(chain, new)),
                faults=len(wrong),
            )  # fmt: skip


def _renamed(chain: Chain, new: dict[str, str]) -> Shows:
    return lambda lit: (frozenset((digit, new.get(name, name)) for digit, name in lit) & chain.lamps,)
