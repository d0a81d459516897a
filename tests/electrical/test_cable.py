from dataclasses import replace

import pytest

from segkit.catalog import reader
from segkit.electrical.cable import (
    awg_diameter_mm,
    awg_resistance_ohm_per_m,
    supply_run,
    warm_ohm,
)
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.working import evaluate

CAT5E = reader.wire("cat5e")


def test_wire_gauges_as_published(rows, agrees):
    for row in rows("awg diameter_mm"):
        agrees(row, awg_diameter_mm(int(row["given"]["awg"])))
    for row in rows("awg ohm_per_km"):
        agrees(row, 1000 * awg_resistance_ohm_per_m(int(row["given"]["awg"])))
    for row in rows("awg ohm_per_kft"):
        agrees(row, 304.8 * awg_resistance_ohm_per_m(int(row["given"]["awg"])))
    for row in rows("awg warm ohm_per_km"):
        cold = 1000 * awg_resistance_ohm_per_m(int(row["given"]["awg"]))
        agrees(row, warm_ohm(cold, temperature_c=row["given"]["temperature_c"]))


def test_network_cable_is_eleven_percent_above_ideal_copper():
    assert CAT5E.resistance_ohm_per_m / awg_resistance_ohm_per_m(24) == pytest.approx(1.114, abs=0.001)


def test_two_supply_wires_lose_out_and_back():
    # 1 A over 10 m of 0.75 mm2 (26 ohm/km by IEC 60228 class 5): 2 x 1 x 10 x 0.026 = 0.52 V
    found = supply_run(
        reader.wire("hook-up-0-75mm2"), length_m=10.0, total_a=1.0, fewest_a=0.1, headroom_v=3.0
    )
    assert found.drop_v == pytest.approx(0.52)
    assert found.evenness == pytest.approx((3.0 + 0.052) / (3.0 + 0.52))
    (finding,) = found.findings
    assert finding.code == "supply-drop"
    assert "0.52 V" in finding.text
    assert "86 %" in finding.text  # rounded down: 90 % is never printed as below 90 %
    assert [line.symbol for line in found.lines] == ["Vw", "q"]
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_remedies_of_a_supply_cable_cure():
    values = {"length_m": 10.0, "total_a": 1.0, "fewest_a": 0.1, "headroom_v": 3.0}
    thin = reader.wire("hook-up-0-75mm2")
    (finding,) = supply_run(thin, **values).findings
    awg = int(finding.remedy.split("wires ")[1].split(" AWG")[0])
    thick = replace(thin, resistance_ohm_per_m=awg_resistance_ohm_per_m(awg))
    assert supply_run(thick, **values).findings == ()
    volts = float(finding.remedy.split("so that ")[1].split(" V")[0])
    assert supply_run(thin, **{**values, "headroom_v": volts * 1.01}).findings == ()


def test_supply_cable_of_a_constant_current_board():
    values = {"length_m": 10.0, "total_a": 1.0, "fewest_a": 0.1}
    wire = reader.wire("hook-up-0-75mm2")
    assert supply_run(wire, **values, headroom_v=0.6, steady=True).findings == ()
    (finding,) = supply_run(wire, **values, headroom_v=0.5, steady=True).findings
    assert finding.code == "cable-takes-headroom"
    with pytest.raises(InputError, match="do not describe"):
        supply_run(wire, length_m=10.0, total_a=0.1, fewest_a=1.0, headroom_v=1.0)
