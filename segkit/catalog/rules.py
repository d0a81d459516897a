"""What must hold inside a catalogue row: ranges, orders, words, counts; all faults of a row at once."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from segkit.catalog.part import Led, Part, ResistorNetwork, Sheet, ShiftRegister, Sink, Supply, Wire
from segkit.sources import bibliography
from segkit.units import plain_number

KNOWLEDGE = ("datasheet", "standard", "handbook", "common practice", "from memory")
COLOURS = ("red", "amber", "green", "blue", "white", "near-ultraviolet")
SINK_TYPES = ("darlington", "power-register", "mosfet", "constant-current", "register")
ROLES = ("board", "diffuser", "front", "fluorescent", "lining")
TOOLS = ("knife", "laser", "router", "saw")
CAUTIONS = ("", "no-laser", "near-uv")
CIRCUITS = ("bussed", "isolated")
SUPPLY_TYPES = ("mains-adapter", "lead-acid", "lithium", "cells")
_ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


@dataclass(frozen=True)
class Fault:
    """One thing wrong in a row.

    Attributes:
        column: field name.
        text: what is wrong, one sentence.
        limit: what is allowed; empty if the text says it.
    """

    column: str
    text: str
    limit: str = ""


Faults = Iterator[Fault]


def faults_of(part: Part) -> tuple[Fault, ...]:
    """Everything that cannot be right in a catalogue row or a part with the builder's own values.

    Args:
        part: any of the part records, units as in its field names.

    Returns:
        the faults in the order of the columns' groups; empty for a sound part.
    """
    found = list(_common(part))
    for record_type, rules in _RULES.items():
        if isinstance(part, record_type):
            found += rules(part)
    return tuple(found)


def _common(part: Part) -> Faults:
    if not _ID.fullmatch(part.id):
        yield Fault("id", "the id is not written in lower case with hyphens.", "a-z, 0-9 and single hyphens")
    if not part.name:
        yield Fault("name", "the name is missing.")
    if part.source not in bibliography():
        yield Fault("source", f'"{part.source}" is no key of sources.toml.')
    yield from _word(part, "knowledge", KNOWLEDGE)


def _word(part: Part, column: str, allowed: tuple[str, ...]) -> Faults:
    value = getattr(part, column)
    if value not in allowed:
        yield Fault(column, f'"{value}" is not known.', ", ".join(word or "(empty)" for word in allowed))


def _range(part: Part, column: str, *, low: float, high: float) -> Faults:
    value = getattr(part, column)
    if not low <= value <= high:
        limit = f"{plain_number(low)} to {plain_number(high)}"
        yield Fault(column, f"{plain_number(value)} is out of range.", limit)


def _rising(part: Part, *columns: str) -> Faults:
    for below, above in pairwise(columns):
        low, high = getattr(part, below), getattr(part, above)
        if low > high:
            text = f"{plain_number(low)} is above {above}, {plain_number(high)}."
            yield Fault(below, text, f"{below} <= {above}")


def _ranges(part: Part, limits: Mapping[str, tuple[float, float]]) -> Faults:
    for column, (low, high) in limits.items():
        yield from _range(part, column, low=low, high=high)


def _led(led: Led) -> Faults:
    yield from _word(led, "colour", COLOURS)
    yield from _ranges(led, {
        "vf_min_v": (1.0, 6.0), "vf_v": (1.0, 6.0), "vf_max_v": (1.0, 6.0), "test_current_a": (0.5e-3, 2.0),
        "slope_ohm": (0.05, 200.0), "vf_temperature_v_per_k": (-0.006, 0.0), "intensity_cd": (0.0, 100.0),
        "intensity_current_a": (0.5e-3, 2.0), "radiant_power_w": (0.0, 2.0), "full_angle_deg": (5.0, 179.0),
        "max_current_a": (1e-3, 3.0), "body_mm": (1.0, 20.0), "tip_mm": (0.0, 20.0),
    })  # fmt: skip
    yield from _rising(led, "vf_min_v", "vf_v", "vf_max_v")
    yield from _rising(led, "intensity_min_cd", "intensity_cd")
    yield from _rising(led, "test_current_a", "max_current_a")
    if led.colour == "near-ultraviolet":
        yield from _range(led, "wavelength_nm", low=315, high=420)
        if led.radiant_power_w <= 0:
            yield Fault("radiant_power_w", "a near-ultraviolet LED needs its radiant power.", "above 0")
        return
    if led.colour == "white":
        yield from _range(led, "wavelength_nm", low=0, high=0)
    elif led.colour in COLOURS:
        yield from _range(led, "wavelength_nm", low=430, high=700)
    if led.intensity_cd <= 0:
        yield Fault("intensity_cd", "a visible LED needs its luminous intensity.", "above 0")


def _sink(sink: Sink) -> Faults:
    yield from _word(sink, "type", SINK_TYPES)
    yield from _ranges(sink, {
        "outputs": (1, 32), "max_voltage_v": (3.0, 200.0), "max_output_a": (1e-3, 200.0),
        "max_package_a": (0.0, 20.0), "theta_ja_k_per_w": (10.0, 500.0), "budget_w": (0.0, 10.0),
        "max_junction_c": (85.0, 175.0), "input_high_v": (1.0, 15.0),
    })  # fmt: skip
    yield from _rising(sink, "on_resistance_ohm", "on_resistance_worst_ohm")
    if (sink.type in ("mosfet", "power-register")) != (sink.on_resistance_ohm > 0):
        yield Fault("on_resistance_ohm", "only MOSFET and power-register outputs have one, and they must.")
    if sink.on_resistance_ohm > 0 and sink.gate_v <= 0:
        yield Fault("gate_v", "an on-resistance holds at a gate voltage; give it.", "above 0")
    if sink.on_resistance_ohm == 0 and not sink.drop_points:
        yield Fault("drop_points", "without an on-resistance at least one point is needed.")
    yield from _drop_points(sink)
    for column in ("input_pins", "output_pins"):
        yield from _pins(sink, column, getattr(sink, column), sink.outputs, may_be_empty=True)
    if {*sink.input_pins, *sink.output_pins} & {*sink.zero_pins, *sink.open_pins}:
        yield Fault("zero_pins", "one pin has two uses.")
    if sink.input_pins and not sink.zero_pins:
        yield Fault("zero_pins", "an array needs a pin that goes to 0 V.")
    yield from _free_pins(sink)


def _drop_points(sink: Sink) -> Faults:
    for current_a, typical_v, worst_v in sink.drop_points:
        if not 0 < typical_v <= worst_v or not 0 < current_a <= sink.max_output_a:
            at = plain_number(current_a * 1e3)
            yield Fault("drop_points", f"the point at {at} mA is not sound.", "0 < typical <= worst")
    for one, two in pairwise(sink.drop_points):
        if any(later <= earlier for earlier, later in zip(one, two, strict=True)):
            yield Fault("drop_points", "the points do not rise in current and voltage.")


def _pins(part: Part, column: str, pins: tuple[int, ...], count: int, *, may_be_empty: bool) -> Faults:
    if not pins and may_be_empty:
        return
    if len(pins) != count:
        yield Fault(column, f"{len(pins)} pins for {count} outputs.")
    if len(set(pins)) != len(pins) or min(pins, default=1) < 1:
        yield Fault(column, f"the pins of {part.id} are not different numbers from 1 up.")


def _free_pins(part: Sink | ShiftRegister) -> Faults:
    if bool(part.open_pins) != bool(part.open_why):
        yield Fault("open_why", "pins that stay free come with the reason, and the reason with pins.")


def _register(register: ShiftRegister) -> Faults:
    yield from _ranges(register, {
        "outputs": (4, 32), "supply_min_v": (1.0, 15.0), "supply_max_v": (1.0, 15.0),
        "input_high_share": (0.0, 1.0), "input_high_v": (0.0, 10.0), "max_output_a": (1e-3, 1.0),
        "max_package_a": (0.0, 5.0), "drive_a": (1e-3, 1.0), "output_drop_v": (0.01, 2.0),
    })  # fmt: skip
    yield from _rising(register, "supply_min_v", "supply_max_v")
    yield from _rising(register, "drive_a", "max_output_a")
    if (register.input_high_share > 0) == (register.input_high_v > 0):
        yield Fault("input_high_share", "give the level of a 1 either as a share or as a voltage, not both.")
    if len(set(register.output_names)) != register.outputs:
        yield Fault("output_names", f"{register.outputs} different names are needed.")
    yield from _pins(register, "output_pins", register.output_pins, register.outputs, may_be_empty=False)
    others = (register.serial_out_pin, register.data_pin, register.clock_pin, register.latch_pin,
              register.enable_pin, register.clear_pin, register.supply_pin, register.setting_pin)  # fmt: skip
    used = [pin for pin in (*others, *register.output_pins, *register.zero_pins, *register.open_pins) if pin]
    if len(set(used)) != len(used):
        yield Fault("output_pins", "one pin has two uses.")
    if register.supply_pin < 1 or not register.zero_pins:
        yield Fault("supply_pin", "a register needs a pin for its supply and one for 0 V.")
    yield from _free_pins(register)


def _wire(wire: Wire) -> Faults:
    yield from _ranges(wire, {
        "cores": (1, 100), "area_mm2": (0.01, 50.0), "resistance_ohm_per_m": (1e-4, 2.0),
        "max_current_a": (0.01, 100.0),
    })  # fmt: skip
    ideal_ohm_per_m = 0.017241 / wire.area_mm2 if wire.area_mm2 > 0 else 0.0  # IEC 60028, annealed copper
    if ideal_ohm_per_m and not 0.99 <= wire.resistance_ohm_per_m / ideal_ohm_per_m <= 1.25:
        text = f"copper of {plain_number(wire.area_mm2)} mm2 has {plain_number(ideal_ohm_per_m)} ohm/m."
        yield Fault("resistance_ohm_per_m", text, "up to a quarter above that")
    if len(set(wire.colours)) != wire.cores:
        yield Fault("colours", f"{len(set(wire.colours))} different colours for {wire.cores} cores.")


def _sheet(sheet: Sheet) -> Faults:
    yield from _word(sheet, "role", ROLES)
    yield from _word(sheet, "caution", CAUTIONS)
    least = 0.0 if sheet.role == "lining" else 50.0
    yield from _ranges(sheet, {
        "thickness_mm": (0.01, 50.0), "width_mm": (least, 4000.0), "height_mm": (least, 50000.0),
        "reflectance": (0.0, 1.0), "transmittance": (0.0, 1.0), "min_web_mm": (0.0, 50.0),
        "density_kg_m3": (10.0, 9000.0), "expansion_per_k": (0.0, 3e-4),
    })  # fmt: skip
    if sheet.reflectance + sheet.transmittance > 1:
        yield Fault(
            "transmittance", "reflectance and transmittance make more than all the light.", "sum <= 1"
        )
    if sheet.opaque and sheet.transmittance > 0:
        yield Fault("opaque", "an opaque sheet lets no light through.", "transmittance 0")
    for tool in sheet.tools:
        if tool not in TOOLS:
            yield Fault("tools", f'"{tool}" is not known.', ", ".join(TOOLS))
    if sheet.caution == "no-laser" and "laser" in sheet.tools:
        yield Fault("tools", "a material with the caution no-laser cannot list the laser.")
    if (sheet.role == "fluorescent") != (sheet.emission_nm > 0):
        yield Fault("emission_nm", "a fluorescent sheet has a peak of emission, and no other has.")


def _network(network: ResistorNetwork) -> Faults:
    yield from _word(network, "circuit", CIRCUITS)
    yield from _ranges(network, {
        "pins": (3, 20), "package_w": (0.05, 5.0), "element_w": (0.02, 2.0), "tolerance": (0.0001, 0.2),
    })  # fmt: skip
    expected = {"bussed": network.pins - 1, "isolated": network.pins / 2}.get(network.circuit)
    if expected is not None and network.resistors != expected:
        text = f"{network.resistors} resistors on {network.pins} pins, {network.circuit}."
        yield Fault("resistors", text, "pins - 1 bussed, pins / 2 isolated")


def _supply(supply: Supply) -> Faults:
    yield from _word(supply, "type", SUPPLY_TYPES)
    yield from _ranges(supply, {
        "min_v": (1.0, 60.0), "max_v": (1.0, 60.0), "max_current_a": (0.0, 50.0), "capacity_ah": (0.0, 500.0),
    })  # fmt: skip
    yield from _rising(supply, "min_v", "nominal_v", "max_v")
    if supply.type == "mains-adapter" and (supply.max_current_a <= 0 or supply.capacity_ah):
        yield Fault("max_current_a", "a mains adapter has a current and no capacity.", "above 0")
    if supply.type != "mains-adapter" and supply.capacity_ah <= 0:
        yield Fault("capacity_ah", "a battery needs its capacity.", "above 0")


_RULES: Mapping[type[Part], Callable[[Any], Faults]] = {
    Led: _led,
    Sink: _sink,
    ShiftRegister: _register,
    Wire: _wire,
    Sheet: _sheet,
    ResistorNetwork: _network,
    Supply: _supply,
}
