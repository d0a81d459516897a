"""A byte for a set of segments: any bit order, either polarity."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Literal

from segkit.errors import InputError, Problem
from segkit.glyphs.characters import in_order
from segkit.glyphs.segments import ALL

Active = Literal["high", "low"]
ACTIVES: tuple[Active, ...] = ("high", "low")
Order = tuple[str, ...]
EXAMPLE_ORDER = "dp g f e d c b a"
_RUN_TOGETHER = re.compile(r"(?:dp|[a-g])+")
_FULL = 0xFF


def parse_order(text: str) -> Order:
    """The segment names of a byte, most significant bit first, from how people write them.

    Args:
        text: eight names, ``a`` to ``g`` and ``dp``, parted by blanks or commas, or run together.

    Raises:
        InputError: missing, repeated or unknown names, all of them at once.

    Example:
        >>> parse_order("dp g f e d c b a")
        ('dp', 'g', 'f', 'e', 'd', 'c', 'b', 'a')
        >>> parse_order("abcdefgdp") == parse_order("a,b,c,d,e,f,g,dp")
        True
    """
    names = [name for name in re.split(r"[\s,;]+", text.strip().lower()) if name]
    if len(names) == 1 and _RUN_TOGETHER.fullmatch(names[0]):
        names = re.findall(r"dp|[a-g]", names[0])
    problems = _order_problems(text, names)
    if problems:
        raise InputError(problems)
    return tuple(names)


def _order_problems(text: str, names: Sequence[str]) -> list[Problem]:
    unique = dict.fromkeys(names)
    faults = (
        ("missing", [name for name in ALL if name not in unique]),
        ("named more than once", [name for name in unique if name in ALL and names.count(name) > 1]),
        ("not a segment", [name for name in unique if name not in ALL]),
    )
    remedy = f'Write all eight, most significant bit first, such as "{EXAMPLE_ORDER}".'
    return [
        Problem(f"{what}: {', '.join(named)}.", value=f'"{text}"', limit="a b c d e f g dp", remedy=remedy)
        for what, named in faults
        if named
    ]


def parse_active(text: str) -> Active:
    """``high`` (bit 1 = lit) or ``low`` (bit 0 = lit).

    Raises:
        InputError: another word.
    """
    for active in ACTIVES:
        if text.strip().lower() == active:
            return active
    raise InputError(
        Problem("not a polarity.", value=f'"{text}"', limit="high (bit 1 = lit) or low (bit 0 = lit)")
    )


def mask(segments: Iterable[str], order: Order, active: Active = "high") -> int:
    """The byte that lights ``segments``, 0 to 255.

    Formula: sum of 2^bit over the lit segments, where the first name of ``order`` is bit 7; for
    ``low`` 255 minus that.

    Args:
        segments: names ``a`` to ``g`` and ``dp``.
        order: eight names, most significant bit first.
        active: ``high`` if bit 1 = lit, ``low`` if bit 0 = lit.

    Raises:
        InputError: a name that has no bit in this order.

    Example:
        >>> hex(mask("bc", parse_order("dp g f e d c b a"))), hex(mask("bc", parse_order("a b c d e f g dp")))
        ('0x6', '0x60')
    """
    top = len(order) - 1
    wanted = set(segments)
    strange = [name for name in in_order(wanted) if name not in order]
    if strange:
        raise InputError(
            Problem("has no bit in this order.", value=", ".join(strange), limit=" ".join(order))
        )
    lit = sum(1 << (top - place) for place, name in enumerate(order) if name in wanted)
    return lit if active == "high" else lit ^ _FULL


def segments_from(value: int, order: Order, active: Active = "high") -> tuple[str, ...]:
    """The segments that a byte lights, in standard order; the reverse of ``mask``.

    Args:
        value: 0 to 255.
        order, active: as in ``mask``.

    Raises:
        InputError: a value outside 0 to 255.

    Example:
        >>> segments_from(0xF9, parse_order("dp g f e d c b a"))
        ('a', 'd', 'e', 'f', 'g', 'dp')
    """
    if not 0 <= value <= _FULL:
        raise InputError(Problem("not a byte.", value=str(value), limit="0 to 255"))
    lit = value if active == "high" else value ^ _FULL
    top = len(order) - 1
    return in_order(name for place, name in enumerate(order) if lit >> (top - place) & 1)


def reorder(value: int, *, written: Order, wanted: Order) -> int:
    """A byte of one bit order rewritten for another, lighting the same segments.

    Example:
        >>> other = parse_order("dp a b c d e f g")
        >>> hex(reorder(0x5B, written=parse_order("dp g f e d c b a"), wanted=other))
        '0x6d'
    """
    return mask(segments_from(value, written), wanted)
