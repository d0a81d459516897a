import pytest

from segkit.electrical.preferred import WORKSHEET_FUNCTIONS, nearest
from segkit.electrical.signal_run import ground_findings, signal_run
from segkit.errors import InputError
from segkit.working import evaluate


def codes(found):
    return {finding.code: finding for finding in found}


def test_lengths_and_times_as_published(rows, agrees):
    for row in rows("signal critical_m"):
        agrees(row, signal_run(length_m=1, bits=8, edge_s=1e-9 * row["given"]["edge_ns"]).critical_m)
    for row in rows("signal shift_ms"):
        g = row["given"]
        agrees(
            row, 1000 * signal_run(length_m=1, bits=8 * int(g["registers"]), clock_hz=g["clock_hz"]).shift_s
        )
    for row in rows("signal resistor_ohm"):
        ohm = row["given"]["impedance_ohm"]
        agrees(row, signal_run(length_m=1, bits=8, impedance_ohm=ohm).resistor_ohm)
        assert signal_run(length_m=1, bits=8, impedance_ohm=ohm, series="E12").resistor_ohm == 56


def test_a_short_wire_needs_nothing_a_long_one_more_and_more():
    assert signal_run(length_m=0.15, bits=8).findings == ()
    note = codes(signal_run(length_m=0.6, bits=8).findings)["signal-edge"]
    assert note.level == "note"
    assert "Schmitt" not in note.remedy
    assert "Schmitt" in codes(signal_run(length_m=3, bits=8).findings)["signal-edge"].remedy
    far = codes(signal_run(length_m=12, bits=320).findings)["signal-too-long"]
    assert far.level == "caution"
    assert "differential" in far.remedy


def test_slowing_the_clock_is_no_cure():
    for clock_hz in (500.0, 125e3, 1e6):
        far = codes(signal_run(length_m=20, bits=80, clock_hz=clock_hz).findings)
        assert "does not help" in far["signal-too-long"].text


def test_a_clock_that_the_wires_swallow():
    found = signal_run(length_m=5, bits=8, clock_hz=20e6)
    fast = codes(found.findings)["clock-too-fast"]
    assert fast.limit < 20e6
    assert "clock-too-fast" not in codes(
        signal_run(length_m=5, bits=8, clock_hz=0.99 * found.fastest_hz).findings
    )


def test_the_resistor_and_the_output_make_the_impedance():
    found = signal_run(length_m=1, bits=8, impedance_ohm=120)
    assert found.resistor_ohm == nearest(79)


def test_each_formula_gives_its_value():
    for line in signal_run(length_m=7, bits=48, clock_hz=2e5, series="E12").lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def test_ground_that_is_lifted():
    about = {"needed_v": 3.5, "register": "register", "source": "register-hc595"}
    assert ground_findings(shift_v=1.0, controller_v=5.0, **about) == ()
    (lifted,) = ground_findings(shift_v=1.6, controller_v=5.0, **about)
    assert (lifted.code, lifted.value, lifted.limit) == ("ground-shift", 3.4, 3.5)
    assert (
        ground_findings(shift_v=1.6, controller_v=3.3, **about) == ()
    )  # too low without the lift: another finding


def test_what_is_no_run_is_refused():
    with pytest.raises(InputError):
        signal_run(length_m=0, bits=8)
