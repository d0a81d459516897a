"""An LED as the design file names it: a catalogue id, or a table of the builder's own values."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag, ValidationInfo, field_validator

from segkit import units
from segkit.design.quantity import Checked, Quantity, asked, refused
from segkit.design.section import Name, Part, Section, form
from segkit.electrical.led_fit import parse_points
from segkit.errors import Problem


class OwnLed(Section):
    """An LED that is not in the catalogue."""

    name: Name = asked("my own LED", "Name in the parts list.")
    colour: Literal["red", "amber", "green", "blue", "white", "near-ultraviolet"] = asked(
        ..., "Colour of the light."
    )
    vf_v: Annotated[float, Quantity(units.VOLTAGE, "1 V", "60 V")] = asked(
        ..., "Typical forward voltage.", "vf"
    )
    vf_min_v: Annotated[float, Quantity(units.VOLTAGE, "1 V", "60 V")] | None = asked(
        None, "Lowest bin; 10 % below typical if left out.", "vf_min"
    )
    vf_max_v: Annotated[float, Quantity(units.VOLTAGE, "1 V", "60 V")] | None = asked(
        None, "Highest bin; 15 % above typical if left out.", "vf_max"
    )
    test_current_a: Annotated[float, Quantity(units.CURRENT, "0.1 mA", "5 A")] = asked(
        "20 mA", "Current of the figures.", "test_current"
    )
    points: Annotated[str, Checked(parse_points, "two voltages or more with their currents")] | None = asked(
        None, 'Points of its curve, printed or measured: "1.8 V at 2 mA, 2.0 V at 20 mA".'
    )
    max_current_a: Annotated[float, Quantity(units.CURRENT, "0.1 mA", "5 A")] = asked(
        "30 mA", "Highest continuous current.", "max_current"
    )
    intensity_cd: Annotated[float, Quantity(units.INTENSITY, "0 mcd", "1000 cd")] = asked(
        "0 mcd", "Luminous intensity on axis at the test current.", "intensity"
    )
    radiant_power_w: Annotated[float, Quantity(units.POWER, "0 mW", "10 W")] = asked(
        "0 mW", "Radiant power, for near-ultraviolet.", "radiant_power"
    )
    wavelength_nm: Annotated[float, Field(ge=0, le=1000)] = asked(
        0.0, "Dominant or peak wavelength in nm; 0 for white."
    )
    full_angle_deg: Annotated[float, Quantity(units.ANGLE, "5 deg", "170 deg")] = asked(
        "60 deg", "Full angle at half intensity.", "angle"
    )
    body_mm: Annotated[float, Quantity(units.LENGTH, "0.5 mm", "50 mm")] = asked(
        "5 mm", "Diameter of the body.", "body"
    )
    tip_mm: Annotated[float, Quantity(units.LENGTH, "0 mm", "50 mm")] = asked(
        "8 mm", "Height of the tip above the back board.", "tip"
    )

    # Checks of fields and not of the table, so that they are told together with the keys that are missing.
    @field_validator("radiant_power_w")
    @classmethod
    def _gives_light(cls, power_w: float, info: ValidationInfo) -> float:
        if power_w == 0 and info.data.get("intensity_cd") == 0:
            text = "the LED has neither an intensity nor a radiant power."
            remedy = 'Add intensity = "2000 mcd", or radiant_power = "10 mW" for near-ultraviolet.'
            raise refused(Problem(text, remedy=remedy))
        return power_w

    @field_validator("wavelength_nm")
    @classmethod
    def _light_is_known(cls, wavelength_nm: float, info: ValidationInfo) -> float:
        colour, by_power = info.data.get("colour"), info.data.get("radiant_power_w", 0) > 0
        by_power = by_power and info.data.get("intensity_cd") == 0
        if colour is None or wavelength_nm > 0 or not (by_power or colour == "near-ultraviolet"):
            return wavelength_nm
        text = f"the {colour} LED has no wavelength, so its light cannot be worked out."
        remedy = "Add wavelength_nm = 400, or what its data sheet says."
        if colour == "white":
            text = "white light cannot be worked out from a radiant power."
            remedy = 'Give intensity = "2000 mcd", or what its data sheet says.'
        raise refused(Problem(text, remedy=remedy))


AnyLed = Annotated[
    Annotated[str, Part("leds"), Tag("catalogue")] | Annotated[OwnLed, Tag("own")], Discriminator(form)
]
