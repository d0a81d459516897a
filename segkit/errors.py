"""What goes wrong with the input, as one tree.

    SegkitError
    ├── InputError        the input cannot be used: one or more Problems, exit code 2
    └── MissingPartError  a catalogue id that does not exist (an InputError too)

A design that can be read but would work badly is no error: it gets a ``Finding``.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Problem:
    """One thing wrong with the input.

    Attributes:
        text: what is wrong, one sentence.
        file: file it stands in, as the user named it; empty on the command line.
        key: key or option, such as ``digit.height`` or ``--supply``.
        value: what was given, as it was written.
        limit: what is allowed, such as ``10 mm to 3 m``.
        remedy: what to do.
    """

    text: str
    file: str = ""
    key: str = ""
    value: str = ""
    limit: str = ""
    remedy: str = ""

    def __str__(self) -> str:
        where = ": ".join(part for part in (self.file, self.key) if part)
        given = f"{' = ' if self.key else ': ' if where else ''}{self.value}" if self.value else ""
        head = f"{where}{given}" if where else self.value
        body = f"{head}: {self.text}" if head else self.text
        allowed = f" Allowed: {self.limit}." if self.limit else ""
        todo = f" {self.remedy}" if self.remedy else ""
        return _printable(f"{body}{allowed}{todo}")


def _printable(text: str) -> str:
    """``text`` with line breaks, blind characters and the like written as escapes, so that they show."""
    return "".join(char if char.isprintable() else repr(char)[1:-1] for char in text)


class SegkitError(Exception):
    """Everything that segkit raises on purpose."""


class InputError(SegkitError):
    """The input cannot be used; carries every problem that was found, not just the first.

    Args:
        problems: a Problem, several of them, or a sentence.
    """

    def __init__(self, problems: Problem | str | Iterable[Problem]) -> None:
        if isinstance(problems, str):
            problems = Problem(problems)
        self.problems: tuple[Problem, ...] = (problems,) if isinstance(problems, Problem) else tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))

    def at(self, *, file: str = "", key: str = "") -> InputError:
        """The same error with file and key filled in where they are still empty."""
        return type(self)(replace(p, file=p.file or file, key=p.key or key) for p in self.problems)


class MissingPartError(InputError):
    """A catalogue id that does not exist."""


def nearest(word: str, known: Sequence[str]) -> str:
    """``Did you mean ...?`` with the nearest known word, or the list of known words.

    Example:
        >>> nearest("heigth", ["height", "width"])
        'Did you mean "height"?'
    """
    close = difflib.get_close_matches(word, known, n=1, cutoff=0.6)
    if close:
        return f'Did you mean "{close[0]}"?'
    return "Known: " + ", ".join(known) + "."
