"""Dimming by switching on and off: levels equal to the eye, the timer's bits, the frequency."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.viewing.flicker import judge_flicker, on_film
from segkit.working import Given, Line

#: Relative luminance at which the two branches of the lightness formula meet, and its factor below.
_JOIN, _STRAIGHT = (6 / 29) ** 3, (29 / 3) ** 3
#: A level counts as set when the nearest timer count lies within this share of it.
CLOSE = 0.1
#: Shortest pulse that a Darlington array still passes on, s: ten times its time to turn off.
SHORTEST_S = 2e-6
#: Clock that the timer of a small controller runs at, Hz.
TIMER_HZ = 16e6


def lightness(share: float) -> float:
    """CIE 1976 lightness of a share of full luminance, 0 to 100.

    Args:
        share: luminance over the full one, 0 to 1.

    Formula: ``L* = 116*Y**(1/3) - 16`` above ``Y = (6/29)**3``, ``(29/3)**3*Y`` below.

    Raises:
        InputError: a share out of its range.

    Source: cie-lightness-1976.

    Example:
        >>> round(lightness(0.184), 1), lightness(1.0)
        (50.0, 100.0)
    """
    if not 0 <= share <= 1:
        raise InputError(Problem("not a share of full luminance.", value=str(share), limit="0 to 1"))
    return 116 * share ** (1 / 3) - 16 if share > _JOIN else _STRAIGHT * share


def share_of(lightness: float) -> float:
    """Share of full luminance that has a lightness: the inverse of ``lightness``.

    Args:
        lightness: L*, 0 to 100.

    Formula: ``Y = ((L* + 16)/116)**3`` above 8, ``L*/(29/3)**3`` below.

    Raises:
        InputError: a lightness out of its range.

    Source: cie-lightness-1976.

    Example:
        >>> round(share_of(50), 3), round(share_of(8), 5)
        (0.184, 0.00886)
    """
    if not 0 <= lightness <= 100:
        raise InputError(Problem("not a lightness.", value=str(lightness), limit="0 to 100"))
    return ((lightness + 16) / 116) ** 3 if lightness > 8 else lightness / _STRAIGHT


@dataclass(frozen=True)
class Level:
    """One level of brightness.

    Attributes:
        number: 1 is the darkest.
        lightness: wanted, L*.
        share: of full luminance that it takes.
        count: of the timer, the nearest, of ``2**bits - 1``.
        got: lightness that this count gives.
    """

    number: int
    lightness: float
    share: float
    count: int
    got: float


@dataclass(frozen=True)
class Dimming:
    """Levels of a board.

    Attributes:
        levels: dark to full.
        bits: of the timer.
        bits_needed: fewest bits with which every level and the night level come out within a tenth.
        night_share, night_count: share of full luminance that the night allows and the count that keeps to
            it; a share of 1 where nothing limits it.
        timer_hz: clock that the timer needs.
        pulse_s: shortest pulse in use, s.
        lines, findings: working and verdicts.
    """

    levels: tuple[Level, ...]
    bits: int
    bits_needed: int
    night_share: float
    night_count: int
    timer_hz: float
    pulse_s: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def dimming(
    *,
    levels: int = 8,
    bits: int = 10,
    frequency_hz: float = 4000.0,
    night_share: float = 1.0,
    exposure_s: float = 1e-3,
) -> Dimming:
    """Levels of brightness that look equally far apart, and whether a timer can make them.

    Args:
        levels: steps from the darkest to full, 2 to 64.
        bits: resolution of the timer, 4 to 16.
        frequency_hz: on/off cycles a second, 10 to 100 000 Hz.
        night_share: share of full luminance that the surroundings allow at night, 0 to 1; 1 = no limit, 0 =
            switched off.
        exposure_s: of a camera that films the board, s.

    Returns:
        the levels. A level of share Y needs ``2**bits - 1 >= 5/Y``: half a count is then a tenth of it.

    Formula: ``L* = 100*k/n``; ``Y`` by ``share_of``; ``count = round(Y*(2**b - 1))``;
    ``bits = ceil(log2(5/Ymin + 1))``; ``clock = f*2**b``.

    Raises:
        InputError: a value out of its range, all at once.

    Source: cie-lightness-1976, ieee-1789, common-practice (the tenth, the timer, the shortest pulse).

    Example:
        >>> made = dimming(levels=4, bits=8)
        >>> [level.count for level in made.levels], made.bits_needed
        ([11, 47, 123, 255], 7)
    """
    _refuse(levels, bits, frequency_hz, night_share)
    most = 2**bits - 1
    table = tuple(_level(number, levels, most) for number in range(1, levels + 1))
    lowest = min(share for share in (table[0].share, night_share or 1.0))
    needed = math.ceil(math.log2(1 / (2 * CLOSE * lowest) * 1.0 + 1))
    night_count = math.floor(night_share * most + 1e-9)
    counts = [count for count in (table[0].count, night_count) if count > 0]
    pulse_s, timer_hz = min(counts, default=1) / most / frequency_hz, frequency_hz * 2**bits
    return Dimming(
        table, bits, needed, night_share, night_count, timer_hz, pulse_s,
        _lines(table, lowest, needed, bits, frequency_hz, night_share),
        (
            *_bits_findings(table, needed, bits, night_share, night_count),
            *_pulse_findings(pulse_s, timer_hz, frequency_hz),
            *judge_flicker(frequency_hz=frequency_hz).findings,
            *on_film(frequency_hz=frequency_hz, exposure_s=exposure_s).findings,
        ),
    )  # fmt: skip


def _level(number: int, levels: int, most: int) -> Level:
    wanted = 100 * number / levels
    share = share_of(wanted)
    count = round(share * most)
    return Level(number, wanted, share, count, lightness(count / most))


def _refuse(levels: int, bits: int, frequency_hz: float, night_share: float) -> None:
    problems = [
        Problem(text, value=str(value), limit=limit)
        for text, value, limit, good in (
            ("levels of brightness.", levels, "2 to 64", 2 <= levels <= 64),
            ("bits of the timer.", bits, "4 to 16", 4 <= bits <= 16),
            ("on/off cycles a second.", frequency_hz, "10 Hz to 100 kHz", 10 <= frequency_hz <= 1e5),
            ("share of the luminance at night.", night_share, "0 to 1", 0 <= night_share <= 1),
        )
        if not good
    ]
    if problems:
        raise InputError(problems)


def _lines(
    table: tuple[Level, ...], lowest: float, needed: int, bits: int, frequency_hz: float, night_share: float
) -> tuple[Line, ...]:
    first = Given("L", table[0].lightness, "", "lightness of the darkest level")
    width, rate = Given("b", bits, "", "bits of the timer"), Given("f", frequency_hz, "Hz", "cycles a second")
    formula = "((L + 16)/116)**3" if table[0].lightness > 8 else "L/(29/3)**3"
    night = Given("Yn", night_share, "", "share that the night allows")
    least = Given("Y", lowest, "", "darkest of the levels and the night level")
    return (
        Line("electrical.dimmest_level", "darkest level, of full luminance", "Y1", table[0].share, "",
             formula, (first,), "cie-lightness-1976"),
        Line("electrical.dimming_bits", "bits with which it comes out within a tenth", "bn", needed, "",
             "ceil(ln(5/Y + 1)/ln(2))", (least,), "common-practice"),
        Line("electrical.night_count", "timer count that keeps to the night level", "c",
             math.floor(night_share * (2**bits - 1) + 1e-9), "", "floor(Yn*(2**b - 1) + 1e-9)",
             (night, width), "arithmetic"),
        Line("electrical.dimming_clock", "clock of the timer", "fc", frequency_hz * 2**bits, "Hz", "f*2**b",
             (rate, width), "arithmetic"),
    )  # fmt: skip


def _bits_findings(
    table: tuple[Level, ...], needed: int, bits: int, night_share: float, night_count: int
) -> tuple[Finding, ...]:
    found = []
    if 0 < night_share < 1 and night_count == 0:
        found.append(
            Finding(
                "caution", "night-level-lost", "dimming",
                f"the night allows {night_share:.2%} of full luminance; one count of {bits} bits is "
                f"{1 / (2**bits - 1):.2%}, so the board can only be off or too bright.",
                bits, needed, "bits", "common-practice",
                f"Use {needed} bits, or a lower LED current.",
            )
        )  # fmt: skip
    elif needed > bits:
        twins = len({level.count for level in table}) < len(table)
        found.append(
            Finding(
                "caution", "dimming-too-coarse", "dimming",
                f"{bits} bits set the darkest level only to the next "
                f"{50 / max(1e-9, min(table[0].share, night_share or 1.0) * (2**bits - 1)):.0f} %"
                + ("; some levels come out the same" if twins else "") + ".",
                bits, needed, "bits", "common-practice",
                f"Use {needed} bits or fewer levels.",
            )
        )  # fmt: skip
    return tuple(found)


def _pulse_findings(pulse_s: float, timer_hz: float, frequency_hz: float) -> tuple[Finding, ...]:
    found = []
    if pulse_s < SHORTEST_S:
        slower = plain_number(frequency_hz * pulse_s / SHORTEST_S, 2)
        found.append(
            Finding(
                "caution", "pulse-too-short", "dimming",
                f"the darkest level is on for {engineering(pulse_s, 's', 2)} at a time; a Darlington array "
                "takes 0.2 us and more to turn off, so it comes out brighter than reckoned.",
                round(pulse_s * 1e6, 3), SHORTEST_S * 1e6, "us", "common-practice",
                f"Dim at {slower} Hz or less, or leave the darkest level out.",
            )
        )  # fmt: skip
    if timer_hz > TIMER_HZ:
        found.append(
            Finding(
                "note", "timer-clock", "dimming",
                f"cycles and bits together ask for a timer clock of {engineering(timer_hz, 'Hz')}; small "
                f"controllers run at {engineering(TIMER_HZ, 'Hz')}.",
                round(timer_hz / 1e6, 3), TIMER_HZ / 1e6, "MHz", "common-practice",
                "Take fewer bits, a lower frequency, or a controller with a faster timer.",
            )
        )  # fmt: skip
    return tuple(found)
