"""Boards built from parts as they come: current, heat and evenness over many, by seeded random draws."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from segkit.catalog.part import Led
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import NO_DROP
from segkit.electrical.led_curve import ROOM_C, LedCurve, curve_of, string_current_a
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering

#: Draws and seed taken if nobody says otherwise: the same every time.
BOARDS, SEED = 400, 7
#: Percentiles that are reported.
PERCENTILES = (1.0, 50.0, 99.0)
#: Light of the brightest segment over the darkest that digit displays are sold with.
MATCHED = 2.0


@dataclass(frozen=True)
class Drawn:
    """Some segments of a board that are wired alike.

    Attributes:
        kind: kind of segment.
        count: how many the board has.
        strings: LEDs and resistor of each string of one of them: (LEDs, Ω).
    """

    kind: str
    count: int
    strings: tuple[tuple[int, float], ...]


@dataclass(frozen=True)
class Percentiles:
    """One quantity over all draws.

    Attributes:
        low, middle, high: 1 %, 50 % and 99 % lie below.
    """

    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class Spread:
    """What many boards would do.

    Attributes:
        boards, seed: draws and where they start from.
        current_a: of a string, over all strings of all boards, A.
        highest_a: of the strongest string of each board, A.
        resistor_w: heat of the hottest resistor of each board, W.
        light_ratio: light of the brightest over the darkest segment of a kind, the worst kind of each board.
        over_limit: share of the boards with a string above the LED's limit.
        dark: share of the boards with a string below a tenth of the typical current.
        findings: verdicts.
    """

    boards: int
    seed: int
    current_a: Percentiles
    highest_a: Percentiles
    resistor_w: Percentiles
    light_ratio: Percentiles
    over_limit: float
    dark: float
    findings: tuple[Finding, ...]


def spread(
    segments: Sequence[Drawn],
    *,
    led: Led,
    conditions: Conditions,
    boards: int = BOARDS,
    seed: int = SEED,
    one_bin: bool = False,
) -> Spread:
    """Draw boards at random and say what most of them do.

    Args:
        segments: what a board has, by kind.
        led: the LED with its bins.
        conditions: supply, drop, tolerance and temperature with their ranges.
        boards: draws, 20 to 100 000.
        seed: start of the random numbers; the same seed gives the same numbers.
        one_bin: True if all LEDs of a board come from one bag: they share one draw of the bin, so that
            segments differ less and boards differ more.

    Returns:
        percentiles. Drawn for a board: supply and temperature (even over their ranges); for an output: drop;
        for a resistor: value (even within its tolerance); for an LED: forward voltage and intensity
        (triangular from lowest over typical to highest bin).

    Formula: each string solved on the LED's curve; ``light = sum(I*intensity)`` over the LEDs of a segment.

    Raises:
        InputError: no segment, or a number out of its range.

    Source: arithmetic; the bins are the LED's own, their shape common-practice.

    Example:
        >>> from segkit.catalog.reader import led
        >>> from segkit.electrical.driver import Drop
        >>> there = Conditions(12, 11.4, 12.6, Drop(0.7, 0.9, 1.1))
        >>> board = [Drawn("upright", 16, ((4, 180.0),))]
        >>> many = spread(board, led=led("red-5mm-diffused"), conditions=there)
        >>> 0.005 < many.current_a.low < many.current_a.middle < many.current_a.high < 0.030
        True
    """
    _refuse(segments, boards)
    rng, curve = Random(seed), curve_of(led)
    typical_v = conditions.nominal_drive_v()
    usual = {
        (leds, ohm): string_current_a(curve, leds=leds, drive_v=typical_v, resistance_ohm=ohm)
        for drawn in segments
        for leds, ohm in drawn.strings
    }
    all_a: list[float] = []
    highest: list[float] = []
    heat: list[float] = []
    ratios: list[float] = []
    over = dark = 0
    for _ in range(boards):
        board = _Board(rng, led, conditions, curve, one_bin=one_bin)
        ratio = 1.0
        currents: list[tuple[float, float, float]] = []  # current, resistance, share of the typical current
        for drawn in segments:
            lights = []
            for _ in range(drawn.count):
                light, mine = board.segment(drawn.strings, usual)
                lights.append(light)
                currents += mine
            ratio = max(ratio, max(lights) / min(lights) if min(lights) > 0 else math.inf)
        all_a += [current for current, _, _ in currents]
        highest.append(max(current for current, _, _ in currents))
        heat.append(max(current**2 * ohm for current, ohm, _ in currents))
        ratios.append(ratio)
        over += highest[-1] > led.max_current_a
        dark += min(share for _, _, share in currents) < 0.1
    light_ratio = percentiles(ratios)
    share = over / boards
    return Spread(
        boards, seed, percentiles(all_a), percentiles(highest), percentiles(heat), light_ratio, share,
        dark / boards,
        (*_limit_findings(led, share, boards, max(highest)), *_ratio_findings(light_ratio, boards)),
    )  # fmt: skip


class _Board:
    """One board with the draws that its strings share."""

    def __init__(self, rng: Random, led: Led, conditions: Conditions, curve: LedCurve, *, one_bin: bool):
        self.rng, self.conditions, self.curve = rng, conditions, curve
        self.supply_v = rng.uniform(conditions.supply_min_v, conditions.supply_max_v)
        if conditions.common != NO_DROP:
            common = conditions.common
            self.supply_v -= rng.triangular(common.low_v, common.worst_v, common.typical_v)
        warm_k = rng.uniform(conditions.coldest_c, conditions.hottest_c) - ROOM_C
        self.warm_v = led.vf_temperature_v_per_k * warm_k
        self.bins_v = (led.vf_min_v - led.vf_v, led.vf_max_v - led.vf_v, 0.0)
        stated = 0 < led.intensity_min_cd < led.intensity_cd
        self.dimmest = led.intensity_min_cd / led.intensity_cd if stated else 1.0
        self.shared = (self._volts(), self._intensity()) if one_bin else None

    def _volts(self) -> float:
        """How far an LED lies above the typical forward voltage, V."""
        return self.rng.triangular(*self.bins_v)

    def _intensity(self) -> float:
        """An LED's intensity over the typical one; the highest lies as far above as the lowest below."""
        return self.rng.triangular(self.dimmest, 2 - self.dimmest, 1.0) if self.dimmest < 1 else 1.0

    def segment(
        self, strings: Sequence[tuple[int, float]], usual: dict[tuple[int, float], float]
    ) -> tuple[float, list[tuple[float, float, float]]]:
        """Light and, for each string, current, resistance and share of the typical current."""
        drop, tolerance = self.conditions.drop, self.conditions.tolerance
        drop_v = self.rng.triangular(drop.low_v, drop.worst_v, drop.typical_v)
        light, found = 0.0, []
        for leds, nominal_ohm in strings:
            ohm = nominal_ohm * self.rng.uniform(1 - tolerance, 1 + tolerance)
            draws = [self.shared or (self._volts(), self._intensity()) for _ in range(leds)]
            # a bin or a warm LED moves the curve by a voltage: taken from the drive, the curve stays
            moved_v = sum(volts for volts, _ in draws) + leds * self.warm_v
            drive_v = self.supply_v - drop_v - moved_v
            typical = usual[leds, nominal_ohm]
            current = string_current_a(
                self.curve, leds=leds, drive_v=drive_v, resistance_ohm=ohm, near_a=typical or math.inf
            )
            light += current * sum(intensity for _, intensity in draws)
            found.append((current, ohm, current / typical if typical else 0.0))
        return light, found


def percentiles(values: Sequence[float]) -> Percentiles:
    """The values that 1 %, 50 % and 99 % of all lie below, by straight lines between neighbours.

    Args:
        values: one or more.

    Example:
        >>> percentiles([float(n) for n in range(101)])
        Percentiles(low=1.0, middle=50.0, high=99.0)
    """
    rising = sorted(values)
    found = []
    for percent in PERCENTILES:
        place = percent / 100 * (len(rising) - 1)
        below = min(int(place), len(rising) - 1)
        above = min(below + 1, len(rising) - 1)
        share = place - below
        found.append(rising[below] if not share else rising[below] * (1 - share) + rising[above] * share)
    return Percentiles(*found)


def _refuse(segments: Sequence[Drawn], boards: int) -> None:
    problems = []
    if not segments or any(drawn.count < 1 or not drawn.strings for drawn in segments):
        problems.append(Problem("a board needs segments, each with a string.", value=str(len(segments))))
    problems += [
        Problem("a string needs LEDs and a resistor above 0 ohm.", key=drawn.kind)
        for drawn in segments
        if any(leds < 1 or ohm <= 0 for leds, ohm in drawn.strings)
    ]
    if not 20 <= boards <= 100_000:
        problems.append(Problem("not a number of boards to draw.", value=str(boards), limit="20 to 100000"))
    if problems:
        raise InputError(problems)


def _limit_findings(led: Led, share: float, boards: int, most_a: float) -> tuple[Finding, ...]:
    if not share:
        return ()
    return (
        Finding(
            level="stop",
            code="over-led-limit",
            subject="parts as they come",
            text=f"{share:.1%} of {boards} boards drawn at random have a string above the LED's limit of "
            f"{engineering(led.max_current_a, 'A')}, up to {engineering(most_a, 'A')}.",
            value=round(most_a * 1000, 2),
            limit=round(led.max_current_a * 1000, 4),
            unit="mA",
            source=led.source,
            remedy="Take the next higher resistor, or one LED less in series with a resistor to match.",
            holds=("back_board",),
        ),
    )


def _ratio_findings(ratio: Percentiles, boards: int) -> tuple[Finding, ...]:
    if ratio.middle <= MATCHED:
        return ()
    middle = "so much that one goes dark" if math.isinf(ratio.middle) else f"{ratio.middle:.1f} times"
    return (
        Finding(
            level="caution",
            code="uneven-segments",
            subject="parts as they come",
            text=f"in half of {boards} boards drawn at random the brightest and the darkest segment of a "
            f"kind differ {middle} or more; displays are sold with {MATCHED:.0f} times.",
            value=round(ratio.middle, 3) if math.isfinite(ratio.middle) else "dark",
            limit=MATCHED,
            unit="times",
            source="display-matching",
            remedy="Leave more voltage for the resistors, use LEDs of one bag, or sort them side by side.",
        ),
    )
