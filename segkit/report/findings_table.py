"""Findings as the build book prints them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from segkit.design.levers import levers
from segkit.findings import Finding, in_order
from segkit.sources import source

PART_NAMES = {
    "back_board": "back board",
    "light_grid": "light grid",
    "diffuser": "diffuser pieces",
    "face": "face board",
    "reflector": "reflector pieces",
    "front": "front tint",
}


@dataclass(frozen=True)
class FindingRow:
    """One finding; ``keys`` are those of the design file that mend it, ``held`` the cut files held back."""

    level: str
    code: str
    subject: str
    text: str
    remedy: str
    keys: str
    held: str
    source: str


def findings_table(findings: Iterable[Finding], *, bare: bool = False) -> tuple[FindingRow, ...]:
    """The findings, stops first.

    Args:
        findings: in any order.
        bare: True for a board of push-in bulbs, which has no use for keys of pockets.

    Example:
        >>> findings_table([Finding("note", "n", "digit 1", "is fine.", holds=())])[0].held
        ''
    """
    return tuple(
        FindingRow(
            level=finding.level,
            code=finding.code,
            subject=finding.subject,
            text=finding.text,
            remedy=finding.remedy,
            keys=", ".join(levers(finding, bare=bare)),
            held=", ".join(PART_NAMES[part] for part in finding.holds),
            source=source(finding.source).short,
        )
        for finding in in_order(findings)
    )


def held_parts(findings: Iterable[Finding]) -> frozenset[str]:
    """Cut parts whose files must not be written."""
    return frozenset(part for finding in findings if finding.level == "stop" for part in finding.holds)
