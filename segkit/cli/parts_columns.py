"""Which figures of a part ``segkit parts`` shows, under which words, in which units."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Column:
    """One column of the table of a kind.

    Attributes:
        heading: with the unit, if the cells do not carry it.
        cell: text of a part.
        right: set flush right.
    """

    heading: str
    cell: Callable[[Any], str]
    right: bool = True


def number(value: float, *, scale: float = 1.0) -> str:
    """A catalogue figure, times ``scale``, with four digits.

    Example:
        >>> number(0.02, scale=1e3)
        '20'
    """
    from segkit.units import plain_number

    return plain_number(value * scale, 4)


def _or_dash(value: float, *, scale: float = 1.0) -> str:
    return number(value, scale=scale) if value else "-"


def _amperes(value_a: float) -> str:
    from segkit.units import engineering

    return engineering(value_a, "A") if value_a else "-"


def _span(low: float, high: float) -> str:
    return f"{number(low)} to {number(high)}"


def _light(led: Any) -> str:
    if led.radiant_power_w:
        return f"{number(led.radiant_power_w, scale=1e3)} mW at {number(led.test_current_a, scale=1e3)} mA"
    return f"{number(led.intensity_cd, scale=1e3)} mcd at {number(led.intensity_current_a, scale=1e3)} mA"


def _drop(sink: Any) -> str:
    if sink.on_resistance_ohm:
        typical, worst = number(sink.on_resistance_ohm), number(sink.on_resistance_worst_ohm)
        gate = f" at {number(sink.gate_v)} V gate" if sink.type == "mosfet" else ""
        return f"{typical} / {worst} ohm{gate}"
    points = [point for point in sink.drop_points if point[0] <= 0.1] or sink.drop_points[:1]
    current_a, typical_v, worst_v = points[-1]
    return f"{number(typical_v)} / {number(worst_v)} V at {number(current_a, scale=1e3)} mA"


def _high_level(register: Any) -> str:
    if register.input_high_v:
        return f"{number(register.input_high_v)} V"
    return f"{number(register.input_high_share)} x supply"


def _size(sheet: Any) -> str:
    if not sheet.width_mm:
        return "-"
    return "x".join(number(side) for side in (sheet.width_mm, sheet.height_mm, sheet.thickness_mm))


COLUMNS: Mapping[str, tuple[Column, ...]] = {
    "leds": (
        Column("nm", lambda p: _or_dash(p.wavelength_nm)),
        Column("Vf V", lambda p: number(p.vf_v)),
        Column("lowest to highest", lambda p: _span(p.vf_min_v, p.vf_max_v)),
        Column("at mA", lambda p: number(p.test_current_a, scale=1e3)),
        Column("Light", _light),
        Column("Beam deg", lambda p: number(p.full_angle_deg)),
        Column("Max mA", lambda p: number(p.max_current_a, scale=1e3)),
    ),
    "drivers": (
        Column("Outputs", lambda p: str(p.outputs)),
        Column("Lost in one, typical / worst", _drop, right=False),
        Column("Max V", lambda p: number(p.max_voltage_v)),
        Column("Max each", lambda p: _amperes(p.max_output_a)),
        Column("Max all", lambda p: _amperes(p.max_package_a)),
    ),
    "registers": (
        Column("Outputs", lambda p: f"{p.outputs} {'open drain' if p.sinks else 'push-pull'}", right=False),
        Column("Supply V", lambda p: _span(p.supply_min_v, p.supply_max_v)),
        Column("A 1 from", _high_level),
        Column("Max each", lambda p: _amperes(p.max_output_a)),
        Column("Max all", lambda p: _amperes(p.max_package_a)),
        Column("Specified", lambda p: _amperes(p.drive_a)),
    ),
    "wires": (
        Column("Cores", lambda p: str(p.cores)),
        Column("mm2", lambda p: number(p.area_mm2)),
        Column("ohm/km", lambda p: number(p.resistance_ohm_per_m, scale=1e3)),
        Column("Max A", lambda p: number(p.max_current_a)),
        Column("Colours, common first", lambda p: " ".join(p.colours), right=False),
    ),
    "sheets": (
        Column("Role", lambda p: p.role, right=False),
        Column("Size mm", _size),
        Column("Reflects", lambda p: number(p.reflectance)),
        Column("Passes", lambda p: number(p.transmittance)),
        Column("Web mm", lambda p: number(p.min_web_mm)),
        Column("Cut with", lambda p: " ".join(p.tools) or "-", right=False),
    ),
    "networks": (
        Column("Circuit", lambda p: p.circuit, right=False),
        Column("Pins", lambda p: str(p.pins)),
        Column("Resistors", lambda p: str(p.resistors)),
        Column("Package W", lambda p: number(p.package_w)),
        Column("Each W", lambda p: number(p.element_w)),
        Column("Tolerance %", lambda p: number(p.tolerance, scale=100)),
    ),
    "supplies": (
        Column("Type", lambda p: p.type, right=False),
        Column("V", lambda p: number(p.nominal_v)),
        Column("lowest to highest", lambda p: _span(p.min_v, p.max_v)),
        Column("Max A", lambda p: _or_dash(p.max_current_a)),
        Column("Ah", lambda p: _or_dash(p.capacity_ah)),
    ),
}

#: Field to words, where the name alone does not say it.
LABELS: Mapping[str, str] = {
    "vf_v": "forward voltage, typical",
    "vf_min_v": "forward voltage, lowest",
    "vf_max_v": "forward voltage, highest",
    "test_current_a": "forward voltage stated at",
    "slope_ohm": "slope of the forward voltage",
    "vf_temperature_v_per_k": "forward voltage with temperature",
    "intensity_cd": "intensity, typical",
    "intensity_min_cd": "intensity, lowest",
    "intensity_current_a": "intensity stated at",
    "full_angle_deg": "full angle at half intensity",
    "max_current_a": "highest current",
    "body_mm": "diameter of the body",
    "tip_mm": "tip above the board",
    "drop_points": "voltage lost, typical and worst",
    "on_resistance_ohm": "on-resistance, typical",
    "on_resistance_worst_ohm": "on-resistance, worst",
    "gate_v": "on-resistance stated at gate voltage",
    "max_voltage_v": "highest voltage on an output",
    "max_output_a": "highest current of one output",
    "max_package_a": "highest current of the package",
    "theta_ja_k_per_w": "heating, junction to air",
    "budget_w": "heat of the package at 25 °C",
    "max_junction_c": "junction limit to design for",
    "inverts": "a 1 switches its output low",
    "input_high_v": "a 1 from",
    "input_high_share": "a 1 from, share of the supply",
    "drive_a": "current of the stated output voltage",
    "output_drop_v": "voltage lost at that current",
    "sinks": "outputs are open-drain sinks",
    "area_mm2": "cross-section of one core",
    "resistance_ohm_per_m": "highest resistance at 20 °C",
    "min_web_mm": "narrowest web to leave",
    "expansion_per_k": "thermal expansion",
    "emission_nm": "peak of the fluorescence",
    "package_w": "heat of the package at 70 °C",
    "element_w": "heat of one resistor at 70 °C",
    "knowledge": "how the figures are known",
}

#: Figures where 0 means that there is none, or that it is not stated.
NONE_IF_ZERO = frozenset({
    "wavelength_nm", "intensity_cd", "intensity_min_cd", "radiant_power_w", "on_resistance_ohm",
    "on_resistance_worst_ohm", "gate_v", "max_package_a", "budget_w", "clear_pin", "input_high_share",
    "input_high_v", "emission_nm", "width_mm", "height_mm", "max_current_a", "capacity_ah",
})  # fmt: skip


def figures(part: Any, units: Mapping[str, str]) -> list[tuple[str, str, str]]:
    """Every figure of a part as (words, value, unit), in the order of the catalogue file.

    Args:
        part: a catalogue record.
        units: column name to the unit in which the file writes it.
    """
    return [
        (_label(name), *_value(name, getattr(part, name), unit, type(part)))
        for name, unit in units.items()
        if name not in ("id", "name", "source")
    ]


def _label(name: str) -> str:
    from segkit.catalog.columns import ending_of

    return LABELS.get(name) or name.removesuffix(ending_of(name)).replace("_", " ")


def _value(name: str, value: Any, unit: str, record_type: type) -> tuple[str, str]:
    from segkit.catalog.columns import column_types, factors

    scale = [1 / float(factor) for factor in factors(name, unit, column_types(record_type)[name])]
    if (
        not value
        and not isinstance(value, bool)
        and (name in NONE_IF_ZERO or isinstance(value, (str, tuple)))
    ):
        return "-", ""
    match value:
        case bool():
            return ("yes" if value else "no"), ""
        case tuple() if len(scale) == 3:
            points = (
                " : ".join(number(v, scale=by) for v, by in zip(point, scale, strict=True)) for point in value
            )
            return ", ".join(points), unit.replace(":", " : ")
        case tuple():
            return " ".join(str(member) for member in value), ""
        case float():
            return number(value, scale=scale[0]), unit
        case _:
            return str(value), ""
