"""The worksheet: every number with its formula, the formula written out, its inputs and its source."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.sources import source
from segkit.units import plain_number
from segkit.working import FUNCTIONS, Line, evaluate, typeset, written_out

#: Names that a formula of the worksheet may call.
ALL_FUNCTIONS: Mapping[str, Callable[..., float]] = {**FUNCTIONS, **WORKSHEET_FUNCTIONS}


@dataclass(frozen=True)
class Row:
    """One line of the worksheet as the build book prints it."""

    name: str
    title: str
    formula: str
    worked: str
    inputs: str
    source: str
    note: str


@dataclass(frozen=True)
class StageSheet:
    """The lines of one stage."""

    name: str
    lines: tuple[Row, ...]


def recomputed(line: Line) -> float:
    """The value that the printed formula gives on the printed inputs, to hold against ``line.value``."""
    return evaluate(line.formula, {given.symbol: given.value for given in line.inputs}, ALL_FUNCTIONS)


def worksheet(lines: Iterable[Line]) -> tuple[StageSheet, ...]:
    """The lines by stage, in the order in which they come."""
    stages: dict[str, list[Row]] = {}
    for line in lines:
        stages.setdefault(line.name.split(".")[0], []).append(_row(line))
    return tuple(StageSheet(name, tuple(rows)) for name, rows in stages.items())


def _row(line: Line) -> Row:
    return Row(
        name=line.name,
        title=line.title,
        formula=f"{line.symbol} = {typeset(line.formula)}",
        worked=written_out(line),
        inputs="; ".join(
            f"{given.symbol} = {plain_number(given.value)} {given.unit}".rstrip()
            + (f" ({given.meaning})" if given.meaning else "")
            for given in line.inputs
        ),
        source=source(line.source).cited(),
        note=line.note,
    )
