"""What the code is written from, and what it refuses."""

from __future__ import annotations

import pytest

from segkit.electrical.dimming import dimming
from segkit.errors import InputError
from segkit.firmware.driver import Pins, brightness, driver, pin_problems
from tests.firmware.conftest import Made, design_of, flash_of

GPIO = Pins(data=19, clock=18, latch=17, enable=16)


def test_groups_and_gaps_of_the_examples() -> None:
    found = {
        name: flash_of(design_of(name)).driver
        for name in ("boules_court", "pool_lap_clock", "rain_barrel", "three_groups")
    }
    assert {name: one.groups for name, one in found.items()} == {
        "boules_court": (2, 2), "pool_lap_clock": (2, 2), "rain_barrel": (3,), "three_groups": (2, 2, 2),
    }  # fmt: skip
    assert found["boules_court"].gaps == (" ",)
    assert found["pool_lap_clock"].gaps == (":",)
    assert found["rain_barrel"].marks == ((), ("dp",), ())


def test_levels_by_lightness() -> None:
    """CIE 15: L* = 50 is 18.4 % of the luminance; four levels have 25, 50, 75 and 100."""
    bright = brightness(dimming(levels=4, bits=10), frequency_hz=4000.0)
    assert bright.counts[0] == 0
    assert bright.counts[2] / bright.period == pytest.approx(0.184, abs=0.001)
    assert bright.counts[-1] == bright.period == 1024
    assert bright.night is None


@pytest.mark.parametrize(
    ("bits", "hz", "prescale"), [(10, 4000, 1), (8, 1000, 8), (4, 4000, 8), (16, 4000, 1), (8, 60, 1024)]
)
def test_pulse_is_as_fast_as_asked(bits: int, hz: float, prescale: int) -> None:
    bright = brightness(dimming(bits=bits), frequency_hz=hz)
    assert bright.prescale == prescale
    assert bright.pulse_hz == pytest.approx(16e6 / prescale / bright.period)
    assert bright.pulse_hz >= hz
    assert 8 <= bright.bits <= 10


def test_night_level_keeps_to_the_share() -> None:
    dimmed = dimming(levels=8, bits=10, night_share=0.05)
    bright = brightness(dimmed, frequency_hz=4000.0)
    assert bright.night is not None
    assert bright.counts[bright.night] <= 0.05 * bright.period < bright.counts[bright.night + 1]


def test_pins_that_cannot_do_it_are_named_together() -> None:
    bad = Pins(data=4, clock=4, latch=1, enable=3)
    texts = [str(problem) for problem in pin_problems(bad, GPIO, "hardware")]
    assert len(texts) == 4
    for words in ("pin 4 is given to data and clock", "latch 1", "9 or 10", 'serial = "bit-banged"'):
        assert any(words in text for text in texts), words
    assert pin_problems(Pins(data=4, clock=7, latch=14, enable=10), GPIO, "bit-banged") == []
    assert "gpio" in str(pin_problems(Pins(), Pins(1, 1, 2, 3), "hardware")[0])


def test_driver_refuses_bad_pins(example: Made) -> None:
    with pytest.raises(InputError, match="9 or 10"):
        driver(layout="8", wiring=example.flash.driver.wiring, table=example.flash.table, pins=Pins(enable=3))


@pytest.mark.parametrize(
    ("clock", "divider", "pause"), [(1e6, 16, 0), (4e6, 4, 0), (20e6, 2, 0), (300e3, 64, 2), (1e3, 128, 999)]
)
def test_clock_of_the_bits(example: Made, clock: float, divider: int, pause: int) -> None:
    one = driver(layout="8", wiring=example.flash.driver.wiring, table=example.flash.table, clock_hz=clock)
    assert (one.serial_divider, one.pause_us) == (divider, pause)
