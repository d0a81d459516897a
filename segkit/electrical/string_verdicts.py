"""Verdicts on one series string: headroom, the LED's limit, the dark corner."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from segkit.catalog.part import Led
from segkit.electrical.corners import Conditions
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: Caution below this share of the supply, or below this voltage, across the resistor.
THIN_SHARE, THIN_V = 0.20, 2.0
#: Below this the resistor sets nothing: one LED bin (0.4 V) and a sink's spread (0.2 V) use it up.
LEAST_V = 0.4 + 0.2
#: Times by which light changes over the supply's range, beyond which it is plain to see.
WIDE_SWING = 2.0
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Longest:
    """The most LEDs in series that a supply lets work; 0 where not even one does.

    Attributes:
        lit: without a stop for headroom.
        steady: without a caution for it either.
        common_v: taken by what stands in the common lead, V; without it more would be left.
    """

    lit: int
    steady: int
    common_v: float = 0.0


def longest_strings(
    led: Led, conditions_of: Callable[[int], Conditions], *, most: int, resistor: bool = True
) -> Longest:
    """The longest string with enough headroom, for the advice on one that is too long.

    Args:
        led: the LED.
        conditions_of: what a string of so many LEDs has to live with; shorter strings are more of them, so
            the sink may carry, and drop, more.
        most: LEDs to divide, 1 or more.
        resistor: False behind a constant-current sink.

    Source: headroom-practice.
    """
    lit = steady = 0
    common_v = conditions_of(1).common.typical_v
    for leds in range(1, most + 1):
        here = conditions_of(leds)
        left_v = here.nominal_drive_v() - leds * led.vf_v
        least_v = LEAST_V if resistor else 0.0
        if left_v < least_v - _ROUNDING or here.lowest_drive_v() <= leds * led.vf_v:
            continue
        lit = leds
        wide = not resistor or left_v >= _roomy_v(here.supply_v) - _ROUNDING
        if wide and here.lowest_drive_v() > leds * led.vf_max_v:
            steady = leds
    return Longest(lit, steady, common_v)


def _roomy_v(supply_v: float) -> float:
    return max(THIN_SHARE * supply_v, THIN_V)


def headroom_findings(
    *, subject: str, leds: int, supply_v: float, headroom_v: float, longest: Longest, resistor: bool = True
) -> tuple[Finding, ...]:
    """Whether enough voltage is left for the resistor to set the current.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        longest: what the remedy names.
        supply_v: nominal supply, V.
        headroom_v: what is left, V.
        resistor: False behind a constant-current sink, which needs its own drop only.

    Source: headroom-practice (20 % of the supply, 2 V).
    """
    least_v = LEAST_V if resistor else 0.0
    if headroom_v < least_v - _ROUNDING:
        return (_no_headroom(subject, leds, headroom_v, least_v, longest),)
    limit_v = _roomy_v(supply_v)
    if not resistor or headroom_v >= limit_v - _ROUNDING:
        return ()
    share = headroom_v / supply_v
    return (
        Finding(
            level="caution",
            code="thin-headroom",
            subject=subject,
            text=f"{plain_number(headroom_v, 3)} V, {share:.0%} of the supply, is left for the resistor; "
            f"with less than {plain_number(limit_v, 3)} V the current follows each change of supply or LED.",
            value=round(headroom_v, 4),
            limit=round(limit_v, 4),
            unit="V",
            source="headroom-practice",
            remedy=_shorter(leds, longest, stop=False)
            + " Ask for the lowest and highest supply, not one number.",
        ),
    )


def _no_headroom(subject: str, leds: int, headroom_v: float, least_v: float, longest: Longest) -> Finding:
    if headroom_v < 0:
        lost = f", with {plain_number(longest.common_v, 3)} V lost in the common lead" * bool(
            longest.common_v
        )
        what = f"the supply is {plain_number(-headroom_v, 3)} V short{lost}: the LEDs would be nearly dark"
        what += " whatever the resistor."
    elif headroom_v == 0:
        what = "nothing is left for the resistor: nothing sets the current."
    else:
        what = (
            f"only {plain_number(headroom_v, 3)} V is left for the resistor; the spread of one LED (0.4 V) "
            "and of the sink (0.2 V) uses that up, so nothing sets the current."
        )
    return Finding(
        level="stop",
        code="no-headroom",
        subject=subject,
        text=what,
        value=round(headroom_v, 4),
        limit=least_v,
        unit="V",
        source="headroom-practice",
        remedy=_shorter(leds, longest, stop=True, short_v=least_v - headroom_v),
        holds=("back_board",),
    )


def _shorter(leds: int, longest: Longest, *, stop: bool, short_v: float = 0.0) -> str:
    """The number that would do instead, the largest one; none where not even a single LED would."""
    other = "a higher supply, or a sink that drops less (a MOSFET)."
    if longest.common_v > short_v:
        place = f"in place of what takes {plain_number(longest.common_v, 3)} V in the common lead"
        other = f"a higher supply, or a P-channel MOSFET {place}."
    best = min(longest.lit if stop else longest.steady, leds - 1)
    if not best:
        alone = "Not even one LED leaves enough: take" if leds > 1 and stop else "Take"
        return f"{alone} {other}"
    why = "the most that leaves enough"
    if stop and longest.steady < best:
        why += ", with a caution"
        why += f"; {longest.steady} without one" if longest.steady else ""
    return f"Put {best} instead of {leds} in series ({why}), or take {other}"


def limit_findings(
    *,
    subject: str,
    leds: int,
    highest_a: float,
    limit_a: float,
    supply_max_v: float,
    remedy: str,
    source: str,
) -> tuple[Finding, ...]:
    """Whether the highest corner keeps the LED's limit.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        highest_a: current at the highest corner, A.
        limit_a: highest continuous current of the LED, A.
        supply_max_v: highest supply, V.
        remedy: what would keep the limit besides a shorter string, one clause.
        source: where the limit is from.
    """
    if highest_a <= limit_a * (1 + _ROUNDING):
        return ()
    return (
        Finding(
            level="stop",
            code="over-led-limit",
            subject=subject,
            text=f"up to {engineering(highest_a, 'A')} at {plain_number(supply_max_v)} V with the parts at "
            f"their worst; the LED's limit is {engineering(limit_a, 'A')}.",
            value=round(highest_a * 1000, 2),
            limit=round(limit_a * 1000, 4),
            unit="mA",
            source=source,
            remedy=f"Put {leds - 1} instead of {leds} in series with a resistor to match, or {remedy}."
            if leds > 1
            else f"{remedy[:1].upper()}{remedy[1:]}.",
            holds=("back_board",),
        ),
    )


def dark_findings(
    *,
    subject: str,
    leds: int,
    supply_min_v: float,
    typical_left_v: float,
    worst_left_v: float,
    longest: Longest,
) -> tuple[Finding, ...]:
    """Whether the string still lights at the lowest supply.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        supply_min_v: lowest supply, V.
        typical_left_v: lowest supply less worst drop less typical LEDs, V.
        worst_left_v: the same with LEDs of the highest bin, V.
        longest: what the remedy names.
    """
    if typical_left_v > 0 and worst_left_v > 0:
        return ()
    stop = typical_left_v <= 0
    who = "typical LEDs" if stop else "LEDs of the highest forward voltage"
    left_v = typical_left_v if stop else worst_left_v
    return (
        Finding(
            level="stop" if stop else "caution",
            code="no-headroom" if stop else "dark-corner",
            subject=subject,
            text=f"at {plain_number(supply_min_v)} V {who} and the worst sink leave "
            f"{plain_number(left_v, 3)} V: the string would be nearly dark.",
            value=round(left_v, 4),
            limit=0.0,
            unit="V",
            source="arithmetic",
            remedy=_shorter(leds, longest, stop=stop, short_v=-left_v),
            holds=("back_board",) if stop else (),
        ),
    )


def raised_finding(*, subject: str, plain_ohm: float, chosen_ohm: float, limit_a: float) -> Finding:
    """The note that a higher value than the next one was chosen for the LED's sake."""
    return Finding(
        level="note",
        code="resistor-raised",
        subject=subject,
        text=f"{plain_number(chosen_ohm)} ohm instead of {plain_number(plain_ohm)} ohm keeps the worst "
        f"corner within {engineering(limit_a, 'A')}.",
        value=chosen_ohm,
        limit=plain_ohm,
        unit="ohm",
        source="arithmetic",
        remedy="Nothing to do; the typical current is a little lower than asked for.",
    )


def swing_findings(
    *, subject: str, leds: int, low_a: float, high_a: float, supply_min_v: float, supply_max_v: float
) -> tuple[Finding, ...]:
    """Whether the light changes much over the supply's range; a string that goes dark is told elsewhere.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        low_a, high_a: current with typical parts at the lowest and the highest supply, A.
        supply_min_v, supply_max_v: the range, V.

    Source: common-practice.
    """
    if low_a <= 0 or high_a <= WIDE_SWING * low_a:
        return ()
    low, high = engineering(low_a, "A"), engineering(high_a, "A")
    fewer = f"Put {leds - 1} instead of {leds} in series" if leds > 1 else ""
    return (
        Finding(
            level="caution",
            code="wide-swing",
            subject=subject,
            text=f"{low} at {plain_number(supply_min_v)} V and {high} at "
            f"{plain_number(supply_max_v)} V: the light changes {high_a / low_a:.1f} times.",
            value=round(high_a / low_a, 3),
            limit=WIDE_SWING,
            unit="times",
            source="common-practice",
            remedy=f"{fewer or 'Take a higher supply'}, or a supply that holds its voltage.",
        ),
    )
