"""What all tests share: repeatable property tests, outside programs, published values."""

from __future__ import annotations

import csv
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import hypothesis
import pytest

# Before numpy is loaded: tests run side by side, and threads of one would only be in another's way.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

ROOT = Path(__file__).parent.parent
hypothesis.settings.register_profile("repeatable", deadline=None, derandomize=True, max_examples=60)
hypothesis.settings.load_profile("repeatable")


def missing(what: str) -> None:
    """Skip on a user's machine, fail in CI: something from outside Python is not there."""
    if os.environ.get("CI"):
        pytest.fail(f"{what} is missing; .ci/run must install it")
    pytest.skip(f"{what} is not installed")


@pytest.fixture(scope="session")
def tool() -> Callable[[str], str]:
    """Path of an outside program, or skip (fail in CI)."""

    def find(name: str) -> str:
        path = shutil.which(name)
        if path is None:
            missing(name)
        return str(path)

    return find


@pytest.fixture
def published() -> Callable[[str], list[dict[str, str]]]:
    """Rows of fixtures/check_values/<stage>.csv."""

    def rows(stage: str) -> list[dict[str, str]]:
        with (ROOT / "fixtures" / "check_values" / f"{stage}.csv").open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    return rows
