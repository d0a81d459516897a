"""``segkit cable``: what a supply cable or the cable of a digit loses, and the size that would do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import ask, output
from segkit.cli.ask import Text, option

if TYPE_CHECKING:
    from segkit.electrical.cable_choice import Choice
    from segkit.errors import Problem
    from segkit.findings import Finding

EXAMPLE = "segkit cable --run 12m --current 1.4A --core 0.5mm2 --supply 12V"


def cable(
    run: Annotated[Text, option("LENGTH", "Length of the cable one way: 12m, 40 ft.")] = None,
    current: Annotated[
        Text, option("AMP", "Everything lit: 1.4A; with --segments the current of one segment.")
    ] = None,
    supply: Annotated[Text, option("VOLT", "Voltage at the near end: 12V.")] = None,
    core: Annotated[
        Text,
        option(
            "WIRE", 'What you have: "0.5 mm2", "20 AWG", a catalogue id; left out: the thinnest that does.'
        ),
    ] = None,
    segments: Annotated[
        Text, option("COUNT", "Segments of a digit, each with a core of its own and one common.")
    ] = None,
    common: Annotated[
        Text, option("WIRE", 'With --segments, the common: "1 core" if left out, "2 cores", "1 mm2".')
    ] = None,
    each_way: Annotated[
        Text, option("COUNT", "Cores of --core side by side for each of the two ways: 4 of a network cable.")
    ] = None,
    headroom: Annotated[
        Text, option("VOLT", "Voltage across the resistor of a segment: adds how even it looks.")
    ] = None,
    lost: Annotated[Text, option("PERCENT", "Share of the supply that may be lost; 5% if left out.")] = None,
    warm: Annotated[Text, option("TEMP", "Temperature of the wires in °C; 20 if left out.")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print for programs.")] = False,
) -> None:
    """What a cable loses on the way to the board, how even the digits look, and which size would do."""
    from segkit.findings import stops

    given = _read(
        {
            "run": run, "current": current, "supply": supply, "core": core, "segments": segments,
            "common": common, "each_way": each_way, "headroom": headroom, "lost": lost, "warm": warm,
        }
    )  # fmt: skip
    data, findings = (_segments if given["segments"] else _supply)(given, printing=not as_json)
    if as_json:
        output.print_json({**data, "findings": [finding.as_dict() for finding in findings]})
    else:
        output.print_findings(findings)
    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


def _read(texts: dict[str, str | None]) -> dict[str, Any]:
    from segkit.electrical.segment_cable import parse_return
    from segkit.electrical.wire_size import side_by_side, wire_of
    from segkit.units import CURRENT, LENGTH, PERCENT, VOLTAGE

    touch = "Direct voltage above 60 V needs protection against touch: ask a licensed electrician."
    readers = {
        "run": lambda text: ask.within(LENGTH, low=10, high=1e6)(text) / 1000,
        "current": ask.within(CURRENT, low=1e-4, high=100.0),
        "supply": ask.within(VOLTAGE, low=1.0, high=60.0, remedy=touch),
        "core": wire_of,
        "segments": ask.whole(40),
        "common": parse_return,
        "each_way": ask.whole(20),
        "headroom": ask.within(VOLTAGE, low=0.05, high=60.0),
        "lost": ask.within(PERCENT, low=0.001, high=0.5),
        "warm": ask.temperature(low_c=-40, high_c=105),
    }
    needed = {"run": "12 m", "current": "1.4 A"}
    if texts["segments"] is None:
        needed["supply"] = "12 V"
    else:
        needed |= {"core": "cat5e", "headroom": "3 V"}
    values = ask.read_all(texts, readers, needed=needed, more=_contradictions)
    if values["each_way"]:
        values["core"] = side_by_side(values["core"], cores=values["each_way"])
    values["warm"] = 20.0 if values["warm"] is None else values["warm"]
    return values


def _contradictions(values: Mapping[str, Any]) -> list[Problem]:
    from segkit.errors import Problem

    found = []
    if values["common"] is not None and values["segments"] is None:
        remedy = "Add --segments, or leave it out."
        found.append(Problem("it means nothing without --segments.", key="--common", remedy=remedy))
    if values["each_way"] is not None and (values["core"] is None or values["segments"]):
        remedy = "Say of which cable with --core; it does not go with --segments."
        found.append(Problem("nothing to put side by side.", key="--each-way", remedy=remedy))
    core = values["core"]
    if core and values["each_way"] and 1 < core.cores < 2 * values["each_way"]:
        text = f"out and back take {2 * values['each_way']} cores."
        found.append(Problem(text, key="--each-way", limit=f"{core.cores} cores"))
    if values["headroom"] and values["supply"] and values["headroom"] >= values["supply"]:
        text = "the resistor cannot have more than the supply."
        found.append(Problem(text, key="--headroom", limit=f"below {values['supply']:g} V"))
    if values["segments"] is not None and values["lost"] is not None:
        remedy = "With --segments the evenness counts: leave --lost out."
        found.append(Problem("it does not go with --segments.", key="--lost", remedy=remedy))
    return found


def _supply(given: dict[str, Any], *, printing: bool) -> tuple[dict[str, Any], tuple[Finding, ...]]:
    from segkit.electrical.cable_choice import MOST_LOST, choice_findings, choice_of, thinnest, usual_wires
    from segkit.electrical.converter import converter_cure

    about = {
        "length_m": given["run"], "current_a": given["current"], "supply_v": given["supply"],
        "most_lost": given["lost"] or MOST_LOST, "temperature_c": given["warm"],
    }  # fmt: skip
    usual = tuple(choice_of(wire, **about) for wire in usual_wires(given["core"]))
    better = thinnest(usual)
    asked = choice_of(given["core"], **about) if given["core"] else (better or usual[-1])
    cure = converter_cure(
        asked.wire, length_m=given["run"], board_v=given["supply"], board_a=given["current"]
    )
    findings = choice_findings(
        asked, better, current_a=given["current"], most_lost=about["most_lost"], or_else=cure
    )
    even, more = _evenness(given, asked)
    rows = (asked, *(choice for choice in usual if choice.wire.id != asked.wire.id))
    rows = tuple(sorted(rows, key=lambda choice: choice.wire.area_mm2))
    if printing:
        _print_supply(given, asked, better, rows, even)
    data = {
        "drop_v": asked.drop_v, "arrives_v": asked.arrives_v, "lost_share": asked.lost,
        "loop_ohm": asked.loop_ohm, "fuse_a": asked.fuse_a, "core": asked.wire.id,
        "thinnest": better.wire.id if better else None, "evenness": even,
        "choices": [
            {
                "core": row.wire.id, "area_mm2": row.wire.area_mm2, "drop_v": row.drop_v,
                "arrives_v": row.arrives_v, "fuse_a": row.fuse_a, "verdict": row.verdict,
            }
            for row in rows
        ],
    }  # fmt: skip
    return data, (*findings, *more)


def _evenness(given: dict[str, Any], asked: Choice) -> tuple[float | None, tuple[Finding, ...]]:
    """A digit that shows "1" against one that shows "8": two segments of seven."""
    from segkit.electrical.cable import supply_run

    if given["headroom"] is None:
        return None, ()
    run = supply_run(
        asked.wire, length_m=given["run"], total_a=given["current"], fewest_a=given["current"] * 2 / 7,
        headroom_v=given["headroom"], temperature_c=given["warm"],
    )  # fmt: skip
    return run.evenness, tuple(f for f in run.findings if f.code == "supply-drop")


def _print_supply(
    given: dict[str, Any],
    asked: Choice,
    better: Choice | None,
    rows: tuple[Choice, ...],
    even: float | None,
) -> None:
    from segkit.units import engineering, plain_number

    volts, metres = plain_number(given["supply"]), plain_number(given["run"])
    output.say(
        f"{asked.wire.name} over {metres} m and back loses {asked.drop_v:.2f} V of {volts} V "
        f"({asked.lost:.1%}): {asked.arrives_v:.2f} V arrive."
    )
    if even is not None:
        output.say(f'With everything lit a segment gets {even:.0%} of the current it gets in a lone "1".')
    if asked.fuse_a:
        output.say(f"Fuse at the source: {plain_number(asked.fuse_a)} A, time-lag.")
    if better and better is not asked:
        output.say(f"The thinnest usual size that will do: {better.wire.id}.")
    output.say("")
    output.print_table(
        ("", "size", "loop", "lost", "", "arrives", "plan with", "fuse", "verdict"),
        [
            ("→" if row is asked else "", row.wire.id, engineering(row.loop_ohm, "Ω"), f"{row.drop_v:.2f} V",
             f"{row.lost:.1%}", f"{row.arrives_v:.2f} V", engineering(row.wire.max_current_a, "A"),
             f"{plain_number(row.fuse_a)} A" if row.fuse_a else "–", row.verdict)
            for row in rows
        ],
        right=("loop", "lost", "arrives", "plan with", "fuse"),
    )  # fmt: skip


def _segments(given: dict[str, Any], *, printing: bool) -> tuple[dict[str, Any], tuple[Finding, ...]]:
    from segkit.electrical.segment_cable import ONE_CORE, OnCable, cable_run
    from segkit.units import engineering, plain_number

    count = given["segments"]
    digit = (OnCable("segment", count, given["current"], in_one=min(2, count)),)
    run = cable_run(
        given["core"], digit, length_m=given["run"], headroom_v=given["headroom"],
        common=given["common"] or ONE_CORE, temperature_c=given["warm"],
    )  # fmt: skip
    if printing:
        output.say(
            f'A full digit gets {run.evenness:.0%} of the current of a "1" in each segment: the common '
            f"carries {engineering(run.return_a, 'A')} and loses {run.return_drop_v:.2f} V over "
            f"{plain_number(given['run'])} m; a segment's own core loses {run.segment_drop_v:.2f} V.\n"
        )
    data = {
        "evenness": run.evenness, "return_a": run.return_a, "return_drop_v": run.return_drop_v,
        "segment_drop_v": run.segment_drop_v, "core_ohm": run.core_ohm, "core": run.wire,
    }  # fmt: skip
    return data, run.findings
