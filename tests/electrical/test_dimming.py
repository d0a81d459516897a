import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.electrical.dimming import dimming, lightness, share_of
from segkit.errors import InputError
from segkit.working import evaluate


def test_published_lightness(rows, agrees):
    for row in rows("lightness"):
        agrees(row, lightness(row["given"]["Y"]))


@given(st.floats(0, 1))
def test_lightness_goes_back_and_forth(share):
    assert share_of(lightness(share)) == pytest.approx(share, abs=1e-9)


def test_levels_are_equal_steps_to_the_eye():
    made = dimming(levels=8, bits=12)
    assert [level.lightness for level in made.levels] == pytest.approx([12.5 * k for k in range(1, 9)])
    assert all(abs(level.got - level.lightness) < 0.4 for level in made.levels)
    assert made.levels[-1].count == 4095
    assert made.levels[3].share == pytest.approx(0.184187, abs=1e-6)  # half lightness is 18 % of the light


@given(st.integers(2, 32), st.integers(4, 16), st.floats(0.001, 1))
def test_the_bits_named_would_do(levels, bits, night):
    needed = dimming(levels=levels, bits=bits, night_share=night).bits_needed
    if not 4 <= needed <= 16:
        return
    made = dimming(levels=levels, bits=needed, night_share=night)
    assert all(abs(one.count / (2**needed - 1) / one.share - 1) <= 0.1 + 1e-9 for one in made.levels)
    assert not any(one.code in ("dimming-too-coarse", "night-level-lost") for one in made.findings)
    assert made.night_count / (2**needed - 1) <= night


def test_a_night_level_below_one_count_is_told():
    (lost,) = [f for f in dimming(bits=6, night_share=0.01).findings if f.code == "night-level-lost"]
    assert (lost.level, lost.value) == ("caution", 6)
    again = dimming(bits=int(lost.limit), night_share=0.01)
    assert again.night_count > 0
    assert not any(f.code == "night-level-lost" for f in again.findings)


def test_a_dark_board_at_night_needs_no_bits():
    assert not any("night" in f.code for f in dimming(night_share=0.0).findings)


def test_few_bits_make_levels_the_same():
    (coarse,) = [f for f in dimming(levels=32, bits=6).findings if f.code == "dimming-too-coarse"]
    assert "come out the same" in coarse.text
    assert coarse.limit == dimming(levels=32, bits=6).bits_needed


def test_short_pulses_and_fast_timers_are_told():
    codes = {f.code for f in dimming(bits=12, frequency_hz=20_000, levels=16).findings}
    assert {"pulse-too-short", "timer-clock"} <= codes
    made = dimming(frequency_hz=6000)
    assert not made.findings
    assert made.timer_hz == 6000 * 1024


def test_slow_dimming_flickers_and_bands_on_film():
    """490 cycles a second: half a cycle in 1/1000 s, eight bands in a frame."""
    codes = [f.code for f in dimming(frequency_hz=490).findings]
    assert codes == ["flicker", "bands-on-film"]


def test_each_formula_gives_its_value():
    for made in (dimming(levels=4, bits=8, night_share=0.05), dimming(levels=16, bits=10)):
        for line in made.lines:
            ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs})
            assert ours == pytest.approx(line.value, rel=1e-6), line.name


def test_unusable_values_come_together():
    with pytest.raises(InputError) as caught:
        dimming(levels=1, bits=20, frequency_hz=1, night_share=2)
    assert len(caught.value.problems) == 4
    for bad in (-0.1, 1.1, math.nan):
        with pytest.raises(InputError):
            lightness(bad)
    with pytest.raises(InputError):
        share_of(101)
