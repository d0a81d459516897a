"""What a design switches on and off: dimming, digits that would take turns, the first moments, touch."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit.design.chosen import Chosen, led_of
from segkit.design.schema import Design
from segkit.electrical.dimming import Dimming, dimming
from segkit.electrical.multiplexing import SWITCHES, InTurn, Turns, take_turns
from segkit.electrical.power_on import PowerOn, power_on
from segkit.electrical.string import SegmentCircuit
from segkit.electrical.touch import touch_findings
from segkit.electrical.two_colours import TwoColours, two_colours
from segkit.errors import InputError
from segkit.findings import Finding
from segkit.stage import Result, Stage


@dataclass(frozen=True)
class Pulsed:
    """Dimming, turns and power-on of a board.

    Attributes:
        dimmed: levels of brightness.
        turns: digits that would take turns; None if nobody asked for it.
        colours: two LEDs that would share resistors in turn; None without a second one.
        first: the first moments.
        touch: verdicts on what a hand can reach.
    """

    dimmed: Dimming
    turns: Turns | None
    colours: TwoColours | None
    first: PowerOn
    touch: tuple[Finding, ...]

    def stages(self) -> tuple[Stage, ...]:
        """All that has working and verdicts."""
        found: list[Stage] = [self.dimmed, self.first, Result(findings=self.touch)]
        beside = [one for one in (self.turns, self.colours) if one]
        return *found, *(Result(one.lines, tuple(map(_beside, one.findings))) for one in beside)


def pulsed(
    design: Design, parts: Chosen, circuits: Mapping[str, SegmentCircuit], *, all_on_a: float,
    night_share: float,
) -> Pulsed:  # fmt: skip
    """Judge what is switched on and off.

    Args:
        design: what was asked.
        parts: the catalogue rows it names.
        circuits: of each kind of segment.
        all_on_a: board with everything lit, typical, A.
        night_share: share of full luminance that the surroundings allow at night; 1 = no limit.

    Raises:
        InputError: a round of digits that leaves no time to light them.
    """
    asked, supply = design.dimming, parts.supply
    turn = _in_turn(design, parts, circuits)
    turns = _turns(design, turn) if turn else None
    slow_hz = min(asked.frequency_hz, design.turns.refresh_hz) if turns else asked.frequency_hz
    dimmed = dimming(
        levels=asked.levels, bits=asked.bits, frequency_hz=asked.frequency_hz, night_share=night_share,
        exposure_s=asked.film_s,
    )  # fmt: skip
    return Pulsed(
        dimmed=dimmed,
        turns=turns,
        colours=_colours(design, turn, turns) if turn and turns else None,
        first=power_on(parts.sink, parts.register, all_on_a=all_on_a, logic_v=design.power.logic_v),
        touch=touch_findings(design.drive.touch, supply_max_v=supply.max_v, frequency_hz=slow_hz),
    )


@dataclass(frozen=True)
class _Turn:
    """The kind with most current, in the turn of its digit."""

    turn: InTurn
    static_a: float
    given_ohm: float | None


def _in_turn(design: Design, parts: Chosen, circuits: Mapping[str, SegmentCircuit]) -> _Turn | None:
    lit = [circuit for circuit in circuits.values() if circuit.current_a > 0]
    if design.turns.digits == 1 or not lit:
        return None
    most = max(lit, key=lambda circuit: circuit.current_a)
    string = most.strings[0]
    # in turns the switch of a digit takes the place of what stands in the lead of each digit
    lost_v = parts.common.typical_v if design.power.common.drop_in == "board" else 0.0
    turn = InTurn(
        parts.led, parts.sink, SWITCHES[design.turns.switch], parts.supply.nominal_v - lost_v, string.leds,
        len(most.strings),
    )  # fmt: skip
    given_ohm = string.chosen_ohm if string.chosen_ohm and not string.series else None
    return _Turn(turn, string.current_a, given_ohm)


def _turns(design: Design, one: _Turn) -> Turns:
    asked, turn = design.turns, one.turn
    try:
        return take_turns(
            digits=asked.digits, led=turn.led, sink=turn.sink, switch=turn.switch, supply_v=turn.supply_v,
            static_a=one.static_a, series=turn.series, strings=turn.strings, refresh_hz=asked.refresh_hz,
            dark_s=asked.dark_s, exposure_s=design.dimming.film_s, given_ohm=one.given_ohm,
        )  # fmt: skip
    except InputError as error:
        raise error.at(key="turns") from None


def _colours(design: Design, one: _Turn, turns: Turns) -> TwoColours | None:
    """The other LED behind the resistor of the turn; nothing where no resistor sets the current."""
    if design.turns.led is None or turns.resistor_ohm <= 0 or one.turn.sink.type == "constant-current":
        return None
    return two_colours(
        one.turn, led_of(design.turns.led), resistor_ohm=turns.resistor_ohm, duty=turns.duty * turns.digits
    )


def _beside(finding: Finding) -> Finding:
    """The board is built with static drive: what would stop digits in turn holds nothing back."""
    level = "caution" if finding.level == "stop" else finding.level
    text = f"{finding.text[0].lower()}{finding.text[1:]}"
    return replace(finding, level=level, text=f"if digits took turns: {text}", holds=())
