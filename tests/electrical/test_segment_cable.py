from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.cable import EVEN_SHARE, awg_resistance_ohm_per_m
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.segment_cable import OnCable, cable_run, too_few_cores_findings
from segkit.errors import InputError
from segkit.working import evaluate

CAT5E = reader.wire("cat5e")


def run(digit=None, *, segment_a=0.1, segments=7, fewest=2, wire=CAT5E, **changes):
    digit = digit or (OnCable("upright", segments, segment_a, in_one=fewest),)
    return cable_run(wire, digit, **{"length_m": 30.0, "headroom_v": 4.0, **changes})


def agrees_with_their_formulas(found):
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_drops_as_published(rows, agrees):
    for row in rows("cable volt"):
        g = row["given"]
        wire = replace(CAT5E, resistance_ohm_per_m=g["ohm_per_m"])
        found = run(
            wire=wire, length_m=g["length_m"], segment_a=g["segment_a"], segments=int(g["segments"]), fewest=1
        )
        agrees(row, found.return_drop_v)


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
    agrees_with_their_formulas(found)


def test_unusable_run():
    with pytest.raises(InputError, match="do not describe"):
        run(segment_a=0.0)


def solved_by_nodes(digit, lit, *, core_ohm, headroom_v):
    """Currents by the node equation of the return, found by bisection: nothing of the module is used."""
    low_v, high_v = 0.0, headroom_v
    for _ in range(200):
        return_v = (low_v + high_v) / 2
        each = [(headroom_v - return_v) / (headroom_v / kind.current_a + core_ohm) for kind in digit]
        through_a = sum(number * one for number, one in zip(lit, each, strict=True))
        low_v, high_v = (return_v, high_v) if through_a * core_ohm > return_v else (low_v, return_v)
    return each


def test_kinds_of_different_current_by_the_node_equation():
    digit = (OnCable("crossbar", 3, 0.09), OnCable("upright", 4, 0.04, in_one=2), OnCable("point", 1, 0.01))
    found = run(digit, length_m=12.0)
    assert found.return_a == pytest.approx(3 * 0.09 + 4 * 0.04 + 0.01)  # 0.44 A, not 8 x 0.09 = 0.72 A
    assert found.return_drop_v == pytest.approx(0.44 * 12 * CAT5E.resistance_ohm_per_m)
    full = solved_by_nodes(digit, (3, 4, 1), core_ohm=found.core_ohm, headroom_v=4.0)
    one = solved_by_nodes(digit, (0, 2, 0), core_ohm=found.core_ohm, headroom_v=4.0)
    for many, few in zip(full, one, strict=True):
        assert found.evenness == pytest.approx(many / few, rel=1e-6)
    line = next(line for line in found.lines if line.name == "electrical.return_current")
    assert line.formula == "n1*I1 + n2*I2 + n3*I3"
    agrees_with_their_formulas(found)


def test_a_cable_needs_a_core_for_each_segment_and_the_common():
    assert too_few_cores_findings(CAT5E, 7) == ()
    (finding,) = too_few_cores_findings(CAT5E, 8)
    assert (finding.level, finding.code, finding.value, finding.limit) == ("stop", "too-few-cores", 8, 9)
    assert finding.holds == ()
    assert "needs 9 cores" in finding.text
    assert "9 or more cores" in finding.remedy
    (single,) = too_few_cores_findings(reader.wire("hook-up-awg-24"), 1)
    assert "the cable has 1 core." in single.text
