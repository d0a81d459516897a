"""The bibliography: every number that is not the builder's own choice names one of these keys."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

KINDS = ("standard", "datasheet", "paper", "handbook", "common practice", "from memory", "arithmetic")


@dataclass(frozen=True)
class Source:
    """Where a number comes from.

    Attributes:
        key: name used in code, tables and findings.
        title: title of the work.
        publisher: who published it; empty for common practice.
        year: year of publication; 0 where unknown.
        place: clause, table or page.
        kind: one of ``KINDS``.
        remark: for example "figure not re-read, from memory".
    """

    key: str
    title: str
    publisher: str = ""
    year: int = 0
    place: str = ""
    kind: str = "common practice"
    remark: str = ""

    @property
    def short(self) -> str:
        """Title and place, for a line on a terminal; what is not from a page says so."""
        head = ", ".join(part for part in (self.title, self.place) if part)
        known = self.kind if self.kind in ("from memory", "common practice") else ""
        return f"{head} ({known})" if known and known != self.title.lower() else head

    def cited(self) -> str:
        """The source in one line for people."""
        parts = [self.title, self.publisher, str(self.year or ""), self.place]
        head = ", ".join(part for part in parts if part)
        kind = self.kind if self.kind != self.title.lower() else ""
        tail = "; ".join(part for part in (kind, self.remark) if part)
        return f"{head} ({tail})" if tail else head


@cache
def bibliography() -> Mapping[str, Source]:
    """All sources by key, in file order."""
    text = (files("segkit") / "sources.toml").read_text(encoding="utf-8")
    return {key: Source(key=key, **row) for key, row in tomllib.loads(text).items()}


def source(key: str) -> Source:
    """The source of that key.

    Raises:
        KeyError: no such key; a programming fault, caught by the tests.
    """
    return bibliography()[key]
