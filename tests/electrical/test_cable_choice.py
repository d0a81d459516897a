import pytest

from segkit.electrical.cable_choice import choice_findings, choice_of, thinnest, usual_wires
from segkit.electrical.wire_size import wire_of
from segkit.errors import InputError

RUN = {"length_m": 12.0, "current_a": 1.4, "supply_v": 12.0}


def choices(like=None, **changes):
    return tuple(choice_of(wire, **{**RUN, **changes}) for wire in usual_wires(like))


def test_what_two_wires_lose():
    # 0.5 mm2 flexible: 39 ohm/km by the standard, 24 m of it, 1.4 A.
    made = choice_of(wire_of("0.5 mm2"), **RUN)
    assert made.drop_v == pytest.approx(1.4 * 24 * 0.039)
    assert made.arrives_v == pytest.approx(12 - made.drop_v)


def test_gauge_out_and_back_as_computed_by_hand():
    # 24 AWG, 30 m, 0.3 A: 5.053 ohm out and back, 1.516 V.
    made = choice_of(wire_of("24 AWG"), length_m=30, current_a=0.3, supply_v=12)
    assert made.loop_ohm == pytest.approx(5.053, abs=0.001)
    assert made.drop_v == pytest.approx(1.516, abs=0.001)


def test_the_thinnest_that_does_is_the_first_that_does():
    best = thinnest(choices())
    assert best.wire.id == "1.5 mm2"
    thinner = [choice for choice in choices() if choice.wire.area_mm2 < best.wire.area_mm2]
    assert all(choice.verdict != "good" for choice in thinner)
    assert best.lost <= 0.05
    assert best.fuse_a >= 1.4 / 0.8
    assert thinnest(choices(length_m=3000.0)) is None


def test_gauges_are_answered_with_gauges():
    best = thinnest(choices(wire_of("20 AWG")))
    assert best.wire.id.endswith("AWG")
    assert best.wire.area_mm2 > 1.0


def test_findings_name_it():
    bad, best = choice_of(wire_of("0.5 mm2"), **RUN), thinnest(choices())
    found = {f.code: f for f in choice_findings(bad, best, current_a=1.4, or_else=", or else")}
    assert set(found) == {"cable-loss", "fuse-above-wire"}
    assert "1.5 mm2" in found["cable-loss"].remedy
    assert found["cable-loss"].remedy.endswith(", or else.")
    assert found["cable-loss"].limit == 0.6
    assert choice_findings(best, best, current_a=1.4) == ()
    thin = choice_of(wire_of("26 AWG"), length_m=0.5, current_a=1.0, supply_v=12)
    assert [f.code for f in choice_findings(thin, None, current_a=1.0)] == ["return-too-thin"]


def test_a_cable_that_would_take_it_all_is_a_stop():
    long = choice_of(wire_of("0.5 mm2"), length_m=300, current_a=1.4, supply_v=12)
    (stop, *_) = choice_findings(long, None, current_a=1.4)
    assert (stop.code, stop.level, stop.limit) == ("cable-takes-all", "stop", 12.0)


def test_what_is_no_run_is_refused():
    with pytest.raises(InputError):
        choice_of(wire_of("0.5 mm2"), length_m=0, current_a=1, supply_v=12)
