"""Parts and nets of a board: what must be joined, and what must not."""

from collections import Counter

import pytest
from hypothesis import given

from segkit.catalog.reader import network
from segkit.wiring.circuit import (
    LED_PLUS,
    ZERO,
    circuit_of,
    fuse_ref,
    leaves_card,
    led_plus,
    out_pole,
    seat_of,
)
from segkit.wiring.harness import Harness
from tests.wiring import boards


@boards.some_boards
@given(whole=boards.anything)
def test_every_pin_is_in_one_net_at_most_and_every_part_in_some(whole: Harness) -> None:
    circuit = whole.circuit
    counted = Counter(pin for net in circuit.nets for pin in net.pins)
    assert set(counted.values()) == {1}
    named = {(part.ref, pin) for part in circuit.components for pin in part.pins}
    assert set(counted) <= named
    assert len({part.ref for part in circuit.components}) == len(circuit.components)
    assert len({net.name for net in circuit.nets}) == len(circuit.nets)


@boards.some_boards
@given(whole=boards.anything)
def test_leds_sit_between_plus_and_their_segment_the_right_way_round(whole: Harness) -> None:
    """From plus through resistor and LEDs, anode to cathode, one ends at the segment's net."""
    net = whole.circuit.net_of()
    after = {}  # net to net, through a resistor from 1 to 2 or an LED from A to K
    for part in whole.circuit.components:
        if part.kind == "led":
            after[part.ref] = (net[part.ref, "A"], net[part.ref, "K"])
    for string in whole.plan.strings:
        at = led_plus(whole.plan, string.digit)
        if string.resistor:
            assert net[string.resistor, string.feed_pin] == at
            at = net[string.resistor, string.own_pin]
        for led in string.leds:
            assert after[led.ref][0] == at
            at = after[led.ref][1]
        assert at == f"SEG_{string.digit}{string.segment}"


@pytest.mark.parametrize("carries", ["supply", "segments"])
def test_a_network_gives_each_string_a_resistor_of_its_own_between_plus_and_its_leds(carries) -> None:
    """A bussed network's common pin is on plus, which all strings share anyway: no two share a resistor."""
    whole = boards.wired("8.8.", carries=carries, networked=True)
    net, strings = whole.circuit.net_of(), [s for s in whole.plan.strings if s.network]
    assert {s.network.split("-")[1] for s in strings} == {"bussed", "isolated"}
    assert len({(s.resistor, s.own_pin) for s in strings}) == len(strings)
    for string in strings:
        assert net[string.resistor, string.feed_pin] == led_plus(whole.plan, string.digit)
        inner = net[string.resistor, string.own_pin]
        on_it = {pin for pin, name in net.items() if name == inner}
        assert on_it == {(string.resistor, string.own_pin), (string.leds[0].ref, "A")}
    parts = {part.ref: part for part in whole.circuit.components}
    for string in strings:
        assert len(parts[string.resistor].pins) == network(string.network).pins


@boards.some_boards
@given(whole=boards.anything)
def test_every_segment_reaches_its_own_output_and_no_other(whole: Harness) -> None:
    plan, net = whole.plan, whole.circuit.net_of()
    for channel in plan.wired:
        seat, lamp = seat_of(plan, channel), f"SEG_{channel.digit}{channel.segment}"
        register = (f"U{channel.chip}1", str(channel.pin))
        if seat.ref:
            assert net[register] == net[seat.ref, seat.into] != lamp
            assert net[seat.ref, seat.out] == lamp
        else:
            assert net[register] == lamp
    for channel in plan.channels.spares:
        assert (f"U{channel.chip}1", str(channel.pin)) not in net


def test_the_chain_runs_from_serial_out_to_data() -> None:
    net = boards.wired("88:88").circuit.net_of()
    assert net["A0", "data"] == net["U11", "14"]
    for chip in (1, 2, 3):
        assert net[f"U{chip}1", "9"] == net[f"U{chip + 1}1", "14"]
    assert ("U41", "9") not in net
    for pin, name in ((11, "CLOCK"), (12, "LATCH"), (13, "ENABLE"), (10, "LOGIC"), (16, "LOGIC"), (8, ZERO)):
        assert {net[f"U{chip}1", str(pin)] for chip in (1, 2, 3, 4)} == {name}


def test_it_is_dark_at_power_on() -> None:
    """Pull-up from output-enable to the logic supply; each gate held down."""
    net = boards.wired("8", driver="logic-mosfet").circuit.net_of()
    assert (net["R1", "1"], net["R1", "2"]) == ("LOGIC", "ENABLE")
    for bit in range(1, 8):
        assert net[f"R1{bit}", "1"] == net[f"Q1{bit}", "G"]
        assert net[f"R1{bit}", "2"] == net[f"Q1{bit}", "S"] == ZERO


def test_a_capacitor_at_every_register() -> None:
    net = boards.wired("88:88").circuit.net_of()
    assert all((net[f"C{chip}1", "1"], net[f"C{chip}1", "2"]) == ("LOGIC", ZERO) for chip in (1, 2, 3, 4))


def test_clamp_diodes_of_an_array_stay_free() -> None:
    assert ("U12", "10") not in boards.wired("8").circuit.net_of()


def test_a_cable_for_each_digit_has_a_fuse_of_its_own() -> None:
    plan = boards.wired("88 88", carries="segments").plan
    net = circuit_of(plan).net_of()
    assert len({led_plus(plan, digit) for digit in plan.digits}) == 4
    for digit in plan.digits:
        assert net[fuse_ref(plan, digit), "2"] == led_plus(plan, digit) != net[fuse_ref(plan, digit), "1"]
    shared = boards.wired("88 88").plan
    assert {led_plus(shared, digit) for digit in shared.digits} == {LED_PLUS}


def test_a_lamp_on_another_card_leaves_that_card() -> None:
    plan = boards.wired("8.:8.", dot=1).plan
    (foreign,) = (channel for channel in plan.wired if leaves_card(plan, channel))
    assert (foreign.segment, foreign.chip, out_pole(plan, foreign)) == ("colon", 3, "1.10")


@pytest.mark.parametrize("driver", boards.DRIVES)
def test_a_constant_current_sink_has_its_setting_resistor(driver: str) -> None:
    net = boards.wired("8", driver=driver).circuit.net_of()
    assert (("R19", "1") in net) == (driver == "constant-current-sink-8")
