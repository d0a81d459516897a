"""What a board shows over time, and how often each of its segments is lit then."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.glyphs.characters import DEFAULT_STYLE, DIGITS, Style, segments_of
from segkit.glyphs.segments import SEGMENTS
from segkit.glyphs.text import fit, lamps
from segkit.working import Given, Line

#: The words for a content; a text in apostrophes stands still.
WORDS = ("digits", "everything", "clock 24 h", "clock 12 h", "count A to B", "'12:45'")
_COUNT = re.compile(r"(?:count|score|gauge)\s+(\d+)\s*(?:to|-|\.\.)\s*(\d+)")
_TEXT = re.compile(r"'([^']*)'")
_HOW = (
    'Write "digits" (all ten equally often), "clock 24 h", "clock 12 h", "count 0 to 13" (leading zeros '
    'dark; "count 00 to 59" keeps them), "everything", or a text that stands still: "\'12:45\'".'
)
_MOST_VALUES = 100_000


@dataclass(frozen=True)
class Content:
    """What is shown, and how often it lights what.

    Attributes:
        words: as asked.
        shares: (digit, segment) to the share of the time that it is lit, 0 to 1; points and colons stay lit.
    """

    words: str
    shares: Mapping[tuple[int, str], float]

    def lit_mean(self) -> float:
        """Segments, points and colons lit on average."""
        return sum(self.shares.values())


def content_of(words: str, *, layout: str, style: Style = DEFAULT_STYLE) -> Content:
    """How often each segment of a board is lit.

    Args:
        words: one of ``WORDS``, such as ``clock 24 h``, ``count 0 to 13``, or a text in apostrophes.
        layout: marks of the board; blanks and colons part it into groups of digits, and each group counts.
        style: how 6, 7 and 9 are drawn.

    Formula: the mean over all values that are shown, each equally often.

    Raises:
        InputError: words that are not known, or a content that the digits cannot show.

    Source keys: digit-statistics.

    Example:
        >>> round(content_of("clock 24 h", layout="88 88").lit_mean(), 4)
        18.4
    """
    asked = " ".join(words.strip().split())
    everything = lamps(layout)
    if still := _TEXT.fullmatch(asked):
        lit = set(fit(still[1], layout=layout, style=style).lit)
        return Content(asked, {lamp: float(lamp in lit) for lamp in everything})
    if asked.lower() == "everything":
        return Content(asked, dict.fromkeys(everything, 1.0))
    shown = _characters(asked.lower(), _groups(layout))
    shares = dict.fromkeys(everything, 1.0)
    for digit, often in enumerate(shown, start=1):
        total = sum(often.values())
        for name in SEGMENTS:
            lit_often = sum(n for char, n in often.items() if name in segments_of(char, style))
            shares[digit, name] = lit_often / total
    return Content(asked, shares)


def _groups(layout: str) -> tuple[int, ...]:
    """Digits of each group: a score's two digits, a clock's hours and minutes."""
    return tuple(n for part in re.split(r"[ :]+", layout) if (n := sum(mark in "8o" for mark in part)))


def _characters(asked: str, groups: tuple[int, ...]) -> list[Counter[str]]:
    """For each digit how often it shows which character."""
    if asked == "digits":
        return [Counter(DIGITS) for _ in range(sum(groups))]
    if asked in ("clock 24 h", "clock 12 h"):
        return _clock(asked, groups)
    if count := _COUNT.fullmatch(asked):
        return [often for digits in groups for often in _counted(count[1], count[2], digits)]
    raise _bad(asked, "no content that is known.", ", ".join(WORDS))


def _clock(asked: str, groups: tuple[int, ...]) -> list[Counter[str]]:
    digits = sum(groups)
    if digits not in (4, 6):
        raise _bad(
            asked, f"a clock has 4 digits, or 6 with seconds; this board has {digits}.", "4 or 6 digits"
        )
    hours = [f"{h:02}" for h in range(24)] if "24" in asked else [f"{h:2}" for h in range(1, 13)]
    sixty = [f"{n:02}" for n in range(60)]
    return [*_by_place(hours), *(often for _ in range(digits // 2 - 1) for often in _by_place(sixty))]


def _counted(first: str, last: str, digits: int) -> list[Counter[str]]:
    low, high = int(first), int(last)
    if low > high or len(last) > digits or high - low > _MOST_VALUES:
        text = f"a group of {digits} digit{'s' if digits > 1 else ''} cannot count from {first} to {last}."
        raise _bad(f"count {first} to {last}", text, f"rising, at most {'9' * digits}")
    fill = "0" if len(first) > 1 and first.startswith("0") else " "
    return _by_place([str(n).rjust(digits, fill) for n in range(low, high + 1)])


def _by_place(texts: Sequence[str]) -> list[Counter[str]]:
    return [Counter(column) for column in zip(*texts, strict=True)]


def _bad(asked: str, text: str, limit: str) -> InputError:
    return InputError(Problem(text, value=f'"{asked}"', limit=limit, remedy=_HOW))


def lit_line(content: Content) -> Line:
    """The working of the mean number of lit segments of the whole board."""
    names = tuple(dict.fromkeys(name for _, name in content.shares))
    inputs = tuple(
        Given(f"n_{name}", _summed(content, name), "", f"lit on average: {name} of all digits")
        for name in names
    )
    return Line(
        "glyphs.content_lit", f"lit on average on the whole board, showing {content.words}", "n",
        content.lit_mean(), "", " + ".join(given.symbol for given in inputs), inputs, "digit-statistics",
    )  # fmt: skip


def _summed(content: Content, name: str) -> float:
    shares: Iterable[float] = (share for (_, own), share in content.shares.items() if own == name)
    return sum(shares)
