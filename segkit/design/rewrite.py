"""One table of a design file set, replaced or taken out, the rest of the file left as it is."""

from __future__ import annotations

import os
import re
import tempfile
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path

from segkit.design.reader import design_from_text
from segkit.errors import InputError, Problem

_HEADER = re.compile(r"^\s*\[+\s*([^\[\]#]+?)\s*\]+\s*(#.*)?$")


def with_table(text: str, name: str, lines: Sequence[str]) -> str:
    """The text of a design file with a table set to these lines; without the table if there are none.

    Comments, order and the spacing of everything else stay as they are.

    Args:
        text: TOML.
        name: of the table, such as ``as_built``.
        lines: of the table below its head, without line ends; none takes the table out.

    Raises:
        InputError: the table is written in a way that cannot be cut out, as in ``as_built.chips = ...``.

    Example:
        >>> print(with_table('[display]\\nlayout = "8"  # one\\n', "as_built", ['chips = ["1a"]']))
        [display]
        layout = "8"  # one
        <BLANKLINE>
        [as_built]
        chips = ["1a"]
        <BLANKLINE>
    """
    if not lines and _same_but(text, text, name, there=False):
        return text
    rows = text.splitlines(keepends=True)
    for begin, end in _spans(rows, name):
        new = _with_rows(rows, begin, end, (f"[{name}]", *lines) if lines else ())
        if _same_but(text, new, name, there=bool(lines)):
            return new
    raise InputError(
        Problem(
            f"the table [{name}] cannot be set without touching the rest of the file.",
            key=name,
            remedy=f"Take out what the file says of {name} by hand, then do this again.",
        )
    )


def _with_rows(rows: Sequence[str], begin: int, end: int, lines: Sequence[str]) -> str:
    """The rows with ``lines`` in the place of those from ``begin`` to ``end``, a blank row on either side."""
    end_of_line = "\r\n" if rows and rows[0].endswith("\r\n") else "\n"
    before, after = [*rows[:begin]], [*rows[end:]]
    block = [f"{line}{end_of_line}" for line in lines]
    if block and before and not before[-1].endswith(("\n", "\r")):
        before[-1] += end_of_line
    if block and before and before[-1].strip():
        block.insert(0, end_of_line)
    if block and after and after[0].strip():
        block.append(end_of_line)
    if not block:
        while before and not before[-1].strip() and (not after or not after[0].strip()):
            before.pop()
    return "".join([*before, *block, *after])


def _spans(rows: Sequence[str], name: str) -> Iterator[tuple[int, int]]:
    """First row of the table and the row after its last, wherever its head seems to stand; then the end.

    A head can also stand in a text of several lines, so each is tried. Comments and blank rows right above
    the next head belong to that one.
    """
    heads = [(at, match[1]) for at, row in enumerate(rows) if (match := _HEADER.match(row.rstrip("\r\n")))]
    for place, (at, head) in enumerate(heads):
        if head == name:
            end = heads[place + 1][0] if place + 1 < len(heads) else len(rows)
            while place + 1 < len(heads) and end > at + 1 and _is_quiet(rows[end - 1]):
                end -= 1
            yield at, end
    yield len(rows), len(rows)


def _is_quiet(row: str) -> bool:
    return not row.strip() or row.lstrip().startswith("#")


def _same_but(old: str, new: str, name: str, *, there: bool) -> bool:
    """Whether the rest of the file still says what it said, and the table is there, or gone."""
    try:
        before, after = tomllib.loads(old), tomllib.loads(new)
    except tomllib.TOMLDecodeError:
        return False
    found = name in after
    before.pop(name, None)
    after.pop(name, None)
    return before == after and found == there


def write_table(path: Path, name: str, lines: Sequence[str]) -> bool:
    """Set one table of a design file, whole or not at all; the new file must still be a design.

    Args:
        path: the design file.
        name: of the table.
        lines: of the table below its head; none takes it out.

    Returns:
        whether the file changed.

    Raises:
        InputError: the file cannot be written, or would no longer be a design; then nothing has changed.
    """
    try:
        old = path.read_bytes().decode("utf-8-sig")
        new = with_table(old, name, lines)
        design_from_text(new, file=str(path))
        if new == old:
            return False
        _replace(path, new)
    except OSError as error:
        text = f"the design file cannot be written: {error.strerror or error}."
        raise InputError(Problem(text, file=str(path), remedy="Check its permissions.")) from None
    except InputError as error:
        raise error.at(file=str(path)) from None
    return True


def _replace(path: Path, text: str) -> None:
    """Write beside the file, then put it in its place in one step, with the permissions it had."""
    target = path.resolve()
    handle, beside = tempfile.mkstemp(prefix=f".{target.name}-", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
        Path(beside).chmod(target.stat().st_mode & 0o777)
        Path(beside).replace(target)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise
