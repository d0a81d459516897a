import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.findings import CUT_PARTS
from segkit.sources import source
from segkit.viewing.legibility import COMFORT, digit_height, judge_height, parse_eyesight, reading_distance

options = st.fixed_dictionaries({
    "eyesight": st.floats(10, 200),
    "angle_deg": st.floats(0, 75),
    "vertical_angle_deg": st.floats(0, 60),
    "stroke_ratio": st.floats(0.05, 0.25),
    "comfort": st.sampled_from(list(COMFORT)),
})  # fmt: skip
distances = st.floats(0.5, 200)


def test_eyesight_as_eye_charts_write_it():
    assert parse_eyesight(" 20/20 ") == 20.0
    assert (
        parse_eyesight("20/40")
        == parse_eyesight("6/12")
        == parse_eyesight("5/10")
        == parse_eyesight("0.5")
        == 40.0
    )
    assert parse_eyesight("6 / 7.5") == pytest.approx(25.0)
    assert parse_eyesight("6/6") == parse_eyesight("1.0") == 20.0


@pytest.mark.parametrize("text", ["", "good", "40", "20/0", "20/", "/40", "20/-40", "40/20", "20/5", "20/4000", "0.0", ".", "20/40/2", "nan", "20,40"])  # fmt: skip
def test_nonsense_eyesight_is_refused(text):
    with pytest.raises(InputError):
        parse_eyesight(text)


def test_stroke_at_the_eye_limit(agree):
    def stroke_mm(eyesight, distance_m):
        answer = digit_height(distance_m=distance_m, eyesight=eyesight, stroke_ratio=0.14)
        return answer.criteria[0].height_mm * 0.14

    agree("eye_stroke_mm", stroke_mm)


def test_comfort_grows_with_weaker_eyes(agree):
    agree("comfort_arcmin", lambda eyesight, comfort: digit_height(
        distance_m=10.0, eyesight=eyesight, comfort=comfort).criteria[1].arcmin)  # fmt: skip


def test_comfort_does_not_shrink_with_better_eyes():
    sharp, normal = (digit_height(distance_m=10.0, eyesight=x).height_mm for x in (10.0, 20.0))
    assert sharp == normal


def test_boules_court_from_24_m():
    # Plain arithmetic: 20' for 20/20, doubled for 20/40, is 40'; 2 * 24 m * tan(20') = 279.26 mm.
    answer = digit_height(distance_m=24.0, angle_deg=30.0)
    assert answer.height_mm == pytest.approx(48_000 * math.tan(math.radians(20 / 60)))
    assert [row.name for row in answer.criteria if row.chosen] == ["comfort"]
    assert answer.findings == ()


def test_far_to_the_side_the_stroke_sets_the_size():
    answer = digit_height(distance_m=24.0, angle_deg=75.0)
    assert [row.name for row in answer.criteria if row.chosen] == ["eye limit"]
    assert [finding.code for finding in answer.findings] == ["stroke-sets-size"]


def test_baseline_below_the_tables_is_said():
    assert [f.code for f in digit_height(distance_m=5.0, baseline_m=0.9).findings] == ["code-starts-higher"]
    assert digit_height(distance_m=5.0, baseline_m=1.016).findings == ()


def test_own_height_too_small_stops_all_cut_parts():
    limit_mm = digit_height(distance_m=24.0).criteria[0].height_mm
    (stop,) = judge_height(height_mm=0.99 * limit_mm, distance_m=24.0)
    assert (stop.level, stop.code, stop.holds) == ("stop", "too-small-to-read", CUT_PARTS)
    assert stop.limit == pytest.approx(limit_mm, abs=0.01)
    assert [f.level for f in judge_height(height_mm=limit_mm, distance_m=24.0)] == ["caution"]


def test_own_height_below_comfort_and_rounded_to_it():
    assert [f.code for f in judge_height(height_mm=270.0, distance_m=24.0)] == ["below-comfort"]
    assert judge_height(height_mm=279.0, distance_m=24.0) == ()
    assert judge_height(height_mm=400.0, distance_m=24.0) == ()


def test_height_that_only_a_sign_seller_would_take():
    # 50 ft per inch is 1:600, so 40 mm at 24 m; the road-sign ratio 1:360 asks for 66.7 mm.
    codes = {
        mm: [f.code for f in judge_height(height_mm=mm, distance_m=24.0)] for mm in (39.0, 40.0, 66.0, 67.0)
    }
    assert "only-sellers-rule" not in codes[39.0]
    assert "only-sellers-rule" in codes[40.0]
    assert "only-sellers-rule" in codes[66.0]
    assert "only-sellers-rule" not in codes[67.0]


def test_all_faults_at_once():
    with pytest.raises(InputError) as caught:
        digit_height(distance_m=0.0, angle_deg=90.0, stroke_ratio=0.6, comfort="comfy")
    assert [p.key for p in caught.value.problems] == ["distance_m", "angle_deg", "stroke_ratio", "comfort"]
    with pytest.raises(InputError, match='Did you mean "generous"'):
        reading_distance(height_mm=300.0, comfort="generus")


def test_findings_name_sources_and_remedies():
    findings = [
        *judge_height(height_mm=50.0, distance_m=24.0),
        *judge_height(height_mm=200.0, distance_m=24.0),
        *digit_height(distance_m=24.0, angle_deg=80.0, baseline_m=0.5).findings,
    ]
    assert len(findings) == 5
    assert all(
        source(f.source) and f.remedy and f.value is not None and f.limit is not None for f in findings
    )


@given(distances, options)
def test_reverse_question_gives_the_distance_back(distance_m, given_options):
    height_mm = digit_height(distance_m=distance_m, **given_options).height_mm
    if 2 <= height_mm <= 20_000:
        assert reading_distance(height_mm=height_mm, **given_options).distance_m == pytest.approx(
            distance_m, rel=1e-9
        )


@given(distances, st.floats(1.01, 3), options)
def test_farther_weaker_and_more_aside_never_ask_for_less(distance_m, factor, given_options):
    base = digit_height(distance_m=distance_m, **given_options).height_mm
    assert digit_height(distance_m=distance_m * factor, **given_options).height_mm > base
    weaker = {**given_options, "eyesight": min(400.0, given_options["eyesight"] * factor)}
    assert digit_height(distance_m=distance_m, **weaker).height_mm >= base
    aside = {**given_options, "angle_deg": min(89.0, given_options["angle_deg"] * factor)}
    assert digit_height(distance_m=distance_m, **aside).height_mm >= base


@given(distances, options)
def test_the_chosen_height_passes_its_own_judgement(distance_m, given_options):
    height_mm = digit_height(distance_m=distance_m, **given_options).height_mm
    if 2 <= height_mm <= 20_000:
        assert judge_height(height_mm=height_mm, distance_m=distance_m, **given_options) == ()


@given(distances, options)
def test_at_the_eye_limit_the_narrower_stroke_fills_the_smallest_angle(distance_m, given_options):
    limit_mm = digit_height(distance_m=distance_m, **given_options).criteria[0].height_mm
    narrow = min(math.cos(math.radians(given_options[name])) for name in ("angle_deg", "vertical_angle_deg"))
    seen_rad = math.atan(given_options["stroke_ratio"] * limit_mm * narrow / 1000 / distance_m)
    assert math.degrees(seen_rad) * 60 == pytest.approx(given_options["eyesight"] / 20)
