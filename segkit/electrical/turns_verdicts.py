"""Verdicts on digits that take turns: the LED's limit, the switch of a digit, headroom, dark time, order."""

from __future__ import annotations

from segkit.catalog.part import Led
from segkit.electrical.string_verdicts import LEAST_V
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: Dark time below which a slow switch still lights the next digit, and share of a turn above which it costs.
SHORT_DARK_S, MOST_DARK = 50e-6, 0.2
#: Loss of light that is worth a word.
_SEEN = 0.95


def limit_findings(
    *,
    digits: int,
    wanted_a: float,
    led: Led,
    light: float,
    headroom_v: float,
    digit_a: float,
    switch_name: str,
    switch_max_a: float,
    peak_a: float,
    given_ohm: float | None = None,
    would_ohm: float = 0.0,
) -> tuple[Finding, ...]:
    """What stands in the way of the current that a turn asks for.

    Args:
        digits: digits in the round.
        wanted_a: current of an LED for the light of static drive, A.
        led: the LED.
        light: what is left of that light, as a share.
        headroom_v: left for the resistor, V.
        digit_a: through the switch of a digit, everything lit, A.
        switch_name: of the digit's switch.
        switch_max_a: what it may carry, A.
        peak_a: current of an LED in its turn, A.
        given_ohm: resistor that is there already, Ω.
        would_ohm: resistor that gives the light of static drive, or as much as the LED's limit allows, Ω.

    Source: headroom-practice, digit-switches, and that of the LED.
    """
    found = []
    if given_ohm is not None:
        most = light * min(wanted_a, led.max_current_a) / peak_a if peak_a else 0.0
        found += _given_findings(digits, led, light, peak_a, given_ohm, would_ohm, most)
    elif light < _SEEN:
        found.append(
            Finding(
                "caution", "turns-cost-light", f"{digits} digits in turn",
                f"the light of static drive would take {engineering(wanted_a, 'A')} in each turn; with the "
                f"LED's continuous limit of {engineering(led.max_current_a, 'A')} {light:.0%} of it is left.",
                round(light, 3), 1.0, "", led.source,
                "Drive each digit by itself, let fewer take turns, or use more LEDs; a pulse above the limit "
                "burns the LED when the controller stands still.",
            )
        )  # fmt: skip
    if headroom_v < LEAST_V:
        found.append(
            Finding(
                "stop", "turns-headroom", f"{digits} digits in turn",
                f"the sink, the {switch_name} and the LEDs leave {plain_number(headroom_v, 3)} V for the "
                "resistor at the current of a turn.",
                round(headroom_v, 3), LEAST_V, "V", "headroom-practice",
                "Put fewer LEDs in series, raise the supply, or drive each digit by itself.",
            )
        )  # fmt: skip
    if digit_a > switch_max_a:
        found.append(
            Finding(
                "stop", "turns-switch-limit", switch_name,
                f"a digit with everything lit takes {engineering(digit_a, 'A')} through its switch, which is "
                f"good for {engineering(switch_max_a, 'A')}.",
                round(digit_a, 3), switch_max_a, "A", "digit-switches",
                "Take a P-channel MOSFET of higher current, or fewer strings a segment.",
            )
        )  # fmt: skip
    return tuple(found)


def _given_findings(
    digits: int, led: Led, light: float, peak_a: float, given_ohm: float, would_ohm: float, most: float
) -> list[Finding]:
    """What a given resistor makes of a turn: light that is lost, or a pulse above the LED's limit."""
    ohm, would = plain_number(given_ohm), plain_number(would_ohm, 3)
    if peak_a > led.max_current_a:
        return [
            Finding(
                "stop", "turns-led-limit", led.name,
                f"{engineering(peak_a, 'A')} in its turn through the {ohm} ohm given; a controller that "
                f"stands still leaves it there, and its limit is {engineering(led.max_current_a, 'A')}.",
                round(1000 * peak_a, 2), round(1000 * led.max_current_a, 4), "mA", led.source,
                f"Take {would} ohm or more.",
            )
        ]  # fmt: skip
    if light >= _SEEN:
        return []
    more = f"{would} ohm would give {most:.0%} of it; or drive" if would_ohm > 0 and most > light else "Drive"
    return [
        Finding(
            "caution", "turns-cost-light", f"{digits} digits in turn",
            f"through the {ohm} ohm given an LED gets {engineering(peak_a, 'A')} in its turn: {light:.0%} of "
            "the light of static drive.",
            round(light, 3), 1.0, "", led.source,
            f"{more} each digit by itself, let fewer take turns, or use more LEDs.",
        )
    ]  # fmt: skip


def dark_time_findings(*, dark_s: float, slot_s: float) -> tuple[Finding, ...]:
    """Whether the dark time is long enough against ghosts and short enough for the light.

    Args:
        dark_s: dark time at each change of digit, s.
        slot_s: turn of one digit, s.

    Source: turn-taking-practice.

    Example:
        >>> [one.code for one in dark_time_findings(dark_s=5e-6, slot_s=1e-3)]
        ['turns-ghosts']
    """
    if dark_s < SHORT_DARK_S * (1 - 1e-9):
        return (
            Finding(
                "caution", "turns-ghosts", "dark time",
                f"{dark_s * 1e6:.0f} us dark between digits: the switch of the digit before is still on, and "
                "a faint copy of the next digit shows on it.",
                round(dark_s * 1e6, 1), SHORT_DARK_S * 1e6, "us", "turn-taking-practice",
                "Allow 50 to 150 us, with a resistor from base or gate to plus so that it turns off quickly.",
            ),
        )  # fmt: skip
    if dark_s > MOST_DARK * slot_s:
        return (
            Finding(
                "caution", "turns-too-dark", "dark time",
                f"{dark_s * 1e6:.0f} us of each turn of {slot_s * 1e6:.0f} us stay dark.",
                round(dark_s / slot_s, 3), MOST_DARK, "", "turn-taking-practice",
                "Fewer rounds a second, or a faster switch and less dark time.",
            ),
        )  # fmt: skip
    return ()


def order_finding() -> Finding:
    """The order in which a digit is changed."""
    return Finding(
        "note", "turns-order", "change of digit",
        "blank, shift, latch, switch over to the next digit, then enable: latched later, a digit shows its "
        "neighbour's segments, or all digits stand one place off.",
        source="turn-taking-practice", remedy="Keep to this order, and keep output-enable high meanwhile.",
    )  # fmt: skip
