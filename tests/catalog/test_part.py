"""The figures of the rows against published ones, and against physics."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import FrozenInstanceError, fields
from typing import Any

import pytest

from segkit.catalog import reader
from segkit.catalog.columns import column_types
from segkit.sources import bibliography

ALPHA_COPPER_PER_K = 0.00393  # IEC 60028, at 20 °C
FEET_IN_KM = 1000 / 0.3048


def _point(inputs: str, place: int) -> float:
    id_, current_a = inputs.split()
    (found,) = (point for point in reader.sink(id_).drop_points if point[0] == float(current_a))
    return found[place]


def _input_high_v(inputs: str) -> float:
    id_, supply_v = inputs.split()
    register = reader.register(id_)
    return register.input_high_v or register.input_high_share * float(supply_v)


def _ohm_per_km(id_: str) -> float:
    return reader.wire(id_).resistance_ohm_per_m * 1e3


COMPUTED: Mapping[str, Callable[[str], float]] = {
    "drop.typical_v": lambda inputs: _point(inputs, 1),
    "drop.worst_v": lambda inputs: _point(inputs, 2),
    "input.high_v": _input_high_v,
    "wires.ohm_per_km": _ohm_per_km,
    "wires.ohm_per_kft": lambda id_: _ohm_per_km(id_) * 1e3 / FEET_IN_KM,
    "wires.ohm_per_km_75c": lambda id_: _ohm_per_km(id_) * (1 + ALPHA_COPPER_PER_K * 55),
}


def _ours(what: str, inputs: str) -> float:
    if what in COMPUTED:
        return COMPUTED[what](inputs)
    kind, field = what.split(".")
    return float(getattr(reader.part(kind, inputs), field))


def test_published_figures(published: Callable[[str], list[dict[str, str]]]) -> None:
    checked = 0
    for row in published("catalog"):
        ours, printed = _ours(row["what"], row["inputs"]), float(row["published"])
        assert ours == pytest.approx(printed, abs=float(row["tolerance"]) + 1e-9), (
            f"{row['what']} of {row['inputs']}: ours {ours}, printed {printed} "
            f"({row['source']}, {row['place']}; {row['remark']})"
        )
        assert row["source"] in bibliography()
        checked += 1
    assert checked > 100


@pytest.mark.parametrize("gauge", [16, 18, 20, 22, 24, 26])
def test_wire_gauges_follow_the_standards(gauge: int) -> None:
    # ASTM B258: diameter 0.127 mm x 92^((36 - n)/39); IEC 60028: 0.017241 ohm mm2/m at 20 °C.
    area_mm2 = math.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2
    wire = reader.wire(f"hook-up-awg-{gauge}")
    assert wire.area_mm2 == pytest.approx(area_mm2, rel=5e-4)
    assert wire.resistance_ohm_per_m == pytest.approx(0.017241 / area_mm2, rel=5e-5)


def test_network_cable_is_above_ideal_copper_by_the_known_share() -> None:
    # TIA-568 allows 9.38 ohm per 100 m: 11.4 % above ideal 24 AWG.
    cable, ideal = reader.wire("cat5e"), reader.wire("hook-up-awg-24")
    assert cable.resistance_ohm_per_m / ideal.resistance_ohm_per_m == pytest.approx(1.114, abs=5e-4)


def test_network_cable_colours_are_four_pairs_with_the_common_first() -> None:
    common, *signals = reader.wire("cat5e").colours
    pairs = [
        ("brown", "white-brown"),
        ("blue", "white-blue"),
        ("orange", "white-orange"),
        ("green", "white-green"),
    ]
    assert common == "brown"
    assert len(signals) == 7  # one common and seven segments: common practice for an eight-core cable
    assert {common, *signals} == {colour for pair in pairs for colour in pair}  # TIA-568 pair colours
    ours = [common, *signals]
    assert {frozenset(ours[place : place + 2]) for place in (0, 2, 4, 6)} == {
        frozenset(pair) for pair in pairs
    }


def test_sink_array_pins_face_each_other() -> None:
    # ULN2803A: input n faces output 19 - n; ULN2003A: output 17 - n.
    for id_, facing in (("darlington-sink-8", 19), ("darlington-sink-7", 17)):
        sink = reader.sink(id_)
        assert [a + b for a, b in zip(sink.input_pins, sink.output_pins, strict=True)] == [
            facing
        ] * sink.outputs
        assert sink.inverts


def test_register_pins_are_the_data_sheets() -> None:
    # 74HC595: QA 15, QB to QH 1 to 7, QH' 9, SRCLR 10, SRCLK 11, RCLK 12, OE 13, SER 14.
    for id_ in ("hc595", "hct595"):
        r = reader.register(id_)
        assert dict(zip(r.output_names, r.output_pins, strict=True)) == {
            "QA": 15, "QB": 1, "QC": 2, "QD": 3, "QE": 4, "QF": 5, "QG": 6, "QH": 7,
        }  # fmt: skip
        pins = (r.serial_out_pin, r.clear_pin, r.clock_pin, r.latch_pin, r.enable_pin, r.data_pin)
        assert pins == (9, 10, 11, 12, 13, 14)
        assert reader.sink(f"register-direct-{id_}").output_pins == r.output_pins
    # TPIC6B595: drains 4 to 7 and 14 to 17, SER IN 3, SRCLR 8, G 9, RCK 12, SRCK 13, SER OUT 18.
    power = reader.register("power-register-8")
    assert power.output_pins == (4, 5, 6, 7, 14, 15, 16, 17) == reader.sink("power-register-8").output_pins
    pins = (
        power.data_pin,
        power.clear_pin,
        power.enable_pin,
        power.latch_pin,
        power.clock_pin,
        power.serial_out_pin,
    )
    assert pins == (3, 8, 9, 12, 13, 18)


def test_two_makers_heat_budgets_are_both_kept() -> None:
    # 1.47 W at 25 °C with a junction of 150 °C is 85 K/W, against 55 K/W by the other maker.
    sink = reader.sink("darlington-sink-8")
    assert (150 - 25) / sink.budget_w == pytest.approx(85.0, abs=0.05)
    assert sink.theta_ja_k_per_w == 55


def test_a_register_pin_allows_more_than_its_share_of_the_chip() -> None:
    # 70 mA over eight outputs is 8.75 mA each, against 35 mA for one pin.
    register = reader.register("hc595")
    assert register.max_package_a / register.outputs == pytest.approx(8.75e-3)
    assert register.max_output_a > register.max_package_a / register.outputs


def test_5_v_register_does_not_take_3_3_v_signals_unless_hct() -> None:
    # 0.7 x 5 V = 3.5 V, though the tables print 3.15 V at 4.5 V.
    assert reader.register("hc595").input_high_share * 5 == pytest.approx(3.5)
    assert reader.register("hct595").input_high_v < 3.3


def test_led_flux_is_possible() -> None:
    """Lumens from intensity and beam (2 pi I / (m + 1)) stay below what the electrical power could give."""
    ceiling_lm_per_w = {"red": 75, "amber": 100, "green": 180, "blue": 60, "white": 200}
    # Luminous efficacy of the radiation (IEC 60050-845: 683 lm/W times V) times at most about 0.5 wall-plug.
    for led in reader.leds().values():
        if led.radiant_power_w:
            assert led.radiant_power_w < 0.6 * led.vf_v * led.test_current_a
            continue
        exponent = -math.log(2) / math.log(math.cos(math.radians(led.full_angle_deg / 2)))
        flux_lm = 2 * math.pi * led.intensity_cd / (exponent + 1)
        limit_lm = ceiling_lm_per_w[led.colour] * led.vf_v * led.intensity_current_a
        assert 0 < flux_lm < limit_lm, led.id


def test_every_row_says_where_it_is_from() -> None:
    for kind in reader.KINDS:
        for part in reader.rows(kind).values():
            source = bibliography()[part.source]
            # A row from memory never cites a data sheet as if it had been read, and the other way round.
            if part.knowledge in ("datasheet", "standard", "handbook"):
                assert source.kind == part.knowledge, part.id
            if source.kind == "from memory":
                assert part.knowledge == "from memory", part.id


def test_laser_cautions() -> None:
    # Chlorine from PVC and fire with polycarbonate: common practice of laser workshops.
    for sheet in reader.sheets().values():
        harmful = "PVC" in sheet.material or "polycarbonate" in sheet.material
        assert (sheet.caution == "no-laser") is harmful, sheet.id
        assert not (harmful and "laser" in sheet.tools), sheet.id


def test_demo_designs_find_their_parts() -> None:
    wanted = {
        "leds": "red-5mm-diffused white-5mm-wide uv-400-5mm",
        "drivers": "darlington-sink-8 logic-mosfet mosfet-2v5 power-register-8",
        "registers": "hc595 hct595 power-register-8",
        "wires": "cat5e bell-wire",
        "sheets": "foam-board-5mm black-foam-board-5mm plywood-4mm mdf-6mm opal-acrylic-3mm fluorescent-green-3mm",
    }
    for kind, ids in wanted.items():
        for id_ in ids.split():
            assert reader.part(kind, id_).id == id_


def test_records_are_frozen_and_hold_only_figures_of_the_file() -> None:
    for kind, entry in reader.KINDS.items():
        first: Any = next(iter(reader.rows(kind).values()))
        in_file = {field.name for field in fields(first) if field.metadata.get("column", True)}
        assert in_file == set(column_types(entry.record_type))
        with pytest.raises(FrozenInstanceError):
            first.name = "other"
