"""Pins and the map as built, as the design file says them."""

from __future__ import annotations

import pytest

from segkit.design.reader import design_from_text
from segkit.errors import InputError


def test_defaults_are_the_usual_pins() -> None:
    made = design_from_text("")
    assert made.firmware.serial == "hardware"
    assert made.firmware.pins.model_dump() == {"data": 11, "clock": 13, "latch": 10, "enable": 9}
    assert made.as_built.chips == []
    assert made.as_built.active is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[firmware]\nserial = "spi"\n', "hardware, bit-banged"),
        ("[firmware]\npins = { data = 4 }\n", "the serial unit has pins of its own"),
        ("[firmware]\npins = { enable = 5 }\n", "9 or 10"),
        ('[firmware]\nserial = "bit-banged"\npins = { data = 9 }\n', "pin 9 is given to data and enable"),
        ("[firmware]\ngpio = { data = 18 }\n", "pin 18 is given to data and clock"),
        ("[firmware]\npins = { data = -1 }\n", "firmware.pins.data"),
        ('[as_built]\nchips = ["1a 1b"]\n', "names 2 outputs"),
        ('[as_built]\nchips = ["1a 1b 1c 1d 1e 1f 1x -"]\n', "no digit and segment"),
        ('[as_built]\nactive = "up"\n', "high, low"),
        ("[as_built]\nchip = []\n", 'Did you mean "chips"'),
    ],
)
def test_what_cannot_be_is_refused_with_its_key(text: str, words: str) -> None:
    with pytest.raises(InputError) as caught:
        design_from_text(text, file="f.toml")
    assert words in str(caught.value)
    assert "f.toml" in str(caught.value)
