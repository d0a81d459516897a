"""The parts that a design names, as catalogue records: ids looked up, own values filled in."""

from __future__ import annotations

from dataclasses import dataclass, replace

from segkit import units
from segkit.catalog import reader as catalogue
from segkit.catalog.part import Led, Sheet, ShiftRegister, Sink, Supply, Wire
from segkit.design.led import OwnLed
from segkit.design.own_sheet import sheet_of
from segkit.design.schema import Design, Power
from segkit.electrical.common_drop import parse_drop
from segkit.electrical.converter import REGULATION
from segkit.electrical.driver import NO_DROP, Drop
from segkit.electrical.led_fit import parse_points, with_points
from segkit.electrical.source import supply_like
from segkit.electrical.wire_size import wire_of


@dataclass(frozen=True)
class Chosen:
    """Every part of a design.

    ``supply`` is what the LEDs get, ``source`` what the cable brings: another one only with a converter.
    ``common`` is lost between the supply and the segments.
    ``along`` is the wire along the digits. ``walls`` is opaque if either the lining or the grid itself is;
    ``reflector`` is the back inside a pocket, as the walls if the design names none. ``bare`` is a board of
    push-in bulbs: no pocket and no diffuser, so that of the sheets only ``face`` and ``front`` are there.
    """

    led: Led
    sink: Sink
    register: ShiftRegister
    wire: Wire
    along: Wire | None
    supply: Supply
    source: Supply
    common: Drop
    walls: Sheet
    diffuser: Sheet
    front: Sheet | None
    face: Sheet
    grid: Sheet
    back: Sheet
    reflector: Sheet
    bare: bool = False

    def sources(self) -> tuple[str, ...]:
        """Source keys of the rows."""
        box = () if self.bare else (self.walls, self.diffuser, self.grid, self.back, self.reflector)
        parts = (self.led, self.sink, self.register, self.wire, self.along, self.source, self.front,
                 self.face, *box)  # fmt: skip
        return tuple(part.source for part in parts if part is not None)


def chosen_parts(design: Design) -> Chosen:
    """The parts that ``design`` names.

    A driver that is a register itself (a power register, or the outputs of a register alone) is the register
    too, whatever ``power.register`` says.

    Raises:
        MissingPartError: an id that the catalogue does not have; the reader has checked them before.
    """
    pocket, power, make = design.pocket, design.power, design.make
    grid = sheet_of(make.grid)
    walls = sheet_of(pocket.walls)
    itself = power.driver.removeprefix("register-direct-")
    return Chosen(
        led=led_of(pocket.led),
        sink=catalogue.sink(power.driver),
        register=catalogue.register(itself if itself in catalogue.registers() else power.register_id),
        wire=wire_of(power.cable.kind),
        along=wire_of(power.cable.along) if power.cable.along else None,
        supply=board_supply_of(power),
        source=supply_of(power),
        common=parse_drop(power.common.drop) if power.common.drop else NO_DROP,
        walls=replace(walls, opaque=walls.opaque or grid.opaque),
        diffuser=sheet_of(pocket.diffuser),
        front=sheet_of(pocket.front) if pocket.front else None,
        face=sheet_of(make.face),
        grid=grid,
        back=sheet_of(make.back),
        reflector=sheet_of(pocket.reflector or pocket.walls),
        bare=make.construction == "string-bulbs",
    )


def led_of(led: str | OwnLed) -> Led:
    """A catalogue LED, or a record of the builder's own values."""
    if isinstance(led, str):
        return catalogue.led(led)
    own = Led(
        id="own-led",
        name=led.name,
        source="design-choice",
        knowledge="design choice",
        colour=led.colour,
        wavelength_nm=led.wavelength_nm,
        vf_v=led.vf_v,
        vf_min_v=led.vf_min_v or 0.9 * led.vf_v,
        vf_max_v=led.vf_max_v or 1.15 * led.vf_v,
        test_current_a=led.test_current_a,
        slope_ohm=0.1 * led.vf_v / led.test_current_a / 2,
        vf_temperature_v_per_k=-0.002,
        intensity_cd=led.intensity_cd,
        intensity_min_cd=0.0,
        intensity_current_a=led.test_current_a,
        radiant_power_w=led.radiant_power_w,
        full_angle_deg=led.full_angle_deg,
        max_current_a=led.max_current_a,
        body_mm=led.body_mm,
        tip_mm=led.tip_mm,
    )
    return with_points(own, parse_points(led.points)) if led.points else own


def board_supply_of(power: Power) -> Supply:
    """What feeds the LEDs: the supply, or the converter at the board that makes it."""
    made = supply_of(power)
    if power.converter.source_v is None:
        return made
    volts = power.supply_v
    return replace(
        made, id="converter", name=f"{units.plain_number(volts)} V from a step-down converter",
        nominal_v=volts, min_v=volts * (1 - REGULATION), max_v=volts * (1 + REGULATION), max_current_a=0.0,
    )  # fmt: skip


def supply_of(power: Power) -> Supply:
    """The supply with its range: as given, or as catalogue rows of that kind swing.

    A kind whose rows name another voltage swings in proportion. With a converter it is what feeds that.
    """
    volts = power.converter.source_v or power.supply_v
    made = supply_like(
        power.source, volts=volts, current_a=power.supply_current_a, capacity_ah=power.battery_ah
    )
    if power.supply_range is None:
        return made
    low, high = units.parse_range(power.supply_range, units.VOLTAGE)
    return replace(made, min_v=min(low, volts), max_v=max(high, volts))
