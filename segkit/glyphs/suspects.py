"""The faults that a board may have, each with what it would make of a text: the suspects of a diagnosis."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from segkit.glyphs.chain import Bits, Chain, Lit, bytes_reversed, inverted, moved, one_early, one_late
from segkit.glyphs.readings import mirrored, turned
from segkit.glyphs.segments import SEGMENTS

Shows = Callable[[Lit], tuple[Lit, ...]]
OnBits = Callable[[Bits], tuple[Bits, ...]]
_WALK = "Light one output after the other and write down what each one lights."


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


def suspects(chain: Chain, wrong: Sequence[int], *, every: bool = True) -> tuple[Suspect, ...]:
    """All single faults that are looked for, the more common first.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong; faults of single wires are looked for there.
        every: True if every digit was looked at; else digits in other places are no explanation.

    Example:
        >>> from segkit.glyphs.bitmask import parse_order
        >>> from segkit.glyphs.chain import straight_chain
        >>> chain = straight_chain("88", order=parse_order("dp g f e d c b a"))
        >>> suspects(chain, [1])[0].code, suspects(chain, [1], every=False)[0].code
        ('digits-reversed', 'segment-dark')
    """
    return (
        *(_digit_order(chain) if every else ()),
        *_one_segment(chain, wrong),
        *_dark_digits(chain, wrong),
        *_whole_bytes(chain, wrong),
        *_crossed(chain, wrong),
        *_seen_from_behind(chain, wrong),
    )


def pairs(chain: Chain) -> Iterator[Suspect]:
    """Two faults of the whole board at once: digits in another order, and a fault of every byte.

    Args:
        chain: the board.
    """
    bytewise = [one for one in _whole_bytes(chain, ()) if one.code in ("byte-reversed", "logic-inverted")]
    views = [one for one in _seen_from_behind(chain, ()) if one.code == "digits-mirrored"]
    for one, other in (*_products(_digit_order(chain), bytewise + views), *combinations(bytewise, 2)):
        yield Suspect(
            code="two-faults",
            text=f"two faults at once: {one.text}; and {other.text}",
            remedy=f"{one.remedy} {other.remedy}",
            shows=_both(one.shows, other.shows),
            faults=2,
        )


def _products(some: Iterable[Suspect], others: Sequence[Suspect]) -> Iterator[tuple[Suspect, Suspect]]:
    for one in some:
        yield from ((one, other) for other in others)


def _both(first: Shows, then: Shows) -> Shows:
    return lambda lit: tuple(last for middle in first(lit) for last in then(middle))


# --- digits in other places ----------------------------------------------------------------------------


def _digit_order(chain: Chain) -> Iterator[Suspect]:
    digits = chain.digits
    count = len(digits)
    for steps in sorted(range(1, count), key=lambda k: min(k, count - k)):
        if count > 2:
            yield _rotated(chain, steps)
    if count > 1:
        yield Suspect(
            "digits-reversed",
            "the digits stand in reversed order, each one right in itself: the order of the chain",
            "The first byte that is sent ends up in the farthest register: send the bytes in the other "
            "order, or number the digits from the other end of the chain.",
            _moved(chain, dict(zip(digits, digits[::-1], strict=True))),
        )
    if count > 2:
        for one, other in combinations(digits, 2):
            yield Suspect(
                "digits-exchanged",
                f"digits {one} and {other} are exchanged, the rest stand right",
                f"Exchange the two connectors of digits {one} and {other}, or their two bytes.",
                _moved(chain, {**{n: n for n in digits}, one: other, other: one}),
            )


def _moved(chain: Chain, source: dict[int, int]) -> Shows:
    return lambda lit: moved(chain, lit, source)


def _rotated(chain: Chain, steps: int) -> Suspect:
    count = len(chain.digits)
    places = min(steps, count - steps)
    way = "left" if count - steps < steps else "right"
    by = "one place" if places == 1 else f"{places} places"
    source = {digit: chain.digits[number - steps] for number, digit in enumerate(chain.digits)}
    return Suspect(
        "digits-rotated",
        f"every digit stands {by} too far to the {way}, the ends wrapped round: digit select and segment "
        f"data are {'one step' if places == 1 else f'{places} steps'} out",
        "Digits that take turns: put the new segment data out and latch it before the next digit is switched "
        "on. Register chain: count the bytes before the latch pulse, one for each register, no more, no "
        "fewer, and look which register is digit 1 on the channel map.",
        _moved(chain, source),
    )


# --- whole bytes ---------------------------------------------------------------------------------------


def _whole_bytes(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    yield _of_bits(
        chain,
        "byte-reversed",
        "each byte arrives with its bits in reversed order",
        "Send the most significant bit first, or turn the bit order of the table end for end.",
        bytes_reversed,
    )
    if 0 < len(wrong) < len(chain.digits):
        some = _digits(wrong)
        all_of_them = _of_bits(
            chain,
            "byte-reversed",
            f"the bits of {some} arrive in reversed order",
            f"The eight wires of {some} are turned end for end: turn the plug.",
            bytes_reversed,
        )
        yield replace(all_of_them, shows=_only(wrong, all_of_them.shows), faults=len(wrong))
    yield _of_bits(
        chain,
        "logic-inverted",
        "what should be dark is lit, and the other way round: every bit is flipped",
        _polarity(chain),
        inverted,
    )
    yield _of_bits(
        chain,
        "bit-late",
        "every output shows the bit of the one before it in the stream: one clock pulse too few",
        "The data must stand before the clock edge and stay after it: look at the clock mode of the serial "
        "unit, and count eight pulses for each chip before the latch pulse.",
        one_late,
    )
    yield _of_bits(
        chain,
        "bit-early",
        "every output shows the bit of the one after it in the stream: one clock pulse too many",
        "Look for a pulse when the clock pin is set up, and for ringing on a long clock wire: 33 to 100 ohm "
        "at the controller, and a ground wire beside it.",
        one_early,
    )


def _of_bits(chain: Chain, code: str, text: str, remedy: str, change: OnBits) -> Suspect:
    def shows(lit: Lit) -> tuple[Lit, ...]:
        return tuple(dict.fromkeys(chain.lit(bits) for bits in change(chain.bits(lit))))

    return Suspect(code, text, remedy, shows, on_bits=change)


def _polarity(chain: Chain) -> str:
    if chain.active == "high":
        return (
            "What switches these segments inverts already, a 1 lights: send the bytes as they stand in the "
            "table and flip nothing, though the digit has a common anode."
        )
    return "A 0 lights on this board: flip the bytes once, in one place of the code and not in two."


# --- single wires --------------------------------------------------------------------------------------


def _one_segment(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    scope = frozenset(wrong)
    everywhere = len(wrong) > 1 and scope == frozenset(chain.digits)
    every = "every digit" if everywhere else _digits(wrong)
    for name in sorted({name for digit, name in chain.lamps if digit in scope}):
        those = frozenset((digit, name) for digit in scope) & chain.lamps
        yield Suspect(
            "segment-dark",
            f"{_lamp(name)} stays dark in {every}",
            (f"So many wires seldom fail together: look first for its bit in the table. {_dead(name)}")
            if everywhere
            else _dead(name),
            _without(those),
            faults=len(wrong),
        )
        yield Suspect(
            "segment-stuck",
            f"{_lamp(name)} is lit in {every} where it should be dark",
            f"Look for a shorted output or a bridge of solder at {_lamp(name)}.",
            _with(those),
            faults=len(wrong),
        )


def _dead(name: str) -> str:
    return f"Look for an open wire, a dead output or a dead LED string at {_lamp(name)}."


def _dark_digits(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
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
    what = "nothing is lit in any digit" if whole else f"nothing is lit in {_digits(wrong)}"
    yield Suspect("digit-dark", what, todo, _without(those))


def _without(those: Lit) -> Shows:
    return lambda lit: (lit - those,)


def _with(those: Lit) -> Shows:
    return lambda lit: (lit | those,)


def _crossed(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    names = sorted({name for _, name in chain.lamps})
    for one, other in combinations(names, 2):
        crossing = _renamed(chain, {one: other, other: one})
        yield Suspect(
            "pair-swapped",
            f"{_lamp(one)} and {_lamp(other)} are exchanged in every digit",
            "Exchange the two in the bit order of the table, or run the walk test, which finds the order.",
            crossing,
        )
        if 0 < len(wrong) < len(chain.digits):
            yield Suspect(
                "pair-swapped",
                f"{_lamp(one)} and {_lamp(other)} are exchanged in {_digits(wrong)}",
                f"Exchange the two wires of {_digits(wrong)}. {_WALK}",
                _only(wrong, crossing),
                faults=len(wrong),
            )


def _seen_from_behind(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
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
                code, f"{what} in {_digits(wrong)}", todo, _only(wrong, _renamed(chain, new)),
                faults=len(wrong),
            )  # fmt: skip


def _renamed(chain: Chain, new: dict[str, str]) -> Shows:
    return lambda lit: (frozenset((digit, new.get(name, name)) for digit, name in lit) & chain.lamps,)


def _only(digits: Sequence[int], shows: Shows) -> Shows:
    """The fault in these digits alone; all others are right."""

    def shown(lit: Lit) -> tuple[Lit, ...]:
        right = frozenset(lamp for lamp in lit if lamp[0] not in digits)
        return tuple(right | frozenset(lamp for lamp in one if lamp[0] in digits) for one in shows(lit))

    return shown


def _lamp(name: str) -> str:
    return {"dp": "the point", "colon": "the colon"}.get(name, f"segment {name}")


def _digits(numbers: Sequence[int]) -> str:
    return ("digit " if len(numbers) == 1 else "digits ") + ", ".join(str(n) for n in numbers)
