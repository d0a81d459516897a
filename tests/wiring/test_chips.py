"""Pins of registers and sinks against the pin tables of their data sheets."""

import pytest

from segkit.catalog.reader import register, registers, sink, sinks
from segkit.wiring.channel_map import channel_map
from segkit.wiring.chips import OWN_OUTPUTS, POWER_PINS, power_pins, separate, sink_seat
from tests.wiring.boards import DRIVES, ORDER

#: VCC or VDD, then ground pins, as in the pin tables of the data sheets (source keys of the catalogue rows):
#: 74HC595 and 74HCT595 16 and 8; TPIC6B595 2 and 10, 11, 19; TLC5916 16 and 1, R-EXT 15; ULN2803A ground 9,
#: common of the clamp diodes 10; ULN2003A ground 8, common 9.
SHEETS = {
    "hc595": (16, (8,), 0, ()),
    "hct595": (16, (8,), 0, ()),
    "power-register-8": (2, (10, 11, 19), 0, (1, 20)),
    "constant-current-sink-8": (16, (1,), 15, ()),
    "darlington-sink-8": (0, (9,), 0, (10,)),
    "darlington-sink-7": (0, (8,), 0, (9,)),
}


def test_supply_pins_are_those_of_the_data_sheets() -> None:
    assert {key: (p.supply, p.zero, p.setting, p.open) for key, p in POWER_PINS.items()} == SHEETS


def test_every_register_and_array_of_the_catalogue_has_supply_pins() -> None:
    packages = [
        *registers(),
        *(s.id for s in sinks().values() if s.outputs > 1 and s.type not in OWN_OUTPUTS),
    ]
    assert set(packages) <= set(POWER_PINS)
    assert power_pins("logic-mosfet").zero == ()


@pytest.mark.parametrize("part", registers().values(), ids=lambda part: part.id)
def test_no_pin_of_a_register_has_two_uses(part) -> None:
    power = power_pins(part.id)
    pins = [
        *part.output_pins, part.serial_out_pin, part.data_pin, part.clock_pin, part.latch_pin,
        part.enable_pin, part.clear_pin, power.supply, power.setting, *power.zero, *power.open,
    ]  # fmt: skip
    used = [pin for pin in pins if pin]
    assert len(set(used)) == len(used)
    assert max(used) <= {16: 16, 2: 20}[power.supply]


def chain(driver: str, lamps):
    parts = {"register": register(DRIVES[driver][0]), "sink": sink(driver)}
    return channel_map(lamps=lamps, order=ORDER, **parts), parts


def test_a_sink_array_is_passed_straight_through() -> None:
    """ULN2803A: input 1 on pin 1 to output 1 on pin 18 ... input 8 on pin 8 to output 8 on pin 11."""
    channels, parts = chain("darlington-sink-8", [(1, name) for name in "abcdefg"] + [(1, "dp")])
    seats = [sink_seat(channel, channels, **parts) for channel in channels.channels]
    assert [(s.ref, int(s.into), int(s.out)) for s in seats] == [("U12", n, 19 - n) for n in range(1, 9)]


def test_the_eighth_output_of_seven_wide_arrays_goes_to_a_second_package() -> None:
    channels, parts = chain("darlington-sink-7", [(1, name) for name in "abcdefg"] + [(1, "dp")])
    seats = [sink_seat(channel, channels, **parts) for channel in channels.channels]
    assert [s.ref for s in seats] == ["U12"] * 7 + ["U13"]
    assert (seats[7].into, seats[7].out) == ("1", "16")


def test_registers_that_sink_have_nothing_behind_them() -> None:
    for driver in ("power-register-8", "constant-current-sink-8", "register-direct-hc595"):
        channels, parts = chain(driver, [(1, "a")])
        assert not separate(parts["sink"], parts["register"])
        assert sink_seat(channels.channels[0], channels, **parts).ref == ""


def test_a_single_transistor_for_each_output() -> None:
    channels, parts = chain("logic-mosfet", [(1, "a"), (2, "g")])
    seats = [sink_seat(c, channels, **parts) for c in channels.channels if c.segment]
    assert [(s.ref, s.into, s.out) for s in seats] == [("Q11", "G", "D"), ("Q27", "G", "D")]
