"""The power budget: supply from the lamp test, battery time from real content, fuse by the wire."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from segkit.catalog.part import Supply, Wire
from segkit.electrical.battery import BATTERIES, Runtime, Use, runtime
from segkit.electrical.fuse import LOADING, fuse_a, fuse_findings, fuse_line
from segkit.electrical.preferred import SUPPLIES_A, next_size
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Segments lit on average over the digits 0 to 9 (tails on 6 and 9): 49 of 70.
MEAN_SHARE = 49 / 70
_USUAL = Use()


@dataclass(frozen=True)
class Load:
    """Segments of one kind on the whole board.

    Attributes:
        kind: kind of segment.
        count: how many there are on the board.
        current_a, highest_a: of one of them, typical and worst corner, A.
        mean_share: share of them lit on average: 0.7 for segments of digits, 1 for a colon that stays on.
    """

    kind: str
    count: int
    current_a: float
    highest_a: float
    mean_share: float = MEAN_SHARE


@dataclass(frozen=True)
class PowerBudget:
    """What the board takes and what it needs.

    Attributes:
        all_on_a, all_on_highest_a: everything lit, typical and worst corner, A.
        mean_a: over real content, A.
        needed_a: rating that a supply must have: everything lit over 80 %, A.
        supply_a: next usual supply, A; ``inf`` beyond the largest.
        fused_a: highest current behind one fuse, A.
        fuse_a: fuse to put in, A; 0 where no usual one fits between load and wire.
        runtime_h: battery time at the mean current, h; 0 for a mains adapter.
        full_h: battery time with everything lit, h; 0 for a mains adapter.
        lines, findings: working and verdicts.
    """

    all_on_a: float
    all_on_highest_a: float
    mean_a: float
    needed_a: float
    supply_a: float
    fused_a: float
    fuse_a: float
    runtime_h: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    full_h: float = 0.0


@dataclass(frozen=True)
class Drawn:
    """Currents that a supply gives: everything lit, the same at the worst corner, over real content, A."""

    all_on_a: float
    highest_a: float
    mean_a: float


def drawn_by(loads: Sequence[Load], *, logic_a: float = 0.05, level: float = 1.0) -> Drawn:
    """What the board takes.

    Args:
        loads: segments by kind.
        logic_a: registers and controller where the same supply feeds them, A.
        level: brightness on average where the board is dimmed, above 0 to 1.

    Formula: ``I = Ilogic + n1*I1 + n2*I2 + ...``; on average each term counts the share that is lit.

    Raises:
        InputError: no load at all.

    Source: digit-statistics, arithmetic.

    Example:
        >>> drawn_by([Load("upright", 28, 0.04, 0.05)], logic_a=0.0).all_on_a
        1.12
    """
    all_on_a = logic_a + sum(load.count * load.current_a for load in loads)
    if not any(load.count for load in loads) and logic_a <= 0:
        raise InputError(Problem("nothing on the board takes current.", remedy="Give it segments."))
    highest_a = logic_a + sum(load.count * load.highest_a for load in loads)
    mean_a = logic_a + level * sum(load.count * load.mean_share * load.current_a for load in loads)
    return Drawn(all_on_a, highest_a, mean_a)


def power_budget(
    loads: Sequence[Load],
    *,
    supply: Supply,
    wire_a: float,
    digit: Sequence[Load] = (),
    wires: Sequence[Wire] = (),
    logic_a: float = 0.05,
    level: float = 1.0,
    use: Use = _USUAL,
    at_source: Drawn | None = None,
) -> PowerBudget:
    """Add up the board and judge the supply it is to run on.

    Args:
        loads: segments by kind.
        supply: the supply or battery; with a converter the one that feeds it.
        wire_a: current that the thinnest wire behind a fuse may carry, A.
        digit: where each digit has a cable and a fuse of its own: what the digit with the highest current
            lights; else left out, and one fuse feeds the whole board.
        wires: catalogue rows that a remedy may name.
        logic_a: registers and controller, A.
        level: brightness on average where the board is dimmed, above 0 to 1.
        use: how a battery is used.
        at_source: currents at the supply where a converter lies between it and the board.

    Returns:
        the budget; the lamp test (everything lit) sets the supply, the mean of real content the battery.

    Formula: ``needed = all/0.8``; battery time as ``runtime``.

    Raises:
        InputError: no load at all.

    Source: continuous-load, digit-statistics, peukert, fuse-practice.
    """
    board = drawn_by(loads, logic_a=logic_a, level=level)
    taken = at_source or board
    needed_a = taken.all_on_a / LOADING
    usual_a = next_size(needed_a, SUPPLIES_A)
    fused_a = sum(load.count * load.highest_a for load in digit) if digit else taken.highest_a
    fuse = fuse_a(load_a=fused_a, wire_a=wire_a)
    lasts = _lasts(supply, taken, use)
    lines = (
        *_sum_lines(loads, logic_a, level, board),
        *_supply_lines(taken.all_on_a, needed_a, usual_a),
        *((_digit_line(digit, fused_a),) if digit else ()),
        *((fuse_line(fuse, load_a=fused_a),) if fuse else ()),
        *lasts.lines,
    )
    findings = (
        *_supply_findings(supply, taken.all_on_a, taken.highest_a, needed_a, usual_a),
        *fuse_findings(
            load_a=fused_a, wire_a=wire_a, board_a=taken.highest_a, digit=bool(digit), wires=wires
        ),
        *lasts.findings,
        *_care_findings(supply),
        *_inrush_findings(supply, fuse),
        *_strong_findings(supply, usual_a),
    )
    return PowerBudget(
        board.all_on_a, board.highest_a, board.mean_a, needed_a, usual_a, fused_a, fuse, lasts.hours, lines,
        findings, lasts.full_h,
    )  # fmt: skip


def _lasts(supply: Supply, taken: Drawn, use: Use) -> Runtime:
    """Battery time; none where nothing flows, which the strings have said."""
    if taken.mean_a <= 0:
        return Runtime(0.0, 0.0)
    return runtime(supply, mean_a=taken.mean_a, all_on_a=taken.all_on_a, use=use)


def _sum_lines(loads: Sequence[Load], logic_a: float, level: float, board: Drawn) -> tuple[Line, ...]:
    def total(name: str, title: str, value: float, pick: str) -> Line:
        terms, inputs = ["Ilogic"], [Given("Ilogic", logic_a, "A", "registers and controller on this supply")]
        for i, load in enumerate(loads, 1):
            current = load.highest_a if pick == "highest" else load.current_a
            inputs += [Given(f"n{i}", load.count, "", load.kind), Given(f"I{i}", current, "A", load.kind)]
            terms.append(f"n{i}*I{i}")
            if pick == "mean":
                inputs.append(Given(f"s{i}", load.mean_share, "", "share lit on average"))
                terms[-1] += f"*s{i}"
        if pick == "mean" and level != 1.0:
            inputs.append(Given("b", level, "", "brightness on average"))
            terms = [terms[0], f"b*({' + '.join(terms[1:])})"]
        source = "digit-statistics" if pick == "mean" else "arithmetic"
        return Line(f"electrical.{name}", title, "I", value, "A", " + ".join(terms), tuple(inputs), source)

    return (
        total("total_current", "current with everything lit, typical", board.all_on_a, "typical"),
        total(
            "total_current_highest", "current with everything lit, worst corner", board.highest_a, "highest"
        ),
        total("mean_current", "current over real content", board.mean_a, "mean"),
    )


def _digit_line(digit: Sequence[Load], fused_a: float) -> Line:
    inputs, terms = [], []
    for i, load in enumerate(digit, 1):
        inputs += [
            Given(f"n{i}", load.count, "", f"{load.kind}, on the digit"),
            Given(f"I{i}", load.highest_a, "A", load.kind),
        ]
        terms.append(f"n{i}*I{i}")
    return Line(
        "electrical.digit_current_highest", "current of the digit that takes most, worst corner", "I",
        fused_a, "A", " + ".join(terms), tuple(inputs), "arithmetic",
    )  # fmt: skip


def _supply_lines(all_on_a: float, needed_a: float, usual_a: float) -> tuple[Line, ...]:
    load = Given("I", all_on_a, "A", "everything lit")

    def line(name: str, title: str, value: float, formula: str, *given: Given, source: str) -> Line:
        return Line(f"electrical.{name}", title, "I", value, "A", formula, given, source)

    loading = "continuous-load"
    lines = [line("supply_needed", "rating the supply must have", needed_a, "I/0.8", load, source=loading)]
    if math.isfinite(usual_a):
        lines.append(line("supply", "supply to buy", usual_a, "next_supply(I/0.8)", load, source=loading))
    return tuple(lines)


def _supply_findings(
    supply: Supply, all_on_a: float, highest_a: float, needed_a: float, usual_a: float
) -> tuple[Finding, ...]:
    if not supply.max_current_a or needed_a <= supply.max_current_a * (1 + 1e-9):
        return ()
    over = max(all_on_a, highest_a) > supply.max_current_a
    buy = (
        f"Take one of {plain_number(usual_a)} A"
        if math.isfinite(usual_a)
        else "Divide the board among several"
    )
    return (
        Finding(
            level="stop" if all_on_a > supply.max_current_a else "caution",
            code="supply-too-small" if over else "supply-loaded",
            subject=supply.name,
            text=f"everything lit takes {engineering(all_on_a, 'A')} (worst corner "
            f"{engineering(highest_a, 'A')}), {all_on_a / supply.max_current_a:.0%} of "
            f"{plain_number(supply.max_current_a)} A; {LOADING:.0%} is good practice.",
            value=round(all_on_a, 3),
            limit=round(LOADING * supply.max_current_a, 3),
            unit="A",
            source="continuous-load",
            remedy=f"{buy}, at least {plain_number(needed_a, 3)} A.",
        ),
    )


def _care_findings(supply: Supply) -> tuple[Finding, ...]:
    if supply.type == "cells":
        code = "battery-fuse"
        text = "fresh cells give several amperes into a short: wires and holder get hot enough to burn."
        remedy = "Put the fuse next to the holder; never charge cells that are not made for it."
    elif supply.type in BATTERIES:
        code = "battery-fuse"
        text = "a battery can give tens to hundreds of amperes into a short: wire and pack can burn."
        remedy = (
            "Put the fuse at the terminal, before any wire; charge with the charger made for the battery."
        )
    else:
        code = "mains"
        text = "the mains side can kill; outdoors even more so."
        remedy = (
            "Use a closed, approved adapter of extra-low voltage on a socket with residual-current "
            "protection, kept dry. Local codes come first; fixed wiring belongs to a licensed electrician."
        )
    return (
        Finding(
            level="caution",
            code=code,
            subject=supply.name,
            text=text,
            source="electrical-safety",
            remedy=remedy,
        ),
    )


def _inrush_findings(supply: Supply, fuse: float) -> tuple[Finding, ...]:
    if supply.type != "mains-adapter":
        return ()
    lag = f"a time-lag fuse (T {plain_number(fuse)} A)" if fuse else "a time-lag fuse (marked T)"
    return (
        Finding(
            level="note",
            code="inrush",
            subject=supply.name,
            text="a switching adapter takes some 60 A from the mains for a moment when it is plugged in, and "
            "the capacitors on the board take a surge from the adapter.",
            source="inrush-practice",
            remedy=f"Put in {lag}, and plug several adapters in one after the other.",
        ),
    )


def limited_a(nominal_v: float) -> float:
    """Current up to which a supply counts as one of limited power, A.

    Args:
        nominal_v: voltage of the supply, V, above 0.

    Formula: 5 A up to 20 V, ``100 VA/V`` above.

    Source: limited-power.

    Example:
        >>> limited_a(12), round(limited_a(24), 2)
        (5.0, 4.17)
    """
    return 5.0 if nominal_v <= 20 else 100 / nominal_v


def _strong_findings(supply: Supply, usual_a: float) -> tuple[Finding, ...]:
    """A large adapter feeds a fault with all it has, and a fuse sized for the board lets it."""
    rating_a, limit_a = supply.max_current_a or usual_a, limited_a(supply.nominal_v)
    if supply.type != "mains-adapter" or rating_a <= limit_a:
        return ()
    size = f"of {plain_number(rating_a)} A" if math.isfinite(rating_a) else "of this size"
    return (
        Finding(
            level="note",
            code="strong-supply",
            subject=supply.name,
            text=f"a supply {size} drives more than {plain_number(limit_a, 3)} A into a fault; supplies of "
            "limited power, which need less care, end there.",
            value=rating_a if math.isfinite(rating_a) else "several",
            limit=round(limit_a, 2),
            unit="A",
            source="limited-power",
            remedy="Give each branch of the board a fuse for its own wire, or take several smaller supplies; "
            "local codes come first.",
        ),
    )
