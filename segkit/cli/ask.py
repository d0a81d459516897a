"""Options of the calculators: how they are declared and how their texts are read."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

import typer

if TYPE_CHECKING:
    from segkit.errors import Problem
    from segkit.units import Kind

Text = str | None
_TEMPERATURE = re.compile(r"(-?\d+(?:\.\d+)?)\s*(?:°?\s*C)?", re.IGNORECASE)


def option(metavar: str, help_text: str) -> typer.models.OptionInfo:
    """An option whose text is read later, with all others."""
    info: typer.models.OptionInfo = typer.Option(metavar=metavar, help=help_text, show_default=False)
    return info


def within(kind: Kind, *, low: float, high: float, remedy: str = "") -> Callable[[str], float]:
    """A reader of one quantity, held to a range in the base unit of its kind."""

    def read(text: str) -> float:
        from segkit.errors import InputError, Problem
        from segkit.units import PERCENT, parse, plain_number

        value = parse(text, kind)
        if not low <= value <= high:
            limit = f"{plain_number(low)} to {plain_number(high)} {kind.base}".strip()
            if kind is PERCENT:
                limit = f"{plain_number(low * 100)} % to {plain_number(high * 100)} %"
            raise InputError(Problem("out of range.", value=f'"{text}"', limit=limit, remedy=remedy))
        return value

    return read


def whole(most: int) -> Callable[[str], int]:
    """A reader of a count from 1 to ``most``."""

    def read(text: str) -> int:
        from segkit.errors import InputError, Problem

        if not re.fullmatch(r"\s*[0-9]{1,9}\s*", text) or not 1 <= int(text) <= most:
            limit = f"a whole number, 1 to {most}"
            raise InputError(Problem("not a count.", value=f'"{text}"', limit=limit))
        return int(text)

    return read


def temperature(*, low_c: float, high_c: float) -> Callable[[str], float]:
    """A reader of a temperature in °C, such as ``50`` or ``50 C``."""

    def read(text: str) -> float:
        from segkit.errors import InputError, Problem

        match = _TEMPERATURE.fullmatch(text.strip())
        if not match or not low_c <= float(match[1]) <= high_c:
            limit = f"{low_c:g} to {high_c:g} °C"
            raise InputError(Problem("no temperature.", value=f'"{text}"', limit=limit))
        return float(match[1])

    return read


def one_of(*words: str) -> Callable[[str], str]:
    """A reader of one of several words."""

    def read(text: str) -> str:
        from segkit.errors import InputError, Problem, nearest

        word = text.strip().lower()
        if word not in words:
            raise InputError(Problem("not known.", value=f'"{text}"', remedy=nearest(word, words)))
        return word

    return read


def read_all(
    texts: Mapping[str, str | None],
    readers: Mapping[str, Callable[[str], Any]],
    *,
    needed: Mapping[str, str],
    more: Callable[[Mapping[str, Any]], list[Problem]] | None = None,
) -> dict[str, Any]:
    """Every option read; all faults in one message.

    Args:
        texts: option to its text, None where it was not given.
        readers: option to the reader of its text.
        needed: options that must be there, with an example of each: ``{"run": "12 m"}``.
        more: finds faults between options; it gets what could be read, None for the rest.

    Raises:
        InputError: with the problems of all options.

    Example:
        >>> read_all({"run": "12 m"}, {"run": str}, needed={"run": "12 m"})
        {'run': '12 m'}
    """
    from segkit.cli.output import gather
    from segkit.errors import InputError, Problem

    values: dict[str, Any] = {}
    problems: list[Problem] = []
    for name, reader in readers.items():
        values[name] = None
        try:
            values |= gather(**{name: (texts.get(name), reader)})
        except InputError as error:
            problems += error.problems
    for name, example in needed.items():
        if texts.get(name) is None:
            key = "--" + name.replace("_", "-")
            remedy = f'Give it as in {key} "{example}".'
            problems.append(Problem("it is missing.", key=key, remedy=remedy))
    problems += more(values) if more else []
    if problems:
        raise InputError(problems)
    return values
