import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.sources import source
from segkit.viewing.criteria import View, at_distance, at_height, jis_points, rules_for

FOOT_M, INCH_M = 0.3048, 0.0254
PLAIN = View(eyesight=20.0, comfort_arcmin=20.0)


def named(rows, name):
    return next(row for row in rows if row.name == name)


def comfort_row(distance_m, arcmin, **view):
    return named(at_distance(View(20.0, arcmin, **view), distance_m=distance_m), "comfort")


views = st.builds(
    View,
    eyesight=st.floats(10, 400),
    comfort_arcmin=st.sampled_from([16.0, 20.0, 24.0]),
    angle_deg=st.floats(0, 80),
    vertical_angle_deg=st.floats(0, 80),
    stroke_ratio=st.floats(0.02, 0.3),
    baseline_m=st.none() | st.floats(0, 10),
)


def test_height_by_visual_angle(agree):
    agree("angle_height_mm", lambda distance_m, arcmin: comfort_row(distance_m, arcmin).height_mm)


def test_screen_angles(agree):
    agree("iso_mm", lambda distance_m, rule: named(at_distance(PLAIN, distance_m=distance_m), rule).height_mm)


def test_fixed_ratios(agree):
    agree("rule_ratio", lambda rule: 1000 * 36.0 / named(at_distance(PLAIN, distance_m=36.0), rule).height_mm)
    agree("rule_arcmin", lambda rule: named(at_distance(PLAIN, distance_m=36.0), rule).arcmin)


def test_building_code_rows(agree):
    def inches(rule, baseline_in, distance_ft):
        view = View(20.0, 20.0, baseline_m=baseline_in * INCH_M)
        return named(at_distance(view, distance_m=distance_ft * FOOT_M), rule).height_mm / 25.4

    agree("code_in", inches)


def test_building_code_rows_read_backwards():
    view = View(20.0, 20.0, baseline_m=60 * INCH_M)
    rows = at_height(view, height_mm=6.125 * 25.4)
    assert named(rows, "ADA 703.5.5").distance_m == pytest.approx(50 * FOOT_M)
    assert named(at_height(view, height_mm=10.0), "ADA 703.5.5").distance_m == 0.0
    assert named(at_height(view, height_mm=10.0), "ADA 703.5.5").arcmin == 0.0


def test_building_codes_only_where_they_apply():
    def names(baseline_in, distance_ft):
        view = View(20.0, 20.0, baseline_m=None if baseline_in is None else baseline_in * INCH_M)
        return [row.name for row in at_distance(view, distance_m=distance_ft * FOOT_M)]

    assert not [name for name in names(None, 50) if "ADA" in name or "California" in name]
    assert not [name for name in names(39, 50) if "ADA" in name or "California" in name]
    assert not [name for name in names(60, 99) if "seating" in name]
    assert [name for name in names(60, 100) if "seating" in name]
    short = at_height(View(20.0, 20.0, baseline_m=1.5), height_mm=7.9 * 25.4)
    assert not [row for row in short if "seating" in row.name]
    tall = named(
        at_height(View(20.0, 20.0, baseline_m=1.5), height_mm=8 * 25.4), "California 11B-703.8.4, seating"
    )
    assert tall.distance_m == pytest.approx(240 * FOOT_M)


def test_smallest_legible_type(agree):
    agree("jis_pt", lambda distance_m, acuity, slope, base: jis_points(
        distance_m=distance_m, acuity=acuity, slope=slope, base=base))  # fmt: skip


def test_jis_threshold_as_a_digit():
    # D = 10 m, V = 0.8: 83.0 pt of 0.35146 mm = 29.17 mm of type body; a digit takes about 0.7 of it.
    rows = at_distance(View(eyesight=25.0, comfort_arcmin=20.0), distance_m=10.0)
    assert named(rows, "JIS S 0032 threshold").height_mm == pytest.approx(0.7 * 29.17, rel=1e-3)


def test_no_rule_is_the_sign_sellers_one():
    for row in at_distance(View(40.0, 20.0, baseline_m=2.0), distance_m=60.0):
        assert 60_000 / row.height_mm < 590, row


def test_exactly_one_row_is_chosen_and_all_sources_exist():
    for view in (PLAIN, View(40.0, 16.0, angle_deg=85.0), View(200.0, 24.0, baseline_m=3.5)):
        rows = at_distance(view, distance_m=24.0)
        assert sum(row.chosen for row in rows) == 1
        assert len({row.name for row in rows}) == len(rows)
        assert all(source(row.source).title and row.remark for row in rows)


@given(views, st.floats(0.2, 2000), st.floats(1.0, 3.0))
def test_heights_grow_with_distance(view, distance_m, factor):
    for rule in rules_for(view):
        assert rule.height_mm(distance_m * factor) >= rule.height_mm(distance_m)


@given(views, st.floats(0.2, 2000))
def test_every_rule_reads_the_same_backwards(view, distance_m):
    for rule in rules_for(view):
        back = rule.distance_m(rule.height_mm(distance_m))
        assert back == pytest.approx(max(distance_m, rule.start_m), rel=1e-6)


@given(views, st.floats(0.2, 2000))
def test_angle_column_is_the_angle_of_the_height(view, distance_m):
    for row in at_distance(view, distance_m=distance_m):
        apparent_mm = row.height_mm * math.cos(math.radians(view.vertical_angle_deg))
        assert 2000 * distance_m * math.tan(math.radians(row.arcmin / 60) / 2) == pytest.approx(apparent_mm)
