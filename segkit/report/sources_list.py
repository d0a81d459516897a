"""The sources that a project rests on, each once, in the order of the bibliography."""

from __future__ import annotations

from collections.abc import Iterable

from segkit.findings import Finding
from segkit.sources import bibliography
from segkit.working import Line


def sources_list(
    lines: Iterable[Line], findings: Iterable[Finding], parts: Iterable[str]
) -> tuple[tuple[str, str], ...]:
    """(key, citation) of every source used.

    Args:
        lines: worksheet lines.
        findings: findings.
        parts: source keys of the catalogue rows used.

    Example:
        >>> sources_list((), (), ["common-practice"])
        (('common-practice', 'Common practice'),)
    """
    used = {line.source for line in lines} | {finding.source for finding in findings} | set(parts)
    return tuple((key, entry.cited()) for key, entry in bibliography().items() if key in used)
