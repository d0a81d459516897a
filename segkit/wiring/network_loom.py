"""The wires of a digit whose resistors sit in networks beside the connector: one to each string."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from segkit.geometry.polygon import Point
from segkit.wiring.circuit import led_plus
from segkit.wiring.colours import PLUS_CODE
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.plan import PLUS_PIN, Pin, Plan, connector
from segkit.wiring.run import Run, without_detours

Path = tuple[Point, ...]


def network_loom(
    plan: Plan, ring: Iterable[Run], strings: Sequence[PlacedString], leads: Mapping[str, Path]
) -> Iterator[Run]:
    """A loom from the networks along the way of the plus wire; single resistors get a plus wire each.

    Args:
        plan: what the wiring follows from.
        ring: runs of the plus wire from the connector on, each ending at the own pin of a string's resistor.
        strings: of the digit.
        leads: way from the plus rail to the first LED of each string, by the LED's reference.

    Source: design-choice (the routes).
    """
    start = (connector(strings[0].digit), str(PLUS_PIN))
    in_network = {(string.resistor, string.own_pin): string for string in strings if string.network}
    yield from _strip(plan, start, list(in_network.values()))
    ways: dict[Pin, Path] = {start: ()}
    for run in ring:
        way = ways[run.end] = without_detours((*ways[run.start], *run.route))
        string = in_network.get(run.end)
        if string is None:
            yield Run("plus", "wire", run.net, start, run.end, way, PLUS_CODE, run.current_a, run.digit,
                      run.segment)  # fmt: skip
            continue
        first, circuit = string.leds[0].ref, plan.circuits[string.kind].strings[string.number - 1]
        yield Run(
            "plus", "wire", f"IN_{string.digit}{string.segment}{string.number}_0", run.end, (first, "A"),
            without_detours((*way, *leads[first])), PLUS_CODE, circuit.highest_a, string.digit,
            string.segment, string.number,
        )  # fmt: skip


def _strip(plan: Plan, start: Pin, strings: Sequence[PlacedString]) -> Iterator[Run]:
    """From the connector to the supply pins, on the strip that carries it and the networks."""
    fed = dict.fromkeys((string.resistor, string.feed_pin) for string in strings)
    digit = strings[0].digit
    for one, other in pairwise((start, *fed)):
        yield Run("plus", "card", led_plus(plan, digit), one, other, (), "", plan.current_a(digit), digit)
