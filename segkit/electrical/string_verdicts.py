"""Verdicts on one series string: headroom, the LED's limit, the dark corner."""

from __future__ import annotations

from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: Caution below this share of the supply, or below this voltage, across the resistor.
THIN_SHARE, THIN_V = 0.20, 2.0
#: Below this the resistor sets nothing: one LED bin (0.4 V) and a sink's spread (0.2 V) use it up.
LEAST_V = 0.4 + 0.2
_ROUNDING = 1e-9


def headroom_findings(
    *, subject: str, leds: int, supply_v: float, headroom_v: float, resistor: bool = True
) -> tuple[Finding, ...]:
    """Whether enough voltage is left for the resistor to set the current.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        supply_v: nominal supply, V.
        headroom_v: what is left, V.
        resistor: False behind a constant-current sink, which needs its own drop only.

    Source: headroom-practice (20 % of the supply, 2 V).
    """
    least_v = LEAST_V if resistor else 0.0
    if headroom_v < least_v - _ROUNDING:
        return (_no_headroom(subject, leds, headroom_v, least_v),)
    limit_v = max(THIN_SHARE * supply_v, THIN_V)
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
            remedy=_shorter(leds) + " Ask for the lowest and highest supply, not one number.",
        ),
    )


def _no_headroom(subject: str, leds: int, headroom_v: float, least_v: float) -> Finding:
    if headroom_v < 0:
        what = f"the supply is {plain_number(-headroom_v, 3)} V short: the LEDs would be nearly dark"
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
        remedy=_shorter(leds),
        holds=("back_board",),
    )


def _shorter(leds: int) -> str:
    other = "a higher supply, or a sink that drops less (a MOSFET)."
    return f"Put {leds - 1} instead of {leds} in series, or take {other}" if leds > 1 else f"Take {other}"


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
    *, subject: str, leds: int, supply_min_v: float, typical_left_v: float, worst_left_v: float
) -> tuple[Finding, ...]:
    """Whether the string still lights at the lowest supply.

    Args:
        subject: what the finding is about.
        leds: LEDs in series.
        supply_min_v: lowest supply, V.
        typical_left_v: lowest supply less worst drop less typical LEDs, V.
        worst_left_v: the same with LEDs of the highest bin, V.
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
            remedy=_shorter(leds),
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
