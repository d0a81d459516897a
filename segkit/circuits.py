"""What lights each kind of segment of a design: equal light, boards of parts as they come, networks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from segkit.catalog import reader as catalogue
from segkit.design.chosen import Chosen
from segkit.design.resistors import missing_kinds
from segkit.design.schema import Design
from segkit.electrical.arrangement import Arrangement, arrangements
from segkit.electrical.corners import Conditions
from segkit.electrical.drift import Drift, drift
from segkit.electrical.driver import sink_drop
from segkit.electrical.equal_light import EqualLight, Lit, equal_light
from segkit.electrical.network import NetworkPlan, Place, by_value, network_findings, network_plans
from segkit.electrical.spread import Drawn, Spread, spread
from segkit.electrical.string import SegmentCircuit
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace, Lighting
from segkit.stage import Result, Stage
from segkit.wiring.led_strings import PlacedString, placed_strings

#: LEDs drawn for a design, and boards at least and at most: enough for the middle, quick enough for every
#: change of a design.
LEDS_DRAWN, DRAWS = 16_000, (30, 80)
#: Kinds that must not hold the digits back.
_DOTS = ("point", "colon")
_DARK_DOT = (
    "Make the dots smaller round their one bulb (digit.point), or set the bulbs of the bars wider apart "
    "(make.bulb_pitch); or accept that it is darker."
)
#: What the optics says about kinds at one current, and what resistors mend.
_MENDED = "unequal-brightness"


@dataclass(frozen=True)
class DigitNetworks:
    """Resistor networks in place of the single resistors of digits that are wired alike.

    Attributes:
        digits: numbers of these digits, 1 = leftmost.
        ohm: value of the resistors, Ω.
        resistors: how many of it a digit has.
        plan: the best network; one that does not fit is no plan to build.
        findings: what to know before buying: too hot, or a value that shops do not keep.
    """

    digits: tuple[int, ...]
    ohm: float
    resistors: int
    plan: NetworkPlan
    findings: tuple[Finding, ...]

    @property
    def remark(self) -> str:
        """The findings in words."""
        return " ".join(f"{one.text} {one.remedy}" for one in self.findings)


@dataclass(frozen=True)
class Circuits:
    """What lights the board.

    Attributes:
        equal: the kinds with their resistors.
        by_kind: the circuit of each kind.
        drift: the kinds at the ends of the supply; None where no resistor sets the current.
        many: boards of parts as they come; None where no resistor sets the current, or nothing flows.
        networks: in place of single resistors; empty behind a constant-current sink.
        in_networks: whether the board is built with them.
    """

    equal: EqualLight
    by_kind: Mapping[str, SegmentCircuit]
    drift: Drift | None
    many: Spread | None
    networks: tuple[DigitNetworks, ...]
    in_networks: bool = False

    def chosen_networks(self) -> dict[int, list[NetworkPlan]]:
        """The networks that are built in, by digit; none where single resistors are."""
        found: dict[int, list[NetworkPlan]] = {}
        for one in self.networks if self.in_networks else ():
            for digit in one.digits:
                found.setdefault(digit, []).append(one.plan)
        return found

    def strings(self, board: Board, places: Sequence[LedPlace]) -> tuple[PlacedString, ...]:
        """The strings of every segment with their LEDs and resistors in place."""
        return placed_strings(board, places, self.by_kind, self.chosen_networks())

    def stages(self) -> tuple[Stage, ...]:
        """All that has working and verdicts."""
        apart = (self.drift,) if self.drift else ()
        return (self.equal, *self.by_kind.values(), *apart, Result(findings=self.findings))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Verdicts of the draws and of networks built in; a stop of the corners is not told twice."""
        told = {one.code for circuit in self.by_kind.values() for one in circuit.findings}
        drawn = (one for one in (self.many.findings if self.many else ()) if one.code not in told)
        built = [one for some in self.networks for one in some.findings] if self.in_networks else []
        return (*drawn, *dict.fromkeys(built))

    def kept(self, finding: Finding) -> bool:
        """False for what the optics says of kinds at one current, once resistors have made them equal."""
        return finding.code != _MENDED or self.equal.ratio > self.equal.limit


def circuits_of(design: Design, parts: Chosen, board: Board, lightings: Mapping[str, Lighting]) -> Circuits:
    """What lights one segment of each kind, made equally bright.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        lightings: LEDs and light of each kind.

    Raises:
        InputError: networks are asked for and none fits; a resistor for a kind that is not on the board.
    """
    power, supply, drive = design.power, parts.supply, design.drive
    kinds = _kinds(lightings)
    equal = equal_light(
        kinds, led=parts.led, sink=parts.sink, supply_v=supply.nominal_v, supply_min_v=supply.min_v,
        supply_max_v=supply.max_v, current_a=design.pocket.current_a, series=power.values,
        tolerance=power.tolerance, in_series=power.in_series, coldest_c=drive.coldest_c,
        hottest_c=drive.hottest_c, given_ohm=given_ohm(design, lightings), common=parts.common,
    )  # fmt: skip
    if parts.bare:
        equal = replace(equal, findings=tuple(_of_a_bulb(one) for one in equal.findings))
    by_kind = {circuit.kind: circuit for circuit in equal.circuits}
    wanted = power.resistor_parts == "networks"
    if parts.sink.type == "constant-current":
        if wanted:
            raise InputError(_no_networks("the sink holds the current, and the strings have no resistors."))
        return Circuits(equal, by_kind, None, None, ())
    apart = drift(
        kinds, by_kind, led=parts.led, sink=parts.sink, supply_v=supply.nominal_v,
        supply_min_v=supply.min_v, supply_max_v=supply.max_v, common=parts.common,
    )  # fmt: skip
    networks = _networks(board, by_kind, tolerance=power.tolerance)
    if wanted:
        _refuse_hot(networks)
    drawn = _drawn(design, parts, board, by_kind)
    return Circuits(equal, by_kind, apart, drawn, networks, in_networks=wanted)


def _refuse_hot(networks: tuple[DigitNetworks, ...]) -> None:
    """A board cannot be built with networks that would get too hot, or with none at all."""
    problems = [
        _no_networks(f"digit {_listed(one.digits)}: {one.remark}")
        for one in networks
        if not one.plan.fit.fits
    ]
    if not networks:
        problems.append(_no_networks("no digit has two resistors of one value."))
    if problems:
        raise InputError(problems)


def _listed(digits: tuple[int, ...]) -> str:
    return ", ".join(map(str, digits))


def _no_networks(why: str) -> Problem:
    return Problem(
        f"resistor networks cannot take the place of the single resistors: {why}",
        key="power.resistor_parts", value="networks", remedy='Write "single", or leave the key out.',
    )  # fmt: skip


def ways_to_divide(design: Design, parts: Chosen, drive: Circuits, kind: str) -> tuple[Arrangement, ...]:
    """Every way to divide the LEDs of a kind into strings, the best first.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        drive: what lights the board.
        kind: of segment.
    """
    power, supply, asked = design.power, parts.supply, design.drive
    leds, aimed = sum(string.leds for string in drive.by_kind[kind].strings), drive.equal.aimed_a
    current_a = design.pocket.current_a * aimed[kind] / max(aimed.values())  # as when it was chosen
    return arrangements(
        leds, led=parts.led, sink=parts.sink, supply_v=supply.nominal_v, supply_min_v=supply.min_v,
        supply_max_v=supply.max_v, current_a=current_a, series=power.values,
        tolerance=power.tolerance, coldest_c=asked.coldest_c, hottest_c=asked.hottest_c, aimed=True,
        given_ohm=given_ohm(design, drive.by_kind).get(kind), common=parts.common,
    )  # fmt: skip


def given_ohm(design: Design, kinds: Mapping[str, object]) -> dict[str, float]:
    """The resistor that the builder has for each kind, Ω; kinds to be worked out left out.

    Args:
        design: what was asked.
        kinds: of the board.

    Raises:
        InputError: a resistor for a kind that is not on the board; all of them together.
    """
    asked = design.power.resistor_ohm
    if asked is None:
        return {}
    if isinstance(asked, float):
        return dict.fromkeys(kinds, asked)
    if problems := missing_kinds(asked, kinds):
        raise InputError(problems)
    return {kind.replace("-", " "): ohm for kind, ohm in asked.items()}


def _of_a_bulb(finding: Finding) -> Finding:
    """A dot of a bulb board holds one bulb, whatever its light: what helps there instead."""
    return replace(finding, remedy=_DARK_DOT) if finding.code == "kind-left-behind" else finding


def _kinds(lightings: Mapping[str, Lighting]) -> tuple[Lit, ...]:
    """The kinds as the optics lit them at one current; dots lead only where there is nothing else."""
    digits = any(kind.split()[-1] not in _DOTS for kind in lightings)
    return tuple(
        Lit(
            kind=kind, leds=lighting.count, luminance=lighting.luminance_cd_m2[1] or 1.0,
            leads=not digits or kind.split()[-1] not in _DOTS,
        )
        for kind, lighting in lightings.items()
    )  # fmt: skip


def _drawn(
    design: Design, parts: Chosen, board: Board, by_kind: Mapping[str, SegmentCircuit]
) -> Spread | None:
    strings = {kind: [(s.leds, s.chosen_ohm) for s in one.strings] for kind, one in by_kind.items()}
    if not all(ohm > 0 for pairs in strings.values() for _, ohm in pairs):
        return None  # a string that nothing flows through; the corners said so
    supply, drive = parts.supply, design.drive
    output_a = max(circuit.current_a for circuit in by_kind.values())
    conditions = Conditions(
        supply.nominal_v, supply.min_v, supply.max_v, sink_drop(parts.sink, current_a=output_a),
        design.power.tolerance, drive.coldest_c, drive.hottest_c, parts.common,
    )  # fmt: skip
    segments = [Drawn(kind, len(segments), tuple(strings[kind])) for kind, segments in board.kinds().items()]
    leds = sum(one.count * sum(count for count, _ in one.strings) for one in segments)
    boards = min(DRAWS[1], max(DRAWS[0], LEDS_DRAWN // leds))
    return spread(segments, led=parts.led, conditions=conditions, boards=boards, one_bin=drive.one_bag)


def _networks(
    board: Board, by_kind: Mapping[str, SegmentCircuit], *, tolerance: float
) -> tuple[DigitNetworks, ...]:
    """The best network for each value in digits that are wired alike."""
    networks = tuple(catalogue.networks().values())
    alike: dict[tuple[Place, ...], list[int]] = {}
    for digit in dict.fromkeys(segment.digit for segment in board.segments):
        alike.setdefault(_places(board, by_kind, digit), []).append(digit)
    found = []
    for places, digits in alike.items():
        for ohm, some in by_value(places).items():
            if ohm > 0 and len(some) > 1:
                plans = network_plans(some, networks)
                told = network_findings(plans, some, reckoned=tolerance)
                found.append(DigitNetworks(tuple(digits), ohm, len(some), plans[0], told))
    return tuple(found)


def _places(board: Board, by_kind: Mapping[str, SegmentCircuit], digit: int) -> tuple[Place, ...]:
    """Resistors of one digit by segment and string."""
    found: list[Place] = []
    for segment in board.segments:
        if segment.digit == digit:
            strings = by_kind[segment.kind].strings
            found += [
                Place(
                    segment.name if len(strings) == 1 else f"{segment.name}, string {number}",
                    string.chosen_ohm, string.resistor_w,
                )
                for number, string in enumerate(strings, 1)
            ]  # fmt: skip
    return tuple(found)
