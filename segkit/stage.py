"""What every stage gives back: its working and its verdicts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from segkit.findings import Finding
from segkit.working import Line


class Stage(Protocol):
    """What every stage result has: its working and its verdicts."""

    @property
    def lines(self) -> tuple[Line, ...]:
        """The working."""
        ...

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The verdicts."""
        ...


@dataclass(frozen=True)
class Result:
    """Lines and findings of a step that has no record of its own to keep."""

    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()
