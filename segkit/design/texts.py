"""Texts of a design file that the digits must be able to show, judged beside all other faults of the file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from pydantic import ValidationError

from segkit.design.feed import Use
from segkit.design.schema import Display, Glyphs
from segkit.errors import InputError, Problem
from segkit.geometry.layout import layout_problems
from segkit.glyphs.content import content_of
from segkit.glyphs.text import fit

_OTHER_TEXT = "Choose another text, or draw the character yourself under [glyphs.custom]."


def text_problems(data: Mapping[str, Any]) -> Iterator[Problem]:
    """What of ``display.sample`` and ``power.use.content`` the layout cannot show.

    The file is read as it stands, so that a fault elsewhere hides none of these; a layout or a text that is
    itself no good is left to whoever judges it.

    Args:
        data: the tables of the design file.

    Example:
        >>> [problem.key for problem in text_problems({"display": {"layout": "88", "sample": "123"}})]
        ['display.sample']
    """
    display, glyphs, use = (_table(data, *path) for path in (("display",), ("glyphs",), ("power", "use")))
    layout = display.get("layout", Display().layout)
    sample, content = display.get("sample", ""), use.get("content", Use().content)
    if not isinstance(layout, str) or layout_problems(layout):
        return
    try:
        custom = Glyphs.model_validate({"custom": _table(glyphs, "custom")}).custom
    except ValidationError:
        sample = ""  # told by itself; a sample may need what it draws
        custom = {}
    if isinstance(sample, str) and sample:
        yield from _refused("display.sample", lambda: fit(sample, layout=layout, custom=custom))
    if isinstance(content, str):
        yield from _refused("power.use.content", lambda: content_of(content, layout=layout))


def _table(data: Mapping[str, Any], *path: str) -> Mapping[str, Any]:
    for name in path:
        inner = data.get(name)
        data = inner if isinstance(inner, Mapping) else {}
    return data


def _refused(key: str, shown: Callable[[], object]) -> Iterator[Problem]:
    try:
        shown()
    except InputError as error:
        for problem in error.problems:
            yield replace(problem, key=key, remedy=problem.remedy or _OTHER_TEXT)
