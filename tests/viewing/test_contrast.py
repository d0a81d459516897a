import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.contrast import contrast, judge_contrast, verdict_of

reflectances, lights = st.floats(0.001, 1), st.floats(0.01, 130_000)


def test_published_and_derived_points(agree):
    agree("contrast", contrast)


def test_verdict_words_change_at_3_6_and_10():
    words = [verdict_of(ratio) for ratio in (0.5, 2.999, 3.0, 5.999, 6.0, 9.999, 10.0, 1e6)]
    assert words == ["washed out"] * 2 + ["readable"] * 2 + ["good"] * 2 + ["excellent"] * 2


def test_black_and_white_face_in_full_sun():
    sun = {"lit_cd_m2": 5000.0, "unlit_reflectance": 0.05, "ambient_lx": 1e5}
    black, white = (judge_contrast(**sun, face_reflectance=face) for face in (0.05, 0.8))
    assert black.verdict == "readable"
    assert [f.code for f in black.findings] == ["low-contrast"]
    assert white.verdict == "washed out"
    assert [(f.level, f.code) for f in white.findings] == [("caution", "washed-out")]
    assert "black face" in white.findings[0].remedy


def test_the_luminance_in_the_remedy_is_enough():
    seen = {"unlit_reflectance": 0.5, "ambient_lx": 5000.0, "face_reflectance": 0.05}
    (finding,) = judge_contrast(lit_cd_m2=500.0, **seen).findings
    assert finding.code == "washed-out"
    needed = (3 * 0.5 - 0.5) * 5000.0 / 3.14159265
    assert f"reach {math.ceil(needed)} cd/m²" in finding.remedy
    assert judge_contrast(lit_cd_m2=needed * 1.001, **seen).verdict == "readable"


def test_text_never_rounds_up_to_the_limit():
    seen = {"unlit_reflectance": 0.5, "ambient_lx": 1000.0, "face_reflectance": 0.05}
    needed = (3 * 0.5 - 0.5) * 1000.0 / 3.14159265
    (finding,) = judge_contrast(lit_cd_m2=needed * 0.9995, **seen).findings
    assert "only 2.99:1" in finding.text


@given(st.floats(0, 1e5), reflectances, lights, reflectances)
def test_unlit_contrast_is_one_in_the_dark_segment_and_falls_with_light(lit, unlit, ambient_lx, face):
    seen = judge_contrast(
        lit_cd_m2=lit, unlit_reflectance=unlit, ambient_lx=ambient_lx, face_reflectance=face
    )
    assert seen.against_unlit >= 1 - 1e-12
    assert seen.against_face == pytest.approx(seen.against_unlit * unlit / face)
    dark = judge_contrast(
        lit_cd_m2=0.0, unlit_reflectance=unlit, ambient_lx=ambient_lx, face_reflectance=face
    )
    assert dark.against_unlit == pytest.approx(1.0)
    brighter = min(130_000.0, 2 * ambient_lx)
    less = judge_contrast(lit_cd_m2=lit, unlit_reflectance=unlit, ambient_lx=brighter, face_reflectance=face)
    assert less.against_unlit <= seen.against_unlit * (1 + 1e-12)


def test_lines(lines_hold):
    seen = judge_contrast(lit_cd_m2=500.0, unlit_reflectance=0.6, ambient_lx=500.0, face_reflectance=0.05)
    lines_hold(seen.lines)
    assert [line.name for line in seen.lines] == ["viewing.contrast_unlit", "viewing.contrast_face"]
    assert [line.value for line in seen.lines] == [seen.against_unlit, seen.against_face]


def test_no_light_and_perfect_black_are_refused():
    with pytest.raises(InputError) as caught:
        contrast(lit_cd_m2=1.0, reflectance=0.5, ambient_lx=0.0, background_reflectance=0.0)
    assert [p.key for p in caught.value.problems] == ["ambient_lx", "background_reflectance"]


def test_each_way_of_the_remedy_is_enough_and_a_black_face_is_not_said_to_do_what_it_does_not():
    for lit, alone in ((400.0, True), (100.0, False)):
        seen = {"lit_cd_m2": lit, "unlit_reflectance": 0.5, "ambient_lx": 400.0}
        (finding,) = judge_contrast(**seen, face_reflectance=0.82).findings
        black = judge_contrast(**seen, face_reflectance=0.05)
        assert finding.remedy.startswith("Use a matt black face")
        assert (min(black.against_face, black.against_unlit) >= finding.limit) == alone
        assert ("with it" in finding.remedy) == (not alone)
        face = 0.82 if alone else 0.05
        if lit < 200:  # white lights are asked for 600 cd/m2 in this light, 150 in the lowest class
            assert "darker front alone would leave too little" in finding.remedy
            (finding,) = judge_contrast(**seen, face_reflectance=0.82, colour="blue").findings
        tint = float(finding.remedy.split("passes ")[1].split(" %")[0]) / 100
        reach = float(finding.remedy.split("reach ")[1].split(" cd")[0])
        for light, through in ((lit, tint), (reach, 1.0)):
            made = judge_contrast(
                lit_cd_m2=light * through, unlit_reflectance=0.5 * through**2, ambient_lx=400.0,
                face_reflectance=face * through**2,
            )  # fmt: skip
            assert min(made.against_face, made.against_unlit) >= finding.limit


def test_bare_lamps_stand_in_the_face_that_a_black_one_cures():
    # 200 cd/m2 in a face of 50 % at 400 lx: veil 0.5*400/pi = 63.7, so 4.14:1 against face and unlit alike;
    # on 5 % the veil is 6.37 and the contrast 32:1.
    told = judge_contrast(
        lit_cd_m2=200.0, unlit_reflectance=0.5, ambient_lx=400.0, face_reflectance=0.5, bare=True
    )
    assert told.against_face == told.against_unlit == pytest.approx(1 + 200 * math.pi / 200)
    (note,) = told.findings
    assert "from the face" in note.text
    assert note.remedy.startswith("Use a matt black face,")
    covered = judge_contrast(lit_cd_m2=200.0, unlit_reflectance=0.5, ambient_lx=400.0, face_reflectance=0.5)
    assert "black" not in covered.findings[0].remedy, "an opal segment stays as white as it is"
    weak = judge_contrast(
        lit_cd_m2=20.0, unlit_reflectance=0.5, ambient_lx=4000.0, face_reflectance=0.5, bare=True
    )
    # on black 63.7 cd/m2 of veil: 1.31:1; 3:1 takes twice the veil
    assert "which brings 1.31:1" in weak.findings[0].remedy
    assert "reach 128 cd/m²" in weak.findings[0].remedy
