"""Resistors that the builder already has: one value for the whole board, or one by kind of segment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic_core import PydanticCustomError

from segkit import units
from segkit.catalog import reader as catalogue
from segkit.design.places import KINDS, kind_problems
from segkit.design.quantity import Quantity, Reads, merged, refused
from segkit.errors import Problem

_OHM = Quantity(units.RESISTANCE, "1 ohm", "100 kohm")


@dataclass(frozen=True)
class Ohms(Reads):
    """A field that holds a resistance for all kinds of segment, or one for each that is named; Ω."""

    what: str = "a resistance, or kind of segment, with hyphens, to a resistance"

    def read(self, value: Any) -> Any:
        """One value, or kind to value; all faults together."""
        if not isinstance(value, Mapping):
            return _OHM.read(value)
        found: dict[str, float] = {}
        problems: list[Problem] = []
        for kind, written in value.items():
            problems += kind_problems(kind)
            try:
                found[kind] = _OHM.read(written)
            except PydanticCustomError as error:
                problems.append(_named((error.context or {})["problem"], kind))
        if problems:
            raise refused(merged(problems))
        return found

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        one = _OHM.json_schema()
        some = {"type": "object", "propertyNames": {"enum": list(KINDS)}, "additionalProperties": one}
        return {"anyOf": [one, some], "description": self.what}


def _named(problem: Problem, kind: str) -> Problem:
    """The problem with its kind, value and limit in the text, since all of them become one message."""
    given = f"{problem.value}: " if problem.value else ""
    allowed = f" It may be {problem.limit}." if problem.limit else ""
    return replace(problem, text=f"{kind}: {given}{problem.text}{allowed}", value="", limit="")


def sink_problem(driver: str) -> Problem | None:
    """What is wrong with a resistor of the builder's own behind a sink that holds the current itself.

    Args:
        driver: catalogue id of the sink.

    Example:
        >>> sink_problem("darlington-sink-8") is None
        True
    """
    sink = catalogue.sink(driver)
    if sink.type != "constant-current":
        return None
    return Problem(
        f"the {sink.name} holds the current itself: no string has a resistor.",
        value=driver,
        limit="a driver that only switches",
        remedy="Leave power.resistor out, and set the current with pocket.current; or take another driver, "
        "such as darlington-sink-8 or logic-mosfet.",
    )


def missing_kinds(given: Mapping[str, float], kinds: Mapping[str, object]) -> list[Problem]:
    """Kinds with a resistor that the board does not have.

    Args:
        given: kind, with hyphens, to Ω.
        kinds: the kinds of the board, as ``Segment.kind`` writes them.

    Example:
        >>> [problem.key for problem in missing_kinds({"bar": 220.0, "small-bar": 220.0}, {"bar": 1})]
        ['power.resistor.small-bar']
    """
    there = [kind.replace(" ", "-") for kind in kinds]
    return [
        Problem("no such kind of segment on this board.", key=f"power.resistor.{kind}",
                limit=", ".join(there), remedy="Leave it out, or name a kind that is there.")
        for kind in given
        if kind not in there
    ]  # fmt: skip
