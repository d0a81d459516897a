"""Pins of registers and sinks against the pin tables of their data sheets."""

from collections.abc import Callable

import pytest

from segkit.catalog.part import ShiftRegister, Sink
from segkit.catalog.reader import register, registers, sink, sinks
from segkit.wiring.channel_map import channel_map
from segkit.wiring.chips import OWN_OUTPUTS, separate, sink_seat
from tests.wiring.boards import DRIVES, ORDER

Published = Callable[[str], list[dict[str, str]]]


def test_supply_pins_are_those_of_the_data_sheets(published: Published) -> None:
    """VCC or VDD, ground, the resistor that sets the current, pins that stay free."""
    rows = {(row["what"], row["inputs"]): row["published"] for row in published("wiring")}
    arrays = {s.id: s for s in sinks().values() if s.outputs > 1 and s.type not in OWN_OUTPUTS}
    packages: dict[str, ShiftRegister | Sink] = {**registers(), **arrays}
    assert {part for what, part in rows if what == "ground pins"} == set(packages)
    for part, pins in packages.items():
        assert ";".join(map(str, pins.zero_pins)) == rows["ground pins", part], part
        assert ";".join(map(str, pins.open_pins)) == rows.get(("free pins", part), ""), part
    for part, chip in registers().items():
        assert chip.supply_pin == int(rows["supply pin", part]), part
        assert chip.setting_pin == int(rows.get(("setting pin", part), 0)), part


def test_a_single_transistor_has_no_pins_of_a_package() -> None:
    assert sink("logic-mosfet").zero_pins == ()


@pytest.mark.parametrize("part", registers().values(), ids=lambda part: part.id)
def test_no_pin_of_a_register_is_beyond_its_package(part) -> None:
    pins = (*part.output_pins, *part.zero_pins, *part.open_pins, part.supply_pin, part.setting_pin)
    assert max(pins) <= {16: 16, 2: 20}[part.supply_pin]


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
