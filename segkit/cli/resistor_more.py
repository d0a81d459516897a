"""What ``segkit resistor`` adds on request: resistor networks, and strings of parts as they come."""

from __future__ import annotations

from typing import Any

from segkit.catalog import reader
from segkit.catalog.part import Led
from segkit.electrical.corners import Conditions
from segkit.electrical.network import NetworkPlan, Place, network_findings, network_plans
from segkit.electrical.spread import Drawn, Spread, spread
from segkit.electrical.string import StringCircuit
from segkit.findings import Finding
from segkit.units import plain_number

#: Boards of eight segments that are drawn, and networks that are listed.
_BOARDS, _SEGMENTS, _MOST_NETWORKS = 60, 8, 5


def networks_for(
    count: int | None, strings: tuple[StringCircuit, ...]
) -> tuple[tuple[NetworkPlan, ...], tuple[Finding, ...]]:
    """The networks that could hold so many of the resistors, the best first, and what to know of them.

    Args:
        count: resistors wanted in networks; None if nobody asked.
        strings: what was worked out; unequal ones want unequal values, which no network has.
    """
    if count is None or not all(string.chosen_ohm for string in strings):
        return (), ()
    places = [
        Place(f"string {number + 1}", string.chosen_ohm, string.resistor_w)
        for number, string in ((n, strings[n % len(strings)]) for n in range(count))
    ]
    plans = network_plans(places, reader.networks().values())
    return plans, network_findings(plans, places)


def network_sentence(plans: tuple[NetworkPlan, ...]) -> str:
    """What to buy instead of single resistors; empty where no network fits."""
    if not plans or not plans[0].fit.fits:
        return ""
    return f" Or {plans[0].packages} × {plans[0].name}, {plain_number(plans[0].ohm)} ohm."


def network_rows(plans: tuple[NetworkPlan, ...]) -> list[tuple[str, ...]]:
    """The best networks as rows: name, packages, shares of their limits, verdict."""
    return [
        (
            "→" if number == 0 and plan.fit.fits else "", plan.network, str(plan.packages), str(plan.spare),
            f"{plan.fit.element_share:.0%}", f"{plan.fit.package_share:.0%}",
            "fits" if plan.fit.fits else "too hot",
        )
        for number, plan in enumerate(plans[:_MOST_NETWORKS])
    ]  # fmt: skip


def pin_text(plan: NetworkPlan) -> str:
    """The pins of the first package in one line: ``1 LED supply +, 2 string 1, ...``."""
    pins = ", ".join(f"{pin.pin} {pin.goes_to}" for pin in plan.pins if pin.package == 1)
    return f"Pins (1 is marked): {pins}."


def networks_dict(plans: tuple[NetworkPlan, ...]) -> dict[str, Any]:
    """The networks with the keys that programs may rely on."""
    return {
        "networks": [
            {
                "id": plan.network,
                "packages": plan.packages,
                "spare": plan.spare,
                "fits": plan.fit.fits,
                "element_share": plan.fit.element_share,
                "package_share": plan.fit.package_share,
                "pins": [
                    {"package": pin.package, "pin": pin.pin, "goes_to": pin.goes_to} for pin in plan.pins
                ],
            }
            for plan in plans
        ]
    }


def drawn(led: Led, strings: tuple[StringCircuit, ...], conditions: Conditions) -> Spread | None:
    """Strings drawn at random from the ranges given; None where nothing flows.

    Args:
        led: with its bins.
        strings: of one segment.
        conditions: supply, drop, tolerance, temperature.
    """
    if not all(string.chosen_ohm and string.current_a > 0 for string in strings):
        return None
    wired = tuple((string.leds, string.chosen_ohm) for string in strings)
    segments = [Drawn("segment", _SEGMENTS, wired)]
    return spread(segments, led=led, conditions=conditions, boards=_BOARDS)
