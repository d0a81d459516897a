"""Each rule refuses a part that is wrong in one figure, and lets the catalogue's own parts pass."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.catalog.rules import faults_of

WRONG: list[tuple[str, str, dict[str, Any], str]] = [
    ("leds", "red-5mm-diffused", {"id": "Red LED"}, "id"),
    ("leds", "red-5mm-diffused", {"name": ""}, "name"),
    ("leds", "red-5mm-diffused", {"source": "hearsay"}, "source"),
    ("leds", "red-5mm-diffused", {"knowledge": "sure"}, "knowledge"),
    ("leds", "red-5mm-diffused", {"colour": "pink"}, "colour"),
    ("leds", "red-5mm-diffused", {"vf_v": 2.7}, "vf_v"),
    ("leds", "red-5mm-diffused", {"vf_min_v": 2.1}, "vf_min_v"),
    ("leds", "red-5mm-diffused", {"test_current_a": 20.0}, "test_current_a"),
    ("leds", "red-5mm-diffused", {"intensity_cd": 500.0}, "intensity_cd"),
    ("leds", "red-5mm-diffused", {"intensity_cd": 0.0, "intensity_min_cd": 0.0}, "intensity_cd"),
    ("leds", "red-5mm-diffused", {"full_angle_deg": 180.0}, "full_angle_deg"),
    ("leds", "red-5mm-diffused", {"wavelength_nm": 0.0}, "wavelength_nm"),
    ("leds", "white-5mm-wide", {"wavelength_nm": 450.0}, "wavelength_nm"),
    ("leds", "uv-400-5mm", {"wavelength_nm": 470.0}, "wavelength_nm"),
    ("leds", "uv-400-5mm", {"radiant_power_w": 0.0}, "radiant_power_w"),
    ("drivers", "darlington-sink-8", {"type": "relay"}, "type"),
    ("drivers", "darlington-sink-8", {"drop_points": ()}, "drop_points"),
    ("drivers", "darlington-sink-8", {"drop_points": ((0.1, 1.1, 0.9),)}, "drop_points"),
    ("drivers", "darlington-sink-8", {"drop_points": ((0.2, 0.9, 1.1), (0.1, 1.0, 1.2))}, "drop_points"),
    ("drivers", "darlington-sink-8", {"drop_points": ((100.0, 0.9, 1.1),)}, "drop_points"),
    ("drivers", "darlington-sink-8", {"output_pins": (18, 17)}, "output_pins"),
    ("drivers", "darlington-sink-8", {"input_pins": (1, 1, 2, 3, 4, 5, 6, 7)}, "input_pins"),
    ("drivers", "logic-mosfet", {"on_resistance_ohm": 0.0}, "on_resistance_ohm"),
    ("drivers", "logic-mosfet", {"on_resistance_ohm": 0.05}, "on_resistance_ohm"),
    ("drivers", "logic-mosfet", {"gate_v": 0.0}, "gate_v"),
    ("registers", "hc595", {"input_high_v": 2.0}, "input_high_share"),
    ("registers", "hc595", {"output_names": ("QA",) * 8}, "output_names"),
    ("registers", "hc595", {"output_pins": ()}, "output_pins"),
    ("registers", "hc595", {"data_pin": 15}, "output_pins"),
    ("registers", "hc595", {"drive_a": 0.05}, "drive_a"),
    ("registers", "hc595", {"zero_pins": (16,)}, "output_pins"),
    ("registers", "hc595", {"zero_pins": ()}, "supply_pin"),
    ("registers", "hc595", {"supply_pin": 0}, "supply_pin"),
    ("registers", "power-register-8", {"open_why": ""}, "open_why"),
    ("drivers", "darlington-sink-8", {"zero_pins": (18,)}, "zero_pins"),
    ("drivers", "darlington-sink-8", {"zero_pins": ()}, "zero_pins"),
    ("drivers", "darlington-sink-8", {"open_pins": ()}, "open_why"),
    ("wires", "cat5e", {"resistance_ohm_per_m": 93.8}, "resistance_ohm_per_m"),
    ("wires", "cat5e", {"resistance_ohm_per_m": 0.05}, "resistance_ohm_per_m"),
    ("wires", "cat5e", {"colours": ("brown",) * 8}, "colours"),
    ("sheets", "opal-acrylic-3mm", {"role": "window"}, "role"),
    ("sheets", "opal-acrylic-3mm", {"transmittance": 0.7}, "transmittance"),
    ("sheets", "opal-acrylic-3mm", {"opaque": True}, "opaque"),
    ("sheets", "opal-acrylic-3mm", {"tools": ("teeth",)}, "tools"),
    ("sheets", "pvc-foam-5mm", {"tools": ("laser",)}, "tools"),
    ("sheets", "opal-acrylic-3mm", {"caution": "hot"}, "caution"),
    ("sheets", "opal-acrylic-3mm", {"width_mm": 0.0}, "width_mm"),
    ("sheets", "fluorescent-green-3mm", {"emission_nm": 0.0}, "emission_nm"),
    ("networks", "sip-bussed-8", {"circuit": "star"}, "circuit"),
    ("networks", "sip-bussed-8", {"resistors": 8}, "resistors"),
    ("networks", "sip-isolated-8", {"pins": 9}, "resistors"),
    ("supplies", "adapter-12v-2a", {"min_v": 12.5}, "min_v"),
    ("supplies", "adapter-12v-2a", {"max_current_a": 0.0}, "max_current_a"),
    ("supplies", "lead-acid-12v-7ah", {"capacity_ah": 0.0}, "capacity_ah"),
    ("supplies", "lead-acid-12v-7ah", {"type": "sun"}, "type"),
]


@pytest.mark.parametrize("kind", reader.KINDS)
def test_catalogue_rows_are_sound(kind: str) -> None:
    for part in reader.rows(kind).values():
        assert faults_of(part) == ()


@pytest.mark.parametrize(("kind", "id_", "change", "column"), WRONG)
def test_one_wrong_figure_is_found(kind: str, id_: str, change: dict[str, Any], column: str) -> None:
    changed: Any = replace(reader.part(kind, id_), **change)
    assert column in {fault.column for fault in faults_of(changed)}


def test_all_faults_of_a_part_at_once() -> None:
    led = replace(reader.led("red-5mm-diffused"), colour="pink", vf_v=9.0, full_angle_deg=0.0, id="?")
    assert {"id", "colour", "vf_v", "full_angle_deg"} <= {fault.column for fault in faults_of(led)}


def test_a_sheet_may_not_create_light() -> None:
    (fault,) = faults_of(replace(reader.sheet("opal-acrylic-3mm"), transmittance=0.7))
    assert "more than all the light" in fault.text


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_light_is_never_created_for_any_sheet(reflectance: float, transmittance: float) -> None:
    sheet = replace(reader.sheet("opal-acrylic-3mm"), reflectance=reflectance, transmittance=transmittance)
    assert bool(faults_of(sheet)) is (reflectance + transmittance > 1)


@given(st.floats(1e-6, 10.0))
def test_wire_resistance_must_be_that_of_copper(resistance_ohm_per_m: float) -> None:
    wire = replace(reader.wire("hook-up-awg-24"), resistance_ohm_per_m=resistance_ohm_per_m)
    ideal = 0.017241 / wire.area_mm2  # IEC 60028
    if resistance_ohm_per_m < 0.98 * ideal or resistance_ohm_per_m > 1.26 * ideal:
        assert faults_of(wire)
    elif 0.995 * ideal < resistance_ohm_per_m < 1.24 * ideal:
        assert not faults_of(wire)
