"""``segkit walk``: what the walk test lit, typed or from a file; the faults by name, the map as wired."""

from __future__ import annotations

import shlex
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output
from segkit.cli.design_file import DesignFile
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.design.schema import Design
    from segkit.firmware.walk import Seen, Walked
    from segkit.firmware.wiring import Wiring

EXAMPLE = 'segkit walk fixtures/designs/rain_barrel.toml --seen "1: 1b; 2: 1a; rest ok"'
_TABLE = "as_built"
_REMARK = (
    "# Found by the walk test (segkit walk): what the outputs QA to QH of each chip light, chip 1 first.",
    "# The tables and the code follow it. Take this table out once the wires are mended.",
)


def walk(
    file: DesignFile,
    seen: Annotated[
        str | None,
        typer.Option(
            metavar="WORDS",
            help='What each output lit, from output 1 on: "1a 1b - 1c+1d ok", or "2: 1c; rest ok". Left out: '
            "you are asked one by one.",
        ),
    ] = None,
    from_file: Annotated[
        Path | None,
        typer.Option(
            "--from",
            metavar="FILE",
            help='The same from a text file; a line such as "9: 2a" tells of output 9.',
        ),
    ] = None,
    write: Annotated[
        bool,
        typer.Option("--write", help="Write the map as wired into the design file, as its table as_built."),
    ] = False,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON for programs.")] = False,
) -> None:
    """Tell what the walk test lit: faults are named, and the firmware follows the board as it is wired."""
    from segkit.design.reader import read_design
    from segkit.firmware.walk import read_seen, walked
    from segkit.flash import plan_of, wired

    design = read_design(file)
    plan = plan_of(design)
    told = read_seen(_told(seen, from_file, plan), plan)
    result = walked(plan, told, flashed=wired(design, plan).active)
    changed = _kept(file, design, result) if write else None
    if as_json:
        output.print_json(_as_data(result, changed))
    else:
        _print(result, told, changed, file)
    raise typer.Exit(output.GOOD)


def _told(seen: str | None, from_file: Path | None, plan: Wiring) -> str:
    if seen is not None and from_file is not None:
        raise InputError(Problem("give one of the two.", key="--seen and --from"))
    if seen is not None:
        return seen
    if from_file is None:
        return _asked(plan)
    try:
        return from_file.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        text = "this is no text file."
        raise InputError(
            Problem(text, file=str(from_file), key="--from", remedy="Save it as UTF-8 text.")
        ) from None
    except OSError as error:
        text = f"the file cannot be read: {error.strerror}."
        raise InputError(Problem(text, file=str(from_file), key="--from", remedy="Check the path.")) from None


def _asked(plan: Wiring) -> str:
    """One question an output; nothing typed means as planned. The words that came before an end count."""
    from segkit.firmware.wiring import written

    output.say(
        "Start the walk test. For each output type what lights, such as 1a, 1a+1b, - for none, !1a for all "
        "but that one; press Enter alone if it is what the plan says.\n"
    )
    words = []
    for one in plan.outputs:
        sys.stdout.write(f"output {one.number}, chip {one.chip} {one.name}, planned {written(one.lamps)}: ")
        sys.stdout.flush()
        word = _answer(one.number, plan)
        if word is None:
            break
        words.append(f"{one.number}: {word}")
    sys.stdout.write("\n")
    return "\n".join(words)


def _answer(number: int, plan: Wiring) -> str | None:
    """What is typed for one output, asked again while it cannot be read; None at the end of the input."""
    from segkit.firmware.walk import read_seen

    while True:
        line = sys.stdin.readline()
        if not line:
            return None
        word = line.strip() or "ok"
        if not sys.stdin.isatty():
            return word
        try:
            read_seen(f"{number}: {word}; rest ok", plan)
        except InputError as error:
            sys.stdout.write(f"{error}\nonce more: ")
            sys.stdout.flush()
        else:
            return word


def _again(told: Sequence[Seen], result: Walked) -> str:
    """What was seen, as it is typed in one go: the outputs that differ from the plan, and the rest."""
    from segkit.firmware.wiring import written

    words = [
        f"{plan.number}: {'!' if seen.all_but and seen.lamps else ''}"
        f"{'all' if seen.all_but and not seen.lamps else written(seen.lamps)}"
        for seen, plan in zip(told, result.planned.outputs, strict=True)
        if seen.all_but or set(seen.lamps) != set(plan.lamps)
    ]
    return "; ".join([*words, *(["rest ok"] if len(words) < len(told) else [])])


def _kept(file: Path, design: Design, result: Walked) -> bool:
    """Whether the design file changed; a board as planned needs no table, and an empty one may stay."""
    from segkit.design.rewrite import write_table

    lines = _table_lines(result)
    if not lines and not design.as_built.chips and design.as_built.active is None:
        return False
    return write_table(file, _TABLE, lines)


def _table_lines(result: Walked) -> list[str]:
    """The table as it stands in the file; nothing for a board that is as planned."""
    from segkit.firmware.as_built import chip_words

    as_planned = all(
        set(own.lamps) == set(plan.lamps)
        for own, plan in zip(result.built.outputs, result.planned.outputs, strict=True)
    )
    if as_planned and result.built.active == result.planned.active:
        return []
    chips = [f'    "{words}",' for words in chip_words(result.built.outputs)]
    flipped = result.built.active != result.planned.active
    return [*_REMARK, "chips = [", *chips, "]", *([f'active = "{result.built.active}"'] if flipped else [])]


# --- for programs --------------------------------------------------------------------------------------


def _as_data(result: Walked, changed: bool | None) -> dict[str, Any]:
    from segkit.firmware.as_built import chip_words
    from segkit.firmware.walk_faults import walk_findings

    return {
        "chips": list(chip_words(result.built.outputs)),
        "active": result.built.active,
        "inverted": result.inverted,
        "stuck": [f"{digit}{name}" for digit, name in result.stuck],
        "findings": [finding.as_dict() for finding in walk_findings(result)],
        "written": changed,
    }


# --- for people ----------------------------------------------------------------------------------------


def _print(result: Walked, told: Sequence[Seen], changed: bool | None, file: Path) -> None:
    from segkit.firmware.walk_faults import walk_findings
    from segkit.firmware.wiring import written

    rows = [
        (str(own.number), str(own.chip), own.name, written(plan.lamps), written(own.lamps))
        for own, plan in zip(result.built.outputs, result.planned.outputs, strict=True)
        if set(own.lamps) != set(plan.lamps)
    ]
    if rows:
        title = f"{len(rows)} of {len(told)} outputs light something else than planned"
        output.print_table(
            ("number", "chip", "output", "planned", "lit"), rows, title=title, right=("number", "chip")
        )
    output.print_findings(walk_findings(result))
    if changed is None and (rows or result.inverted):
        output.say("To put the map as wired into the design file, and then to build again:")
        words = _again(told, result)
        mark = "'" if "!" in words else '"'  # a shell in use takes ! between double quotes for itself
        sys.stdout.write(f"  segkit walk {shlex.quote(str(file))} --seen {mark}{words}{mark} --write\n")
    elif changed:
        output.say(f"{file} now holds the map as wired. Build again: segkit build {file} --out out")
        output.say("Flash that before another walk: what a walk shows depends on what is flashed.")
    elif changed is False:
        output.say(f"{file} says so already; it was left as it is.")
