"""From switching on to the first latched frame: why the board flashes, and what keeps it dark."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.catalog.part import ShiftRegister, Sink
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Pull-up at output-enable, Ω.
PULL_UP_OHM = 10_000.0
#: Sinks whose own input may float while the register before it is off.
_GATED = ("mosfet",)


@dataclass(frozen=True)
class PowerOn:
    """The first moments.

    Attributes:
        flash_a: what flows if everything comes up lit, typical, A.
        steps: what to do, in order.
        lines, findings: working and verdicts.
    """

    flash_a: float
    steps: tuple[str, ...]
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def power_on(sink: Sink, register: ShiftRegister, *, all_on_a: float, logic_v: float) -> PowerOn:
    """What happens at power-on, and how the board stays dark until its first frame.

    Args:
        sink, register: catalogue parts.
        all_on_a: board with everything lit, A.
        logic_v: supply of the registers, V.

    Formula: pull-up current ``I = V/R`` while output-enable is held low.

    Source: the ``source`` of the register and the sink.

    Example:
        >>> from segkit.catalog.reader import register, sink
        >>> made = power_on(sink("logic-mosfet"), register("hc595"), all_on_a=1.2, logic_v=5.0)
        >>> [one.code for one in made.findings]
        ['gate-pull-down']
    """
    pin = f" (pin {register.enable_pin})" if register.enable_pin else ""
    dark = "ones" if not sink.inverts and not register.sinks else "zeros"
    steps = [
        f"{plain_number(PULL_UP_OHM / 1000)} kohm from output-enable{pin} to plus of the logic holds every "
        "output off until the controller pulls it low.",
        f"Shift a dark frame, {dark} for every bit, through the whole chain.",
        "Give one latch pulse: only that takes the random pattern out of the outputs.",
        "Pull output-enable low, or hand it to the dimming timer.",
    ]
    findings = []
    if sink.type in _GATED:
        steps.insert(
            1, "10 kohm from every gate to ground: with its outputs off a register lets gates float."
        )
        findings.append(
            Finding(
                "note", "gate-pull-down", sink.name,
                "a register whose outputs are disabled leaves the gates floating, and a floating gate turns "
                "a MOSFET half on.",
                "floating", "low", "", sink.source, "Put 10 kohm from each gate to ground.",
            )
        )  # fmt: skip
    given = (
        Given("V", logic_v, "V", "supply of the registers"),
        Given("R", PULL_UP_OHM, "ohm", "pull-up at output-enable"),
    )
    line = Line("electrical.enable_current", "current into the controller while the board is lit", "I",
                logic_v / PULL_UP_OHM, "A", "V/R", given, "arithmetic")  # fmt: skip
    return PowerOn(all_on_a, tuple(steps), (line,), tuple(findings))


def flash_sentence(made: PowerOn) -> str:
    """What an unheld board does at power-on.

    Args:
        made: result of ``power_on``.
    """
    return (
        f"Without this the board may come up with everything lit, {engineering(made.flash_a, 'A')}, until "
        "the first frame."
    )
