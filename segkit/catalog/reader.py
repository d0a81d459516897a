"""The catalogue files as records, checked row by row; ``part`` and the typed getters look ids up."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Generic, TypeVar, cast

from segkit.catalog.columns import column_types, factors, read_cell
from segkit.catalog.part import Led, Part, ResistorNetwork, Sheet, ShiftRegister, Sink, Supply, Wire
from segkit.catalog.rules import faults_of
from segkit.errors import InputError, MissingPartError, Problem, nearest

P = TypeVar("P", bound=Part)


@dataclass(frozen=True)
class Kind(Generic[P]):
    """One kind of part: its name in commands, its record, its file, what one and many are called."""

    name: str
    record_type: type[P]
    file: str
    one: str
    many: str


KINDS: Mapping[str, Kind[Any]] = MappingProxyType({
    "leds": Kind("leds", Led, "leds.csv", "LED", "LEDs"),
    "drivers": Kind("drivers", Sink, "drivers.csv", "driver", "Drivers"),
    "registers": Kind("registers", ShiftRegister, "shift_registers.csv", "shift register", "Shift registers"),
    "wires": Kind("wires", Wire, "wires.csv", "wire", "Wires and cables"),
    "sheets": Kind("sheets", Sheet, "sheets.csv", "sheet", "Sheets and linings"),
    "networks": Kind(
        "networks", ResistorNetwork, "resistor_networks.csv", "resistor network", "Resistor networks"
    ),
    "supplies": Kind("supplies", Supply, "supplies.csv", "supply", "Supplies"),
})  # fmt: skip


@cache
def rows(kind: str) -> Mapping[str, Part]:
    """All parts of a kind by id, in file order.

    Args:
        kind: a key of ``KINDS``.

    Raises:
        InputError: no such kind, or faults in the file.
    """
    entry = _entry(kind)
    text = (files("segkit.catalog") / entry.file).read_text(encoding="utf-8")
    parts: tuple[Part, ...] = read_csv(text, entry.record_type, file=entry.file)
    return MappingProxyType({part.id: part for part in parts})


#: A longer list of ids helps nobody who was told the nearest; ``segkit parts`` has it.
_LISTED = 12


def _entry(kind: str) -> Kind[Any]:
    if kind not in KINDS:
        remedy = _hint(kind, list(KINDS))
        raise InputError(Problem("there is no such kind of part.", value=f'"{kind}"', remedy=remedy))
    return KINDS[kind]


def _hint(word: str, known: Sequence[str]) -> str:
    close = nearest(word, known)
    listing = "Known: " + ", ".join(known) + "."
    return close if close == listing or len(known) > _LISTED else f"{close} {listing}"


def _part_hint(word: str, known: Mapping[str, Part]) -> str:
    """The nearest id, by the id itself or by a word of the name, such as the number printed on a chip."""
    wanted = "".join(filter(str.isalnum, word)).lower()
    named = [
        id_
        for id_, part_ in known.items()
        if len(wanted) > 3 and wanted in "".join(filter(str.isalnum, f"{id_} {part_.name}")).lower()
    ]
    if not named:
        return _hint(word, list(known))
    listing = "" if len(known) > _LISTED else f" Known: {', '.join(known)}."
    return f'Did you mean "{named[0]}"?{listing}'


def part(kind: str, id_: str) -> Part:
    """The part of that kind and id.

    Args:
        kind: a key of ``KINDS``, such as ``leds``.
        id_: catalogue id, such as ``red-5mm-diffused``.

    Raises:
        InputError: no such kind.
        MissingPartError: no such id; names the nearest one and lists the ids.

    Example:
        >>> part("registers", "hc595").name
        'Shift register with latch, 8 outputs (74HC595)'
    """
    known = rows(kind)
    if id_ not in known:
        text = f"the catalogue has no {KINDS[kind].one} of that id."
        raise MissingPartError(Problem(text, value=f'"{id_}"', remedy=_part_hint(id_, known)))
    return known[id_]


def leds() -> Mapping[str, Led]:
    """All LEDs by id."""
    return cast(Mapping[str, Led], rows("leds"))


def sinks() -> Mapping[str, Sink]:
    """All drivers that sink segment current, by id."""
    return cast(Mapping[str, Sink], rows("drivers"))


def registers() -> Mapping[str, ShiftRegister]:
    """All shift registers by id."""
    return cast(Mapping[str, ShiftRegister], rows("registers"))


def wires() -> Mapping[str, Wire]:
    """All wires and cables by id."""
    return cast(Mapping[str, Wire], rows("wires"))


def sheets() -> Mapping[str, Sheet]:
    """All sheet materials and linings by id."""
    return cast(Mapping[str, Sheet], rows("sheets"))


def networks() -> Mapping[str, ResistorNetwork]:
    """All resistor networks by id."""
    return cast(Mapping[str, ResistorNetwork], rows("networks"))


def supplies() -> Mapping[str, Supply]:
    """All power sources by id."""
    return cast(Mapping[str, Supply], rows("supplies"))


def led(id_: str) -> Led:
    """The LED of that id; MissingPartError if there is none.

    Example:
        >>> led("red-5mm-diffused").vf_v
        2.0
    """
    return cast(Led, part("leds", id_))


def sink(id_: str) -> Sink:
    """The driver of that id; MissingPartError if there is none."""
    return cast(Sink, part("drivers", id_))


def register(id_: str) -> ShiftRegister:
    """The shift register of that id; MissingPartError if there is none."""
    return cast(ShiftRegister, part("registers", id_))


def wire(id_: str) -> Wire:
    """The wire or cable of that id; MissingPartError if there is none."""
    return cast(Wire, part("wires", id_))


def sheet(id_: str) -> Sheet:
    """The sheet of that id; MissingPartError if there is none."""
    return cast(Sheet, part("sheets", id_))


def network(id_: str) -> ResistorNetwork:
    """The resistor network of that id; MissingPartError if there is none."""
    return cast(ResistorNetwork, part("networks", id_))


def supply(id_: str) -> Supply:
    """The power source of that id; MissingPartError if there is none."""
    return cast(Supply, part("supplies", id_))


def written_units(kind: str) -> Mapping[str, str]:
    """Column name to the unit in which the catalogue file writes it; empty for words and counts."""
    text = (files("segkit.catalog") / _entry(kind).file).read_text(encoding="utf-8")
    names, units = list(csv.reader(text.splitlines()))[:2]
    return dict(zip(names, units, strict=True))


def read_csv(text: str, record_type: type[P], *, file: str) -> tuple[P, ...]:
    """The rows of a catalogue file as records.

    Line 1 names the columns (the fields of the record), line 2 gives the unit in which each column is
    written, and the cells are converted to the unit that the column name ends in.

    Args:
        text: content of the file.
        record_type: the part record of a row.
        file: name for messages.

    Returns:
        the records in file order.

    Raises:
        InputError: every fault of the file at once, each with line and column.
    """
    lines = list(csv.reader(text.splitlines()))
    if len(lines) < 3:
        raise InputError(Problem("a name row, a unit row and at least one part are needed.", file=file))
    problems = list(_heading_problems(lines[0], record_type, file))
    if problems:
        raise InputError(problems)
    scale = _read_units(lines[0], lines[1], record_type, file, problems)
    layout = _Layout(file, tuple(lines[0]), column_types(record_type), scale)
    parts: list[P] = []
    for number, cells in enumerate(lines[2:], start=3):
        values = layout.read(number, cells, problems)
        if values is not None:
            made = record_type(**values)
            parts.append(made)
            problems += (layout.problem(number, f.column, f.text, limit=f.limit) for f in faults_of(made))
    problems += _doubles(lines, file)
    if problems:
        raise InputError(problems)
    return tuple(parts)


def _place(line: int, column: str) -> str:
    return f"line {line}, column {column}"


@dataclass(frozen=True)
class _Layout:
    """How the rows of one file are written: names, types and factors of its columns."""

    file: str
    names: tuple[str, ...]
    types: Mapping[str, Any]
    scale: Mapping[str, tuple[Decimal, ...]]

    def problem(self, line: int, column: str, text: str, *, value: str = "", limit: str = "") -> Problem:
        """A problem with its place."""
        return Problem(text, self.file, _place(line, column), value, limit)

    def read(self, line: int, cells: Sequence[str], problems: list[Problem]) -> dict[str, Any] | None:
        """The values of a row; None if one cannot be read, with the reasons added to ``problems``."""
        if len(cells) != len(self.names):
            text = f"{len(cells)} cells for {len(self.names)} columns."
            problems.append(
                Problem(text, self.file, f"line {line}", remedy="Put text with a comma in quotes.")
            )
            return None
        values: dict[str, Any] = {}
        for name, cell in zip(self.names, cells, strict=True):
            try:
                values[name] = read_cell(cell.strip(), self.types[name], self.scale.get(name, _UNSCALED))
            except ValueError as error:
                problems.append(self.problem(line, name, f"{error}.", value=f'"{cell}"'))
        return values if len(values) == len(self.scale) == len(self.names) else None


_UNSCALED = (Decimal(1),) * 3


def _heading_problems(names: Sequence[str], record_type: type[Part], file: str) -> Iterator[Problem]:
    wanted = list(column_types(record_type))
    for name in names:
        if name not in wanted:
            yield Problem("unknown column.", file, _place(1, name), remedy=nearest(name, wanted))
    for name in wanted:
        if name not in names:
            yield Problem("the column is missing.", file, _place(1, name), remedy="Add it.")
    if len(set(names)) != len(names):
        yield Problem("a column stands twice.", file, "line 1")
    if list(names[-2:]) != ["source", "knowledge"]:
        yield Problem("the last two columns must be source and knowledge.", file, "line 1")


def _read_units(
    names: Sequence[str], units: Sequence[str], record_type: type[Part], file: str, problems: list[Problem]
) -> dict[str, tuple[Decimal, ...]]:
    if len(units) != len(names):
        problems.append(Problem(f"{len(units)} units for {len(names)} columns.", file, "line 2"))
        return {}
    types = column_types(record_type)
    scale: dict[str, tuple[Decimal, ...]] = {}
    for name, unit in zip(names, units, strict=True):
        try:
            scale[name] = factors(name, unit.strip(), types[name])
        except ValueError as error:
            problems.append(Problem(f"{error}.", file, _place(2, name), f'"{unit}"'))
    return scale


def _doubles(lines: Sequence[Sequence[str]], file: str) -> Iterator[Problem]:
    column = lines[0].index("id")
    first: dict[str, int] = {}
    for number, cells in enumerate(lines[2:], start=3):
        id_ = cells[column] if column < len(cells) else ""
        if id_ in first:
            text = f"the id stands in line {first[id_]} already."
            yield Problem(text, file, _place(number, "id"), f'"{id_}"', remedy="Give each part its own id.")
        first.setdefault(id_, number)
