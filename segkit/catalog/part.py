"""The kinds of things that can be bought, one frozen record each; the CSV files hold the rows."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Part:
    """What every catalogue row has.

    Attributes:
        id: catalogue id, lower case with hyphens, such as ``red-5mm-diffused``.
        name: what to ask for in a shop, no brand.
        source: key into ``sources.toml`` for the figures.
        knowledge: how the figures are known: ``datasheet``, ``standard``, ``handbook``,
            ``common practice`` or ``from memory``.
    """

    id: str
    name: str
    source: str
    knowledge: str


@dataclass(frozen=True)
class Led(Part):
    """A light-emitting diode.

    Attributes:
        colour: red, amber, green, blue, white or near-ultraviolet.
        wavelength_nm: dominant (near-ultraviolet: peak) wavelength; 0 for white.
        vf_v, vf_min_v, vf_max_v: forward voltage at ``test_current_a``: typical, lowest, highest bin.
        test_current_a: current of the forward-voltage figures.
        slope_ohm: slope of the forward voltage at the test current (for the corner calculation).
        vf_temperature_v_per_k: change of forward voltage with temperature, negative.
        intensity_cd, intensity_min_cd: luminous intensity on axis, typical and lowest; 0 if not stated.
        intensity_current_a: current of the intensity figures.
        radiant_power_w: radiant power at the test current, for near-ultraviolet; 0 if not stated.
        full_angle_deg: full angle at half intensity.
        max_current_a: highest continuous current.
        body_mm: diameter of the body (hole size before clearance).
        tip_mm: height of the tip above the board it is let into.
        junction_share: share of the slope at the test current that belongs to the junction, the rest being a
            resistance; common practice where nothing is known, from a fit where points of the curve are.
    """

    colour: str
    wavelength_nm: float
    vf_v: float
    vf_min_v: float
    vf_max_v: float
    test_current_a: float
    slope_ohm: float
    vf_temperature_v_per_k: float
    intensity_cd: float
    intensity_min_cd: float
    intensity_current_a: float
    radiant_power_w: float
    full_angle_deg: float
    max_current_a: float
    body_mm: float
    tip_mm: float
    junction_share: float = field(default=0.6, metadata={"column": False})


@dataclass(frozen=True)
class Sink(Part):
    """What switches the segment to ground.

    Attributes:
        type: ``darlington``, ``power-register``, ``mosfet``, ``constant-current`` or ``register``
            (a shift register's own outputs, nothing after it).
        outputs: outputs in a package.
        drop_points: (current_a, typical_v, worst_v) from the data sheet, rising in current.
        on_resistance_ohm, on_resistance_worst_ohm: for MOSFET and power-register outputs; 0 otherwise.
        gate_v: gate (or input) voltage at which the on-resistance holds; 0 if not a MOSFET.
        max_voltage_v: highest voltage on an output that is off.
        max_output_a: highest current of one output.
        max_package_a: highest current of all outputs together; 0 if only heat limits it.
        theta_ja_k_per_w: junction to air.
        budget_w: package power at 25 °C by the most cautious maker; 0 if not stated.
        max_junction_c: junction limit to design for.
        inverts: True if a 1 at its input pulls the output low, so that 1 = lit with the LEDs on the
            positive rail.
        input_high_v: input voltage that surely switches it on.
        input_pins, output_pins: pin numbers of channels 1, 2, ...; empty for single parts.
        zero_pins: pins that go to 0 V; empty for single parts and for a sink that is the register itself.
        open_pins: pins that stay free, with the reason in ``open_why``.
    """

    type: str
    outputs: int
    drop_points: tuple[tuple[float, float, float], ...]
    on_resistance_ohm: float
    on_resistance_worst_ohm: float
    gate_v: float
    max_voltage_v: float
    max_output_a: float
    max_package_a: float
    theta_ja_k_per_w: float
    budget_w: float
    max_junction_c: float
    inverts: bool
    input_high_v: float
    input_pins: tuple[int, ...]
    output_pins: tuple[int, ...]
    zero_pins: tuple[int, ...]
    open_pins: tuple[int, ...]
    open_why: str


@dataclass(frozen=True)
class ShiftRegister(Part):
    """A serial-in, parallel-out register with output latch.

    Attributes:
        outputs: outputs of one chip.
        output_names: QA, QB, ... in the order in which the bits move on.
        output_pins: pin numbers in the same order.
        serial_out_pin, data_pin, clock_pin, latch_pin, enable_pin, clear_pin: the other pins.
        supply_min_v, supply_max_v: supply range.
        input_high_share: lowest input voltage for a 1, as a share of the supply; 0 if absolute.
        input_high_v: the same as an absolute voltage; 0 if a share.
        max_output_a: absolute limit of one output.
        max_package_a: absolute limit through VCC or GND of one chip.
        drive_a: current of one output for which output voltages are specified.
        output_drop_v: voltage lost in an output at ``drive_a``.
        sinks: True if the outputs are open-drain sinks themselves (a power register).
        supply_pin: pin of the logic supply.
        zero_pins: all pins that go to 0 V.
        setting_pin: pin of the resistor that sets the current of the outputs; 0 for none.
        open_pins: pins that stay free, with the reason in ``open_why``.
    """

    outputs: int
    output_names: tuple[str, ...]
    output_pins: tuple[int, ...]
    serial_out_pin: int
    data_pin: int
    clock_pin: int
    latch_pin: int
    enable_pin: int
    clear_pin: int
    supply_min_v: float
    supply_max_v: float
    input_high_share: float
    input_high_v: float
    max_output_a: float
    max_package_a: float
    drive_a: float
    output_drop_v: float
    sinks: bool
    supply_pin: int
    zero_pins: tuple[int, ...]
    setting_pin: int
    open_pins: tuple[int, ...]
    open_why: str


@dataclass(frozen=True)
class Wire(Part):
    """A wire or a cable.

    Attributes:
        cores: number of conductors.
        area_mm2: cross-section of one.
        resistance_ohm_per_m: highest resistance of one conductor at 20 °C.
        max_current_a: current of one conductor to plan with.
        colours: core colours in order of use; the first is the common.
    """

    cores: int
    area_mm2: float
    resistance_ohm_per_m: float
    max_current_a: float
    colours: tuple[str, ...]


@dataclass(frozen=True)
class Sheet(Part):
    """A sheet material.

    Attributes:
        role: ``board`` (face, grid, back), ``diffuser``, ``front`` (tint over the whole face),
            ``fluorescent`` or ``lining``.
        material: short name, such as ``foam board``.
        thickness_mm, width_mm, height_mm: as sold.
        reflectance: diffuse reflectance of the side that faces the light or the reader.
        transmittance: diffuse transmittance; 0 for an opaque board.
        min_web_mm: narrowest web that survives cutting and handling.
        opaque: True if opaque enough to part two pockets without lining.
        tools: tools that cut it: ``knife``, ``laser``, ``router``, ``saw``.
        density_kg_m3: density.
        expansion_per_k: linear thermal expansion, 1/K.
        emission_nm: peak of the fluorescence; 0 if none.
        caution: key of a caution (``no-laser``, ``near-uv``); empty if none.
    """

    role: str
    material: str
    thickness_mm: float
    width_mm: float
    height_mm: float
    reflectance: float
    transmittance: float
    min_web_mm: float
    opaque: bool
    tools: tuple[str, ...]
    density_kg_m3: float
    expansion_per_k: float
    emission_nm: float
    caution: str


@dataclass(frozen=True)
class ResistorNetwork(Part):
    """Several equal resistors in one package.

    Attributes:
        circuit: ``bussed`` or ``isolated``.
        pins: number of pins.
        resistors: number of resistors.
        package_w: package power at 70 °C.
        element_w: power of one resistor at 70 °C.
        tolerance: as a share.
    """

    circuit: str
    pins: int
    resistors: int
    package_w: float
    element_w: float
    tolerance: float


@dataclass(frozen=True)
class Supply(Part):
    """A power source.

    Attributes:
        type: ``mains-adapter``, ``lead-acid``, ``lithium``, ``cells``.
        nominal_v, min_v, max_v: voltage: named, lowest and highest while in use.
        max_current_a: highest continuous current; 0 for a battery.
        capacity_ah: capacity; 0 for a mains adapter.
    """

    type: str
    nominal_v: float
    min_v: float
    max_v: float
    max_current_a: float
    capacity_ah: float
