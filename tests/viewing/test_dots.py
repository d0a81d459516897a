from __future__ import annotations

import math

import pytest

from segkit.errors import InputError
from segkit.viewing.dots import Merging, merge_distance, merging
from segkit.working import evaluate


def test_the_rule_of_3438_pitches() -> None:
    # Common practice for display walls: pixels of p mm run together for 20/20 from 3438 p on, since the
    # tangent of one minute of arc is 1/3437.75. 10 mm: printed 34.4 m, ours 34.38 m.
    assert merge_distance(pitch_mm=10.0) == pytest.approx(34.38, abs=0.005)
    assert 1 / math.tan(math.radians(1 / 60)) == pytest.approx(3437.75, abs=0.01)
    assert merge_distance(pitch_mm=10.0, eyesight=40.0) == pytest.approx(34.38 / 2, abs=0.005)


def test_the_widest_pitch_is_told_of_and_the_cure_helps() -> None:
    seen = merging({"upright": 20.0, "crossbar": 18.5, "point": 0.0}, distance_m=24.0, eyesight=40.0)
    assert set(seen.distance_m) == {"upright", "crossbar"}
    (note,) = seen.findings
    assert (note.level, note.code, note.value) == ("note", "bulbs-seen-singly", 24.0)
    assert note.limit == pytest.approx(20 * 3437.75 / 2000, abs=0.01)
    assert "13.9 mm apart" in note.remedy
    assert not merging({"upright": 13.9}, distance_m=24.0, eyesight=40.0).findings
    assert merging({"upright": 14.0}, distance_m=24.0, eyesight=40.0).findings


def test_near_readers_are_sent_to_pockets() -> None:
    (note,) = merging({"upright": 20.0}, distance_m=5.0, eyesight=20.0).findings
    assert "pockets" in note.remedy


def test_the_lines_give_the_distances() -> None:
    seen = merging({"small upright": 12.0}, distance_m=24.0, eyesight=30.0)
    (line,) = seen.lines
    assert line.name == "viewing.merge.small-upright"
    value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
    assert value == pytest.approx(line.value) == seen.distance_m["small upright"]


def test_nothing_for_pockets() -> None:
    assert merging({}, distance_m=24.0) == Merging({}, (), ())


@pytest.mark.parametrize("wrong", [{"distance_m": 0.0}, {"distance_m": 24.0, "eyesight": 1.0}])
def test_out_of_range_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(InputError):
        merging({"upright": 20.0}, **wrong)  # type: ignore[arg-type]
