"""What stands between supply and segments and takes volts: a source array, a diode against reversal."""

from __future__ import annotations

from dataclasses import dataclass

from segkit import units
from segkit.electrical.driver import NO_DROP, Drop
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Heat that a small part without a heat sink sheds in a closed box, W; source common-practice.
BARE_W = 1.0
#: Voltage that a part in a common lead may lose at most, V.
_MOST_V = 12.0
_HOW = 'Write it as in "1.3 V", or as a range: "0.4 V to 0.7 V".'


def parse_drop(text: str) -> Drop:
    """The drop of a part, from one voltage or from the lowest and the highest.

    Args:
        text: a voltage with its unit, or a range of two.

    Raises:
        InputError: no voltage, or one that is not above 0 V or above 12 V.

    Example:
        >>> parse_drop("1.3 V")
        Drop(low_v=1.3, typical_v=1.3, worst_v=1.3)
        >>> parse_drop("0.4 V to 0.7 V").typical_v
        0.55
    """
    low_v, high_v = (
        units.parse_range(text, units.VOLTAGE)
        if "to" in text or ".." in text or "–" in text
        else (units.parse(text, units.VOLTAGE),) * 2
    )
    if not 0 < low_v <= high_v <= _MOST_V:
        problem = "no drop of a diode, a source array or a switch."
        limit = f"above 0 V, {plain_number(_MOST_V)} V at most"
        raise InputError(Problem(problem, value=f'"{text}"', limit=limit, remedy=_HOW))
    return Drop(low_v, (low_v + high_v) / 2, high_v)


@dataclass(frozen=True)
class CommonDrop:
    """What a part in a common lead costs.

    Attributes:
        current_a: through one of them with everything lit, typical parts, A.
        heat_w: in one of them at the highest corner, W.
        share: of the power of the supply that is lost in it.
        lines, findings: working and verdicts.
    """

    current_a: float
    heat_w: float
    share: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def common_drop(drop: Drop, *, supply_v: float, current_a: float, highest_a: float, where: str) -> CommonDrop:
    """Heat and loss of a part in the lead that all segments behind it share.

    Args:
        drop: of the part.
        supply_v: nominal supply, V, above 0.
        current_a, highest_a: through one of them with everything lit, typical and at the highest corner, A.
        where: which lead, in words.

    Formula: ``P = V*I``, ``share = V/Vs``.

    Source: design-choice (the drop); common-practice (heat of a bare part).

    Example:
        >>> made = common_drop(parse_drop("1.3 V"), supply_v=5, current_a=0.16, highest_a=0.18, where="digit")
        >>> round(made.heat_w, 3), made.share
        (0.234, 0.26)
    """
    if drop == NO_DROP or current_a <= 0:
        return CommonDrop(0.0, 0.0, 0.0, (), ())
    heat_w, share = drop.worst_v * highest_a, drop.typical_v / supply_v
    lost = Given("Vc", drop.typical_v, "V", "lost in the common lead")
    through = Given("I", current_a, "A", "everything lit")
    worst = (Given("Vc", drop.worst_v, "V", "highest drop"), Given("I", highest_a, "A", "highest corner"))
    lines = (
        Line("electrical.common_heat", f"heat of what stands in {where}, lit", "P",
             drop.typical_v * current_a, "W", "Vc*I", (lost, through), "design-choice"),
        Line("electrical.common_heat_highest", f"heat of what stands in {where}, highest corner", "P", heat_w,
             "W", "Vc*I", worst, "design-choice"),
        Line("electrical.common_share", "share of the power that it takes", "q", share, "", "Vc/V",
             (lost, Given("V", supply_v, "V", "supply")), "design-choice"),
    )  # fmt: skip
    return CommonDrop(current_a, heat_w, share, lines, (_finding(drop, current_a, heat_w, share, where),))


def _finding(drop: Drop, current_a: float, heat_w: float, share: float, where: str) -> Finding:
    """A note on what it costs; a caution where it needs a heat sink."""
    hot = heat_w > BARE_W
    remedy = "A P-channel MOSFET in its place loses next to nothing."
    return Finding(
        level="caution" if hot else "note",
        code="common-drop",
        subject=where,
        text=f"{plain_number(drop.typical_v, 3)} V are lost there, {share:.0%} of the supply: with "
        f"everything lit {engineering(current_a, 'A')} flow, and up to {engineering(heat_w, 'W')} become "
        "heat in one part.",
        value=round(heat_w, 3),
        limit=BARE_W,
        unit="W",
        source="common-practice" if hot else "design-choice",
        remedy=f"Give it a heat sink, or share the current. {remedy}" if hot else remedy,
    )
