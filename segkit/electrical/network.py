"""Resistor networks in place of single resistors: which fit, how many, and which pin goes where."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from segkit.catalog.part import ResistorNetwork
from segkit.electrical.preferred import in_series, next_up
from segkit.electrical.resistor import NetworkFit, network_fit
from segkit.findings import Finding, Level
from segkit.units import engineering, plain_number

#: Series that shops keep networks in.
NETWORK_SERIES = "E12"
COMMON = "LED supply +"
_SHARED_PIN, _SPARE = 1, "spare"


@dataclass(frozen=True)
class Place:
    """One single resistor that a network is to replace.

    Attributes:
        name: where it sits, such as ``digit 1 a`` or ``digit 1 a, string 2``.
        ohm: value, Ω.
        heat_w: heat in it at the worst corner, W.
    """

    name: str
    ohm: float
    heat_w: float


@dataclass(frozen=True)
class Pin:
    """One pin of one network.

    Attributes:
        package: number of the package, from 1.
        pin: pin number; 1 is marked on the part.
        goes_to: what it is soldered to.
    """

    package: int
    pin: int
    goes_to: str


@dataclass(frozen=True)
class NetworkPlan:
    """Networks of one type in place of the single resistors of one value.

    Attributes:
        network: catalogue id.
        name: what to ask for.
        ohm: value of its resistors, Ω.
        packages: how many to buy.
        spare: resistors that stay unused.
        solder_joints: pins in use; two for each single resistor otherwise.
        fit: heat of the fullest package and of one resistor against their limits.
        tolerance: of its resistors, as a share.
        pins: every pin that is used, package by package; spare ones are listed as such.
        reason: why it stands where it stands, one sentence.
    """

    network: str
    name: str
    ohm: float
    packages: int
    spare: int
    solder_joints: int
    fit: NetworkFit
    tolerance: float
    pins: tuple[Pin, ...]
    reason: str


def pin_plan(network: ResistorNetwork, places: Sequence[str]) -> tuple[Pin, ...]:
    """Which pin goes where, package after package.

    Args:
        network: catalogue network.
        places: the strings, in the order in which they are to be wired; 1 or more.

    Returns:
        bussed: pin 1 to the supply of the LEDs, the others to the anode end of one string each; isolated:
        pins 1-2, 3-4, ... one resistor each, the odd pin to the supply, the even one to the string.

    Source: sip-pin-plan.

    Example:
        >>> from segkit.catalog.reader import network
        >>> [pin.goes_to for pin in pin_plan(network("sip-bussed-4"), ["a", "b"])]
        ['LED supply +', 'a', 'b', 'spare']
        >>> [pin.pin for pin in pin_plan(network("sip-isolated-4"), ["a", "b"]) if pin.goes_to == "b"]
        [4]
    """
    found = []
    for package, start in enumerate(range(0, len(places), network.resistors), 1):
        mine = list(places[start : start + network.resistors])
        mine += [_SPARE] * (network.resistors - len(mine))
        if network.circuit == "bussed":
            found.append(Pin(package, _SHARED_PIN, COMMON))
        for number, place in enumerate(mine):
            if network.circuit == "bussed":
                found.append(Pin(package, number + 2, place))
            else:
                feed = _SPARE if place == _SPARE else COMMON
                found += [Pin(package, 2 * number + 1, feed), Pin(package, 2 * number + 2, place)]
    return tuple(found)


def elements(plan: NetworkPlan) -> tuple[tuple[int, int, int], ...]:
    """The resistor of each place, in the order of the places: package, pin to the supply, pin to the string.

    Args:
        plan: of ``network_plans``.

    Source: sip-pin-plan.

    Example:
        >>> from segkit.catalog.reader import network
        >>> places = [Place("a", 510.0, 0.01), Place("b", 510.0, 0.01)]
        >>> elements(network_plans(places, [network("sip-bussed-4")])[0])
        ((1, 1, 2), (1, 1, 3))
        >>> elements(network_plans(places, [network("sip-isolated-4")])[0])
        ((1, 1, 2), (1, 3, 4))
    """
    fed = {(pin.package, pin.pin) for pin in plan.pins if pin.goes_to == COMMON}
    return tuple(
        (pin.package, pin.pin - 1 if (pin.package, pin.pin - 1) in fed else _SHARED_PIN, pin.pin)
        for pin in plan.pins
        if pin.goes_to not in (COMMON, _SPARE)
    )


def network_plans(
    places: Sequence[Place], networks: Iterable[ResistorNetwork], *, ambient_c: float = 50.0
) -> tuple[NetworkPlan, ...]:
    """The networks that can take the place of single resistors of one value, the best first.

    Args:
        places: resistors of one value; all of them may be lit together.
        networks: catalogue rows.
        ambient_c: air around them, °C.

    Returns:
        one plan for each network; those within their limits first, then fewest packages, fewest spare
        resistors, fewest joints. Empty where the places differ in value: a network has one value only.

    Formula: see ``network_fit``; the hottest resistor stands for all.

    Source: sip-networks, resistor-half-rating, sip-pin-plan.
    """
    values = {place.ohm for place in places}
    if len(values) != 1:
        return ()
    hottest_w = max(place.heat_w for place in places)
    plans = [_plan(network, places, hottest_w, ambient_c) for network in networks]
    return tuple(
        sorted(plans, key=lambda one: (not one.fit.fits, one.packages, one.spare, one.solder_joints))
    )


def _plan(
    network: ResistorNetwork, places: Sequence[Place], hottest_w: float, ambient_c: float
) -> NetworkPlan:
    packages = math.ceil(len(places) / network.resistors)
    used = min(len(places), network.resistors)
    fit = network_fit(network, element_heat_w=hottest_w, used=used, ambient_c=ambient_c)
    pins = pin_plan(network, [place.name for place in places])
    spare = packages * network.resistors - len(places)
    joints = sum(1 for pin in pins if pin.goes_to != _SPARE)
    share = max(fit.element_share, fit.package_share)
    reason = (
        f"{packages} package{'s' if packages > 1 else ''}, {spare} spare, "
        f"{joints} joints instead of {2 * len(places)}; {share:.0%} of what the {fit.limited_by} may take, "
        "margin of two included"
    )
    return NetworkPlan(
        network.id, network.name, places[0].ohm, packages, spare, joints, fit, network.tolerance, pins, reason
    )  # fmt: skip


def by_value(places: Iterable[Place]) -> Mapping[float, tuple[Place, ...]]:
    """Places sorted into groups of one value, Ω; the order within a group is kept."""
    found: dict[float, list[Place]] = {}
    for place in places:
        found.setdefault(place.ohm, []).append(place)
    return {ohm: tuple(mine) for ohm, mine in found.items()}


def network_findings(
    plans: Sequence[NetworkPlan], places: Sequence[Place], *, reckoned: float = 0.05
) -> tuple[Finding, ...]:
    """What to know before networks are bought.

    Args:
        plans: result of ``network_plans`` for the places.
        places: the resistors.
        reckoned: tolerance that the worst case was worked out with, as a share.

    Source: sip-networks, iec-60063.
    """
    if not places:
        return ()
    if not plans:
        ohms = ", ".join(plain_number(ohm) for ohm in sorted({place.ohm for place in places}))
        text = f"the strings want {ohms} ohm; a network has one value."
        remedy = "Make all strings alike, or take a network for each value."
        return (_finding("caution", "network-mixed-values", text, remedy),)
    best = plans[0]
    if not best.fit.fits:
        heat = engineering(max(place.heat_w for place in places), "W")
        share = min(max(plan.fit.element_share, plan.fit.package_share) for plan in plans)
        text = f"{heat} a resistor is {share:.0%} of what the strongest network may take, margin included."
        remedy = "Stay with single resistors of the rating given, or put more LEDs in series."
        return (_finding("caution", "network-no-fit", text, remedy),)
    return (*_tolerance(best, reckoned), *_value(best))


def _tolerance(best: NetworkPlan, reckoned: float) -> tuple[Finding, ...]:
    if best.tolerance <= reckoned:
        return ()
    own, asked = plain_number(100 * best.tolerance), plain_number(100 * reckoned)
    text = f"networks have a tolerance of {own} %; the worst case was worked out with {asked} %."
    return (_finding("caution", "network-tolerance", text, f"Set the tolerance to {own} %."),)


def _value(best: NetworkPlan) -> tuple[Finding, ...]:
    if in_series(best.ohm, NETWORK_SERIES):
        return ()
    up, ohm = plain_number(next_up(best.ohm, NETWORK_SERIES)), plain_number(best.ohm)
    text = f"networks are kept in values of {NETWORK_SERIES}; {ohm} ohm may have to be ordered."
    remedy = f"{up} ohm is the next value up and a little darker."
    return (_finding("note", "network-value", text, remedy),)


def _finding(level: Level, code: str, text: str, remedy: str) -> Finding:
    return Finding(
        level=level, code=code, subject="resistor network", text=text, source="sip-networks", remedy=remedy
    )
