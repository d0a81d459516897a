"""The faults that a board may have: the suspects of a diagnosis, the more common first, and two at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from segkit.glyphs.chain import Chain
from segkit.glyphs.chain_suspects import digit_order, whole_bytes
from segkit.glyphs.suspect import Shows, Suspect
from segkit.glyphs.wire_suspects import crossed, dark_digits, one_segment, seen_from_behind


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
        *(digit_order(chain) if every else ()),
        *one_segment(chain, wrong),
        *dark_digits(chain, wrong),
        *whole_bytes(chain, wrong),
        *crossed(chain, wrong),
        *seen_from_behind(chain, wrong),
    )


def pairs(chain: Chain) -> Iterator[Suspect]:
    """Two faults of the whole board at once: digits in another order, and a fault of every byte.

    Args:
        chain: the board.
    """
    bytewise = [one for one in whole_bytes(chain, ()) if one.code in ("byte-reversed", "logic-inverted")]
    views = [one for one in seen_from_behind(chain, ()) if one.code == "digits-mirrored"]
    for one, other in (*_products(digit_order(chain), bytewise + views), *combinations(bytewise, 2)):
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
