"""Naming what a walk test found: chips in another order, bytes turned, wires exchanged, dead or joined."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from segkit.findings import Finding, Level
from segkit.firmware.as_built import lamp_name
from segkit.firmware.walk import Walked
from segkit.firmware.wiring import Output, Wiring, written
from segkit.wiring.channel_map import BITS, Lamp

Lit = frozenset[Lamp]
_KEPT = "The map as wired takes care of it, no iron is needed."


@dataclass(frozen=True)
class Turn:
    """How the eight wires of a chip are exchanged as a whole.

    Attributes:
        name: ``straight``, ``reversed``, or ``late 1`` to ``late 7``.
        of: which planned output of the chip each output stands for.
    """

    name: str
    of: tuple[int, ...]


TURNS: tuple[Turn, ...] = (
    Turn("straight", tuple(range(BITS))),
    Turn("reversed", tuple(reversed(range(BITS)))),
    *(Turn(f"late {k}", tuple((bit + k) % BITS for bit in range(BITS))) for k in range(1, BITS)),
)


@dataclass(frozen=True)
class Pattern:
    """The order of chips and wires that explains most of what was seen.

    Attributes:
        chips: for each chip in the chain, the planned chip whose lamps it lights.
        turns: for each chip, how its wires are turned.
    """

    chips: tuple[int, ...]
    turns: tuple[Turn, ...]

    def expected(self, planned: Wiring) -> tuple[Lit, ...]:
        """What each output lights by this pattern."""
        plan = _by_chip(planned)
        return tuple(
            plan[chip - 1][place]
            for chip, turn in zip(self.chips, self.turns, strict=True)
            for place in turn.of
        )


def pattern_of(built: Wiring, planned: Wiring) -> Pattern:
    """The pattern with the most outputs in agreement; straight where nothing explains more than half of it.

    Args:
        built: what was seen.
        planned: the wiring by the design.
    """
    have, plan = _by_chip(built), _by_chip(planned)
    choices = [_best(lit, plan, own) for own, lit in enumerate(have)]
    chips = [chip for chip, _ in choices]
    if sorted(set(chips)) != sorted(chips):
        chips, choices = list(range(len(have))), [(n, _best_turn(lit, plan[n])) for n, lit in enumerate(have)]
    return Pattern(tuple(chip + 1 for chip in chips), tuple(turn for _, turn in choices))


def _by_chip(wiring: Wiring) -> list[tuple[Lit, ...]]:
    lit = [frozenset(output.lamps) for output in wiring.outputs]
    return [tuple(lit[at : at + BITS]) for at in range(0, len(lit), BITS)]


def _agreement(lit: Sequence[Lit], plan: Sequence[Lit], turn: Turn) -> int:
    return sum(bool(seen) and seen == plan[place] for seen, place in zip(lit, turn.of, strict=True))


def _best_turn(lit: Sequence[Lit], plan: Sequence[Lit]) -> Turn:
    best = max(TURNS, key=lambda turn: _agreement(lit, plan, turn))
    return best if 2 * _agreement(lit, plan, best) > sum(map(bool, lit)) else TURNS[0]


def _best(lit: Sequence[Lit], plan: Sequence[Sequence[Lit]], own: int) -> tuple[int, Turn]:
    order = [own, *(n for n in range(len(plan)) if n != own)]
    chip, turn = max(
        ((n, turn) for n in order for turn in TURNS), key=lambda pair: _agreement(lit, plan[pair[0]], pair[1])
    )
    if 2 * _agreement(lit, plan[chip], turn) > sum(map(bool, lit)):
        return chip, turn
    return own, TURNS[0]


def walk_findings(result: Walked) -> tuple[Finding, ...]:
    """Every fault that the walk test shows, by name; ``as-planned`` if there is none.

    Args:
        result: from ``walk.walked``.

    Sources: common practice.
    """
    pattern = pattern_of(result.built, result.planned)
    expected = pattern.expected(result.planned)
    found = [*_logic(result), *_chip_order(pattern), *_turned(pattern)]
    found += _single_wires(result.built.outputs, expected, inverted=result.inverted)
    found += [_stuck(lamp, inverted=result.inverted) for lamp in result.stuck]
    never = _never_lit(result, expected)
    return (*found, *never) or (
        _finding("as-planned", "note", "walk test", "Every output lights what the plan says.", ""),
    )


# --- order of chips and wires ------------------------------------------------------------------------------


def _logic(result: Walked) -> list[Finding]:
    if not result.inverted:
        return []
    lights = "1" if result.built.active == "high" else "0"
    text = f"Everything was lit but the one lamp: the logic is the other way round, a {lights} lights."
    todo = f'{_KEPT} Or change "driver" in the design to what is really there, if it is another part.'
    return [_finding("logic-inverted", "caution", "polarity", text, todo)]


def _chip_order(pattern: Pattern) -> list[Finding]:
    chips, count = pattern.chips, len(pattern.chips)
    straight = tuple(range(1, count + 1))
    if chips == straight:
        return []
    lit = ", ".join(
        f"chip {n} lights what chip {chip} should"
        for n, chip in zip(straight, chips, strict=True)
        if n != chip
    )
    shifts = [k for k in range(1, count) if chips == straight[k:] + straight[:k]]
    moved = [n for n, chip in zip(straight, chips, strict=True) if n != chip]
    if chips == straight[::-1]:
        code, what = "chips-reversed", "The chips stand in the other order along the chain"
    elif shifts:
        steps = min(shifts[0], count - shifts[0])
        places = "one place" if steps == 1 else f"{steps} places"
        code, what = "digits-rotated", f"The digits are rotated by {places}, the ends wrapped round"
    elif len(moved) == 2:
        code, what = "chips-exchanged", f"Chips {moved[0]} and {moved[1]} are exchanged"
    else:
        code, what = "chips-reordered", "The chips stand in an order of their own"
    return [_finding(code, "caution", "register chain", f"{what}: {lit}.", _KEPT)]


def _turned(pattern: Pattern) -> list[Finding]:
    found = []
    for turn in TURNS[1:]:
        chips = [n for n, own in enumerate(pattern.turns, start=1) if own == turn]
        if not chips:
            continue
        where = f"chip {chips[0]}" if len(chips) == 1 else f"chips {', '.join(map(str, chips))}"
        if turn.name == "reversed":
            code, what = "byte-reversed", "The byte is reversed: the eight wires are turned end for end"
        else:
            steps = int(turn.name.removeprefix("late "))
            places = "one place" if steps in (1, 7) else f"{min(steps, 8 - steps)} places"
            code, what = "wires-shifted", f"The eight wires are shifted by {places}"
        found.append(_finding(code, "caution", where, f"{what} on {where}.", _KEPT))
    return found


# --- single wires ------------------------------------------------------------------------------------------


def _single_wires(outputs: Sequence[Output], expected: Sequence[Lit], *, inverted: bool) -> list[Finding]:
    lit = {output.number: frozenset(output.lamps) for output in outputs}
    plan = {output.number: want for output, want in zip(outputs, expected, strict=True)}
    names = {output.number: f"chip {output.chip}, {output.name}" for output in outputs}
    wrong = [number for number in lit if lit[number] != plan[number]]
    found, done = [], set[int]()
    for one in wrong:
        other = next((n for n in wrong if n > one and n not in done and _exchanged(one, n, lit, plan)), None)
        if one not in done and other is not None:
            done |= {one, other}
            found.append(_swapped(one, other, names, lit))
    return found + [_one_wire(names[n], lit[n], plan[n], inverted=inverted) for n in wrong if n not in done]


def _exchanged(one: int, other: int, lit: Mapping[int, Lit], plan: Mapping[int, Lit]) -> bool:
    return lit[one] == plan[other] and lit[other] == plan[one]


def _swapped(one: int, other: int, names: Mapping[int, str], lit: Mapping[int, Lit]) -> Finding:
    if not lit[one] or not lit[other]:
        used, spare = (one, other) if lit[one] else (other, one)
        text = f"The wire of {written(lit[used])} sits on {names[used]} and not on {names[spare]}."
        return _finding("wire-moved", "caution", names[used], text, _KEPT)
    text = (
        f"Two wires are exchanged: the first output lights {written(lit[one])} and the second "
        f"{written(lit[other])}."
    )
    return _finding("pair-swapped", "caution", " and ".join((names[one], names[other])), text, _KEPT)


def _one_wire(name: str, lit: Lit, plan: Lit, *, inverted: bool) -> Finding:
    wanted = written(plan)
    if not lit and inverted:
        text = f"With this output nothing goes dark; {wanted} hangs on it by the plan."
        todo = "Look for a sink or an output shorted to ground, or an open wire between register and sink."
        return _finding("output-dead", "caution", name, text, todo)
    if not lit:
        text = f"This output lights nothing; {wanted} hangs on it by the plan."
        todo = "Look for an open wire, a dead output or a dead string of LEDs."
        return _finding("output-dead", "caution", name, text, todo)
    if len(lit) > 1:
        text = f"This output lights {' and '.join(lamp_name(lamp) for lamp in sorted(lit))} together."
        todo = "Look for a bridge of solder between the two outputs, or for crossed wires."
        return _finding("segments-together", "caution", name, text, todo)
    instead = f"in place of {wanted}" if plan else "though it is a spare one"
    return _finding("wire-moved", "caution", name, f"This output lights {written(lit)} {instead}.", _KEPT)


def _stuck(lamp: Lamp, *, inverted: bool) -> Finding:
    if inverted:
        text = f"{lamp_name(lamp)} was dark with every output: nothing lights it."
        todo = "Look for an open wire or a dead string of LEDs."
        return _finding("never-lit", "caution", lamp_name(lamp), f"{text[0].upper()}{text[1:]}", todo)
    text = f"{lamp_name(lamp)} was lit with every output: nothing turns it off."
    todo = "Look for a sink or an output shorted to ground, or a bridge behind it."
    return _finding("segment-stuck", "caution", lamp_name(lamp), f"{text[0].upper()}{text[1:]}", todo)


def _never_lit(result: Walked, expected: Sequence[Lit]) -> list[Finding]:
    """Lamps that no output lights, unless an output was named dead for them."""
    told = {
        lamp
        for output, want in zip(result.built.outputs, expected, strict=True)
        if not output.lamps
        for lamp in want
    }
    silent = sorted(result.planned.lamps - result.built.lamps - told)
    if not silent:
        return []
    named = written(silent)
    if result.inverted:
        text, todo = f"No output turns {named} off.", "Look for a sink or an output shorted to ground."
        return [_finding("segment-stuck", "caution", named, text, todo)]
    text = f"No output lights {named}."
    todo = "Look for an open wire or a dead string of LEDs."
    return [_finding("never-lit", "caution", named, text, todo)]


def _finding(code: str, level: Level, subject: str, text: str, todo: str) -> Finding:
    return Finding(level=level, code=code, subject=subject, text=text, source="common-practice", remedy=todo)


#: Every name that the walk test can give, for tables and tests.
NAMES: tuple[str, ...] = (
    "as-planned", "logic-inverted", "chips-reversed", "digits-rotated", "chips-exchanged", "chips-reordered",
    "byte-reversed", "wires-shifted", "pair-swapped", "wire-moved", "output-dead", "segments-together",
    "segment-stuck", "never-lit",
)  # fmt: skip
