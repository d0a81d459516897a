"""The map as the board was really wired, from how a person writes it, and what is to be said about it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.firmware.wiring import Output, Wiring, by_digit, written
from segkit.glyphs.bitmask import Active
from segkit.glyphs.segments import ALL, COLON
from segkit.wiring.channel_map import BITS, Lamp

DARK = ("-", "dark", "none")
_LAMP = re.compile(r"(\d{1,2})(colon|dp|[a-g])")
_HOW = 'Write digit and segment, as in "1a", "2dp", "2colon", two together as "1a+1b", "-" for none.'


def parse_lamps(word: str) -> tuple[Lamp, ...]:
    """The lamps in one word: ``1a``, ``1a+1b``, ``-`` for none.

    Args:
        word: as a person writes it.

    Raises:
        InputError: not a lamp.

    Example:
        >>> parse_lamps("2dp"), parse_lamps("1a+1b"), parse_lamps("-")
        (((2, 'dp'),), ((1, 'a'), (1, 'b')), ())
    """
    clean = word.strip().lower()
    if clean in DARK:
        return ()
    found = []
    for part in clean.split("+"):
        match = _LAMP.fullmatch(part.strip())
        if match is None or match[1] == "0":
            raise InputError(Problem("no digit and segment.", value=f'"{word}"', remedy=_HOW))
        found.append((int(match[1]), match[2]))
    return tuple(dict.fromkeys(found))


def parse_chip(text: str) -> tuple[tuple[Lamp, ...], ...]:
    """What the eight outputs of one chip light, QA to QH.

    Args:
        text: eight words.

    Raises:
        InputError: more or fewer than eight words, or words that name no lamp; all at once.

    Example:
        >>> parse_chip("1a 1b 1c 1d 1e 1f 1g -")[-2:]
        (((1, 'g'),), ())
    """
    words = text.split()
    problems: list[Problem] = []
    found = []
    if len(words) != BITS:
        problems.append(
            Problem(
                f"names {len(words)} outputs.", value=f'"{text}"', limit="the 8 outputs QA to QH", remedy=_HOW
            )
        )
    for word in words:
        try:
            found.append(parse_lamps(word))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(problems)
    return tuple(found)


def as_built(planned: Wiring, *, chips: Sequence[str], active: Active | None = None) -> Wiring:
    """The wiring of a board that was walked through.

    An output that lights lamps of several digits is kept for one of them: that of the plan if it is among
    them, else the first.

    Args:
        planned: what the design says.
        chips: what each chip lights, from the controller on, as in ``parse_chip``.
        active: what lights, if the board is wired the other way round than planned.

    Raises:
        InputError: another number of chips than the chain has, lamps that the board does not have, words
            that name none; all at once.

    Example:
        >>> plan = Wiring(1, "high", tuple(Output(n + 1, 1, "Q", n, ((1, "abcdefg"[n]),) if n < 7 else ())
        ...     for n in range(8)))
        >>> as_built(plan, chips=["1b 1a 1c 1d 1e 1f 1g -"]).outputs[0].lamps
        ((1, 'b'),)
    """
    problems: list[Problem] = []
    if len(chips) != planned.chips:
        told = "1 chip" if len(chips) == 1 else f"{len(chips)} chips"
        text = f"tells of {told}; the chain of this board has {planned.chips}."
        remedy = "Walk through the outputs again: segkit walk FILE, or take the table [as_built] out."
        problems.append(Problem(text, key="chips", limit=f"{planned.chips} chips", remedy=remedy))
    lights: list[tuple[Lamp, ...]] = []
    for number, chip in enumerate(chips, start=1):
        try:
            lights += parse_chip(chip)
        except InputError as error:
            problems += error.at(key=f"chips (chip {number})").problems
    strange = sorted({lamp for lamps in lights for lamp in lamps} - planned.lamps)
    if strange:
        text = "the board has no such lamp."
        remedy = "Look at the layout: digit 1 is the leftmost, as the reader sees it."
        problems.append(Problem(text, key="chips", value=", ".join(map(lamp_name, strange)), remedy=remedy))
    if problems:
        raise InputError(problems)
    outputs = tuple(
        _of_one_digit(output, lamps) for output, lamps in zip(planned.outputs, lights, strict=True)
    )
    return Wiring(planned.chips, active or planned.active, outputs, as_built=True)


def _of_one_digit(planned: Output, lamps: tuple[Lamp, ...]) -> Output:
    digits = [digit for digit, _ in lamps]
    own = next((digit for digit, _ in planned.lamps if digit in digits), digits[0] if digits else 0)
    return replace(
        planned,
        lamps=tuple(lamp for lamp in lamps if lamp[0] == own),
        also=tuple(lamp for lamp in lamps if lamp[0] != own),
    )


def lamp_name(lamp: Lamp) -> str:
    """A lamp in words.

    Example:
        >>> lamp_name((2, "dp")), lamp_name((1, "a"))
        ('the point of digit 2', 'segment a of digit 1')
    """
    digit, name = lamp
    what = {"dp": "the point", COLON: "the colon"}.get(name, f"segment {name}")
    return f"{what} of digit {digit}"


def chip_words(outputs: Iterable[Output]) -> tuple[str, ...]:
    """The map as the design file holds it: a text for each chip from the controller on, QA to QH.

    Args:
        outputs: by number.

    Example:
        >>> chip_words(Output(n + 1, 1, "Q", n, ((1, (*"abcdefg", "dp")[n]),)) for n in range(8))
        ('1a 1b 1c 1d 1e 1f 1g 1dp',)
    """
    words = [written(output.lamps) for output in outputs]
    return tuple(" ".join(words[at : at + BITS]) for at in range(0, len(words), BITS))


def as_built_findings(planned: Wiring, built: Wiring) -> tuple[Finding, ...]:
    """What a board as built can and cannot show.

    Args:
        planned: what the design says.
        built: what the walk test found.

    Returns:
        a note that the code follows the board; cautions for lamps that nothing lights and for lamps that
        light together.

    Sources: common practice.
    """
    if not built.as_built:
        return ()
    moved = [
        output
        for output, plan in zip(built.outputs, planned.outputs, strict=True)
        if set(output.lights) != set(plan.lamps)
    ]
    found = [_follows(len(moved), built, planned)]
    along = {lamp for output in built.outputs for lamp in output.also}
    if dark := sorted(planned.lamps - built.lamps - along, key=_rank):
        found.append(_dark(dark))
    found += [_together(output) for output in built.outputs if len(output.lights) > 1]
    return tuple(found)


def _rank(lamp: Lamp) -> tuple[int, int]:
    return lamp[0], (*ALL, COLON).index(lamp[1])


def _follows(moved: int, built: Wiring, planned: Wiring) -> Finding:
    flipped = "" if built.active == planned.active else ", and what lights is the other way round"
    return Finding(
        level="note",
        code="as-built",
        subject="firmware",
        text=f"Tables and code follow the board as the walk test found it: {moved} of {len(built.outputs)} "
        f"outputs light something else than planned{flipped}.",
        value=float(moved),
        limit=0.0,
        unit="outputs",
        remedy="Once the wires are mended, take the table [as_built] out of the design file and build again.",
    )


def _dark(dark: Sequence[Lamp]) -> Finding:
    digits = "; ".join(f"digit {d}: {' '.join(sorted(names))}" for d, names in by_digit(dark).items())
    return Finding(
        level="caution",
        code="never-lit",
        subject="board as built",
        text=f"No output lights these lamps ({digits}): every text that needs one shows without it.",
        value=float(len(dark)),
        limit=0.0,
        unit="lamps",
        remedy="Look for an open wire, a dead output or a dead string there, then walk through it again.",
    )


def _together(output: Output) -> Finding:
    named = " and ".join(map(lamp_name, output.lights))
    when = "they are lit whenever one of them is asked for"
    if output.also:
        when = f"the code takes it for digit {output.lamps[0][0]} alone, and the rest is lit along with it"
    return Finding(
        level="caution",
        code="lit-together",
        subject=f"chip {output.chip}, {output.name}",
        text=f"This output lights {named} together; {when}.",
        value=written(output.lights),
        limit="one lamp",
        remedy="No table can part them: look for a bridge of solder or a crossed wire.",
    )
