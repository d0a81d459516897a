"""Style, types: the same for everyone."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--no-cache", "segkit", "tests"],
        ["ruff", "format", "--no-cache", "--check", "segkit", "tests"],
        ["mypy"],
    ],
    ids=" ".join,
)
def test_code_is_clean(command: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
