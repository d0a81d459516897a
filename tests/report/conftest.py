"""The fixture designs, solved once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from segkit.design.reader import read_design
from segkit.project import Project, solve

ROOT = Path(__file__).parent.parent.parent


@cache
def _solved(name: str) -> Project:
    return solve(read_design(ROOT / f"fixtures/designs/{name}.toml"), name=name)


@pytest.fixture
def boules() -> Project:
    return _solved("boules_court")


@pytest.fixture
def clock() -> Project:
    return _solved("pool_lap_clock")


@pytest.fixture
def barrel() -> Project:
    return _solved("rain_barrel")
