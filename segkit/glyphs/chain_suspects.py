"""Faults of the chain: digits in other places, bytes reversed or flipped, clock pulses miscounted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from segkit.glyphs.chain import Chain, Lit, bytes_reversed, inverted, moved, one_early, one_late
from segkit.glyphs.suspect import OnBits, Shows, Suspect, digits_named, only


def digit_order(chain: Chain) -> Iterator[Suspect]:
    """Digits rotated, reversed, and two of them exchanged.

    Args:
        chain: the board.
    """
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


def whole_bytes(chain: Chain, wrong: Sequence[int]) -> Iterator[Suspect]:
    """Bytes reversed, flipped, and the stream a bit early or late.

    Args:
        chain: the board.
        wrong: numbers of the digits that show something wrong.
    """
    yield _of_bits(
        chain,
        "byte-reversed",
        "each byte arrives with its bits in reversed order",
        "Send the most significant bit first, or turn the bit order of the table end for end.",
        bytes_reversed,
    )
    if 0 < len(wrong) < len(chain.digits):
        some = digits_named(wrong)
        all_of_them = _of_bits(
            chain,
            "byte-reversed",
            f"the bits of {some} arrive in reversed order",
            f"The eight wires of {some} are turned end for end: turn the plug.",
            bytes_reversed,
        )
        yield replace(all_of_them, shows=only(wrong, all_of_them.shows), faults=len(wrong))
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
