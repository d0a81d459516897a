import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.bus import supply_bus, unequal_cables
from segkit.electrical.cable import EVEN_SHARE
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.wire_size import wire_of
from segkit.errors import InputError
from segkit.working import evaluate

THIN = reader.wire("hook-up-awg-26")


def bus(wire=THIN, *, count=6, pitch_m=0.5, each_a=0.28, headroom_v=3.0, **changes):
    places = [n * pitch_m for n in range(count)]
    return supply_bus(wire, places_m=places, digits_a=[each_a] * count, headroom_v=headroom_v, **changes)


def formulas_hold(found):
    for line in found.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)


def ladder(ohm, conductances, volts):
    """Voltage at the last of some loads on a ladder of equal resistances, solved from the far end."""
    far_v, current_a = 1.0, 0.0
    for conductance in reversed(conductances[1:]):
        current_a += conductance * far_v
        far_v += ohm * current_a
    return volts / far_v


def test_the_drop_is_the_sum_over_the_stretches():
    ohm = THIN.resistance_ohm_per_m
    assert bus().drop_v == pytest.approx(2 * ohm * 0.5 * 0.28 * (5 + 4 + 3 + 2 + 1))
    assert bus(feed="right").drop_v == pytest.approx(bus().drop_v)
    assert bus(feed="middle", count=7).drop_v == pytest.approx(2 * ohm * 0.5 * 0.28 * (3 + 2 + 1))
    formulas_hold(bus())


@given(st.integers(2, 10), st.floats(0.05, 1.0), st.floats(1.0, 8.0), st.floats(0.02, 0.4))
def test_the_solved_ladder_is_no_darker_than_we_say(count, pitch_m, headroom_v, each_a):
    # An independent way: resistors on a ladder, the LEDs' voltage fixed. Ours overstates the difference.
    found = bus(count=count, pitch_m=pitch_m, headroom_v=headroom_v, each_a=each_a)
    hop_ohm = 2 * THIN.resistance_ohm_per_m * pitch_m
    solved = ladder(hop_ohm, [each_a / headroom_v] * count, headroom_v) / headroom_v
    assert found.share <= solved * (1 + 1e-9)
    if found.share > EVEN_SHARE:
        assert found.share == pytest.approx(solved, abs=0.01)


def test_the_cure_cures():
    finding = next(f for f in bus().findings if f.code == "far-digit-dim")
    awg = int(finding.remedy.split("both ")[1].split(" AWG")[0])
    assert bus(wire_of(f"{awg} AWG")).share >= EVEN_SHARE > bus(wire_of(f"{awg + 2} AWG")).share
    volts = float(finding.remedy.split("so that ")[1].split(" V")[0])
    assert bus(headroom_v=1.01 * volts).share >= EVEN_SHARE
    assert "middle" in finding.remedy
    assert "far-digit-dim" not in {f.code for f in bus(reader.wire("hook-up-2-5mm2")).findings}


def test_constant_current_sinks_keep_it_even():
    found = bus(steady=True)
    assert (found.share, found.findings) == (1.0, ())
    assert [line.name for line in found.lines] == ["electrical.bus_drop"]


def test_one_digit_has_no_far_one():
    assert bus(count=1).share == 1.0


def test_cables_of_unequal_length():
    even = unequal_cables(THIN, near_m=5, far_m=5, segment_a=0.04, digit_a=0.28, headroom_v=3)
    assert even.share == 1.0
    far = unequal_cables(THIN, near_m=5, far_m=18, segment_a=0.04, digit_a=0.28, headroom_v=3)
    ohm = THIN.resistance_ohm_per_m
    own = [
        3 / 0.04 + ohm * m * (1 + 7) for m in (5, 18)
    ]  # seven segments alike: each sees its core and 7 returns
    assert far.share == pytest.approx(own[0] / own[1])
    assert {f.code for f in far.findings} == {"far-digit-dim"}
    formulas_hold(far)


def test_a_thick_common_helps_the_far_digit():
    thin, thick = (
        unequal_cables(
            THIN, near_m=2, far_m=12, segment_a=0.04, digit_a=0.28, headroom_v=3, return_ohm_per_m=ohm
        )
        for ohm in (None, 0.01)
    )
    assert thick.share > thin.share
    assert math.isclose(thick.drop_v, 10 * (THIN.resistance_ohm_per_m * 0.04 + 0.01 * 0.28))


def test_what_are_no_digits_on_wires_is_refused():
    for bad in ({"headroom_v": 0}, {"each_a": 0}, {"pitch_m": -1.0}):
        with pytest.raises(InputError):
            bus(**bad)
    with pytest.raises(InputError):
        unequal_cables(THIN, near_m=5, far_m=4, segment_a=0.04, digit_a=0.28, headroom_v=3)
