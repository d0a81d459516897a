"""The fuse at the source: above the load behind it, not above the thinnest wire behind it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from segkit.catalog.part import Wire
from segkit.electrical.preferred import FUSES_A, next_size
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: A supply is loaded to this share; a fuse carries this share of its rating.
LOADING = 0.8


def fuse_a(*, load_a: float, wire_a: float) -> float:
    """The fuse to put at the source: above the load by a quarter, not above the thinnest wire.

    Args:
        load_a: highest continuous current behind the fuse, A.
        wire_a: current that the thinnest wire behind the fuse may carry, A.

    Returns:
        the next usual rating from ``load_a/0.8``, A; 0 if that is more than the wire stands.

    Source: fuse-practice, continuous-load.

    Example:
        >>> fuse_a(load_a=8.0, wire_a=14.8), fuse_a(load_a=1.0, wire_a=0.58)
        (10.0, 0.0)
    """
    size = next_size(load_a / LOADING, FUSES_A)
    return size if size <= wire_a * (1 + 1e-9) else 0.0


def fuse_line(size_a: float, *, load_a: float) -> Line:
    """The working of a fuse that was found.

    Args:
        size_a: result of ``fuse_a``, A.
        load_a: what it was found for, A.
    """
    worst = Given("I", load_a, "A", "everything behind the fuse lit, worst corner")
    return Line(
        "electrical.fuse", "fuse at the source", "I", size_a, "A", "next_fuse(I/0.8)", (worst,),
        "fuse-practice",
    )  # fmt: skip


def thinnest_for(load_a: float, wires: Sequence[Wire]) -> Wire | None:
    """The thinnest single wire that stands the next usual fuse for a load; None if there is none.

    Args:
        load_a: highest continuous current, A.
        wires: wires and cables to choose from; only those of one core are looked at.

    Source: fuse-practice.

    Example:
        >>> from segkit.catalog.reader import wires
        >>> thinnest_for(1.0, tuple(wires().values())).id
        'hook-up-0-5mm2'
    """
    fits = (wire for wire in wires if wire.cores == 1 and fuse_a(load_a=load_a, wire_a=wire.max_current_a))
    return min(fits, key=lambda wire: wire.area_mm2, default=None)


def fuse_findings(
    *, load_a: float, wire_a: float, board_a: float, digit: bool, wires: Sequence[Wire]
) -> tuple[Finding, ...]:
    """Whether a usual fuse lies between the load and the wire.

    Args:
        load_a: highest continuous current behind one fuse, A.
        wire_a: current that the thinnest wire behind it may carry, A.
        board_a: the same current of the whole board, A.
        digit: whether the fuse is that of one digit's cable, with a core for each segment.
        wires: what the remedy may choose from.

    Source: fuse-practice.
    """
    if fuse_a(load_a=load_a, wire_a=wire_a):
        return ()
    what = "the cable of one digit" if digit else "a supply wire"
    return (
        Finding(
            level="caution",
            code="fuse-above-wire",
            subject="fuse",
            text=f"{what} carries up to {engineering(load_a, 'A')}; no usual fuse lies between "
            f"{plain_number(load_a / LOADING, 3)} A and the {plain_number(wire_a, 3)} A of "
            f"{'one core' if digit else 'the wire'}.",
            value=round(load_a / LOADING, 3),
            limit=wire_a,
            unit="A",
            source="fuse-practice",
            remedy=_cable_remedy(load_a, board_a, wires) if digit else _wire_remedy(load_a, wires),
        ),
    )


def _named(load_a: float, wires: Sequence[Wire]) -> str:
    wire = thinnest_for(load_a, wires)
    size = plain_number(next_size(load_a / LOADING, FUSES_A), 3)
    return f"{wire.name} ({wire.id}) or thicker with a fuse of {size} A" if wire else ""


def _wire_remedy(load_a: float, wires: Sequence[Wire]) -> str:
    named = _named(load_a, wires)
    apart = "feed the board by several wires with a fuse each"
    return f"Take {named}, or {apart}." if named else f"{apart.capitalize()}."


def _cable_remedy(load_a: float, board_a: float, wires: Sequence[Wire]) -> str:
    """Cores for the segments: all of them are behind the fuse, so a thicker common alone is no cure."""
    size = next_size(load_a / LOADING, FUSES_A)
    cures = []
    if math.isfinite(size):
        cures.append(f"take a cable whose cores are planned with {plain_number(size, 3)} A")
    cures.append("share the segments of the digit between two cables with a common and a fuse each")
    named = _named(board_a, wires)
    if named:
        cures.append(
            f'put the chips on the board and feed it through a supply cable (carries = "supply"): {named}'
        )
    text = ", or ".join(cures)
    return f"{text[0].upper()}{text[1:]}."
