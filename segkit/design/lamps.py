"""How the LEDs are driven, as the design file says it: heat and cold, one bag, touch, dimming, turns."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from segkit import units
from segkit.design.led import AnyLed
from segkit.design.quantity import Quantity, asked, refused
from segkit.design.section import Section
from segkit.errors import Problem


class Drive(Section):
    """Heat and cold around the lamps, and hands within reach of them."""

    coldest_c: Annotated[float, Field(ge=-40, le=60)] = asked(
        -10.0, "Coldest LED in use, in °C: a winter night."
    )
    hottest_c: Annotated[float, Field(ge=-20, le=100)] = asked(
        60.0, "Hottest LED in use, in °C: a closed box in the sun."
    )
    box_c: Annotated[float, Field(ge=-20, le=90)] = asked(
        50.0, "Air around the chips, in °C: 50 in a closed box that the sun may reach."
    )
    one_bag: bool = asked(
        False, "true if all LEDs come from one bag, so that they are of one bin and differ little."
    )
    touch: Literal["enclosed", "dry", "wet"] = asked(
        "enclosed",
        "enclosed: no bare metal can be touched in use; dry or wet: a hand can reach it, and in which state.",
    )

    @model_validator(mode="after")
    def _coldest_first(self) -> Drive:
        if self.coldest_c > self.hottest_c:
            text = (
                f"the coldest LED, {self.coldest_c:g} °C, is warmer than the hottest, {self.hottest_c:g} °C."
            )
            raise refused(Problem(text, remedy="Swap them, or leave them out."))
        return self


class Dimming(Section):
    """Levels of brightness by on/off dimming on the output-enable input."""

    levels: Annotated[int, Field(ge=2, le=64)] = asked(8, "Steps from the darkest to full, equal to the eye.")
    frequency_hz: Annotated[float, Quantity(units.FREQUENCY, "10 Hz", "100 kHz")] = asked(
        "6 kHz",
        "On/off cycles a second; above 3 kHz no eye was seen to mind, and 6 kHz looks steady on film.",
        "frequency",
    )
    bits: Annotated[int, Field(ge=4, le=16)] = asked(
        10, "Resolution of the controller's on/off timer, in bits."
    )
    film_s: Annotated[float, Quantity(units.DURATION, "10 us", "1 s")] = asked(
        "1 ms", "Exposure of a camera that films the board.", "exposure"
    )


class Turns(Section):
    """Digits that take turns on one set of registers, reckoned beside the static drive that is built."""

    digits: Annotated[int, Field(ge=1, le=16)] = asked(
        1, "Digits that would share registers and sinks; 1: each has its own, nothing takes turns."
    )
    refresh_hz: Annotated[float, Quantity(units.FREQUENCY, "20 Hz", "20 kHz")] = asked(
        "500 Hz", "Rounds a second.", "refresh"
    )
    dark_s: Annotated[float, Quantity(units.DURATION, "0 us", "10 ms")] = asked(
        "50 us",
        "Dark time at each change of digit, so that no digit shows its neighbour's segments.",
        "dark",
    )
    switch: Literal["p-mosfet", "pnp", "source-array"] = asked("p-mosfet", "What switches a digit to plus.")
    led: AnyLed | None = asked(
        None,
        "LED of the other digits that take turns on the same lines and resistors: a catalogue id, or a table "
        "as for [pocket]. Left out: the same as in [pocket].",
    )
