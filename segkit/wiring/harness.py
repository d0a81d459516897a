"""All wires of a board with their numbers and sizes, and what they add up to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from segkit.catalog.part import Wire
from segkit.electrical.fuse import LOADING
from segkit.electrical.preferred import FUSES_A, next_size
from segkit.findings import Finding
from segkit.units import plain_number
from segkit.wiring.board_routes import Stations, board_runs, stations
from segkit.wiring.circuit import Circuit, circuit_of
from segkit.wiring.digit_routes import DigitWiring, digit_wiring
from segkit.wiring.plan import Plan
from segkit.wiring.run import Run
from segkit.working import Given, Line

#: Thinnest wire for the board: thinner ones break at the joint, mm2; source common-practice.
LEAST_MM2 = 0.25
#: Order of the groups in the wire list.
GROUPS = ("supply", "cable", "chain", "plus", "segment", "string", "card")


@dataclass(frozen=True)
class NumberedRun:
    """A wire with its number and its size.

    Attributes:
        number: ``W1`` and on, in the order of the list.
        run: the wire.
        size: catalogue row of the wire or cable; None for leads and for links on a card.
    """

    number: str
    run: Run
    size: Wire | None


@dataclass(frozen=True)
class Harness:
    """The wiring of a whole board.

    Attributes:
        plan: what it follows from.
        circuit: parts and nets.
        digits: routes by digit.
        stations: places of cards, entry and controller.
        wires: every connection, numbered.
        lines, findings: working and verdicts.
    """

    plan: Plan
    circuit: Circuit
    digits: Mapping[int, DigitWiring]
    stations: Stations
    wires: tuple[NumberedRun, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def harness(plan: Plan) -> Harness:
    """Parts, nets, routes, sizes and lengths of a board's wiring.

    Args:
        plan: what the wiring follows from.

    Sources: wire-slack, led-lead-pitch, design-choice (the routes), those of the wires.
    """
    circuit = circuit_of(plan)
    digits = {digit: digit_wiring(plan, digit) for digit in plan.digits}
    layouts = {digit: wiring.layout for digit, wiring in digits.items()}
    runs = [*board_runs(plan, circuit, layouts), *(run for wiring in digits.values() for run in wiring.runs)]
    ordered = sorted(runs, key=lambda run: GROUPS.index(run.group))
    wires = tuple(NumberedRun(f"W{n}", run, size_of(plan, run)) for n, run in enumerate(ordered, 1))
    return Harness(
        plan,
        circuit,
        digits,
        stations(plan, layouts),
        wires,
        _lines(wires),
        (*_findings(wires), *_behind_fuse(plan, wires)),
    )


def size_of(plan: Plan, run: Run) -> Wire | None:
    """The wire for a run: the design's for cores and along the digits, else the thinnest that carries it.

    What is left out for the supply pair stands the fuse before it, not only its current.

    Args:
        plan: gives the cable and the stock.
        run: the wire.

    Returns:
        a catalogue row; None for leads and links on a card. Where none of the stock carries the current, the
        thickest.

    Sources: those of the wires; not thinner than 0.25 mm2: common-practice.
    """
    if run.make == "core":
        own = plan.common is not None and run.digit > 0 and not run.segment
        return plan.common if own else plan.cable
    if run.make != "wire":
        return None
    if plan.along is not None and run.group == "supply" and run.route:
        return plan.along
    thick = sorted((w for w in plan.stock if w.area_mm2 >= LEAST_MM2), key=lambda w: w.area_mm2)
    needed_a = max(run.current_a, plan.fuse_a if run.group == "supply" else 0.0)
    return next((w for w in thick if w.max_current_a >= needed_a), thick[-1])


def total_mm(wires: tuple[NumberedRun, ...]) -> dict[tuple[str, str], float]:
    """Length to cut by catalogue id and core colour, mm; cables are not among them.

    Args:
        wires: of the harness.
    """
    found: dict[tuple[str, str], float] = {}
    for wire in wires:
        if wire.size is not None and wire.run.make == "wire":
            key = (wire.size.id, wire.run.code)
            found[key] = found.get(key, 0.0) + wire.run.cut_mm
    return found


def _lines(wires: tuple[NumberedRun, ...]) -> tuple[Line, ...]:
    found = []
    for size in dict.fromkeys(wire.size for wire in wires if wire.size and wire.run.make == "wire"):
        own = [wire.run for wire in wires if wire.size == size and wire.run.make == "wire"]
        route, slack = sum(run.route_mm for run in own), sum(run.slack_mm for run in own)
        rounding = sum(run.cut_mm - run.route_mm - run.slack_mm for run in own)
        found.append(
            Line(
                f"wiring.wire_length.{size.id.replace(' ', '-')}", f"length to cut, {size.name}", "L",
                sum(run.cut_mm for run in own) / 1000, "m", "(r + s + u)/1000",
                (
                    Given("r", route, "mm", f"routes of {len(own)} wires on the board"),
                    Given("s", slack, "mm", "slack: a tenth of the route, 10 mm a lead, 40 mm a connector"),
                    Given("u", rounding, "mm", "each wire rounded up to the next 5 mm"),
                ),
                "wire-slack",
            )
        )  # fmt: skip
    joints = sum(2 for wire in wires if wire.run.make != "card")
    ends = Given("n", joints / 2, "", "wires, cores and links of leads, cards left out")
    return (*found, Line("wiring.wire_ends", "ends to strip or solder", "J", joints, "", "2*n", (ends,),
                         "arithmetic"))  # fmt: skip


def _findings(wires: tuple[NumberedRun, ...]) -> tuple[Finding, ...]:
    thin = [
        (wire.run.current_a, wire.number, wire.size)
        for wire in wires
        if wire.size and wire.run.make == "wire" and wire.run.current_a > wire.size.max_current_a
    ]
    if not thin:
        return ()
    amps, number, size = max(thin, key=lambda found: found[0])
    return (
        Finding(
            "caution", "no-wire-thick-enough", "wires on the board",
            f"Wire {number} carries up to {amps:.3g} A; the thickest hook-up wire of the catalogue is "
            f"planned for {size.max_current_a:.3g} A.",
            amps, size.max_current_a, "A", size.source,
            "Feed the cards by a wire of their own from the cable entry, or take a higher supply voltage.",
        ),
    )  # fmt: skip


def _behind_fuse(plan: Plan, wires: tuple[NumberedRun, ...]) -> tuple[Finding, ...]:
    """Plus wires of the digits that are thinner than the fuse before them asks for: ``fuse-above-branch``."""
    thin = [
        (wire.run.current_a, wire.size)
        for wire in wires
        if wire.size and wire.run.group == "plus" and wire.size.max_current_a < plan.fuse_a
    ]
    if not thin or plan.carries == "segments":
        return ()
    amps, size = max(thin, key=lambda found: found[0])
    planned, each_a = plain_number(size.max_current_a, 3), next_size(amps / LOADING, FUSES_A)
    cure = (
        f"put a fuse of {plain_number(each_a, 3)} A into the plus lead of each digit at its card"
        if each_a <= size.max_current_a
        else "give each digit a fuse of its own, and plus leads that stand it"
    )
    return (
        Finding(
            "note", "fuse-above-branch", "plus wires of the digits",
            f"A fuse of {plain_number(plan.fuse_a, 3)} A stands before {size.name}, planned with {planned} "
            "A: a short behind a card may heat that before the fuse blows.",
            plan.fuse_a, size.max_current_a, "A", "fuse-practice",
            f"Keep plus and minus apart behind the cards, or {cure}.",
        ),
    )  # fmt: skip
