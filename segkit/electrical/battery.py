"""How long a battery lasts on real content, and how far small cells sag."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit import units
from segkit.catalog.part import Supply
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Peukert exponent of a flooded lead-acid battery at the better end; sealed ones do better.
PEUKERT = 1.2
#: What alkaline cells lose at currents far above the one they are rated at, in the same form.
PEUKERT_CELLS = 1.3
RATED_HOURS = 20.0
BATTERIES = ("lead-acid", "lithium", "cells")
#: A small alkaline cell: its voltage, and the resistance inside, Ω.
CELL_V, CELL_OHM = 1.5, 0.15
#: Caution where small cells lose more than this share of their voltage inside.
_SAG_SHARE = 0.1
_CAPACITIES_AH = (0.8, 1.2, 2.3, 3.3, 4.5, 7.0, 9.0, 12.0, 18.0, 26.0, 40.0, 55.0, 75.0, 100.0, 200.0)


@dataclass(frozen=True)
class Use:
    """How a battery is used.

    Attributes:
        exponent: of Peukert's law for lead-acid, 1 to 1.4.
        rated_h: time over which the capacity is rated, h.
        usable: share of the capacity that is taken out before it is charged again, above 0 to 1.
        wanted_h: hours that it has to last, h; 0 if nobody said.
    """

    exponent: float = PEUKERT
    rated_h: float = RATED_HOURS
    usable: float = 1.0
    wanted_h: float = 0.0


_USUAL = Use()


def peukert_h(
    *, capacity_ah: float, current_a: float, rated_h: float = RATED_HOURS, exponent: float = PEUKERT
) -> float:
    """Time that a lead-acid battery lasts, h.

    Args:
        capacity_ah: rated capacity, Ah, above 0.
        current_a: current drawn, A, above 0.
        rated_h: time over which the capacity is rated, h.
        exponent: 1.05 to 1.3; 1 is the naive division.

    Formula: ``t = H*(C/(I*H))**k``.

    Raises:
        InputError: a value that is not positive.

    Source: peukert.

    Example:
        >>> round(peukert_h(capacity_ah=100, current_a=10), 3)
        8.706
    """
    if min(capacity_ah, current_a, rated_h, exponent) <= 0:
        values = f"{capacity_ah} Ah, {current_a} A, {rated_h} h, {exponent}"
        raise InputError(Problem("battery time needs values above 0.", value=values))
    return float(rated_h * (capacity_ah / (current_a * rated_h)) ** exponent)


def peukert_exponent(*, first_a: float, first_h: float, second_a: float, second_h: float) -> float:
    """The exponent of a battery from two of its ratings.

    Args:
        first_a, second_a: two currents of the data sheet, A, different.
        first_h, second_h: how long the battery lasts at them, h.

    Formula: ``k = ln(t1/t2)/ln(I2/I1)``.

    Raises:
        InputError: a value that is not positive, or the same current twice.

    Source: peukert.

    Example:
        >>> round(peukert_exponent(first_a=5, first_h=20, second_a=20, second_h=3), 4)
        1.3685
    """
    if min(first_a, first_h, second_a, second_h) <= 0 or first_a == second_a:
        values = f"{first_a} A {first_h} h, {second_a} A {second_h} h"
        raise InputError(Problem("an exponent needs two ratings at different currents.", value=values))
    return math.log(first_h / second_h) / math.log(second_a / first_a)


def exponent_of(text: str) -> float:
    """The exponent of a battery from two ratings as its data sheet prints them.

    Args:
        text: two currents with their times, ``"0.36 A for 20 h, 4.4 A for 1 h"``.

    Raises:
        InputError: not two of them, a unit missing, or the same current twice; all together.

    Source: peukert.

    Example:
        >>> round(exponent_of("5 A for 20 h, 20 A for 3 h"), 4)
        1.3685
    """
    pairs = [rating.split(" for ") for rating in text.split(",")]
    if [len(pair) for pair in pairs] != [2, 2]:
        remedy = 'Write them as in "0.36 A for 20 h, 4.4 A for 1 h".'
        raise InputError(Problem("two ratings of a battery are asked for.", value=f'"{text}"', remedy=remedy))
    found: list[float] = []
    problems: list[Problem] = []
    for written, kind in zip((*pairs[0], *pairs[1]), (units.CURRENT, units.DURATION) * 2, strict=True):
        try:
            found.append(units.parse(written, kind))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(problems)
    first_a, first_s, second_a, second_s = found
    return peukert_exponent(
        first_a=first_a, first_h=first_s / 3600, second_a=second_a, second_h=second_s / 3600
    )


@dataclass(frozen=True)
class Runtime:
    """How long a battery lasts.

    Attributes:
        hours: at the mean current, h; 0 where there is no battery.
        full_h: with everything lit all the time, h.
        lines, findings: working and verdicts.
    """

    hours: float
    full_h: float
    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()


def runtime(supply: Supply, *, mean_a: float, all_on_a: float, use: Use = _USUAL) -> Runtime:
    """How long a battery lasts on the mean current of what is shown.

    Args:
        supply: the battery; anything else lasts for ever and gives no time.
        mean_a: current over real content, A, above 0.
        all_on_a: current with everything lit, A, above 0.
        use: how it is used.

    Formula: lead-acid ``t = u*H*(C/(I*H))**k``, below the rated current ``u*C/I``, since no battery gives
        more than it is rated for; small cells the same with their own exponent; lithium by its energy,
        ``t = u*C*V/(V*I)``.

    Raises:
        InputError: a current that is not above 0.

    Source: peukert, alkaline-cells, arithmetic.

    Example:
        >>> from segkit.catalog.reader import supply
        >>> round(runtime(supply("lithium-3-cell"), mean_a=0.5, all_on_a=0.7).hours, 2)
        5.0
    """
    if min(mean_a, all_on_a) <= 0:
        raise InputError(Problem("battery time needs currents above 0.", value=f"{mean_a} A, {all_on_a} A"))
    if supply.type not in BATTERIES or not supply.capacity_ah:
        return Runtime(0.0, 0.0)
    hours, full_h = (_hours(supply, current_a, use) for current_a in (mean_a, all_on_a))
    lines = (
        _line(supply, mean_a, use, hours, "electrical.runtime", "battery time", "over what is shown"),
        _line(supply, all_on_a, use, full_h, "electrical.runtime_full", "battery time, everything lit",
              "everything lit"),
        *_sag_lines(supply, all_on_a),
    )  # fmt: skip
    findings = (*_sag_findings(supply, all_on_a), *_short_findings(supply, mean_a, use, hours))
    return Runtime(hours, full_h, lines, findings)


def _exponent(supply: Supply, use: Use) -> float:
    return {"lead-acid": use.exponent, "cells": PEUKERT_CELLS}.get(supply.type, 1.0)


def _hours(supply: Supply, current_a: float, use: Use) -> float:
    if supply.type == "lithium":
        return use.usable * supply.capacity_ah * supply.nominal_v / (supply.nominal_v * current_a)
    law_h = peukert_h(
        capacity_ah=supply.capacity_ah, current_a=current_a, rated_h=use.rated_h,
        exponent=_exponent(supply, use),
    )  # fmt: skip
    return use.usable * min(law_h, supply.capacity_ah / current_a)


def _line(
    supply: Supply, current_a: float, use: Use, hours: float, name: str, title: str, meaning: str
) -> Line:
    inputs: tuple[Given, ...] = (
        Given("u", use.usable, "", "share of the capacity taken out"),
        Given("C", supply.capacity_ah, "Ah", "capacity"),
        Given("I", current_a, "A", meaning),
    )
    if supply.type == "lithium":
        formula, source = "u*C*V/(V*I)", "arithmetic"
        inputs = (*inputs, Given("V", supply.nominal_v, "V", "energy is capacity by voltage"))
    else:
        formula, source = (
            "u*min(H*(C/(I*H))**k, C/I)",
            "peukert" if supply.type == "lead-acid" else "alkaline-cells",
        )
        inputs = (
            *inputs,
            Given("H", use.rated_h, "h", "rated over"),
            Given("k", _exponent(supply, use), "", "exponent"),
        )
    note = "a new battery at room temperature; reckon with two thirds of it when it is old or cold"
    return Line(name, title, "t", hours, "h", formula, inputs, source, note)


def needed_ah(supply: Supply, *, current_a: float, use: Use = _USUAL) -> float:
    """The capacity that lasts the hours wanted at a current, Ah.

    Args:
        supply: kind of battery.
        current_a: current drawn, A, above 0.
        use: how it is used, with the hours wanted.

    Formula: ``C = I*H*(t/(u*H))**(1/k)``, at least ``I*t/u``: the law turned round.

    Source: peukert.

    Example:
        >>> from segkit.catalog.reader import supply
        >>> battery = supply("lead-acid-12v-7ah")
        >>> round(needed_ah(battery, current_a=0.9, use=Use(wanted_h=10)), 2)
        10.1
    """
    plain_ah = current_a * use.wanted_h / use.usable
    if supply.type == "lithium":
        return plain_ah
    share = (use.wanted_h / (use.usable * use.rated_h)) ** (1 / _exponent(supply, use))
    return max(plain_ah, float(current_a * use.rated_h * share))


def _short_findings(supply: Supply, mean_a: float, use: Use, hours: float) -> tuple[Finding, ...]:
    if not use.wanted_h or hours >= use.wanted_h:
        return ()
    needed = needed_ah(supply, current_a=mean_a, use=use)
    usual = next((size for size in _CAPACITIES_AH if size >= needed), math.inf)
    buy = f"one of {plain_number(usual)} Ah" if math.isfinite(usual) else "several side by side, each fused"
    if supply.type == "cells":
        buy = "a lead-acid or lithium battery instead of cells"
    return (
        Finding(
            level="caution",
            code="battery-too-short",
            subject=supply.name,
            text=f"it lasts {plain_number(hours, 2)} h at {engineering(mean_a, 'A')}, and "
            f"{plain_number(use.wanted_h, 3)} h are asked for.",
            value=round(hours, 2),
            limit=use.wanted_h,
            unit="h",
            source="peukert" if supply.type == "lead-acid" else "arithmetic",
            remedy=f"Take {buy} ({plain_number(needed, 3)} Ah are needed when it is new), fewer LEDs, less "
            "current, or dim it.",
        ),
    )


def _sag_v(supply: Supply, current_a: float) -> float:
    return supply.nominal_v / CELL_V * CELL_OHM * current_a


def _sag_lines(supply: Supply, all_on_a: float) -> tuple[Line, ...]:
    if supply.type != "cells":
        return ()
    inputs = (
        Given("V", supply.nominal_v, "V", "of all cells"),
        Given("Vc", CELL_V, "V", "of one cell"),
        Given("Rc", CELL_OHM, "ohm", "inside one cell, when fresh"),
        Given("I", all_on_a, "A", "everything lit"),
    )
    return (
        Line("electrical.cells_sag", "lost inside the cells, everything lit", "Vi", _sag_v(supply, all_on_a),
             "V", "V/Vc*Rc*I", inputs, "alkaline-cells"),
    )  # fmt: skip


def _sag_findings(supply: Supply, all_on_a: float) -> tuple[Finding, ...]:
    sag_v = _sag_v(supply, all_on_a)
    limit_v = _SAG_SHARE * supply.nominal_v
    if supply.type != "cells" or sag_v <= limit_v:
        return ()
    return (
        Finding(
            level="caution",
            code="cells-sag",
            subject=supply.name,
            text=f"with everything lit {engineering(all_on_a, 'A')} lose {sag_v:.1f} V inside the cells, so "
            f"{supply.nominal_v - sag_v:.1f} V of {plain_number(supply.nominal_v)} V come out: digits with "
            "many segments grow dim, or the controller starts again.",
            value=round(sag_v, 2),
            limit=round(limit_v, 2),
            unit="V",
            source="alkaline-cells",
            remedy="Run the board from a lead-acid or lithium battery; give the controller its own supply.",
        ),
    )
