"""Engineering verdicts on a design that can be read but may not work in the yard."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

Level = Literal["stop", "caution", "note"]
LEVELS: tuple[Level, ...] = ("stop", "caution", "note")

#: Cut parts that a finding can hold back, in the order of the stack, back to front.
CUT_PARTS = ("back_board", "light_grid", "diffuser", "face")
#: All that has a cut file: those, and the reflector and the tinted front where one is named.
FILED_PARTS = (*CUT_PARTS, "reflector", "front")


@dataclass(frozen=True)
class Finding:
    """One verdict.

    Attributes:
        level: ``stop`` (do not build this), ``caution`` (works, but), ``note`` (good to know).
        code: short fixed name with hyphens, such as ``thin-headroom``; one meaning each.
        subject: what it is about, such as ``upright segments`` or ``light grid``.
        text: one sentence in plain words, with the numbers in it.
        value: the number found, in ``unit``, or a word.
        limit: the number or word it is held against, in ``unit``.
        unit: unit of value and limit, such as ``mA``.
        source: key into ``sources.toml`` for the limit.
        remedy: what to do, one sentence.
        holds: cut parts (of ``FILED_PARTS``) whose cut file must not be written; only with ``stop``.
    """

    level: Level
    code: str
    subject: str
    text: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: str = "common-practice"
    remedy: str = ""
    holds: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a finding that says what no reader of findings understands; a programming fault."""
        if self.level not in LEVELS:
            raise ValueError(f"unknown level {self.level!r}")
        if self.holds and (self.level != "stop" or not set(self.holds) <= set(FILED_PARTS)):
            raise ValueError(f"{self.code}: only a stop holds parts back, of {', '.join(FILED_PARTS)}")

    def as_dict(self) -> dict[str, Any]:
        """The finding with the keys that programs may rely on."""
        return {
            "level": self.level,
            "code": self.code,
            "subject": self.subject,
            "text": self.text,
            "value": self.value,
            "limit": self.limit,
            "unit": self.unit,
            "source": self.source,
            "remedy": self.remedy,
            "holds": list(self.holds),
        }


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Stops first, then cautions, then notes; doubles dropped, order kept within a level."""
    unique = tuple(dict.fromkeys(findings))
    return tuple(f for level in LEVELS for f in unique if f.level == level)


def stops(findings: Iterable[Finding]) -> bool:
    """Whether any finding says stop."""
    return any(f.level == "stop" for f in findings)
