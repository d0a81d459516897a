from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.cable import (
    EVEN_SHARE,
    awg_diameter_mm,
    awg_resistance_ohm_per_m,
    cable_run,
    supply_run,
    warm_ohm,
)
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.working import evaluate

CAT5E = reader.wire("cat5e")


def run(**changes):
    values = {"length_m": 30.0, "segment_a": 0.1, "headroom_v": 4.0, **changes}
    return cable_run(values.pop("wire", CAT5E), **values)


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


def test_drops_as_published(rows, agrees):
    for row in rows("cable volt"):
        g = row["given"]
        wire = replace(CAT5E, resistance_ohm_per_m=g["ohm_per_m"])
        found = run(
            wire=wire, length_m=g["length_m"], segment_a=g["segment_a"], segments=int(g["segments"]), fewest=1
        )
        agrees(row, found.return_drop_v)


def test_network_cable_is_eleven_percent_above_ideal_copper():
    assert CAT5E.resistance_ohm_per_m / awg_resistance_ohm_per_m(24) == pytest.approx(1.114, abs=0.001)


def test_shared_return_dims_the_eight_and_names_the_cure():
    found = run()
    finding = next(f for f in found.findings if f.code == "shared-return-drop")
    assert finding.level == "caution"
    assert f"{found.return_drop_v:.2f} V" in finding.text
    assert "AWG" in finding.remedy
    assert {f.code for f in found.findings} == {"shared-return-drop", "return-too-thin"}
    assert run(length_m=2.0, segment_a=0.02).findings == ()


def test_gauge_of_the_remedy_cures():
    found = run(length_m=15)
    finding = next(f for f in found.findings if f.code == "shared-return-drop")
    awg = int(finding.remedy.split("return ")[1].split(" AWG")[0])
    own = 4.0 / 0.1 + found.core_ohm  # only the return is changed, the segment wires stay

    def evenness(gauge: int) -> float:
        shared = awg_resistance_ohm_per_m(gauge) * 15
        return (own + 2 * shared) / (own + 7 * shared)

    assert evenness(awg) >= EVEN_SHARE > evenness(awg + 2)


def test_remedy_never_names_the_gauge_there_is():
    # network cable is 24 AWG with 11 % more resistance: ideal 24 AWG would just do here, and is no remedy
    for length_m in (2.0, 4.0, 6.0, 8.0, 10.0, 15.0, 20.0):
        for finding in run(length_m=length_m, segment_a=0.06, headroom_v=3.3).findings:
            assert "24 AWG" not in finding.remedy


def test_voltage_of_the_remedy_cures_and_an_absurd_one_is_not_named():
    finding = next(f for f in run(length_m=15).findings if f.code == "shared-return-drop")
    volts = float(finding.remedy.split("so that ")[1].split(" V")[0])
    assert run(length_m=15, headroom_v=volts * 1.01).evenness > EVEN_SHARE > run(length_m=15).evenness
    assert not any("so that" in f.remedy for f in run(length_m=300, segment_a=0.3).findings)


def test_a_constant_current_sink_keeps_its_current_while_the_headroom_lasts():
    even = run(steady=True, segment_a=0.05, length_m=20.0)
    assert (even.evenness, even.findings) == (1.0, ())
    assert "electrical.evenness" not in {line.name for line in even.lines}
    finding = run(steady=True, headroom_v=2.0).findings[0]
    assert (finding.code, finding.value) == ("cable-takes-headroom", 2.251)  # 8 x 0.1 A x 2.814 ohm
    assert run(steady=True, headroom_v=2.3).findings[0].code == "return-too-thin"


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


def test_no_gauge_cures_an_absurd_length():
    finding = next(f for f in run(length_m=5000.0).findings if f.code == "shared-return-drop")
    assert "much shorter" in finding.remedy


@given(st.floats(0, 100), st.floats(0.005, 0.3), st.floats(0.5, 10))
def test_lines_and_bounds(length_m, segment_a, headroom_v):
    found = run(length_m=length_m, segment_a=segment_a, headroom_v=headroom_v, temperature_c=40.0)
    assert 0 < found.evenness <= 1
    assert found.return_drop_v == pytest.approx(7 * found.segment_drop_v)
    # the evenness is the ratio of the two loop currents
    own = headroom_v / segment_a
    loop = [headroom_v / (own + found.core_ohm * (1 + lit)) for lit in (7, 2)]
    assert found.evenness == pytest.approx(loop[0] / loop[1])
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_unusable_run():
    with pytest.raises(InputError, match="do not describe"):
        run(segment_a=0.0)
