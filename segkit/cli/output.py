"""What every command prints with: people's tables, programs' JSON, errors on stderr, exit codes."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from segkit.errors import InputError, Problem
from segkit.findings import Finding, in_order

if TYPE_CHECKING:
    from rich.console import Console

GOOD, STOPPED, UNUSABLE = 0, 1, 2
_COLOUR = {"stop": "bold red", "caution": "yellow", "note": "cyan"}


def console() -> Console:
    """A console on stdout; no colour where the output is no terminal or NO_COLOR is set."""
    from rich.console import Console

    width = None if sys.stdout.isatty() else 100
    return Console(highlight=False, soft_wrap=False, width=width)


def print_json(data: Any) -> None:
    """``data`` as indented JSON on stdout, keys in the order given."""
    sys.stdout.write(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n")


def print_table(
    columns: Sequence[str], rows: Iterable[Sequence[str]], *, title: str = "", right: Sequence[str] = ()
) -> None:
    """A plain table on stdout.

    Args:
        columns: headings.
        rows: cells as text.
        title: printed above, left.
        right: headings of the columns that are set flush right.
    """
    from rich import box
    from rich.table import Table
    from rich.text import Text

    table = Table(box=box.SIMPLE_HEAD, title=title or None, title_justify="left", pad_edge=False)
    for column in columns:
        table.add_column(column, justify="right" if column in right else "left", overflow="fold")
    for row in rows:
        table.add_row(*(Text(cell) for cell in row))
    console().print(table)


def print_findings(findings: Iterable[Finding]) -> None:
    """Findings for people: level and subject, the sentence, what to do, the source."""
    from rich.text import Text

    from segkit.sources import source

    out = console()
    for finding in in_order(findings):
        head = Text(f"{finding.level:<8}", style=_COLOUR[finding.level])
        head.append(f"{finding.subject}: {finding.text}", style="default")
        out.print(head)
        if finding.remedy:
            out.print(Text(f"        → {finding.remedy}"))
        out.print(Text(f"        [{finding.code}; {source(finding.source).cited()}]", style="dim"))


def fail(error: InputError) -> int:
    """Every problem of ``error`` on stderr; returns the exit code for unusable input."""
    count = len(error.problems)
    if count > 1:
        sys.stderr.write(f"{count} things to mend:\n")
    for problem in error.problems:
        sys.stderr.write(f"{'- ' if count > 1 else ''}{problem}\n")
    return UNUSABLE


def gather(**readers: tuple[str | None, Any]) -> dict[str, Any]:
    """Parse several option texts and report all faults together.

    Args:
        readers: option name (``supply_min``) to (text or None, parser of one text).

    Returns:
        name to parsed value; None stays None.

    Raises:
        InputError: with the problems of all options that could not be parsed, keys as ``--supply-min``.

    Example:
        >>> gather(height=("300 mm", float)) if False else gather(height=(None, float))
        {'height': None}
    """
    values: dict[str, Any] = {}
    problems: list[Problem] = []
    for name, (text, parser) in readers.items():
        try:
            values[name] = None if text is None else parser(text)
        except InputError as error:
            problems += error.at(key="--" + name.replace("_", "-")).problems
    if problems:
        raise InputError(problems)
    return values
