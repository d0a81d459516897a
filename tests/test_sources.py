"""The bibliography: whole, and known to every place that names a source."""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from segkit.sources import KINDS, Source, bibliography, source

ROOT = Path(__file__).parent.parent


def test_every_entry_is_whole() -> None:
    assert len(bibliography()) > 20
    for key, entry in bibliography().items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", key), key
        assert entry.key == key
        assert entry.title.strip(), key
        assert entry.kind in KINDS, key
        assert entry.year == 0 or 1850 <= entry.year <= 2030, key
        assert "://" not in f"{entry.title} {entry.publisher} {entry.place} {entry.remark}", key


def test_a_work_that_was_published_says_by_whom_or_where() -> None:
    for key, entry in bibliography().items():
        if entry.kind in ("standard", "paper", "datasheet"):
            assert entry.publisher or entry.place, key


def _texts(value: ast.expr) -> list[str]:
    """The texts that an expression can give: itself, or the two sides of a choice."""
    match value:
        case ast.Constant(value=str() as text):
            return [text]
        case ast.IfExp(body=one, orelse=other):
            return _texts(one) + _texts(other)
    return []


def _named_in_code() -> set[tuple[str, str]]:
    """(file, key) for each text handed on as ``source=`` in a call."""
    return {
        (path.name, key)
        for path in (ROOT / "segkit").rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.keyword) and node.arg == "source"
        for key in _texts(node.value)
    }


def test_every_key_named_in_code_exists() -> None:
    named = _named_in_code()
    assert len({key for _, key in named}) > 10
    assert {(file, key) for file, key in named if key not in bibliography()} == set()


def test_every_key_named_in_check_values_exists(published: Callable[[str], list[dict[str, str]]]) -> None:
    files = sorted((ROOT / "fixtures" / "check_values").glob("*.csv"))
    assert files
    for file in files:
        for row in published(file.stem):
            assert row["source"] in bibliography(), f"{file.name}: {row['what']} {row['inputs']}"


def test_cited() -> None:
    whole = Source("k", "Wires", "A Press", 1990, "table 2", "handbook", "two digits")
    assert whole.cited() == "Wires, A Press, 1990, table 2 (handbook; two digits)"
    assert source("common-practice").cited() == "Common practice"


def test_an_unknown_key_is_a_fault_of_the_program() -> None:
    with pytest.raises(KeyError):
        source("hearsay")
