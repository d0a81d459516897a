"""Cells of a catalogue file: the type of each column, and the unit row that says how cells are written."""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import fields
from decimal import Decimal, InvalidOperation
from typing import Any

from segkit.catalog.part import Part

#: Written unit to (ending of the column name, factor to the unit that the ending names).
UNITS: Mapping[str, tuple[str, str]] = {
    "V": ("_v", "1"), "mV": ("_v", "1e-3"), "A": ("_a", "1"), "mA": ("_a", "1e-3"),
    "W": ("_w", "1"), "mW": ("_w", "1e-3"), "ohm": ("_ohm", "1"), "mohm": ("_ohm", "1e-3"),
    "ohm/m": ("_ohm_per_m", "1"), "ohm/km": ("_ohm_per_m", "1e-3"),
    "V/K": ("_v_per_k", "1"), "mV/K": ("_v_per_k", "1e-3"), "K/W": ("_k_per_w", "1"), "C": ("_c", "1"),
    "cd": ("_cd", "1"), "mcd": ("_cd", "1e-3"), "nm": ("_nm", "1"), "deg": ("_deg", "1"),
    "mm": ("_mm", "1"), "cm": ("_mm", "10"), "mm2": ("_mm2", "1"), "Ah": ("_ah", "1"), "mAh": ("_ah", "1e-3"),
    "kg/m3": ("_kg_m3", "1"), "um/m/K": ("_per_k", "1e-6"), "1/K": ("_per_k", "1"),
}  # fmt: skip
#: Units of columns whose name has no unit ending.
SHARES: Mapping[str, str] = {"share": "1", "%": "1e-2"}

# Longest first: ``_v_per_k`` before ``_per_k``, ``_ohm_per_m`` before ``_ohm``.
_ENDINGS = tuple(sorted({ending for ending, _ in UNITS.values()}, key=len, reverse=True))
_YES_NO = {"yes": True, "no": False}


def ending_of(column: str) -> str:
    """The unit ending of a column name, or an empty text.

    Example:
        >>> ending_of("vf_temperature_v_per_k"), ending_of("pins")
        ('_v_per_k', '')
    """
    return next((ending for ending in _ENDINGS if column.endswith(ending)), "")


def column_types(record_type: type[Part]) -> Mapping[str, Any]:
    """Column name to Python type, in the order of the record's fields; source and knowledge come last."""
    hints = typing.get_type_hints(record_type)
    names = [field.name for field in fields(record_type) if field.metadata.get("column", True)]
    last = ("source", "knowledge")
    return {name: hints[name] for name in [n for n in names if n not in last] + list(last)}


def factors(column: str, unit: str, kind: Any) -> tuple[Decimal, ...]:
    """Factors from the written unit to the unit of the column name, one for each number of a group.

    Args:
        column: field name of the record.
        unit: cell of the unit row, such as ``mA`` or ``mA:V:V``.
        kind: Python type of the field.

    Returns:
        one factor; three for the drop points (current, voltage, voltage).

    Raises:
        ValueError: the unit does not belong to the column; the text says which do.
    """
    if kind == tuple[tuple[float, float, float], ...]:
        units = unit.split(":")
        if len(units) != 3:
            raise ValueError("three units are needed, such as mA:V:V")
        return tuple(_factor(unit, ending) for unit, ending in zip(units, ("_a", "_v", "_v"), strict=True))
    if kind is not float:
        if unit:
            raise ValueError("this column has no unit; leave the cell empty")
        return (Decimal(1),)
    return (_factor(unit, ending_of(column)),)


def _factor(unit: str, ending: str) -> Decimal:
    fitting = [name for name, (end, _) in UNITS.items() if end == ending] if ending else list(SHARES)
    if unit not in fitting:
        raise ValueError(f"the unit must be one of {', '.join(fitting)}")
    return Decimal(UNITS[unit][1] if ending else SHARES[unit])


def read_cell(text: str, kind: Any, factor: tuple[Decimal, ...]) -> Any:
    """The value of one cell.

    Args:
        text: the cell; members of a list are parted by ``;``, numbers of a drop point by ``:``.
        kind: Python type of the field.
        factor: from ``factors``.

    Raises:
        ValueError: the text does not fit the type.

    Example:
        >>> read_cell("20", float, (Decimal("1e-3"),))
        0.02
        >>> read_cell("1;2;3", tuple[int, ...], (Decimal(1),))
        (1, 2, 3)
    """
    reader = _READERS.get(kind)
    if reader is None:
        raise TypeError(f"no reader for columns of type {kind}")
    return reader(text, factor)


def _text(text: str, _: tuple[Decimal, ...]) -> str:
    return text


def _number(text: str, factor: tuple[Decimal, ...]) -> float:
    return _scaled(text, factor[0])


def _scaled(text: str, factor: Decimal) -> float:
    try:
        value = Decimal(text)
    except InvalidOperation:
        raise ValueError("a number is needed, with a point") from None
    if not value.is_finite():
        raise ValueError("a finite number is needed")
    return float(value * factor)


def _whole(text: str, _: tuple[Decimal, ...]) -> int:
    if not text.isdecimal():
        raise ValueError("a whole number is needed")
    return int(text)


def _yes_no(text: str, _: tuple[Decimal, ...]) -> bool:
    if text not in _YES_NO:
        raise ValueError('"yes" or "no" is needed')
    return _YES_NO[text]


def _members(text: str) -> list[str]:
    members = [member.strip() for member in text.split(";")] if text else []
    if "" in members:
        raise ValueError("an empty member between two semicolons")
    return members


def _words(text: str, _: tuple[Decimal, ...]) -> tuple[str, ...]:
    return tuple(_members(text))


def _wholes(text: str, factor: tuple[Decimal, ...]) -> tuple[int, ...]:
    return tuple(_whole(member, factor) for member in _members(text))


def _triples(text: str, factor: tuple[Decimal, ...]) -> tuple[tuple[float, ...], ...]:
    triples = []
    for member in _members(text):
        numbers = member.split(":")
        if len(numbers) != 3:
            raise ValueError("each point needs current:typical:worst, such as 100:0.9:1.1")
        triples.append(tuple(_scaled(number, f) for number, f in zip(numbers, factor, strict=True)))
    return tuple(triples)


_READERS: Mapping[Any, Callable[[str, tuple[Decimal, ...]], Any]] = {
    str: _text,
    float: _number,
    int: _whole,
    bool: _yes_no,
    tuple[str, ...]: _words,
    tuple[int, ...]: _wholes,
    tuple[tuple[float, float, float], ...]: _triples,
}
