from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.cable import (
    awg_diameter_mm,
    awg_resistance_ohm_per_m,
    cable_run,
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
    finding = next(f for f in run(length_m=15).findings if f.code == "shared-return-drop")
    awg = int(finding.remedy.split("return ")[1].split(" AWG")[0])
    thick = replace(CAT5E, resistance_ohm_per_m=awg_resistance_ohm_per_m(awg), max_current_a=5)
    assert run(length_m=15, wire=thick).findings == ()
    thin = replace(thick, resistance_ohm_per_m=awg_resistance_ohm_per_m(awg + 2))
    assert run(length_m=15, wire=thin).findings


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
