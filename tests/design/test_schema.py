"""The schema: defaults stand up to their own limits, records never change, editors get it too."""

from typing import get_args

import pytest
from pydantic import ValidationError

from segkit.design.led import OwnLed
from segkit.design.schema import Design, Pocket, Reading
from segkit.design.template import template_text
from segkit.viewing.night import ZONES


def test_records_never_change() -> None:
    design = Design()
    with pytest.raises(ValidationError):
        design.digit.stroke = 0.2


def test_every_key_has_a_reason() -> None:
    for section in Design.model_fields.values():
        for name, field in section.annotation.model_fields.items():
            inner = getattr(field.annotation, "model_fields", {})
            assert field.description or inner, name
            assert all(key.description for key in inner.values()), name


def test_own_led_in_the_file() -> None:
    led = OwnLed.model_validate({"colour": "red", "vf": "2.1 V", "intensity": "800 mcd"})
    assert (led.vf_v, led.intensity_cd, led.test_current_a) == (2.1, 0.8, 0.02)


def test_json_schema_describes_the_keys_of_the_template() -> None:
    schema = Design.model_json_schema(by_alias=True)
    for definition in schema["$defs"].values():
        for key in definition.get("properties", {}):
            assert key in template_text(), key


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({"colour": "near-ultraviolet", "radiant_power": "10 mW"}, "no wavelength"),
        ({"colour": "near-ultraviolet", "intensity": "20 mcd"}, "no wavelength"),
        ({"colour": "red", "radiant_power": "10 mW"}, "no wavelength"),
        ({"colour": "white", "radiant_power": "10 mW"}, "white light"),
    ],
)
def test_own_led_whose_light_cannot_be_worked_out_is_refused(keys: dict[str, str], says: str) -> None:
    with pytest.raises(ValidationError, match=says):
        OwnLed.model_validate({"vf": "3.4 V", **keys})
    if keys["colour"] != "white":
        assert OwnLed.model_validate({"vf": "3.4 V", **keys, "wavelength_nm": 400.0}).wavelength_nm == 400


def test_zones_are_those_of_the_night_limits() -> None:
    assert set(get_args(Reading.model_fields["zone"].annotation)) == set(ZONES)


def test_rows_are_one_to_four_or_auto() -> None:
    assert Pocket.model_validate({"rows": 4}).rows == 4
    assert Pocket().rows == "auto"
    for rows in (0, 5, "two"):
        with pytest.raises(ValidationError):
            Pocket.model_validate({"rows": rows})
