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
