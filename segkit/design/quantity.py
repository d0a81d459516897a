"""Schema types for values as people write them: a quantity with limits, a share, a checked text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from segkit import units
from segkit.errors import InputError, Problem


def refused(problem: Problem) -> PydanticCustomError:
    """A problem as the schema library carries it; the reader unpacks it again."""
    return PydanticCustomError("segkit", "{text}", {"text": problem.text, "problem": problem})


def merged(problems: Sequence[Problem]) -> Problem:
    """All that is wrong with one value, as one problem."""
    first = problems[0]
    remedies = dict.fromkeys(problem.remedy for problem in problems if problem.remedy)
    text = " ".join(problem.text for problem in problems)
    return Problem(text, value=first.value, limit=first.limit, remedy=" ".join(remedies))


def asked(default: Any, description: str, alias: str | None = None) -> Any:
    """A field: its default as a person writes it, what it means and why, its key if that differs."""
    return Field(default, alias=alias, description=description)


class Reads:
    """An annotation whose ``read`` turns what stands in the file into the value."""

    def read(self, value: Any) -> Any:
        """The value; refused with its problem otherwise."""
        raise NotImplementedError

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return self.json_schema()


@dataclass(frozen=True)
class Quantity(Reads):
    """Text with a unit, read into the base unit of ``kind``, held to ``low`` to ``high``.

    Attributes:
        kind: kind of quantity.
        low, high: the limits as a person writes them, such as ``"10 mm"``.
    """

    kind: units.Kind
    low: str
    high: str

    def read(self, value: Any) -> float:
        """The number in the base unit; refused with limits and a hint otherwise."""
        limit = f"{self.low} to {self.high}"
        if isinstance(value, bool) or not isinstance(value, str):
            text = f"{self.kind.one} is written as text with its unit."
            remedy = f'Write it as in "{self._with_unit(str(value)) or self.high}".'
            raise refused(Problem(text, value=repr(value), limit=limit, remedy=remedy))
        try:
            parsed = units.parse(value, self.kind)
        except InputError as error:
            problem = error.problems[0]
            if meant := self._with_unit(value.strip()):
                problem = replace(problem, limit=limit, remedy=f'Say the unit, such as "{meant}".')
            raise refused(problem) from None
        if not units.parse(self.low, self.kind) <= parsed <= units.parse(self.high, self.kind):
            text = f"this {self.kind.name} is out of range."
            remedy = "Check the number and the unit."
            raise refused(Problem(text, value=f'"{value}"', limit=limit, remedy=remedy))
        return parsed

    def _with_unit(self, number: str) -> str:
        """A bare number with the unit of one of the limits, if it lies between them so; else nothing."""
        for written in (self.low, self.high):
            meant = f"{number} {written.split()[-1]}"
            try:
                value = units.parse(meant, self.kind)
            except InputError:
                continue
            if units.parse(self.low, self.kind) <= value <= units.parse(self.high, self.kind):
                return meant
        return ""

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        return {
            "type": "string",
            "description": f"{self.kind.name}, {self.low} to {self.high}",
            "examples": [self.low, self.high],
        }


@dataclass(frozen=True)
class Share(Reads):
    """A plain number: a share of ``of``, held to ``low`` to ``high``."""

    low: float
    high: float
    of: str

    def read(self, value: Any) -> float:
        """The number; refused with limits and a hint otherwise."""
        limit = f"{self.low} to {self.high} of {self.of}"
        if isinstance(value, bool) or not isinstance(value, int | float):
            text = f"a share of {self.of} is a plain number without unit or quotes."
            raise refused(Problem(text, value=repr(value), limit=limit, remedy=f"Write it as in {self.low}."))
        if not self.low <= value <= self.high:
            text = f"this share of {self.of} is out of range."
            raise refused(Problem(text, value=str(value), limit=limit, remedy="Check the number."))
        return float(value)

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        return {
            "type": "number",
            "minimum": self.low,
            "maximum": self.high,
            "description": f"share of {self.of}",
        }


@dataclass(frozen=True)
class Checked(Reads):
    """Text that ``check`` accepts (it raises ``InputError`` otherwise); kept as it was written."""

    check: Callable[[str], object]
    what: str

    def read(self, value: Any) -> str:
        """The text; refused with the reason otherwise."""
        if not isinstance(value, str):
            text = f"text is expected here: {self.what}."
            raise refused(Problem(text, value=repr(value), remedy="Put it in quotes."))
        try:
            self.check(value)
        except InputError as error:
            raise refused(merged(error.problems)) from None
        return value

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        return {"type": "string", "description": self.what}
