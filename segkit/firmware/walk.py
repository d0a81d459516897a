"""From what the walk test lit to what was really wired: the map as built, and the faults by name."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from segkit.errors import InputError, Problem
from segkit.firmware.as_built import parse_lamps
from segkit.firmware.wiring import Wiring, written
from segkit.glyphs.bitmask import Active
from segkit.wiring.channel_map import Lamp

#: As planned; everything lit.
AS_PLANNED, EVERYTHING = ("ok", "="), "all"
_REST = re.compile(r"\s*rest\s*:?\s*(ok|=)\s*", re.IGNORECASE)
_NUMBERED = re.compile(r"\s*(\d{1,3})\s*:\s*(.*)")
_HOW = 'One word an output: "1a", "1a+1b" for two together, "-" for none, "!1a" for all but that one, "ok".'


@dataclass(frozen=True)
class Seen:
    """What one output lit.

    Attributes:
        lamps: what was lit, or what was not.
        all_but: True if everything was lit except ``lamps``.
    """

    lamps: frozenset[Lamp]
    all_but: bool = False


def read_seen(text: str, planned: Wiring) -> tuple[Seen, ...]:
    """What the builder wrote down, one entry for each output of the chain.

    Words are outputs in order, parted by blanks, commas or lines; a semicolon ends a line too. A line that
    begins with a number and a colon tells of that output, and the lines after it go on from there. The line
    ``rest ok`` says that every output not told of is as planned. What stands behind # is a remark.

    Args:
        text: such as ``1a 1b 1c - ...`` or lines such as ``9: 2a``.
        planned: the wiring by the design.

    Raises:
        InputError: words that name no lamp, lamps that the board does not have, outputs left out or told
            twice; all at once.
    """
    told: dict[int, list[Seen]] = {}
    problems: list[Problem] = []
    number = 0
    rest = False
    for bare in _lines(text):
        if _REST.fullmatch(bare):
            rest = True
            continue
        match = _NUMBERED.fullmatch(bare)
        words = [match[2]] if match else re.split(r"[\s,]+", bare.strip())
        number = int(match[1]) - 1 if match else number
        for word in filter(None, words):
            number += 1
            try:
                told.setdefault(number, []).append(_read_word(word, number, planned))
            except InputError as error:
                problems += error.at(key=f"output {number}").problems
    if rest:
        for output in planned.outputs:
            told.setdefault(output.number, [Seen(frozenset(output.lamps))])
    problems += _count_problems(told, planned, bool(problems))
    if problems:
        raise InputError(problems)
    return tuple(told[number][0] for number in sorted(told))


def _lines(text: str) -> list[str]:
    """Lines without remarks."""
    bare = (line.partition("#")[0] for line in text.splitlines())
    return [part for line in bare for part in line.split(";") if part.strip()]


def _read_word(word: str, number: int, planned: Wiring) -> Seen:
    bare = word.strip().lower()
    if number > len(planned.outputs) or number < 1:
        text = f"the chain has {len(planned.outputs)} outputs."
        raise InputError(Problem(text, value=word, remedy="Check the layout, or count the words."))
    if bare in AS_PLANNED:
        return Seen(frozenset(planned.outputs[number - 1].lamps))
    if bare == EVERYTHING:
        return Seen(frozenset(), all_but=True)
    all_but = bare.startswith("!")
    lamps = parse_lamps("+".join(bare.lstrip("!").replace(",", " ").split()))
    strange = [f"{digit}{name}" for digit, name in lamps if (digit, name) not in planned.lamps]
    if strange:
        text = "the board has no such lamp."
        raise InputError(Problem(text, value=", ".join(strange), remedy="Digit 1 is the leftmost. " + _HOW))
    return Seen(frozenset(lamps), all_but)


def _count_problems(told: dict[int, list[Seen]], planned: Wiring, bad: bool) -> list[Problem]:
    total = len(planned.outputs)
    missing = [str(n) for n in range(1, total + 1) if n not in told]
    twice = [str(n) for n, seen in told.items() if len(seen) > 1]
    problems = []
    if missing and not bad:
        names = ", ".join(missing[:8]) + (" and more" if len(missing) > 8 else "")
        text = f"nothing is told of {len(missing)} of the {total} outputs: {names}."
        problems.append(Problem(text, key="seen", remedy=f'{_HOW} A spare output lights nothing: "-".'))
    if twice:
        problems.append(
            Problem(f"told twice: output {', '.join(twice)}.", key="seen", remedy="Tell it once.")
        )
    return problems


# --- what was wired ------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Walked:
    """A board that was walked through.

    Attributes:
        planned: the wiring by the design.
        built: the wiring as it is.
        inverted: True if what lights is the other way round than the code took it.
        stuck: lamps that were lit all the time; of an inverted board those that were dark all the time.
    """

    planned: Wiring
    built: Wiring
    inverted: bool
    stuck: tuple[Lamp, ...]


def walked(planned: Wiring, seen: Sequence[Seen], *, flashed: Active | None = None) -> Walked:
    """The wiring that shows what was seen.

    Args:
        planned: the wiring by the design.
        seen: one entry for each output, by number.
        flashed: what lights for the code that ran the walk test; as planned if left out.

    Raises:
        InputError: some outputs light one lamp and others all but one, which no wiring does.
    """
    was: Active = flashed or planned.active
    inverted = _inverted(seen)
    lamps = [set(entry.lamps) for entry in seen]
    stuck = _stuck(lamps, planned)
    for number, lit in enumerate(lamps):
        own = planned.outputs[number].lamps
        lit -= {lamp for lamp in stuck if lamp not in own}
    flipped: Active = "low" if was == "high" else "high"
    outputs = tuple(
        replace(output, lamps=tuple(sorted(lit))) for output, lit in zip(planned.outputs, lamps, strict=True)
    )
    built = Wiring(planned.chips, flipped if inverted else was, outputs, as_built=True)
    return Walked(planned, built, inverted, stuck)


def _inverted(seen: Sequence[Seen]) -> bool:
    other = [n for n, entry in enumerate(seen, start=1) if entry.all_but]
    if not other:
        return False
    alone = [n for n, entry in enumerate(seen, start=1) if not entry.all_but]
    if alone:
        few, many = sorted((alone, other), key=len)
        names = ", ".join(map(str, few[:8]))
        what = "lit all but something" if few is other else "lit something alone"
        raise InputError(
            Problem(
                f"{what}, while the other {len(many)} did the opposite; no wiring does both.",
                key=f"output {names}",
                value=", ".join(written(tuple(seen[n - 1].lamps)) for n in few[:8]),
                remedy="Look at these outputs once more. " + _HOW,
            )
        )
    return True


def _stuck(lamps: Sequence[set[Lamp]], planned: Wiring) -> tuple[Lamp, ...]:
    """Lamps named with nearly every output: nothing turns them off, or on where the board is inverted."""
    enough = max(3, (3 * len(lamps)) // 4)
    return tuple(sorted(lamp for lamp in planned.lamps if sum(lamp in lit for lit in lamps) >= enough))
