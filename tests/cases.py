"""The small designs of ``fixtures/cases``, solved once, and what their tests ask of them."""

from functools import cache
from pathlib import Path

from segkit.design.reader import read_design
from segkit.findings import Finding
from segkit.project import Project, solve

CASES = Path(__file__).parent.parent / "fixtures" / "cases"


@cache
def made(name: str) -> Project:
    """The design of that name, solved."""
    return solve(read_design(CASES / f"{name}.toml"), name=name)


def found(name: str) -> dict[str, Finding]:
    """Its findings by their codes."""
    return {finding.code: finding for finding in made(name).findings}


def value(name: str, line: str) -> float:
    """The value of one line of its worksheet."""
    return next(one.value for one in made(name).lines if one.name == line)
