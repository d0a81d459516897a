"""LED places that the builder sets himself: a list of positions for a kind of segment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from segkit import units
from segkit.design.quantity import Reads, merged, refused
from segkit.errors import InputError, Problem, nearest

#: Kinds of segment as ``[pocket.places]`` writes them.
KINDS = tuple(
    size + kind for size in ("", "small-") for kind in ("crossbar", "upright", "bar", "point", "colon")
)
#: Kinds whose LEDs ``pocket.per_segment`` counts; dots get theirs by their area.
BARS = tuple(kind for kind in KINDS if kind.endswith(("crossbar", "upright", "bar")))

MOST = 200
FARTHEST_MM = 1500.0  # half the segment of the tallest digit
_HOW = 'Write a list such as ["-40 mm", "0 mm", "40 mm, 5 mm"]: along the segment, or along and across.'

#: (along, across) of each LED from the middle of the segment, mm.
Positions = tuple[tuple[float, float], ...]


def kind_problems(kind: str) -> tuple[Problem, ...]:
    """What is wrong with the name of a kind of segment; nothing if it is one.

    Args:
        kind: as it is written in the file, with hyphens.
    """
    if kind in KINDS:
        return ()
    text, remedy = f'"{kind}" is no kind of segment.', nearest(kind, KINDS)
    return (Problem(text, limit=", ".join(KINDS), remedy=remedy),)


@dataclass(frozen=True)
class Places(Reads):
    """A field that holds places by kind of segment, read into mm."""

    what: str = "kind of segment, with hyphens, to a list of positions from its middle"

    def read(self, value: Any) -> Any:
        """Kind, with hyphens, to positions; all faults together."""
        if not isinstance(value, Mapping):
            text = "kinds of segment with their lists are expected here."
            raise refused(Problem(text, value=repr(value), remedy="Write them below [pocket.places]."))
        places: dict[str, Positions] = {}
        problems: list[Problem] = []
        for kind, listed in value.items():
            problems += kind_problems(kind)
            try:
                places[kind] = positions(kind, listed)
            except InputError as error:
                problems += error.problems
        if problems:
            raise refused(merged(problems))
        return places

    def json_schema(self) -> dict[str, Any]:
        """For editors."""
        texts = {"type": "array", "items": {"type": "string"}, "minItems": 1, "maxItems": MOST}
        return {
            "type": "object",
            "propertyNames": {"enum": list(KINDS)},
            "additionalProperties": texts,
            "description": self.what,
        }


def positions(kind: str, listed: Any) -> Positions:
    """The positions of one kind, mm.

    Args:
        kind: named in the problems.
        listed: texts, "along" or "along, across".

    Raises:
        InputError: no list, empty or too long, not lengths, or two LEDs in one place; all together.

    Example:
        >>> positions("upright", ["-40 mm", "4 cm, 5 mm"])
        ((-40.0, 0.0), (40.0, 5.0))
    """
    if isinstance(listed, str) or not isinstance(listed, list | tuple) or not listed:
        raise InputError(Problem(f"{kind} has no list of places.", value=repr(listed), remedy=_HOW))
    if len(listed) > MOST:
        text = f"{kind} has {len(listed)} places."
        raise InputError(Problem(text, limit=f"at most {MOST}", remedy="Leave some out."))
    found: list[tuple[float, float]] = []
    problems: list[Problem] = []
    for number, text in enumerate(listed, 1):
        try:
            found.append(_position(text))
        except InputError as error:
            problems += [_named(problem, f"{kind}, place {number}") for problem in error.problems]
    twice = sorted({place for place in found if found.count(place) > 1})
    for along, across in twice:
        text = f"{kind} has two LEDs in one place, {along:g} mm along and {across:g} mm across."
        problems.append(Problem(text, remedy="Leave one of them out."))
    if problems:
        raise InputError(problems)
    return tuple(found)


def _position(text: Any) -> tuple[float, float]:
    """(along, across) of one LED, mm."""
    if not isinstance(text, str):
        raise InputError(Problem(f"{text!r} is no text with a unit.", remedy=_HOW))
    parts = text.split(",")
    if len(parts) > 2:
        raise InputError(Problem(f'"{text}" has more than two lengths.', remedy=_HOW))
    lengths = [units.parse(part, units.LENGTH) for part in parts]
    if any(abs(length) > FARTHEST_MM for length in lengths):
        farthest = units.length(FARTHEST_MM)
        raise InputError(Problem(f'"{text}" is more than {farthest} from the middle.', remedy=_HOW))
    return lengths[0], lengths[1] if len(lengths) == 2 else 0.0


def _named(problem: Problem, where: str) -> Problem:
    """The problem with its place and value in the text, since all of them become one message."""
    given = f"{problem.value}: " if problem.value else ""
    return replace(problem, text=f"{where}: {given}{problem.text}", value="")


def count_problems(places: Mapping[str, Positions], per_segment: int) -> list[Problem]:
    """Kinds of bars whose places are not as many as ``pocket.per_segment`` asks for.

    Args:
        places: kind to positions.
        per_segment: LEDs asked for in a bar.

    Example:
        >>> count_problems({"upright": ((0.0, 0.0),)}, 1)
        []
    """
    return [
        Problem(
            f"pocket.places gives {kind} {_leds(len(places[kind]))}, pocket.per_segment says {per_segment}.",
            limit="the same number in both",
            remedy='Leave per_segment out (or "auto"), or list as many places.',
        )
        for kind in BARS
        if kind in places and len(places[kind]) != per_segment
    ]


def _leds(count: int) -> str:
    return "1 LED" if count == 1 else f"{count} LEDs"
