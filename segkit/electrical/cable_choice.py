"""Two supply wires in the usual sizes side by side: what each loses, and the thinnest that will do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.electrical.cable import warm_ohm
from segkit.electrical.fuse import LOADING, fuse_a
from segkit.electrical.wire_size import FLEXIBLE_OHM_PER_KM, SOLID_OHM_PER_KM, wire_of
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: Share of the supply that a cable may lose.
MOST_LOST = 0.05


@dataclass(frozen=True)
class Choice:
    """One size of wire on this run.

    Attributes:
        wire: the row.
        loop_ohm: both wires, Ω.
        drop_v, arrives_v: lost in both wires, and what is left, V.
        lost: drop as a share of the supply.
        fuse_a: fuse that protects it and carries the load, A; 0 where there is none.
        verdict: ``good``, ``loses too much``, ``too thin`` for the current.
    """

    wire: Wire
    loop_ohm: float
    drop_v: float
    arrives_v: float
    lost: float
    fuse_a: float
    verdict: str


def choice_of(
    wire: Wire,
    *,
    length_m: float,
    current_a: float,
    supply_v: float,
    most_lost: float = MOST_LOST,
    temperature_c: float = 20.0,
) -> Choice:
    """What two wires of one size do on a run.

    Args:
        wire: each of the two wires.
        length_m: one way, m, above 0.
        current_a: with everything lit, A, above 0.
        supply_v: V, above 0.
        most_lost: share of the supply that may be lost, above 0.
        temperature_c: of the wires, °C.

    Formula: ``V = 2*I*r*l``.

    Raises:
        InputError: a value out of its range.

    Source: the ``source`` of the wire, cable-loss-practice.

    Example:
        >>> made = choice_of(wire_of("0.5 mm2"), length_m=12, current_a=1.4, supply_v=12)
        >>> round(made.drop_v, 3), made.verdict
        (1.31, 'too thin')
    """
    if min(length_m, current_a, supply_v, most_lost) <= 0:
        values = f"{length_m} m, {current_a} A, {supply_v} V, {most_lost}"
        raise InputError(
            Problem("these values do not describe a run of wire.", value=values, limit="above 0")
        )
    loop_ohm = 2 * length_m * warm_ohm(wire.resistance_ohm_per_m, temperature_c=temperature_c)
    drop_v = current_a * loop_ohm
    fuse = fuse_a(load_a=current_a, wire_a=wire.max_current_a)
    verdict = "good" if drop_v <= most_lost * supply_v * (1 + 1e-9) else "loses too much"
    if current_a > wire.max_current_a or not fuse:
        verdict = "too thin"
    return Choice(wire, loop_ohm, drop_v, max(0.0, supply_v - drop_v), drop_v / supply_v, fuse, verdict)


def usual_wires(like: Wire | None = None) -> tuple[Wire, ...]:
    """The usual sizes, thin to thick, in the measure of a wire: gauges for a gauge, else mm².

    Args:
        like: a wire that names its size in one of the two measures.

    Example:
        >>> [wire.id for wire in usual_wires(wire_of("20 AWG"))][:3]
        ['28 AWG', '26 AWG', '24 AWG']
    """
    if like is not None and like.source == "awg-copper":
        return tuple(wire_of(f"{awg} AWG") for awg in range(28, 6, -2))
    sizes = sorted({*SOLID_OHM_PER_KM, *FLEXIBLE_OHM_PER_KM})
    return tuple(wire_of(f"{plain_number(size)} mm2") for size in sizes)


def thinnest(choices: Sequence[Choice]) -> Choice | None:
    """The first of the choices, thin to thick, that is good; None if none is."""
    return next((choice for choice in choices if choice.verdict == "good"), None)


def choice_findings(
    choice: Choice,
    better: Choice | None,
    *,
    current_a: float,
    most_lost: float = MOST_LOST,
    or_else: str = "",
) -> tuple[Finding, ...]:
    """What is wrong with a choice, and which one would do.

    Args:
        choice: the wire asked about.
        better: the thinnest that will do; None if none of the usual ones does.
        current_a: with everything lit, A.
        most_lost: share of the supply that may be lost.
        or_else: another remedy, added to the first.

    Source: cable-loss-practice, wire-tables, fuse-practice.
    """
    take = f"Take {better.wire.id} or thicker" if better else "Take a shorter run, or several wires each way"
    return (
        *_loss_findings(choice, most_lost, f"{take}{or_else}."),
        *_thin_findings(choice, current_a, f"{take}."),
    )


def _loss_findings(choice: Choice, most_lost: float, remedy: str) -> tuple[Finding, ...]:
    supply_v = choice.drop_v / choice.lost
    if choice.lost <= most_lost * (1 + 1e-9):
        return ()
    all_of_it = choice.arrives_v == 0
    limit_v = round(supply_v * (1 if all_of_it else most_lost), 2)
    lost = f"both wires lose {choice.drop_v:.2f} V, {choice.lost:.1%} of the supply"
    text = f"{lost}; {most_lost:.0%} is good practice."
    if all_of_it:
        text = f"this current would lose {choice.drop_v:.1f} V in both wires, more than there is."
    return (
        Finding(
            level="stop" if all_of_it else "caution",
            code="cable-takes-all" if all_of_it else "cable-loss",
            subject=choice.wire.name,
            text=text,
            value=round(choice.drop_v, 2),
            limit=limit_v,
            unit="V",
            source="cable-loss-practice",
            remedy=remedy,
        ),
    )


def _thin_findings(choice: Choice, current_a: float, remedy: str) -> tuple[Finding, ...]:
    wire, fused_a = choice.wire, current_a / LOADING
    if choice.fuse_a:
        return ()
    thin = current_a > wire.max_current_a
    text = (
        f"{engineering(current_a, 'A')} is more than the {engineering(wire.max_current_a, 'A')} to plan with."
    )
    if not thin:
        text = (
            f"no usual fuse lies between {engineering(fused_a, 'A')} and the "
            f"{engineering(wire.max_current_a, 'A')} of the wire."
        )
    return (
        Finding(
            level="caution",
            code="return-too-thin" if thin else "fuse-above-wire",
            subject=wire.name,
            text=text,
            value=round(current_a if thin else fused_a, 3),
            limit=wire.max_current_a,
            unit="A",
            source=wire.source if thin else "fuse-practice",
            remedy=remedy,
        ),
    )
