"""The logic's voltage made from the LED supply: heat of a linear regulator, current of a step-down."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.catalog.part import Supply
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Junction to air of a three-legged regulator of the usual large case, standing free, K/W.
BARE_K_PER_W = 65.0
#: Usual limit of the junction, and a case too hot to touch, °C.
LIMIT_C, HOT_C = 125.0, 80.0
#: What an ordinary linear regulator needs above its output, V; and the most that it passes, A.
DROPOUT_V, MOST_A = 2.0, 1.0
#: Share of the power taken in that a small step-down converter passes on.
EFFICIENCY = 0.85


@dataclass(frozen=True)
class LogicFeed:
    """The regulator of the logic.

    Attributes:
        drawn_a: current that it takes from the LED supply, A.
        heat_w: heat in it at the highest supply, W.
        junction_c: junction temperature, °C; the air's for a step-down converter, which stays cool.
        lines, findings: working and verdicts.
    """

    drawn_a: float
    heat_w: float
    junction_c: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def linear_regulator(
    supply: Supply,
    *,
    logic_v: float,
    logic_a: float,
    theta_k_per_w: float = BARE_K_PER_W,
    ambient_c: float = 50.0,
) -> LogicFeed:
    """Heat of a linear regulator between the LED supply and the logic.

    Args:
        supply: of the LEDs.
        logic_v: voltage of the logic, V, above 0.
        logic_a: current of registers and controller, A, 0 or more.
        theta_k_per_w: junction to air, K/W: 65 bare, 45 with a small heat sink.
        ambient_c: air around it, °C; 50 in a closed box in the sun.

    Returns:
        the feed; it draws what the logic draws. Stops above 125 °C, below its dropout and above 1 A; a
        caution above 80 °C says that this is the heat to expect, not a fault.

    Formula: ``P = (Vmax - Vlogic)*I``, ``Tj = Ta + P*theta``.

    Raises:
        InputError: a value out of its range.

    Source: linear-regulator.

    Example:
        >>> from segkit.catalog.reader import supply
        >>> round(linear_regulator(supply("adapter-12v-1a"), logic_v=5, logic_a=0.05).heat_w, 3)
        0.38
    """
    if logic_v <= 0 or logic_a < 0 or theta_k_per_w <= 0:
        values = f"{logic_v} V, {logic_a} A, {theta_k_per_w} K/W"
        raise InputError(Problem("these values do not describe a regulator.", value=values, limit="above 0"))
    heat_w = max(0.0, supply.max_v - logic_v) * logic_a
    junction_c = ambient_c + heat_w * theta_k_per_w
    lines = _heat_lines(supply, logic_v, logic_a, theta_k_per_w, ambient_c, heat_w, junction_c)
    findings = (
        *_dropout_findings(supply, logic_v),
        *_current_findings(logic_a),
        *_heat_findings(heat_w, junction_c, ambient_c, theta_k_per_w, supply.max_v - logic_v),
    )
    return LogicFeed(logic_a, heat_w, junction_c, lines, findings)


def _heat_lines(
    supply: Supply, logic_v: float, logic_a: float, theta_k_per_w: float, ambient_c: float, heat_w: float,
    junction_c: float,
) -> tuple[Line, ...]:  # fmt: skip
    across = (
        Given("V", max(supply.max_v, logic_v), "V", "highest supply"),
        Given("Vl", logic_v, "V", "of the logic"),
        Given("I", logic_a, "A", "registers and controller"),
    )
    warm = (
        Given("T", ambient_c, "°C", "air around it"),
        Given("P", heat_w, "W", "heat"),
        Given("theta", theta_k_per_w, "K/W", "junction to air"),
    )
    return (
        Line("electrical.regulator_heat", "heat in the logic's regulator", "P", heat_w, "W", "(V - Vl)*I",
             across, "arithmetic"),
        Line("electrical.regulator_junction", "junction of the regulator", "Tj", junction_c, "°C",
             "T + P*theta", warm, "linear-regulator"),
    )  # fmt: skip


def _dropout_findings(supply: Supply, logic_v: float) -> tuple[Finding, ...]:
    if supply.min_v >= logic_v + DROPOUT_V:
        return ()
    return (
        Finding(
            level="stop",
            code="regulator-dropout",
            subject="regulator of the logic",
            text=f"it needs {plain_number(DROPOUT_V)} V above its {plain_number(logic_v)} V; the supply "
            f"falls to {plain_number(supply.min_v)} V.",
            value=supply.min_v,
            limit=logic_v + DROPOUT_V,
            unit="V",
            source="linear-regulator",
            remedy="Take a low-dropout type for this, a step-down converter, or a supply of its own for the "
            "logic.",
        ),
    )


def _current_findings(logic_a: float) -> tuple[Finding, ...]:
    if logic_a <= MOST_A:
        return ()
    return (
        Finding(
            level="stop",
            code="regulator-current",
            subject="regulator of the logic",
            text=f"it is to pass {engineering(logic_a, 'A')}; {plain_number(MOST_A)} A is the limit of the "
            "usual part.",
            value=logic_a,
            limit=MOST_A,
            unit="A",
            source="linear-regulator",
            remedy="Never feed LEDs through it; take a step-down converter.",
        ),
    )


def _heat_findings(
    heat_w: float, junction_c: float, ambient_c: float, theta_k_per_w: float, across_v: float
) -> tuple[Finding, ...]:
    if junction_c <= HOT_C:
        return ()
    limit_c = LIMIT_C if junction_c > LIMIT_C else HOT_C
    cool_a = max(0.0, (HOT_C - ambient_c) / theta_k_per_w / across_v)
    expected = "beyond its limit" if junction_c > LIMIT_C else "no fault, but too hot to touch"
    return (
        Finding(
            level="stop" if junction_c > LIMIT_C else "caution",
            code="regulator-heat",
            subject="regulator of the logic",
            text=f"{heat_w:.2f} W bring it to {junction_c:.0f} °C in air of {ambient_c:.0f} °C at "
            f"{plain_number(theta_k_per_w)} K/W: {expected}.",
            value=round(junction_c, 1),
            limit=limit_c,
            unit="°C",
            source="linear-regulator",
            remedy="Take a step-down converter for the logic, or a supply of its own. A linear regulator "
            f"stays touchable here up to {engineering(cool_a, 'A', 2)}; a bare part in the open takes "
            "about half a watt. Never feed LEDs from it.",
        ),
    )


def step_down(supply: Supply, *, logic_v: float, logic_a: float, efficiency: float = EFFICIENCY) -> LogicFeed:
    """Current that a step-down converter for the logic takes from the LED supply.

    Args:
        supply: of the LEDs.
        logic_v: voltage of the logic, V, above 0.
        logic_a: current of registers and controller, A, 0 or more.
        efficiency: share of the power that it passes on, above 0 to 1.

    Formula: ``I = Vl*Il/(eta*V)``; the rest is heat, spread over its board.

    Raises:
        InputError: a value out of its range.

    Source: converter-practice.

    Example:
        >>> from segkit.catalog.reader import supply
        >>> round(step_down(supply("adapter-12v-1a"), logic_v=5, logic_a=0.204, efficiency=0.85).drawn_a, 3)
        0.1
    """
    if logic_v <= 0 or logic_a < 0 or not 0 < efficiency <= 1:
        values = f"{logic_v} V, {logic_a} A, {efficiency}"
        raise InputError(Problem("these values do not describe a converter.", value=values))
    drawn_a = logic_v * logic_a / (efficiency * supply.nominal_v)
    inputs = (
        Given("Vl", logic_v, "V", "of the logic"),
        Given("Il", logic_a, "A", "registers and controller"),
        Given("eta", efficiency, "", "share passed on"),
        Given("V", supply.nominal_v, "V", "LED supply"),
    )
    line = Line("electrical.logic_drawn", "current of the logic from the LED supply", "I", drawn_a, "A",
                "Vl*Il/(eta*V)", inputs, "converter-practice")  # fmt: skip
    heat_w = logic_v * logic_a * (1 / efficiency - 1)
    return LogicFeed(drawn_a, heat_w, 0.0, (line,), _step_down_findings(supply, logic_v))


def _step_down_findings(supply: Supply, logic_v: float) -> tuple[Finding, ...]:
    if supply.min_v >= logic_v + 1:
        return ()
    return (
        Finding(
            level="stop",
            code="regulator-dropout",
            subject="step-down converter of the logic",
            text=f"it needs about a volt above its {plain_number(logic_v)} V; the supply falls to "
            f"{plain_number(supply.min_v)} V.",
            value=supply.min_v,
            limit=logic_v + 1,
            unit="V",
            source="converter-practice",
            remedy="Run the logic from its own supply, or straight from the LED supply where that suits.",
        ),
    )
