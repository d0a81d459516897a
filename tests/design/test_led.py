"""An LED by its id, or by a table of the builder's own values, wherever one is asked for."""

import pytest

from segkit.design.chosen import led_of
from segkit.design.led import OwnLed
from segkit.design.reader import design_from_text
from segkit.errors import InputError

OWN = '{ name = "old blue", colour = "blue", wavelength_nm = 470, vf = "3.3 V", intensity = "600 mcd" }'


@pytest.mark.parametrize("section", ["pocket", "turns"])
def test_an_id_or_a_table(section: str) -> None:
    by_id = getattr(design_from_text(f'[{section}]\nled = "blue-5mm-clear"\n'), section).led
    assert led_of(by_id).colour == "blue"
    own = getattr(design_from_text(f"[{section}]\nled = {OWN}\n"), section).led
    assert isinstance(own, OwnLed)
    assert (led_of(own).name, led_of(own).vf_v) == ("old blue", 3.3)


@pytest.mark.parametrize("section", ["pocket", "turns"])
def test_faults_are_said_with_their_key(section: str) -> None:
    with pytest.raises(InputError, match="neither an intensity") as caught:
        design_from_text(f'[{section}]\nled = {{ colour = "red", vf = "2 V" }}\n')
    assert caught.value.problems[0].key.startswith(f"{section}.led")


def test_all_that_a_table_lacks_is_said_at_once() -> None:
    with pytest.raises(InputError) as caught:
        design_from_text('[pocket]\nled = { name = "found in a drawer", current = "20 mA" }\n')
    told = str(caught.value)
    for words in (
        "led.colour: this key",
        "led.vf: this key",
        "neither an intensity",
        '"test_current" or "max',
    ):
        assert words in told
    assert "'0 mW'" not in told  # left out of the file, so not printed


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ('colour = "red", vf = "2 V", radiant_power = "9 mW"', "the red LED has no wavelength"),
        ('colour = "white", vf = "3 V", radiant_power = "9 mW"', "white light cannot be worked out"),
        ('colour = "near-ultraviolet", vf = "3 V", intensity = "1 cd"', "has no wavelength"),
    ],
)
def test_light_that_is_not_known(table: str, words: str) -> None:
    with pytest.raises(InputError, match=words):
        design_from_text(f"[pocket]\nled = {{ {table} }}\n")
