"""What the wiring adds to the parts list: wire by size and colour, connectors."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from segkit.project import Project
from segkit.wiring.colours import name_of
from segkit.wiring.harness import total_mm
from segkit.wiring.plan import POLES


class Needed(NamedTuple):
    """One kind of thing: how much, in ``m`` or ``pcs``, what, where it goes, catalogue id."""

    used: float
    unit: str
    what: str
    where: str
    id: str = ""


def wiring_parts(project: Project) -> Iterator[Needed]:
    """Wire of each size, its colours named, and the connectors by number of poles.

    Args:
        project: what to wire.

    Returns:
        things to buy, without spares.
    """
    wires = project.harness.wires
    names = {wire.size.id: wire.size.name for wire in wires if wire.size}
    lengths: dict[str, dict[str, float]] = {}
    for (size, code), length in total_mm(wires).items():
        lengths.setdefault(size, {})[code] = length / 1000
    for size, colours in lengths.items():
        shares = ", ".join(f"{name_of(code)} {_up(metres)}" for code, metres in colours.items())
        yield Needed(sum(colours.values()), "m", names[size], f"on the board: {shares} m", size)
    for poles, number in sorted(_connectors(project).items()):
        yield Needed(number, "pcs", f"Connector, {poles} poles, plug and header", _where(poles))


def _up(metres: float) -> str:
    return f"{math.ceil(metres * 10 - 1e-9) / 10:g}"


def _where(poles: int) -> str:
    return {POLES: "segments of each digit", 6: "chain in and out of each card"}.get(poles, "supply")


def _connectors(project: Project) -> Counter[int]:
    """Poles to number: those of the digits, of the chain and of the supply."""
    counted: Counter[int] = Counter()
    for part in project.harness.circuit.components:
        if part.kind != "connector":
            continue
        last = part.ref[-1]
        counted[6 if last in "IO" else 2 if last == "P" or part.ref == "X0" else POLES] += 1
    return counted
