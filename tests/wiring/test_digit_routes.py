"""Wires of a digit: every one joins what it says, lies where it can, and none is lost."""

import itertools
import math

import pytest
from hypothesis import given

from segkit.wiring.digit_routes import RING, digit_wiring
from segkit.wiring.harness import Harness
from segkit.wiring.lanes import plus_ends, rail_point
from segkit.wiring.plan import CONNECTOR_PINS
from segkit.wiring.run import LEADS_MM
from tests.wiring import boards


def ends(whole: Harness, digit: int):
    """Place of every pin on the board."""
    plan, layout = whole.plan, whole.digits[digit].layout
    places = {(f"X{digit}", "1"): layout.plus_pin}
    places |= {(f"X{digit}", str(pole)): layout.pin(pole) for pole in CONNECTOR_PINS.values()}
    for string in plan.strings_of(digit):
        rail, end = plus_ends(layout, string)
        if string.network:  # on the strip beside the connector, where pole 1 is
            places |= {(string.resistor, string.own_pin): layout.plus_pin}
        else:
            places |= {(string.resistor, "1"): rail, (string.resistor, "2"): end}
        for led in string.leds:
            places |= {(led.ref, "A"): led.anode, (led.ref, "K"): led.cathode}
    return places


@boards.some_boards
@given(whole=boards.anything)
def test_each_route_runs_from_pin_to_pin(whole: Harness) -> None:
    for digit, wiring in whole.digits.items():
        places = ends(whole, digit)
        for run in (run for run in wiring.runs if run.make != "card"):
            assert run.route[0] == pytest.approx(places[run.start], abs=1e-5)
            assert run.route[-1] == pytest.approx(places[run.end], abs=1e-5)
            assert run.route_mm >= math.dist(run.route[0], run.route[-1]) + run.beyond_mm - 1e-6


@boards.some_boards
@given(whole=boards.anything)
def test_wires_of_a_digit_form_trees_that_reach_every_led(whole: Harness) -> None:
    """A net of n pins takes n - 1 wires: none is missing, none is one too many."""
    for digit, wiring in whole.digits.items():
        net = whole.circuit.net_of()
        pins: dict[str, set[tuple[str, str]]] = {}
        wires: dict[str, int] = {}
        for run in wiring.runs:
            assert net[run.start] == net[run.end]
            pins.setdefault(net[run.start], set()).update((run.start, run.end))
            wires[net[run.start]] = wires.get(net[run.start], 0) + 1
        assert all(wires[name] == len(joined) - 1 for name, joined in pins.items())
        leds = [led for string in whole.plan.strings_of(digit) for led in string.leds]
        reached = {pin for joined in pins.values() for pin in joined}
        assert all((led.ref, end) in reached for led in leds for end in "AK")


def test_wires_cross_the_middle_bar_between_its_leds() -> None:
    whole = boards.wired("88 88", slant_deg=9.0)
    plan, wiring = whole.plan, whole.digits[1]
    leds = [led.at for string in plan.strings_of(1, "g") for led in string.leds]
    for run in wiring.runs:
        if run.group == "segment" and run.start[0] == "X1" and run.segment in "abf":
            assert all(_off(led, run.route) >= 2.5 for led in leds)


def test_in_two_rows_no_wire_runs_over_an_led_of_another_string() -> None:
    whole = boards.wired("8", bar=12, rows=2)
    leds = {led.ref: led.at for string in whole.plan.strings_of(1) for led in string.leds}
    for run in whole.digits[1].runs:
        own = {run.start[0], run.end[0]}
        if run.start[0][0] == run.end[0][0] == "R":
            continue  # along the plus rail, or from bar to bar past the slope of the pocket's end
        if run.start[0][0] == "R" or run.end[0][0] == "R":
            own |= {ref for ref in leds if ref.startswith(f"D1{run.segment}")} - _others(whole, run)
        near = [ref for ref, at in leds.items() if ref not in own and _off(at, run.route) < 2.5]
        assert not near, (run.start, run.end, near)


def _others(whole: Harness, run) -> set[str]:
    """LEDs of the segment that a wire at a resistor has nothing to do with."""
    strings = whole.plan.strings_of(1, run.segment)
    ends = {run.start[0], run.end[0]}
    return {led.ref for s in strings if s.resistor not in ends for led in s.leds}


def _off(at, route) -> float:
    best = math.inf
    for (ax, ay), (bx, by) in itertools.pairwise(route):
        long = math.dist((ax, ay), (bx, by)) ** 2
        share = min(1.0, max(0.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / long))
        best = min(best, math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay))))
    return best


def test_links_that_leads_can_make_take_no_wire() -> None:
    for bar, made in ((12, "leads"), (4, "wire")):
        whole = boards.wired("8", bar=bar)
        links = [run for run in whole.digits[1].runs if run.start[1] == "K" and run.end[1] == "A"]
        assert links
        for run in links:
            assert (run.make == "leads") == (run.route_mm <= LEADS_MM)
        assert {run.make for run in links} == {made}


def test_the_plus_ring_passes_all_seven_bars_once() -> None:
    whole = boards.wired("8")
    passed = [run.segment for run in whole.digits[1].runs if run.group == "plus"]
    firsts = [name for n, name in enumerate(passed) if name not in passed[:n]]
    assert tuple(firsts) == RING


def test_a_resistor_stands_between_the_plus_rail_and_its_led() -> None:
    whole = boards.wired("8.8")
    layout = whole.digits[1].layout
    for string in whole.plan.strings_of(1):
        rail, end = plus_ends(layout, string)
        led = string.leds[0]
        assert rail == rail_point(layout, led, plus=True)
        assert math.dist(rail, end) + math.dist(end, led.anode) == pytest.approx(math.dist(rail, led.anode))


def test_without_resistors_plus_goes_to_the_led_itself() -> None:
    whole = boards.wired("8", driver="constant-current-sink-8")
    runs = digit_wiring(whole.plan, 1).runs
    if all(not string.resistor for string in whole.plan.strings):
        assert {run.end[1] for run in runs if run.group == "plus"} == {"A"}
    else:  # what the electrical stage asks for
        assert {run.end[1] for run in runs if run.group == "plus"} == {"1"}


def _on_top(one, other) -> float:
    """Length along which two upright or lying stretches lie on each other, mm."""
    for axis in (0, 1):
        levels = [point[1 - axis] for point in (*one, *other)]
        if max(levels) - min(levels) < 0.3:
            (a, b), (c, d) = (sorted(point[axis] for point in pair) for pair in (one, other))
            return max(0.0, min(b, d) - max(a, c))
    return 0.0


@pytest.mark.parametrize("layout", ["8.8", "8:8", "8.:8"])
@pytest.mark.parametrize("height_mm", [80.0, 120.0, 280.0])
@pytest.mark.parametrize("bar", [2, 3, 8])
def test_no_wire_from_the_connector_lies_on_another(layout: str, height_mm: float, bar: int) -> None:
    """Two wires on top of each other read as one wire; not behind the box of the connector either."""
    plan = boards.plan(layout, bar=bar, dot=2, height_mm=height_mm)
    made = digit_wiring(plan, 1)
    own = [run for run in made.runs if run.group == "segment"]
    for one, other in itertools.combinations(own, 2):
        if one.segment != other.segment:
            pairs = itertools.product(itertools.pairwise(one.route), itertools.pairwise(other.route))
            lapped = max(_on_top(*pair) for pair in pairs)
            assert lapped < 2.0, (one.segment, other.segment, lapped)
    for run in own:
        if run.segment in ("dp", "colon") and run.start[0] == "X1":
            assert run.route[1][1] < made.layout.connector_at[1] - 1.0
