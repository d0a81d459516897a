"""``segkit parts``: the catalogue, by kind, by id, or searched by word."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from segkit.catalog.part import Part

EXAMPLE = "segkit parts leds red-5mm-diffused"

Found = Mapping[str, list["Part"]]


def parts(
    kind: Annotated[
        str | None,
        typer.Argument(
            metavar="KIND",
            help="leds, drivers, registers, wires, sheets, networks or supplies; left out: all of them.",
        ),
    ] = None,
    id_: Annotated[
        str | None, typer.Argument(metavar="ID", help="Catalogue id of one part: shows all its figures.")
    ] = None,
    find: Annotated[
        str | None,
        typer.Option(metavar="TEXT", help="Only parts that have these words, such as opal or 2003."),
    ] = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="Rows for programs; figures in the units that the keys end in.")
    ] = False,
) -> None:
    """The parts that a design can name, with their figures and sources."""
    from segkit.catalog.reader import KINDS, part, rows
    from segkit.errors import InputError, MissingPartError

    try:
        one = part(kind, id_) if kind is not None and id_ is not None else None
        found = {name: _matching(rows(name), find) for name in ([kind] if kind is not None else KINDS)}
    except InputError as error:
        raise error.at(key="ID" if isinstance(error, MissingPartError) else "KIND") from None
    if kind is not None and one is not None:
        _print_one(kind, one, as_json=as_json)
        return
    if find and not any(found.values()):
        _refuse(find, kind)
    if as_json:
        _print_json(found, kind)
    elif kind or find:
        _print_tables(found)
    else:
        _print_overview(found)


def _matching(known: Mapping[str, Part], find: str | None) -> list[Part]:
    from dataclasses import asdict

    words = (find or "").lower().split()
    searched = {id_: str(list(asdict(part).values())).lower() for id_, part in known.items()}
    return [part for id_, part in known.items() if all(word in searched[id_] for word in words)]


def _refuse(find: str, kind: str | None) -> None:
    from segkit.errors import InputError, Problem

    text = f"no part of {f'the {kind}' if kind else 'the catalogue'} has these words."
    remedy = f'Try a shorter word, or see them all with "segkit parts{f" {kind}" if kind else ""}".'
    raise InputError(Problem(text, key="--find", value=f'"{find}"', remedy=remedy))


def _print_json(found: Found, kind: str | None) -> None:
    from dataclasses import asdict

    from segkit.cli import output

    rows = {name: [asdict(part) for part in list_] for name, list_ in found.items()}
    output.print_json(rows[kind] if kind else rows)


def _print_overview(found: Found) -> None:
    from segkit.cli import output

    rows = [(name, str(len(list_)), list_[0].id, list_[0].name) for name, list_ in found.items()]
    output.print_table(("Kind", "Parts", "Example", "What it is"), rows, right=("Parts",))
    output.say("One kind: segkit parts leds    One part: segkit parts leds red-5mm-diffused")


def _print_tables(found: Found) -> None:
    from segkit.catalog.reader import KINDS
    from segkit.cli import output
    from segkit.cli.parts_columns import COLUMNS

    for kind, list_ in found.items():
        if list_:
            output.print_table(
                ("Id", *(column.heading for column in COLUMNS[kind])),
                [(part.id, *(column.cell(part) for column in COLUMNS[kind])) for part in list_],
                title=KINDS[kind].many,
                right=[column.heading for column in COLUMNS[kind] if column.right],
            )


def _print_one(kind: str, part: Part, *, as_json: bool) -> None:
    from dataclasses import asdict

    from segkit.catalog.reader import written_units
    from segkit.cli import output
    from segkit.cli.parts_columns import figures
    from segkit.sources import source

    if as_json:
        output.print_json(asdict(part))
        return
    output.say(f"{part.id}: {part.name}")
    output.print_table(("Figure", "Value", "Unit"), figures(part, written_units(kind)))
    output.say(f"Source: {source(part.source).cited()}")
