"""What a hand may touch: voltage limits of steady and of slowly pulsed direct current, dry and wet."""

from __future__ import annotations

from typing import Literal

from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import plain_number

Touch = Literal["enclosed", "dry", "wet"]
#: Highest direct voltage that may be touched, V: steady, and interrupted 10 to 200 times a second.
STEADY_V = {"dry": 60.0, "wet": 30.0}
PULSED_V = {"dry": 24.8, "wet": 12.4}
SLOW_HZ = (10.0, 200.0)


def touch_limit_v(touch: Touch, *, frequency_hz: float | None = None) -> float:
    """Highest direct voltage at bare metal that a hand can reach, V; ``inf`` where none can.

    Args:
        touch: ``enclosed``, ``dry`` or ``wet``.
        frequency_hz: on/off cycles a second; None for steady current.

    Raises:
        InputError: another word.

    Source: iec-61140, wet-contact-dc, pulsed-dc-contact.

    Example:
        >>> touch_limit_v("wet"), touch_limit_v("wet", frequency_hz=100), touch_limit_v("dry")
        (30.0, 12.4, 60.0)
    """
    if touch == "enclosed":
        return float("inf")
    if touch not in STEADY_V:
        raise InputError(Problem("not a state of contact.", value=str(touch), limit="enclosed, dry or wet"))
    slow = frequency_hz is not None and SLOW_HZ[0] <= frequency_hz <= SLOW_HZ[1]
    return PULSED_V[touch] if slow else STEADY_V[touch]


def touch_findings(
    touch: Touch, *, supply_max_v: float, frequency_hz: float | None = None
) -> tuple[Finding, ...]:
    """Whether the supply may be within reach of a hand.

    Args:
        touch: whether bare metal can be touched, and in which state.
        supply_max_v: highest supply, V.
        frequency_hz: of dimming or of taking turns; None for steady current.

    Raises:
        InputError: an unknown state of contact.

    Source: iec-61140, wet-contact-dc, pulsed-dc-contact; local codes come first.

    Example:
        >>> [one.code for one in touch_findings("wet", supply_max_v=12.6, frequency_hz=100)]
        ['touch-pulsed']
        >>> touch_findings("wet", supply_max_v=12.6, frequency_hz=4000)
        ()
    """
    limit_v = touch_limit_v(touch, frequency_hz=frequency_hz)
    if supply_max_v <= limit_v:
        return ()
    slow = limit_v < STEADY_V[touch]
    how = f"interrupted {plain_number(frequency_hz or 0, 3)} times a second" if slow else "steady"
    return (
        Finding(
            level="stop",
            code="touch-pulsed" if slow else "touch-voltage",
            subject="bare metal within reach",
            text=f"up to {plain_number(supply_max_v, 3)} V, {how}, can be touched "
            f"{'wet' if touch == 'wet' else 'dry'}; {plain_number(limit_v, 3)} V is the limit there.",
            value=supply_max_v,
            limit=limit_v,
            unit="V",
            source="pulsed-dc-contact" if slow else "wet-contact-dc" if touch == "wet" else "iec-61140",
            remedy=("Dim at more than 200 Hz, " if slow else "Take a lower supply, ")
            + "or cover every joint and wire so that nothing bare can be touched; local codes come first.",
            holds=("back_board",),
        ),
    )
