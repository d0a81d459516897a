"""The resistor itself: heat, rating, derating; networks; and the one resistor that must not be shared."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import ResistorNetwork
from segkit.electrical.preferred import RATINGS_W, next_size
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: A resistor is bought for this many times its heat.
MARGIN = 2.0
FULL_C, ZERO_C = 70.0, 155.0
_RATING_NAMES = {0.125: "1/8 W", 0.25: "1/4 W", 0.5: "1/2 W"}


def heat_w(*, current_a: float, resistance_ohm: float) -> float:
    """Heat in a resistor, ``I**2*R``, W.

    Args:
        current_a: current, A.
        resistance_ohm: resistance, Ω.

    Source: arithmetic.

    Example:
        >>> round(heat_w(current_a=0.01872, resistance_ohm=470), 3)
        0.165
    """
    return current_a**2 * resistance_ohm


def rating_w(heat_w: float) -> float:
    """The next usual rating that is at least twice the heat, W; ``inf`` beyond 5 W of heat.

    Args:
        heat_w: heat at the worst corner, W, 0 or more.

    Source: resistor-half-rating.

    Example:
        >>> rating_w(0.165), rating_w(0.0561)
        (0.5, 0.125)
    """
    return next_size(MARGIN * heat_w, RATINGS_W)


def rating_name(rating_w: float) -> str:
    """A rating as shops write it.

    Example:
        >>> rating_name(0.25), rating_name(2.0)
        ('1/4 W', '2 W')
    """
    return _RATING_NAMES.get(rating_w, f"{plain_number(rating_w)} W")


def derated_share(ambient_c: float, *, full_c: float = FULL_C, zero_c: float = ZERO_C) -> float:
    """Share of the rating that a resistor may take at an ambient temperature.

    Args:
        ambient_c: air around the resistor, °C.
        full_c: highest temperature of full rating, °C.
        zero_c: temperature of no rating, °C.

    Formula: 1 up to ``full_c``, then ``(zero_c - T)/(zero_c - full_c)``, 0 beyond.

    Source: resistor-derating.

    Example:
        >>> derated_share(50), round(derated_share(100), 3)
        (1.0, 0.647)
    """
    return min(1.0, max(0.0, (zero_c - ambient_c) / (zero_c - full_c)))


def heat_findings(*, subject: str, heat_w: float, rating_w: float, source: str) -> tuple[Finding, ...]:
    """Whether a resistor of a given rating has its margin.

    Args:
        subject: what the finding is about.
        heat_w: heat, W.
        rating_w: rating of the part that is meant to be used, W.
        source: source key for the margin.
    """
    share = heat_w / rating_w
    if share <= 1 / MARGIN:
        return ()
    name = rating_name(rating_w)
    better = next_size(MARGIN * heat_w, RATINGS_W)
    buy = f"Buy {rating_name(better)}" if math.isfinite(better) else "Share the heat among more strings"
    return (
        Finding(
            level="stop" if share > 1 else "caution",
            code="resistor-hot",
            subject=subject,
            text=f"{engineering(heat_w, 'W')} is {share:.0%} of a {name} resistor; "
            f"a closed box wants half at most, {engineering(rating_w / MARGIN, 'W')}.",
            value=round(heat_w * 1000, 2),
            limit=rating_w / MARGIN * 1000,
            unit="mW",
            source=source,
            remedy=f"{buy}, or put more LEDs in series so that less voltage is left for the resistor.",
        ),
    )


@dataclass(frozen=True)
class SharedResistor:
    """What one resistor in a common lead does.

    Attributes:
        total_a: current when the most segments are lit, A.
        fewest, most: segments of the digits compared.
        fewest_a, most_a: current of one segment in each of them, A.
        ratio: between the two, ``fewest_a/most_a``.
    """

    total_a: float
    fewest: int
    most: int
    fewest_a: float
    most_a: float
    ratio: float


def shared_resistor(
    *, drive_v: float, resistance_ohm: float, own_ohm: float = 0.0, most: int = 7, fewest: int = 2
) -> SharedResistor:
    """Current of one segment when a resistor in the common lead feeds all that are lit.

    Args:
        drive_v: supply less drop less forward voltage, V, above 0.
        resistance_ohm: the shared resistor, Ω, above 0.
        own_ohm: resistor that each segment has besides, Ω, 0 or more.
        most: segments lit at most (7 for an "8").
        fewest: segments lit at least (2 for a "1").

    Formula: ``I(n) = V/(n*R + Rown)``.

    Raises:
        InputError: nothing drives the segments, or a value out of its range.

    Source: arithmetic.

    Example:
        >>> shared = shared_resistor(drive_v=3.0, resistance_ohm=220)
        >>> round(shared.total_a * 1000, 1), round(shared.fewest_a * 1000, 1), shared.ratio
        (13.6, 6.8, 3.5)
    """
    if drive_v <= 0 or resistance_ohm <= 0 or own_ohm < 0 or not 1 <= fewest <= most:
        raise InputError(
            Problem(
                "a shared resistor needs a voltage and a value above 0, and 1 <= fewest <= most segments."
            )
        )

    def one_a(lit: int) -> float:
        return drive_v / (lit * resistance_ohm + own_ohm)

    fewest_a, most_a = one_a(fewest), one_a(most)
    ratio = most / fewest if own_ohm == 0 else fewest_a / most_a
    return SharedResistor(most * most_a, fewest, most, fewest_a, most_a, ratio)


def common_resistor_finding(shared: SharedResistor, *, subject: str, resistance_ohm: float) -> Finding:
    """The refusal of one resistor for several segments, with the currents that say why.

    Args:
        shared: result of ``shared_resistor``.
        subject: what the finding is about.
        resistance_ohm: the shared resistor, Ω.
    """
    few, many = _digit_of(shared.fewest), _digit_of(shared.most)
    return Finding(
        level="stop",
        code="common-resistor",
        subject=subject,
        text=f"one {plain_number(resistance_ohm)} ohm resistor in the common lead sets the sum, "
        f"{engineering(shared.total_a, 'A')} with everything lit: {few} gets "
        f"{shared.fewest_a * 1000:.1f} mA per segment, {many} {shared.most_a * 1000:.2f} mA, "
        f"{shared.ratio:.3g} times less.",
        value=round(shared.ratio, 3),
        limit=1.0,
        source="arithmetic",
        remedy="Give every segment string its own resistor, or use an isolated resistor network.",
        holds=("back_board",),
    )


def _digit_of(lit: int) -> str:
    names = {2: 'a "1" (2 segments)', 7: 'an "8" (7 segments)', 1: "one alone"}
    return names.get(lit, f"{lit} lit together")


@dataclass(frozen=True)
class NetworkFit:
    """Whether a resistor network can take the place of single resistors.

    Attributes:
        network: catalogue id.
        fits: whether every limit is kept with the usual margin.
        element_share: heat of one resistor against what it may take, margin included.
        package_share: heat of all against what the package may take, margin included.
        limited_by: ``package`` or ``element``, whichever is nearer its limit.
        findings: verdicts.
    """

    network: str
    fits: bool
    element_share: float
    package_share: float
    limited_by: str
    findings: tuple[Finding, ...]


def network_fit(
    network: ResistorNetwork,
    *,
    element_heat_w: float,
    used: int | None = None,
    ambient_c: float = 50.0,
    on_common_side: bool = False,
) -> NetworkFit:
    """Judge a resistor network for the strings of a digit.

    Args:
        network: catalogue network.
        element_heat_w: heat in one resistor at the worst corner, W.
        used: resistors used at the same time; all of them if left out.
        ambient_c: air around it, °C.
        on_common_side: True if the common pin of a bussed network is the only way to the LEDs' common lead,
            so that its elements act as one resistor: refused.

    Formula: element: ``2*P/(element_w*k)``; package: ``2*P*n/(package_w*k)``; k the derated share,
    zero at 125 °C.

    Raises:
        InputError: more resistors than the network has.

    Source: sip-networks, resistor-half-rating.
    """
    count = network.resistors if used is None else used
    if not 1 <= count <= network.resistors:
        raise InputError(
            Problem(
                f"{network.id} has {network.resistors} resistors.",
                value=str(count),
                limit=f"1 to {network.resistors}",
                remedy="Use two networks or a longer one.",
            )
        )
    allowed = derated_share(ambient_c, zero_c=125.0)
    element = MARGIN * element_heat_w / (network.element_w * allowed) if allowed else math.inf
    package = MARGIN * element_heat_w * count / (network.package_w * allowed) if allowed else math.inf
    findings = []
    if on_common_side and network.circuit == "bussed":
        findings.append(_bussed_on_common(network))
    if max(element, package) > 1:
        findings.append(_network_hot(network, element_heat_w, count, max(element, package)))
    limited_by = "package" if package >= element else "element"
    return NetworkFit(network.id, not findings, element, package, limited_by, tuple(findings))


def _bussed_on_common(network: ResistorNetwork) -> Finding:
    return Finding(
        level="stop",
        code="common-resistor",
        subject=network.name,
        text="a bussed network with its common pin in the common lead joins the segments behind its "
        'resistors: they act as one, and a "1" is 3.5 times as bright per segment as an "8".',
        value="bussed",
        limit="isolated",
        source="arithmetic",
        remedy="Put its single pins at the segments, its common pin on the supply; or use an isolated one.",
        holds=("back_board",),
    )


def _network_hot(network: ResistorNetwork, element_heat_w: float, count: int, share: float) -> Finding:
    return Finding(
        level="stop" if share > MARGIN else "caution",
        code="network-hot",
        subject=network.name,
        text=f"{count} resistors of {engineering(element_heat_w, 'W')} make "
        f"{engineering(count * element_heat_w, 'W')}; with the usual margin of two that is "
        f"{share:.0%} of what it may take.",
        value=round(share, 3),
        limit=1.0,
        source=network.source,
        remedy="Use single resistors of the rating given, or more LEDs in series.",
    )
