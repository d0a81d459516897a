"""From the plug to the board: power budget, cable, near and far digit, signals, regulator of a design."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from segkit.catalog import reader as catalogue
from segkit.catalog.part import Wire
from segkit.design.chosen import Chosen
from segkit.design.schema import Design
from segkit.electrical.battery import Use
from segkit.electrical.bus import NearFar, supply_bus, unequal_cables
from segkit.electrical.cable import supply_run
from segkit.electrical.common_drop import common_drop
from segkit.electrical.converter import ConverterRun, converter_cure, converter_run
from segkit.electrical.regulator import LogicFeed, linear_regulator, step_down
from segkit.electrical.resistor import common_resistor_finding, shared_resistor
from segkit.electrical.segment_cable import Common, OnCable, cable_run, parse_return, too_few_cores_findings
from segkit.electrical.signal_run import ground_findings, signal_run
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.supply import Drawn, Load, PowerBudget, drawn_by, power_budget
from segkit.electrical.wire_size import side_by_side
from segkit.errors import InputError
from segkit.findings import Finding
from segkit.geometry.board import Board, Segment
from segkit.glyphs.content import Content, content_of, lit_line
from segkit.stage import Result, Stage
from segkit.units import plain_number
from segkit.wiring.channel_map import ChannelMap
from segkit.wiring.digit_cables import digit_cables_m, digits_of, places_m

#: Segments of a "1", the digit with the fewest.
_ONE = ("b", "c")

#: Thinner wire breaks at the joint, mm2.
_LEAST_MM2 = 0.25

Circuits = Mapping[str, SegmentCircuit]


@dataclass(frozen=True)
class Feed:
    """A design as this module looks at it.

    Attributes:
        design: what was asked.
        parts: the catalogue rows it names.
        board: from the geometry.
        circuits: of each kind of segment.
    """

    design: Design
    parts: Chosen
    board: Board
    circuits: Circuits

    @property
    def steady(self) -> bool:
        """Whether the sinks hold the current themselves."""
        return self.parts.sink.type == "constant-current"

    @property
    def by_segment(self) -> bool:
        """Whether a cable brings each segment."""
        return self.design.power.cable.carries == "segments"

    @property
    def wire(self) -> Wire:
        """One conductor of the cable: a core, or those that bring the supply side by side."""
        wire = self.parts.wire
        return wire if self.by_segment else side_by_side(wire, cores=self.design.power.cable.each_way)

    @property
    def headroom_v(self) -> float:
        """The least voltage across a resistor, V."""
        return min(string.headroom_v for circuit in self.circuits.values() for string in circuit.strings)

    @property
    def strongest_a(self) -> float:
        """The highest current of a segment, A."""
        return max(circuit.current_a for circuit in self.circuits.values())

    @cached_property
    def content(self) -> Content:
        """What the board shows and how often it lights what; InputError for what the digits cannot show."""
        design = self.design
        try:
            return content_of(
                design.power.use.content, layout=design.display.layout, style=design.glyphs.style
            )
        except InputError as error:
            raise error.at(key="power.use.content") from None

    def digits(self) -> list[list[Segment]]:
        """The segments of each digit, points and colons counted with the digit on their left."""
        return digits_of(self.board)

    def places_m(self) -> list[float]:
        """Where the wires along the digits reach each one, m from the leftmost: as they are drawn."""
        return places_m(self.board)


def budget_of(feed: Feed) -> PowerBudget:
    """The power budget of the board.

    Args:
        feed: the design with its board and circuits.

    Raises:
        InputError: a content that the digits cannot show.
    """
    design, parts, circuits = feed.design, feed.parts, feed.circuits
    loads, power = _loads(feed), design.power
    logic_a, level = _logic_a(feed), power.use.level
    digit: tuple[Load, ...] = ()
    if feed.by_segment:
        busiest = max(feed.digits(), key=lambda one: sum(circuits[s.kind].highest_a for s in one))
        counts = Counter(segment.kind for segment in busiest)
        digit = tuple(
            Load(kind, number, circuits[kind].current_a, circuits[kind].highest_a)
            for kind, number in counts.items()
        )
    return power_budget(
        loads, supply=parts.source, wire_a=_thinnest_a(feed), digit=digit,
        wires=tuple(catalogue.wires().values()), logic_a=logic_a, level=level, use=_use(design),
        at_source=_at_source(feed, drawn_by(loads, logic_a=logic_a, level=level)),
    )  # fmt: skip


def _thinnest_a(feed: Feed) -> float:
    """What the thinnest of the wires that the design names behind the fuse may carry, A."""
    behind = [feed.wire]
    if feed.parts.along is not None and not feed.by_segment:
        behind.append(feed.parts.along)
    return min(wire.max_current_a for wire in behind)


def _use(design: Design) -> Use:
    use = design.power.use
    return Use(
        exponent=use.peukert,
        rated_h=use.rated_s / 3600,
        usable=use.usable,
        wanted_h=(use.lasts_s or 0.0) / 3600,
    )


def _loads(feed: Feed) -> list[Load]:
    return [
        Load(
            kind=kind, count=len(segments), current_a=feed.circuits[kind].current_a,
            highest_a=feed.circuits[kind].highest_a,
            mean_share=sum(feed.content.shares[s.digit, s.name] for s in segments) / len(segments),
        )
        for kind, segments in feed.board.kinds().items()
    ]  # fmt: skip


def _logic(feed: Feed) -> LogicFeed | None:
    """The regulator of the logic; None where the logic has a supply of its own."""
    asked, power, supply = feed.design.power.regulator, feed.design.power, feed.parts.supply
    if asked.kind == "linear":
        return linear_regulator(
            supply, logic_v=power.logic_v, logic_a=asked.current_a, theta_k_per_w=asked.air_k_per_w,
            ambient_c=asked.air_c,
        )  # fmt: skip
    if asked.kind == "step-down":
        return step_down(supply, logic_v=power.logic_v, logic_a=asked.current_a)
    return None


def _logic_a(feed: Feed) -> float:
    """What registers and controller take from the LED supply, A; nothing where they have their own."""
    logic = _logic(feed)
    return logic.drawn_a if logic else 0.0


def _at_source(feed: Feed, board: Drawn) -> Drawn | None:
    """The currents before the converter, if there is one; without the cable where it starves."""
    if feed.design.power.converter.source_v is None:
        return None
    runs = [_converter(feed, current_a) for current_a in (board.all_on_a, board.highest_a, board.mean_a)]
    return Drawn(*(run.input_a if run.lines else run.power_w / feed.parts.source.nominal_v for run in runs))


def _converter(feed: Feed, board_a: float) -> ConverterRun:
    cable, parts = feed.design.power.cable, feed.parts
    return converter_run(
        feed.wire, length_m=cable.length_mm / 1000, source=parts.source, board_v=parts.supply.nominal_v,
        board_a=board_a, efficiency=feed.design.power.converter.efficiency,
        temperature_c=cable.temperature_c,
    )  # fmt: skip


def feed_stages(feed: Feed, channels: ChannelMap, budget: PowerBudget) -> Iterator[Stage]:
    """The content, the cable, near and far digit, the signals, the regulator.

    Args:
        feed: the design with its board and circuits.
        channels: which output lights which segment.
        budget: of the whole board.
    """
    yield Result((lit_line(feed.content),))
    cores = Result(findings=_supply_cores(feed))
    if feed.by_segment:
        cores = Result(findings=too_few_cores_findings(
            feed.parts.wire, max(map(len, feed.digits())), returns=_common(feed).cores
        ))  # fmt: skip
    yield cores
    if feed.headroom_v > 0 and feed.strongest_a > 0:  # else nothing is left to lose; the string said so
        yield _cable(feed, budget)
        yield _near_far(feed, budget)
        yield _common_resistor(feed)
        yield _common_drop(feed)
    if not feed.by_segment:
        yield from _signals(feed, channels, budget)
    if logic := _logic(feed):
        yield Result(logic.lines, logic.findings)
    yield Result(findings=tuple(_battery(feed)))


def _battery(feed: Feed) -> Iterator[Finding]:
    """A capacity that nothing reckons with, and a battery that leaves the logic without its voltage."""
    power = feed.design.power
    if power.battery_ah is not None and power.source == "mains-adapter":
        yield Finding(
            "caution", "battery-not-reckoned", "battery",
            f"A battery of {plain_number(power.battery_ah)} Ah is named, and the source is a mains adapter: "
            "its hours are not worked out.",
            value=power.battery_ah, unit="Ah", source="design-choice",
            remedy='Say which battery it is, such as source = "lead-acid", or leave battery out.',
        )  # fmt: skip
    if power.source != "mains-adapter" and power.regulator.kind == "none":
        yield Finding(
            "note", "logic-supply-apart", "supply of the logic",
            f"The LEDs run from a battery; registers and controller want {plain_number(power.logic_v)} V "
            "from a source of their own, which is not in its hours.",
            value=power.logic_v, unit="V", source="design-choice",
            remedy='Write kind = "step-down" under [power.regulator] to make it from the battery.',
        )  # fmt: skip


def _supply_cores(feed: Feed) -> tuple[Finding, ...]:
    """Whether a cable of several cores has enough of them for the supply out and back."""
    wire, needed = feed.parts.wire, 2 * feed.design.power.cable.each_way
    if wire.cores == 1 or wire.cores >= needed:
        return ()
    return (
        Finding(
            level="stop", code="too-few-cores", subject=wire.name,
            text=f"{needed // 2} cores out and as many back are asked for; the cable has {wire.cores}.",
            value=float(wire.cores), limit=float(needed), unit="cores", source="arithmetic",
            remedy="Ask for fewer side by side (each_way), or take a cable of more cores.",
        ),
    )  # fmt: skip


def _common(feed: Feed) -> Common:
    return parse_return(feed.design.power.cable.returns)


def _cable(feed: Feed, budget: PowerBudget) -> Stage:
    """Segments: a cable for each digit, one core a segment. Supply: two wires for the whole board."""
    cable, parts, headroom_v = feed.design.power.cable, feed.parts, feed.headroom_v
    length_m, warm_c = cable.length_mm / 1000, cable.temperature_c
    if feed.by_segment:
        busiest = max(feed.digits(), key=lambda digit: sum(feed.circuits[s.kind].current_a for s in digit))
        return cable_run(
            parts.wire, _on_cable(busiest, feed.circuits), length_m=length_m, headroom_v=headroom_v,
            common=_common(feed), temperature_c=warm_c, steady=feed.steady,
        )  # fmt: skip
    if feed.design.power.converter.source_v is not None:
        return _converter(feed, budget.all_on_a)
    cure = converter_cure(
        feed.wire, length_m=length_m, board_v=parts.supply.nominal_v, board_a=budget.all_on_a
    )
    return supply_run(
        feed.wire, length_m=length_m, total_a=budget.all_on_a,
        fewest_a=min(len(_ONE) * feed.strongest_a, budget.all_on_a), headroom_v=headroom_v,
        temperature_c=warm_c, steady=feed.steady, or_else=cure,
    )  # fmt: skip


def _common_resistor(feed: Feed) -> Stage:
    """A resistor in the common lead of a digit: a "1" against everything on the busiest digit."""
    asked = feed.design.power.common
    if asked.resistor_ohm is None:
        return Result()
    digit = max(feed.digits(), key=len)
    circuit = feed.circuits[digit[0].kind]
    own_ohm = feed.headroom_v / circuit.current_a  # of all strings of a segment together
    shared = shared_resistor(
        drive_v=feed.headroom_v, resistance_ohm=asked.resistor_ohm, own_ohm=0.0 if asked.only else own_ohm,
        most=len(digit), fewest=min(len(_ONE), len(digit)),
    )  # fmt: skip
    subject = f"{len(digit)} segments on one resistor"
    finding = common_resistor_finding(shared, subject=subject, resistance_ohm=asked.resistor_ohm)
    return Result(findings=(finding,))


def _common_drop(feed: Feed) -> Stage:
    """What stands in plus of each digit, judged on the busiest one, or of the board and its logic."""
    digits, circuits = feed.digits(), feed.circuits
    shared = digits if feed.design.power.common.drop_in == "digit" else [list(feed.board.segments)]
    where = "the common lead of each digit" if shared is digits else "the common lead of the board"
    logic_a = 0.0 if shared is digits else _logic_a(feed)
    busiest = max(shared, key=lambda some: sum(circuits[one.kind].current_a for one in some))
    return common_drop(
        feed.parts.common, supply_v=feed.parts.supply.nominal_v, where=where,
        current_a=logic_a + sum(circuits[one.kind].current_a for one in busiest),
        highest_a=logic_a + sum(circuits[one.kind].highest_a for one in busiest),
    )  # fmt: skip


def _on_cable(digit: list[Segment], circuits: Circuits) -> tuple[OnCable, ...]:
    """A digit by kind; what has no "1" is compared with its first segment alone."""
    ones = [segment.kind for segment in digit if segment.name in _ONE] or [digit[0].kind]
    counts = Counter(segment.kind for segment in digit)
    return tuple(
        OnCable(kind, number, circuits[kind].current_a, in_one=ones.count(kind))
        for kind, number in counts.items()
    )


def along_wire(parts: Chosen, budget: PowerBudget) -> Wire:
    """The wire along the digits: the design's, else the thinnest in mm² that stands the board and its fuse.

    Args:
        parts: the catalogue rows of the design.
        budget: of the whole board.

    Source: those of the wires; not thinner than 0.25 mm2: common-practice.
    """
    if parts.along is not None:
        return parts.along
    thick = [
        wire for wire in catalogue.wires().values()
        if wire.cores == 1 and wire.id.endswith("mm2") and wire.area_mm2 >= _LEAST_MM2
    ]  # fmt: skip
    carry = [wire for wire in thick if wire.max_current_a >= max(budget.all_on_highest_a, budget.fuse_a)]
    return min(carry, key=lambda w: w.area_mm2) if carry else max(thick, key=lambda w: w.area_mm2)


def _near_far(feed: Feed, budget: PowerBudget) -> NearFar:
    """The far digit against the near one; nothing where there is one digit, or sinks hold the current."""
    cable, places_m = feed.design.power.cable, feed.places_m()
    digits_a = [sum(feed.circuits[s.kind].current_a for s in digit) for digit in feed.digits()]
    if len(places_m) < 2:
        return NearFar(0.0, 1.0)
    if not feed.by_segment:
        return supply_bus(
            along_wire(feed.parts, budget), places_m=places_m, digits_a=digits_a, headroom_v=feed.headroom_v,
            feed=cable.feed or feed.design.power.first_digit, temperature_c=cable.temperature_c,
            steady=feed.steady,
        )  # fmt: skip
    if feed.steady:
        return NearFar(0.0, 1.0)
    nearest = feed.design.power.first_digit
    lengths_m = digit_cables_m(feed.board, length_m=cable.length_mm / 1000, nearest=nearest).values()
    return unequal_cables(
        feed.parts.wire, near_m=min(lengths_m), far_m=max(lengths_m),
        segment_a=feed.strongest_a, digit_a=max(digits_a), headroom_v=feed.headroom_v,
        return_ohm_per_m=_common(feed).as_wire(feed.parts.wire).resistance_ohm_per_m,
        temperature_c=cable.temperature_c,
    )  # fmt: skip


def _signals(feed: Feed, channels: ChannelMap, budget: PowerBudget) -> Iterator[Stage]:
    """From the controller along the chain of registers, which stand one at each digit."""
    power, places_m = feed.design.power, feed.places_m()
    away_m = (power.signals.length_mm or 0.0) / 1000
    length_m = away_m + places_m[-1] - places_m[0]
    if length_m > 0:
        run = signal_run(
            length_m=length_m, bits=len(channels.channels), clock_hz=power.signals.clock_hz,
            series=power.values,
        )  # fmt: skip
        yield Result(run.lines, run.findings)
    if away_m:
        register, cable = feed.parts.register, power.cable
        current_a = budget.all_on_a
        if power.converter.source_v is not None:
            current_a = min(_converter(feed, current_a).input_a, budget.needed_a)
        shared_m = min(away_m, cable.length_mm / 1000)
        yield Result(
            findings=ground_findings(
                shift_v=current_a * feed.wire.resistance_ohm_per_m * shared_m,
                controller_v=power.controller_v or power.logic_v,
                needed_v=register.input_high_v or register.input_high_share * power.logic_v,
                register=register.name, source=register.source,
            )
        )  # fmt: skip
