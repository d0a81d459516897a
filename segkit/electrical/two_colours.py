"""LEDs of two colours that take turns on the same lines and resistors: current, on-time, load of the sink."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit.catalog.part import Led
from segkit.electrical.multiplexing import InTurn, equal_on_times
from segkit.electrical.package_heat import pulsed_load
from segkit.electrical.preferred import next_up
from segkit.electrical.string_verdicts import LEAST_V
from segkit.errors import InputError
from segkit.findings import Finding
from segkit.optics.photometry import led_flux
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Currents or lights closer than this are alike, as a ratio.
ALIKE = 1.05


@dataclass(frozen=True)
class TwoColours:
    """Digits of two LEDs behind one set of resistors.

    Attributes:
        names: of the two LEDs, the design's first; their colours, where these differ.
        currents_a: of an LED in its turn, in the same order, A.
        charge: share of the longest on-time with which both carry the same charge, in the same order.
        light: the same for equal light; empty where that of an LED is not known.
        total_a: through one sink package with everything lit, the digit with more current, A.
        lines, findings: working and verdicts.
    """

    names: tuple[str, str]
    currents_a: tuple[float, float]
    charge: tuple[float, float]
    light: tuple[float, ...]
    total_a: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def two_colours(turn: InTurn, other: Led, *, resistor_ohm: float, duty: float = 1.0) -> TwoColours:
    """What two LEDs get through the same resistors in turn, and what makes them equal.

    Args:
        turn: a segment of the design in the turn of its digit; its sink must not hold the current itself.
        other: LED of the digits that take turns with it, as many in a string.
        resistor_ohm: of each string, Ω, above 0.
        duty: share of the time in which any digit is lit, 0 to 1.

    Returns:
        currents on each LED's curve; a caution where they differ, with the share of on-time for equal charge
        and, where the light of both is known, for equal light; the verdicts on the other LED, and on the sink
        where that one gets more.

    Formula: ``I = (V - Vsink - Vswitch - s*Vled(I))/R``; ``share = min(I)/max(I)``; for light
    ``min(c*I)/max(c*I)`` with c the light of an ampere, by intensity and beam.

    Raises:
        InputError: the sink has neither drop points nor an on-resistance.

    Source: arithmetic, headroom-practice, and those of the parts.

    Example:
        >>> from segkit.catalog.reader import led, sink
        >>> from segkit.electrical.multiplexing import SWITCHES
        >>> blue = InTurn(led("blue-5mm-clear"), sink("darlington-sink-8"), SWITCHES["p-mosfet"], 5.0, 1, 1)
        >>> made = two_colours(blue, led("red-5mm-diffused"), resistor_ohm=82)
        >>> made.charge[0], made.currents_a[1] > 1.5 * made.currents_a[0]
        (1.0, True)
    """
    turns = (turn, replace(turn, led=other))
    own_a, other_a = currents_a = (turns[0].through_a(resistor_ohm), turns[1].through_a(resistor_ohm))
    names, outputs = _names(turn.led, other), min(turn.segments, turn.sink.outputs)
    total_a, judged = (
        outputs * turn.strings * max(currents_a),
        _other_findings(turns[1], other_a, resistor_ohm),
    )
    if min(currents_a) <= 0:
        return TwoColours(names, currents_a, (0.0, 0.0), (), total_a, (), judged)
    per_a = _lumens_per_a(turn.led, other)
    lights = (per_a[0] * own_a, per_a[1] * other_a) if per_a else None
    lines = _lines(turns, currents_a, resistor_ohm, outputs)
    return TwoColours(
        names=names,
        currents_a=currents_a,
        charge=_pair(currents_a),
        light=_pair(lights) if lights else (),
        total_a=total_a,
        lines=(*lines, _light_line(turns, currents_a, per_a)) if per_a else lines,
        findings=(
            *_share_findings(names, currents_a, lights, resistor_ohm),
            *judged,
            *(_load_findings(turns[1], other_a, outputs, duty) if other_a > own_a else ()),
        ),
    )


def _names(led: Led, other: Led) -> tuple[str, str]:
    return (led.name, other.name) if led.colour == other.colour else (led.colour, other.colour)


def _pair(values: tuple[float, float]) -> tuple[float, float]:
    """On-times for values that are to come out equal, the longest 1."""
    shares = equal_on_times({"own": values[0], "other": values[1]})
    return shares["own"], shares["other"]


def _lumens_per_a(led: Led, other: Led) -> tuple[float, float] | None:
    """Light of an ampere in each, lm; nothing where one tells neither intensity nor radiant power."""
    try:
        return led_flux(led, current_a=1.0), led_flux(other, current_a=1.0)
    except InputError:
        return None


def _share_findings(
    names: tuple[str, str], currents_a: tuple[float, float], lights: tuple[float, float] | None,
    resistor_ohm: float,
) -> tuple[Finding, ...]:  # fmt: skip
    """Both currents, and what would make charge and light equal."""
    share = min(currents_a) / max(currents_a)
    equal = min(lights) / max(lights) if lights else share
    if min(share, equal) * ALIKE >= 1:
        return ()
    strong, weak = _more_first(names, currents_a)
    bright, dim = _more_first(names, lights or currents_a)
    high, low = (engineering(value, "A") for value in (max(currents_a), min(currents_a)))
    then = "the light of both is not known."
    if lights:
        then = f"by intensity and beam the {bright} is lit {equal:.2f} of the on-time of the {dim}."
    text = (
        f"behind the same {plain_number(resistor_ohm, 3)} ohm the {strong} gets {high} in its turn, the "
        f"{weak} {low}. For equal charge the {strong} is lit {share:.2f} of the on-time of the {weak}. That "
        f"is not equal light: {then}"
    )
    return (
        Finding(
            "caution", "turns-two-colours", " and ".join(names), text, round(share, 3), 1.0, "", "arithmetic",
            f"Light the {bright} {equal:.2f} times as long as the {dim} in each round"
            f"{'' if lights else ', then set it by eye'}, or give each colour resistors of its own.",
        ),
    )  # fmt: skip


def _more_first(names: tuple[str, str], values: tuple[float, float]) -> tuple[str, str]:
    return names if values[0] >= values[1] else (names[1], names[0])


def _other_findings(turn: InTurn, current_a: float, resistor_ohm: float) -> tuple[Finding, ...]:
    """Headroom and limit of the LED that the rest of the design knows nothing of."""
    left_v, led, found = current_a * resistor_ohm, turn.led, []
    if left_v < LEAST_V:
        found.append(
            Finding(
                "stop", "turns-headroom", led.name,
                f"in their turn these digits leave {plain_number(left_v, 3)} V for the shared resistor.",
                round(left_v, 3), LEAST_V, "V", "headroom-practice",
                "Raise the supply, or put fewer LEDs in series.",
            )
        )  # fmt: skip
    if current_a > led.max_current_a:
        least_ohm = next_up(turn.left_v(led.max_current_a) / led.max_current_a, "E24")
        found.append(
            Finding(
                "stop", "turns-led-limit", led.name,
                f"{engineering(current_a, 'A')} in its turn; a controller that stands still leaves it there, "
                f"and its limit is {engineering(led.max_current_a, 'A')}.",
                round(1000 * current_a, 2), round(1000 * led.max_current_a, 4), "mA", led.source,
                f"Use at least {plain_number(least_ohm)} ohm, and accept less light of the other digits.",
            )
        )  # fmt: skip
    return tuple(found)


def _load_findings(turn: InTurn, current_a: float, outputs: int, duty: float) -> tuple[Finding, ...]:
    """The sink with the digits that take more than those of the design."""
    load = pulsed_load(
        turn.sink, output_a=turn.strings * current_a, outputs=outputs, duty=duty,
        drive_v=turn.supply_v - turn.series * turn.led.vf_v if turn.strings == 1 else None,
    )  # fmt: skip
    return tuple(replace(one, subject=f"{one.subject}, {turn.led.colour} digit lit") for one in load.findings)


def _lines(
    turns: tuple[InTurn, InTurn], currents_a: tuple[float, float], resistor_ohm: float, outputs: int
) -> tuple[Line, ...]:
    own, other = turns
    flows = (
        Given("I1", currents_a[0], "A", own.led.name),
        Given("I2", currents_a[1], "A", other.led.name),
    )
    return (
        own.line("electrical.turns_own", currents_a[0], resistor_ohm),
        other.line("electrical.turns_other", currents_a[1], resistor_ohm),
        Line("electrical.turns_charge", "on-time for equal charge, stronger LED over the other", "q",
             min(currents_a) / max(currents_a), "", "min(I1, I2)/max(I1, I2)", flows, "arithmetic"),
        Line("electrical.turns_sink", "through one sink, everything lit in the stronger LED", "It",
             outputs * own.strings * max(currents_a), "A", "n*p*max(I1, I2)",
             (Given("n", outputs, "", "outputs"), Given("p", own.strings, "", "strings on each"), *flows),
             "arithmetic"),
    )  # fmt: skip


def _light_line(
    turns: tuple[InTurn, InTurn], currents_a: tuple[float, float], per_a: tuple[float, float]
) -> Line:
    inputs = tuple(
        given
        for number, (turn, current_a, flux) in enumerate(zip(turns, currents_a, per_a, strict=True), 1)
        for given in (
            Given(f"c{number}", flux, "lm/A", f"light of {turn.led.name}"),
            Given(f"I{number}", current_a, "A", turn.led.name),
        )
    )
    shares = _pair((per_a[0] * currents_a[0], per_a[1] * currents_a[1]))
    title = "on-time for equal light, brighter LED over the other"
    return Line("electrical.turns_equal_light", title, "q", min(shares), "",
                "min(c1*I1, c2*I2)/max(c1*I1, c2*I2)", inputs, "arithmetic",
                "light in proportion to the current, by intensity and beam")  # fmt: skip
