"""``segkit sink``: heat, drop and limits of a switch with some of its outputs on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.catalog.part import Sink
    from segkit.electrical.sink_choice import SinkRow
    from segkit.findings import Finding

EXAMPLE = "segkit sink darlington-sink-8 --current 40mA --on 8 --air 50"


def sink(
    driver: Annotated[
        str | None,
        typer.Argument(
            metavar="DRIVER", help="Catalogue id; left out: all of them side by side.", show_default=False
        ),
    ] = None,
    current: Annotated[Text, option("AMP", "Current of each output that is on: 40mA.")] = None,
    on: Annotated[Text, option("COUNT", "Outputs on at once; all of the chip if left out.")] = None,
    air: Annotated[Text, option("TEMP", "Air in the box in °C; 50 if left out.")] = None,
    supply: Annotated[
        Text, option("VOLT", "Highest supply of the LEDs, which an output that is off sees.")
    ] = None,
    logic: Annotated[Text, option("VOLT", "Supply of the logic before it: 5V, 3.3V.")] = None,
    spare: Annotated[
        Text, option("VOLT", "What the LEDs leave of the supply, for a constant-current sink: 2V.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """How hot a switch becomes with some outputs on, what it drops, and the most that each may carry."""
    from segkit.findings import stops

    given = _read(
        {"current": current, "on": on, "air": air, "supply": supply, "logic": logic, "spare": spare}, driver
    )
    sinks = given["sinks"]
    rows = {part.id: _rows(part, given) for part in sinks}
    if len(sinks) == 1:
        (part,) = sinks
        chosen = rows[part.id][_on(part, given) - 1]
        findings = chosen.load.findings
        if as_json:
            output.print_json(_as_dict(part, chosen, rows[part.id], findings))
        else:
            _print_one(part, chosen, rows[part.id])
            output.print_findings(findings)
        raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)
    all_rows = [(part, rows[part.id][_on(part, given) - 1]) for part in sinks]
    if as_json:
        output.print_json({"drivers": [_row_dict(part, row) for part, row in all_rows]})
    else:
        _print_all(all_rows)
    raise typer.Exit(output.GOOD)


def _read(texts: dict[str, str | None], driver: str | None) -> dict[str, Any]:
    from segkit.catalog import reader
    from segkit.errors import InputError, Problem
    from segkit.units import CURRENT, VOLTAGE

    problems: list[Problem] = []
    readers = {
        "current": ask.within(CURRENT, low=1e-4, high=100.0),
        "on": ask.whole(64),
        "air": ask.temperature(low_c=-40, high_c=100),
        "supply": ask.within(VOLTAGE, low=1.0, high=60.0),
        "logic": ask.within(VOLTAGE, low=1.0, high=24.0),
        "spare": ask.within(VOLTAGE, low=0.0, high=60.0),
    }
    given: dict[str, Any] = {}
    try:
        given = ask.read_all(texts, readers, needed={"current": "40 mA"})
    except InputError as error:
        problems += error.problems
    sinks: tuple[Sink, ...] = tuple(reader.sinks().values())
    if driver is not None:
        try:
            sinks = (reader.sink(driver.strip()),)
            problems += _of_one(sinks[0], texts, given)
        except InputError as error:
            problems += error.at(key="DRIVER").problems
    if problems:
        raise InputError(problems)
    given["sinks"] = sinks if given["spare"] is not None or driver else _without_steady(sinks)
    given["air"] = 50.0 if given["air"] is None else given["air"]
    return given


def _of_one(part: Sink, texts: dict[str, str | None], given: dict[str, Any]) -> list[Any]:
    from segkit.errors import Problem

    found = []
    if given.get("on") and given["on"] > part.outputs:
        text = f"{part.id} has {part.outputs} output{'s' if part.outputs > 1 else ''}."
        found.append(Problem(text, key="--on", value=str(given["on"]), limit=f"1 to {part.outputs}"))
    steady = part.type == "constant-current"
    if steady and texts["spare"] is None:
        remedy = 'Give what the supply leaves after the LEDs: --spare "2 V".'
        found.append(Problem("a constant-current sink takes the rest as heat.", key="--spare", remedy=remedy))
    if not steady and texts["spare"] is not None:
        remedy = "Its own drop is known: leave --spare out."
        found.append(Problem("only a constant-current sink takes it.", key="--spare", remedy=remedy))
    return found


def _without_steady(sinks: tuple[Sink, ...]) -> tuple[Sink, ...]:
    return tuple(part for part in sinks if part.type != "constant-current")


def _on(part: Sink, given: dict[str, Any]) -> int:
    return min(given["on"] or part.outputs, part.outputs)


def _rows(part: Sink, given: dict[str, Any]) -> tuple[SinkRow, ...]:
    from segkit.electrical.sink_choice import sink_rows

    return sink_rows(
        part, current_a=given["current"], supply_max_v=given["supply"] or 0.0, logic_v=given["logic"],
        ambient_c=given["air"], spare_v=given["spare"] if part.type == "constant-current" else None,
    )  # fmt: skip


def _row_dict(part: Sink, row: SinkRow) -> dict[str, Any]:
    load = row.load
    return {
        "driver": part.id, "on": row.on, "total_a": load.total_a, "heat_w": load.heat_w,
        "junction_c": load.junction_c, "limit_c": part.max_junction_c, "most_each_a": row.most_a,
        "findings": [finding.as_dict() for finding in load.findings],
    }  # fmt: skip


def _as_dict(
    part: Sink, chosen: SinkRow, rows: tuple[SinkRow, ...], findings: tuple[Finding, ...]
) -> dict[str, Any]:
    from segkit.electrical.driver import sink_drop

    current_a = chosen.load.total_a / chosen.on
    drop = sink_drop(part, current_a=current_a)
    table = [
        {k: v for k, v in _row_dict(part, row).items() if k not in ("driver", "findings")} for row in rows
    ]
    return {
        **_row_dict(part, chosen), "drop_v": drop.typical_v, "worst_drop_v": drop.worst_v, "rows": table,
        "findings": [finding.as_dict() for finding in findings],
    }  # fmt: skip


def _print_one(part: Sink, chosen: SinkRow, rows: tuple[SinkRow, ...]) -> None:
    from segkit.electrical.driver import sink_drop
    from segkit.units import engineering

    load, current_a = chosen.load, chosen.load.total_a / chosen.on
    drop = sink_drop(part, current_a=current_a)
    limit = f", limit {part.max_junction_c:.0f} °C" if part.max_junction_c else ""
    outputs = "1 output" if chosen.on == 1 else f"{chosen.on} outputs"
    output.say(
        f"{part.name}: {outputs} at {engineering(current_a, 'A')} make {load.heat_w:.2f} W, junction "
        f"{load.junction_c:.0f} °C{limit}. Drop {drop.typical_v:.2f} V, worst {drop.worst_v:.2f} V. Each of "
        f"them may carry {engineering(chosen.most_a, 'A')}.\n"
    )
    output.print_table(
        ("", "outputs on", "together", "heat", "junction", "each at most", ""),
        [
            ("→" if row is chosen else "", str(row.on), engineering(row.load.total_a, "A"),
             f"{row.load.heat_w:.2f} W", f"{row.load.junction_c:.0f} °C", engineering(row.most_a, "A"),
             _verdict(row))
            for row in rows
        ],
        right=("outputs on", "together", "heat", "junction", "each at most"),
    )  # fmt: skip


def _verdict(row: SinkRow) -> str:
    return ", ".join(dict.fromkeys(finding.code for finding in row.load.findings)) or "good"


def _print_all(rows: list[tuple[Sink, SinkRow]]) -> None:
    from segkit.units import engineering

    output.print_table(
        ("driver", "outputs on", "heat", "junction", "limit", "each at most", ""),
        [
            (part.id, str(row.on), f"{row.load.heat_w:.2f} W", f"{row.load.junction_c:.0f} °C",
             f"{part.max_junction_c:.0f} °C", engineering(row.most_a, "A"), _verdict(row))
            for part, row in rows
        ],
        right=("outputs on", "heat", "junction", "limit", "each at most"),
    )  # fmt: skip
    output.say("The whole story of one of them: segkit sink DRIVER --current ...")
