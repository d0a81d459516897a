"""Parts for the tests of this stage, made here so that a catalogue row may change without them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from segkit.catalog.part import Led, ShiftRegister, Sink
from segkit.electrical.driver import stated_sink
from segkit.electrical.led_curve import THERMAL_V, LedCurve


def published_curve(*, saturation_a: float, emission: float, series_ohm: float) -> LedCurve:
    """The curve of published diode parameters at 27 °C: V = N·Vt·ln(I/Is + 1) + I·Rs."""
    return LedCurve(emission * THERMAL_V, math.log(saturation_a), series_ohm)


RED = Led(
    id="red", name="red LED", source="led-old-red", knowledge="datasheet", colour="red", wavelength_nm=625,
    vf_v=2.0, vf_min_v=1.8, vf_max_v=2.6, test_current_a=0.02, slope_ohm=6.0, vf_temperature_v_per_k=-0.002,
    intensity_cd=0.5, intensity_min_cd=0.25, intensity_current_a=0.02, radiant_power_w=0.0, full_angle_deg=60,
    max_current_a=0.03, body_mm=5, tip_mm=6,
)  # fmt: skip
DARLINGTON = replace(
    stated_sink(0.0), id="darlington", name="Darlington sink", source="sink-uln2803a", type="darlington",
    outputs=8, drop_points=((0.1, 0.9, 1.1), (0.2, 1.1, 1.3), (0.35, 1.3, 1.6)), max_voltage_v=50,
    max_output_a=0.5, theta_ja_k_per_w=55, budget_w=1.47, max_junction_c=125, input_high_v=3.0,
)  # fmt: skip
REGISTER_ALONE = replace(
    stated_sink(0.0), id="register-alone", name="register outputs", source="register-hc595", type="register",
    outputs=8, drop_points=((0.003, 0.08, 0.2), (0.006, 0.16, 0.4)), max_voltage_v=5.5, max_output_a=0.035,
    max_package_a=0.07, theta_ja_k_per_w=67, budget_w=0.5, max_junction_c=125, inverts=False,
)  # fmt: skip
MOSFET = replace(
    stated_sink(0.0), id="mosfet", name="MOSFET", source="sink-irlz44", type="mosfet", drop_points=(),
    on_resistance_ohm=0.022, on_resistance_worst_ohm=0.028, gate_v=5.0, max_voltage_v=60, max_output_a=50,
    theta_ja_k_per_w=62, max_junction_c=125, input_high_v=4.0,
)  # fmt: skip
STEADY = replace(
    stated_sink(0.0), id="steady", name="constant-current sink", source="sink-tlc5916", type="constant-current",
    outputs=8, drop_points=((0.005, 0.5, 0.6), (0.02, 0.6, 0.7), (0.12, 1.0, 1.2)), max_voltage_v=17,
    max_output_a=0.12, theta_ja_k_per_w=67, max_junction_c=125, input_high_v=3.5,
)  # fmt: skip
HC595 = ShiftRegister(
    id="hc595", name="74HC595", source="register-hc595", knowledge="datasheet", outputs=8,
    output_names=("QA", "QB", "QC", "QD", "QE", "QF", "QG", "QH"), output_pins=(15, 1, 2, 3, 4, 5, 6, 7),
    serial_out_pin=9, data_pin=14, clock_pin=11, latch_pin=12, enable_pin=13, clear_pin=10, supply_min_v=2.0,
    supply_max_v=6.0, input_high_share=0.7, input_high_v=0.0, max_output_a=0.035, max_package_a=0.07,
    drive_a=0.006, output_drop_v=0.4, sinks=False, supply_pin=16, zero_pins=(8,), setting_pin=0, open_pins=(),
    open_why="",
)  # fmt: skip
SINKS = {sink.type: sink for sink in (DARLINGTON, REGISTER_ALONE, MOSFET, STEADY)}


@pytest.fixture
def red() -> Led:
    return RED


@pytest.fixture
def shop_led() -> Callable[..., Led]:
    """An LED of which only the voltage is known: the shop formula."""

    def make(vf_v: float, **more: Any) -> Led:
        return replace(RED, vf_v=vf_v, vf_min_v=vf_v, vf_max_v=vf_v, slope_ohm=0.0, **more)

    return make


@pytest.fixture
def darlington() -> Sink:
    return DARLINGTON


@pytest.fixture
def register_alone() -> Sink:
    return REGISTER_ALONE


@pytest.fixture
def mosfet() -> Sink:
    return MOSFET


@pytest.fixture
def steady() -> Sink:
    return STEADY


@pytest.fixture
def sinks() -> dict[str, Sink]:
    return SINKS


@pytest.fixture
def hc595() -> ShiftRegister:
    return HC595


@pytest.fixture
def rows(published: Callable[[str], list[dict[str, str]]]) -> Callable[[str], list[dict[str, Any]]]:
    """Published rows of one kind, inputs read into numbers where they are numbers."""

    def of(what: str) -> list[dict[str, Any]]:
        found = [dict(row) for row in published("electrical") if row["what"] == what]
        assert found, f"no published row for {what}"
        for row in found:
            pairs = (pair.split("=") for pair in row["inputs"].split())
            row["given"] = {name: _number(text) for name, text in pairs}
            row["tolerance"] = float(row["tolerance"])
        return found

    return of


def _number(text: str) -> Any:
    try:
        return float(text)
    except ValueError:
        return text


@pytest.fixture
def agrees() -> Callable[[dict[str, Any], float], None]:
    """Our value against a printed one, with both and the reason for the gap in the message."""

    def check(row: dict[str, Any], ours: float) -> None:
        printed = float(row["published"])
        assert abs(ours - printed) <= row["tolerance"] + 1e-12, (
            f"{row['what']} {row['inputs']}: printed {printed}, ours {ours}, gap allowed {row['tolerance']} "
            f"({row['source']}, {row['place']}; {row['remark']})"
        )

    return check
