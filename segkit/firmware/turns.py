"""Digits that take turns on one register: how long a turn is, and for how much of it a digit is lit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.electrical.dimming import TIMER_HZ, Dimming
from segkit.errors import InputError, Problem
from segkit.glyphs.bitmask import Active, Order

#: Digits that one register can switch.
MOST = 8
#: Time in which the code has put out the next digit after the turn began, s: call, two bytes, latch.
SENDING_S = 40e-6
#: A round may be this much slower than asked, since the timer has few steps.
_NEAR = 0.95
_STEPS = tuple((bits, by) for by in (1, 8, 64) for bits in (8, 9, 10))


@dataclass(frozen=True)
class Turns:
    """Timing of a round.

    Attributes:
        digits: that take turns.
        order: segment names of the shared byte, most significant bit first.
        active: ``high`` if a 1 lights a segment.
        bits, prescale: of the timer, whose period is one turn.
        dark: counts of a turn in which nothing is lit, at its beginning.
        counts: lit counts of a turn at each level, dark to full.
    """

    digits: int
    order: Order
    active: Active
    bits: int
    prescale: int
    dark: int
    counts: tuple[int, ...]

    @property
    def period(self) -> int:
        """Counts of a turn."""
        return int(2**self.bits)

    @property
    def turn_us(self) -> float:
        """Length of a turn, in microseconds."""
        return self.period * self.prescale * 1e6 / TIMER_HZ

    @property
    def round_hz(self) -> float:
        """Rounds a second."""
        return 1e6 / self.turn_us / self.digits


def turns(
    *, digits: int, order: Order, active: Active, refresh_hz: float, dark_s: float, dimmed: Dimming
) -> Turns:
    """The longest turn of the timer with which the rounds are as fast as asked.

    Args:
        digits: that take turns, 2 to 8.
        order: segment names of the shared byte, most significant bit first.
        active: ``high`` if a 1 lights a segment.
        refresh_hz: rounds a second asked for, Hz.
        dark_s: dark time at each change of digit, s; at least 40 us, in which the next digit is sent.
        dimmed: levels of brightness.

    Formula: ``turn = 2^bits*prescale/f``; lit counts of a level ``Y*(2^bits - dark)``.

    Raises:
        InputError: more digits than a register switches, or a turn too short for its dark time.

    Sources: turn-taking-practice, cie-lightness-1976.

    Example:
        >>> from segkit.electrical.dimming import dimming
        >>> made = turns(digits=4, order=("dp", "g", "f", "e", "d", "c", "b", "a"), active="high",
        ...     refresh_hz=500, dark_s=50e-6, dimmed=dimming(levels=2))
        >>> made.turn_us, round(made.round_hz), made.dark, made.counts
        (512.0, 488, 100, (0, 170, 924))
    """
    if not 2 <= digits <= MOST:
        text = "one register switches no more digits in turn than it has outputs."
        raise InputError(Problem(text, key="turns.digits", value=str(digits), limit=f"2 to {MOST}"))
    longest = 1 / (_NEAR * refresh_hz * digits)
    fits = [(2**bits * by / TIMER_HZ, bits, by) for bits, by in _STEPS if 2**bits * by / TIMER_HZ <= longest]
    _, bits, prescale = max(fits, default=(0.0, _STEPS[0][0], _STEPS[0][1]))
    dark = math.ceil(max(dark_s, SENDING_S) * TIMER_HZ / prescale)
    lit = 2**bits - dark
    if lit < len(dimmed.levels):
        text = "the turns are too short for the time in which the next digit is sent and nothing is lit."
        remedy = "Ask for fewer rounds a second or fewer digits."
        raise InputError(Problem(text, key="turns.refresh", value=f"{refresh_hz:g} Hz", remedy=remedy))
    counts = (0, *(max(1, round(level.share * lit)) for level in dimmed.levels))
    return Turns(digits, order, active, bits, prescale, dark, counts)
