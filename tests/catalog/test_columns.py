from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.columns import UNITS, column_types, ending_of, factors, read_cell
from segkit.catalog.part import Led, Sink

ONE = (Decimal(1),)
TRIPLES = tuple[tuple[float, float, float], ...]


def test_the_unit_row_is_read() -> None:
    assert factors("vf_v", "V", float) == ONE
    assert factors("max_current_a", "mA", float) == (Decimal("0.001"),)
    assert factors("intensity_cd", "mcd", float) == (Decimal("0.001"),)
    assert factors("drop_points", "mA:V:V", TRIPLES) == (Decimal("0.001"), Decimal(1), Decimal(1))
    assert factors("tolerance", "%", float) == (Decimal("0.01"),)


@pytest.mark.parametrize(
    ("column", "unit", "kind", "says"),
    [
        ("vf_v", "mA", float, "V, mV"),
        ("vf_v", "", float, "V, mV"),
        ("reflectance", "mm", float, "share, %"),
        ("pins", "mm", int, "no unit"),
        ("drop_points", "mA:V", TRIPLES, "three units"),
        ("drop_points", "V:V:V", TRIPLES, "A, mA"),
    ],
)
def test_a_unit_of_another_column_is_refused(column: str, unit: str, kind: type, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        factors(column, unit, kind)


def test_the_longest_ending_counts() -> None:
    assert ending_of("resistance_ohm_per_m") == "_ohm_per_m"
    assert ending_of("vf_temperature_v_per_k") == "_v_per_k"
    assert ending_of("expansion_per_k") == "_per_k"
    assert ending_of("reflectance") == ""


def test_every_written_unit_converts_to_the_unit_of_its_ending() -> None:
    for unit, (ending, factor) in UNITS.items():
        assert factors(f"x{ending}", unit, float) == (Decimal(factor),)
        assert any(end == ending and each == "1" for end, each in UNITS.values())


@given(st.integers(0, 10**6))
def test_milliamperes_become_the_nearest_amperes(milli: int) -> None:
    assert read_cell(str(milli), float, (Decimal("1e-3"),)) == float(f"{milli}e-3")


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("yes", bool, True),
        ("no", bool, False),
        ("8", int, 8),
        ("", tuple[int, ...], ()),
        ("15;1;2", tuple[int, ...], (15, 1, 2)),
        ("knife; laser", tuple[str, ...], ("knife", "laser")),
        ("100:0.9:1.1;200:1.1:1.3", TRIPLES, ((0.1, 0.9, 1.1), (0.2, 1.1, 1.3))),
    ],
)
def test_cells(text: str, kind: type, value: object) -> None:
    scale = (Decimal("1e-3"), Decimal(1), Decimal(1)) if kind == TRIPLES else ONE
    assert read_cell(text, kind, scale) == value


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("", float, "number"),
        ("2,0", float, "point"),
        ("nan", float, "finite"),
        ("inf", float, "finite"),
        ("2.5", int, "whole"),
        ("-1", int, "whole"),
        ("true", bool, "yes"),
        ("1;;2", tuple[int, ...], "empty"),
        ("1:2", TRIPLES, "current:typical:worst"),
    ],
)
def test_bad_cells(text: str, kind: type, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        read_cell(text, kind, ONE * 3)


def test_an_unforeseen_field_type_is_a_fault_of_the_program() -> None:
    with pytest.raises(TypeError, match="no reader"):
        read_cell("1", dict, ONE)


def test_source_and_knowledge_come_last() -> None:
    for record in (Led, Sink):
        names = list(column_types(record))
        assert names[:2] == ["id", "name"]
        assert names[-2:] == ["source", "knowledge"]
