"""``segkit supply``: the supply to buy, its fuse, the hours of a battery, the heat of a logic regulator."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.catalog.part import Supply
    from segkit.electrical.converter import ConverterRun
    from segkit.electrical.regulator import LogicFeed
    from segkit.electrical.supply import PowerBudget
    from segkit.errors import Problem
    from segkit.findings import Finding

EXAMPLE = 'segkit supply --volt 12V --layout "88:88" --segment 40mA --kind lead-acid --battery 7Ah'

_KINDS = ("mains-adapter", "lead-acid", "lithium", "cells")


def supply(
    volt: Annotated[Text, option("VOLT", "Voltage of the LEDs: 12V.")] = None,
    current: Annotated[Text, option("AMP", "Everything lit, if you know it: 1.68A.")] = None,
    layout: Annotated[Text, option("MARKS", 'Else the board, "88:88", with --segment.')] = None,
    segment: Annotated[Text, option("AMP", "Current of one segment: 40mA.")] = None,
    content: Annotated[
        Text,
        option(
            "WORDS", 'What --layout shows: digits (if left out), "clock 24 h", "count 0 to 13", everything.'
        ),
    ] = None,
    mean: Annotated[Text, option("AMP", "Current over real content, if you know it, with --current.")] = None,
    kind: Annotated[Text, option("WORD", f"{', '.join(_KINDS)}; the first if left out.")] = None,
    have: Annotated[Text, option("AMP", "What a supply that you have can give, to be judged.")] = None,
    battery: Annotated[Text, option("AH", "Capacity of the battery: 7Ah.")] = None,
    lasts: Annotated[Text, option("TIME", "How long the battery has to last: 8h.")] = None,
    wire: Annotated[Text, option("WIRE", 'Thinnest wire behind the fuse: "0.75 mm2", "20 AWG".')] = None,
    logic: Annotated[Text, option("VOLT", "Voltage of the logic, with --regulator: 5V.")] = None,
    logic_current: Annotated[Text, option("AMP", "Registers and controller; 50mA if left out.")] = None,
    regulator: Annotated[Text, option("WORD", "linear or step-down: makes --logic from the supply.")] = None,
    source: Annotated[
        Text, option("VOLT", "Voltage of a source far away, with --run and --wire: a converter makes --volt.")
    ] = None,
    run: Annotated[Text, option("LENGTH", "Cable from that source to the converter, one way.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """The supply to buy, the fuse, how long a battery lasts, how hot a regulator for the logic becomes."""
    from segkit.findings import stops

    given = _read(
        {
            "volt": volt, "current": current, "layout": layout, "segment": segment, "content": content,
            "mean": mean, "kind": kind, "have": have, "battery": battery, "lasts": lasts, "wire": wire,
            "logic": logic, "logic_current": logic_current, "regulator": regulator, "source": source,
            "run": run,
        }
    )  # fmt: skip
    answer = _answer(given)
    if as_json:
        output.print_json(_as_dict(answer))
    else:
        _print(given, answer)
    raise typer.Exit(output.STOPPED if stops(answer.findings) else output.GOOD)


@dataclass(frozen=True)
class Answer:
    """What the command found: supply, budget, regulator and converter where asked, all verdicts."""

    supply: Supply
    budget: PowerBudget
    mean_a: float
    regulator: LogicFeed | None
    converter: ConverterRun | None
    findings: tuple[Finding, ...]


def _read(texts: dict[str, str | None]) -> dict[str, Any]:
    from segkit.electrical.wire_size import wire_of
    from segkit.glyphs.text import checked_layout
    from segkit.units import CAPACITY, CURRENT, DURATION, LENGTH, VOLTAGE

    touch = "Direct voltage above 60 V needs protection against touch: ask a licensed electrician."
    amp = ask.within(CURRENT, low=1e-4, high=100.0)
    readers = {
        "volt": ask.within(VOLTAGE, low=1.0, high=60.0, remedy=touch),
        "current": amp,
        "layout": checked_layout,
        "segment": amp,
        "content": str.strip,
        "mean": amp,
        "kind": ask.one_of(*_KINDS),
        "have": amp,
        "battery": ask.within(CAPACITY, low=0.1, high=1000.0),
        "lasts": lambda text: ask.within(DURATION, low=60.0, high=3.6e7)(text) / 3600,
        "wire": wire_of,
        "logic": ask.within(VOLTAGE, low=1.0, high=24.0),
        "logic_current": ask.within(CURRENT, low=0.0, high=5.0),
        "regulator": ask.one_of("linear", "step-down"),
        "source": ask.within(VOLTAGE, low=1.0, high=60.0, remedy=touch),
        "run": lambda text: ask.within(LENGTH, low=10, high=1e6)(text) / 1000,
    }
    return ask.read_all(texts, readers, needed={"volt": "12 V"}, more=_contradictions)


def _contradictions(values: Mapping[str, Any]) -> list[Problem]:
    from segkit.errors import Problem

    given = {name for name, value in values.items() if value is not None}
    found = []
    if not ({"current"} <= given or {"layout", "segment"} <= given):
        remedy = 'Give --current "1.68 A", or --layout "88:88" with --segment "40 mA".'
        found.append(Problem("Nothing says what the board takes.", remedy=remedy))
    for one, other, why in (
        ("current", "layout", "Give the current, or the board and its segments."),
        ("current", "segment", "Give the current, or the board and its segments."),
        ("mean", "layout", "The mean follows from what the layout shows."),
        ("current", "content", "Give the mean current with --mean."),
    ):
        if {one, other} <= given:
            found.append(Problem(f"--{one} and --{other} do not go together.", remedy=why))
    for one, other in (("regulator", "logic"), ("logic", "regulator"), ("source", "run"), ("source", "wire"),
                       ("run", "source")):  # fmt: skip
        if one in given and other not in given:
            found.append(Problem(f"it means nothing without --{other}.", key=f"--{one}"))
    if given & {"battery", "lasts"} and values["kind"] in (None, "mains-adapter"):
        remedy = "Say which: --kind lead-acid, lithium or cells."
        found.append(Problem("a mains adapter has no capacity.", key="--kind", remedy=remedy))
    if {"source", "volt"} <= given and values["source"] <= values["volt"]:
        found.append(Problem("a step-down converter cannot raise the voltage.", key="--source",
                             limit=f"above {values['volt']:g} V"))  # fmt: skip
    return found


def _answer(given: dict[str, Any]) -> Answer:
    from segkit.electrical.battery import Use
    from segkit.electrical.supply import Drawn, drawn_by, power_budget

    supply = _supply(given, given["source"] or given["volt"])
    board = supply if given["source"] is None else _supply({**given, "kind": None}, given["volt"])
    feed = _regulator(given, board)
    logic_a = 0.05 if given["logic_current"] is None else given["logic_current"]
    if given["current"] is not None:
        logic_a = 0.0  # it is in what was measured, unless a regulator is asked about
    logic_a = feed.drawn_a if feed else logic_a
    loads = _loads(given)
    taken = drawn_by(loads, logic_a=logic_a)
    runs = [_converter(given, supply, amp) for amp in (taken.all_on_a, taken.highest_a, taken.mean_a)]
    at_source = None
    if runs[0] is not None:
        power = [run.input_a if run.lines else run.power_w / supply.nominal_v for run in runs if run]
        at_source = Drawn(*power)
    wire_a = given["wire"].max_current_a if given["wire"] else 1e3
    budget = power_budget(
        loads, supply=supply, wire_a=wire_a, logic_a=logic_a, wires=_wires(),
        use=Use(wanted_h=given["lasts"] or 0.0), at_source=at_source,
    )  # fmt: skip
    more = [*(feed.findings if feed else ()), *(runs[0].findings if runs[0] else ())]
    mean_a = at_source.mean_a if at_source else taken.mean_a
    return Answer(supply, budget, mean_a, feed, runs[0], (*budget.findings, *more))


def _wires() -> tuple[Any, ...]:
    from segkit.catalog import reader

    return tuple(reader.wires().values())


def _supply(given: dict[str, Any], volts: float) -> Supply:
    """The supply as the design file would make it, with the capacity that was given."""
    from segkit.electrical.source import supply_like

    return supply_like(
        given["kind"] or "mains-adapter", volts=volts, current_a=given["have"], capacity_ah=given["battery"]
    )


def _loads(given: dict[str, Any]) -> list[Any]:
    from segkit.electrical.supply import Load
    from segkit.glyphs.content import content_of

    if given["current"] is not None:
        share = min(1.0, given["mean"] / given["current"]) if given["mean"] else 0.7
        return [Load("board", 1, given["current"], given["current"], mean_share=share)]
    shown = content_of(given["content"] or "digits", layout=given["layout"])
    count = len(shown.shares)
    return [Load("segment", count, given["segment"], given["segment"], mean_share=shown.lit_mean() / count)]


def _regulator(given: dict[str, Any], supply: Supply) -> LogicFeed | None:
    from segkit.electrical.regulator import linear_regulator, step_down

    if given["regulator"] is None:
        return None
    logic_a = 0.05 if given["logic_current"] is None else given["logic_current"]
    make = linear_regulator if given["regulator"] == "linear" else step_down
    return make(supply, logic_v=given["logic"], logic_a=logic_a)


def _converter(given: dict[str, Any], supply: Supply, board_a: float) -> ConverterRun | None:
    from segkit.electrical.converter import converter_run

    if given["source"] is None:
        return None
    return converter_run(
        given["wire"], length_m=given["run"], source=supply, board_v=given["volt"], board_a=board_a
    )


def _as_dict(answer: Answer) -> dict[str, Any]:
    from math import isfinite

    budget, feed, run = answer.budget, answer.regulator, answer.converter
    return {
        "all_on_a": budget.all_on_a,
        "mean_a": answer.mean_a,
        "needed_a": budget.needed_a,
        "supply_a": budget.supply_a if isfinite(budget.supply_a) else None,
        "fuse_a": budget.fuse_a or None,
        "runtime_h": budget.runtime_h or None,
        "runtime_full_h": budget.full_h or None,
        "regulator": {"heat_w": feed.heat_w, "junction_c": feed.junction_c or None, "drawn_a": feed.drawn_a}
        if feed
        else None,
        "converter": {"input_a": run.input_a, "drop_v": run.drop_v, "heat_w": run.heat_w}
        if run and run.lines
        else None,
        "findings": [finding.as_dict() for finding in answer.findings],
    }


def _print(given: dict[str, Any], answer: Answer) -> None:
    from math import isfinite

    from segkit.units import engineering, plain_number

    budget, supply = answer.budget, answer.supply
    lit_a = budget.needed_a * 0.8
    amps = f"{plain_number(budget.supply_a)} A or more" if isfinite(budget.supply_a) else ""
    mains = supply.type == "mains-adapter"
    volts = plain_number(supply.nominal_v)
    buy = f"Buy a {volts} V supply of {amps}" if mains else f"The {volts} V battery must give {amps}"
    if not amps:
        buy = f"Divide the board among several supplies of {volts} V"
    output.say(
        f"{buy}: everything lit takes {engineering(lit_a, 'A')}, "
        f"{plain_number(lit_a * supply.nominal_v, 3)} W; 80 % of the rating is enough load.\n"
    )
    rows = [
        ("everything lit (lamp test)", engineering(lit_a, "A")),
        ("on average", engineering(answer.mean_a, "A")),
        ("rating needed", engineering(budget.needed_a, "A")),
    ]
    if budget.fuse_a:
        wire = (
            f", for {given['wire'].id}" if given["wire"] else ", if the thinnest wire behind it stands that"
        )
        rows.append(("fuse at the source", f"{plain_number(budget.fuse_a)} A, time-lag{wire}"))
    if budget.runtime_h:
        rows.append(("battery time, new", f"{plain_number(budget.runtime_h, 2)} h on average content"))
        rows.append(("", f"{plain_number(budget.full_h, 2)} h with everything lit"))
    rows += _more_rows(answer)
    output.print_table(("", "value"), rows)
    output.print_findings(answer.findings)


def _more_rows(answer: Answer) -> list[tuple[str, str]]:
    from segkit.units import engineering

    rows = []
    if feed := answer.regulator:
        warm = f", junction {feed.junction_c:.0f} °C bare in a box at 50 °C" if feed.junction_c else ""
        rows.append(("regulator of the logic", f"{feed.heat_w:.2f} W{warm}"))
    if (run := answer.converter) and run.lines:
        rows.append(
            ("in the cable to the converter", f"{engineering(run.input_a, 'A')}, {run.drop_v:.2f} V lost")
        )
        rows.append(("heat in the converter", f"{run.heat_w:.1f} W"))
    return rows
