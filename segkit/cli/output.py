"""What every command prints with: people's tables, programs' JSON, errors on stderr, exit codes."""

from __future__ import annotations

import json
import os
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterable, Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING, Any

from segkit.errors import InputError, Problem
from segkit.findings import Finding, in_order

if TYPE_CHECKING:
    from rich.console import Console

GOOD, STOPPED, UNUSABLE = 0, 1, 2
_COLOUR = {"stop": "bold red", "caution": "yellow", "note": "cyan"}
_ANSI = {"bold red": "1;31", "yellow": "33", "cyan": "36", "bold": "1", "dim": "2"}


def console() -> Console:
    """A console on stdout; no colour where the output is no terminal or NO_COLOR is set."""
    from rich.console import Console

    width = None if sys.stdout.isatty() else 100
    return Console(highlight=False, soft_wrap=False, width=width)


def print_json(data: Any) -> None:
    """``data`` as indented JSON on stdout, keys in the order given."""
    sys.stdout.write(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n")


def say(text: str) -> None:
    """Text for people on stdout, wrapped to the width of the terminal; a last newline leaves a line free."""
    lines = textwrap.wrap(text, _width(), break_long_words=False, break_on_hyphens=False)
    sys.stdout.write("\n".join(lines) + ("\n\n" if text.endswith("\n") else "\n"))


def print_table(
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    title: str = "",
    right: Sequence[str] = (),
) -> None:
    """A plain table on stdout; where it is too wide for the terminal, its widest columns are wrapped.

    Args:
        columns: headings.
        rows: cells as text.
        title: printed above, left.
        right: headings of the columns that are set flush right.
    """
    cells = [[str(cell) for cell in row] for row in rows]
    widths = _column_widths([columns, *cells], _width() - 2 * (len(columns) - 1))
    flush_right = [column in right for column in columns]
    lines = [_styled(line, "bold") for line in _row_lines(columns, widths, flush_right)]
    lines.append(_styled("  ".join("─" * width for width in widths), "dim"))
    for row in cells:
        lines += _row_lines(row, widths, flush_right)
    sys.stdout.write("\n".join([title] * bool(title) + lines) + "\n\n")


def _column_widths(rows: Sequence[Sequence[str]], room: int) -> list[int]:
    """Widths that fit into ``room``, taken from the widest columns first; no word is broken for it."""
    every = list(zip(*rows, strict=True))
    widths = [max(map(len, column)) for column in every]
    floors = [max((len(word) for cell in column for word in cell.split()), default=0) for column in every]
    while sum(widths) > room:
        soft = [place for place, width in enumerate(widths) if width > floors[place]]
        if not soft:
            break
        widths[max(soft, key=widths.__getitem__)] -= 1
    return widths


def _row_lines(row: Sequence[str], widths: Sequence[int], flush_right: Sequence[bool]) -> list[str]:
    """One table row, as several lines where a cell is wider than its column."""
    wrapped = [
        textwrap.wrap(cell, width, break_on_hyphens=False) or [""]
        for cell, width in zip(row, (max(1, width) for width in widths), strict=True)
    ]
    lines = []
    for parts in zip_longest(*wrapped, fillvalue=""):
        padded = [
            part.rjust(width) if flush else part.ljust(width)
            for part, width, flush in zip(parts, widths, flush_right, strict=True)
        ]
        lines.append("  ".join(padded).rstrip())
    return lines


def print_findings(
    findings: Iterable[Finding],
    levers: Callable[[Finding], tuple[str, ...]] | None = None,
    *,
    notes: bool = True,
) -> None:
    """Findings for people: level and subject, the sentence, what to do, where to do it, the source.

    Args:
        findings: to print.
        levers: finding to the keys of the design file that mend it; None where there is no file.
        notes: whether notes say what to do and where it comes from; False tells only what each is about.
    """
    ordered = in_order(findings)
    if not ordered:
        return
    from segkit.sources import source

    for finding in ordered:
        head = _hanging(f"{finding.subject}: {finding.text}", "")
        lines = [_styled(f"{finding.level:<8}", _COLOUR[finding.level]) + head[8:]]
        if finding.level == "note" and not notes:
            sys.stdout.write(lines[0] + "\n")
            continue
        if finding.remedy:
            lines.append(_hanging(finding.remedy, "→ "))
        if levers and (keys := levers(finding)):
            lines.append(_hanging(f"in the file: {', '.join(keys)}", ""))
        lines.append(_styled(_hanging(f"[{finding.code}; {source(finding.source).short}]", ""), "dim"))
        sys.stdout.write("\n".join(lines) + "\n")


def _hanging(text: str, sign: str) -> str:
    return textwrap.fill(
        text, _width(), initial_indent=" " * 8 + sign, subsequent_indent=" " * (8 + len(sign)),
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def _width() -> int:
    """Columns of the terminal; 100 where the output is none."""
    return max(40, shutil.get_terminal_size().columns) if sys.stdout.isatty() else 100


def _styled(text: str, style: str) -> str:
    """``text`` in the style, or plain where the output is no terminal or NO_COLOR is set."""
    if not sys.stdout.isatty() or "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb":
        return text
    return f"\x1b[{_ANSI[style]}m{text}\x1b[0m"


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
