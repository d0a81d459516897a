"""The board in every light: contrast, verdict, and what would make it readable."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.viewing.all_lights import MATT_BLACK, all_lights, cure_for, mirror_note
from segkit.viewing.contrast import LEAST, contrast
from segkit.viewing.luminance import DAY_CEILING_CD_M2, LIGHTS
from segkit.working import evaluate

SHARES = st.floats(0.01, 0.95)


def by_name(**given_):
    return {light.name: light for light in all_lights(**given_).lights}


def test_black_face_or_bright_leds_in_the_sun(published):
    # The face first: 100 000 lx on a matt black face (5 %) make 1592 cd/m2, on a white one (80 %) 25 465
    # (lambert-surface). 5000 cd/m2 stand out from them 4.1:1 and 1.2:1; the usual least is 3:1.
    printed = {
        float(row["inputs"].split(";")[0].split("=")[1]): float(row["published"])
        for row in published("optics")
        if row["what"] == "face luminance"
    }
    black, white = (
        by_name(lit_cd_m2=5000.0, unlit_reflectance=0.05, face_reflectance=face)["sun"]
        for face in (0.05, 0.8)
    )
    assert black.face_cd_m2 == pytest.approx(printed[0.05], abs=1)
    assert white.face_cd_m2 == pytest.approx(printed[0.8], abs=1)
    assert black.against_face == pytest.approx(4.1, abs=0.05)
    assert black.verdict == "readable"
    assert black.cure is None
    assert white.verdict == "washed out"
    # printed 1.2 counts what the white face adds to the segment too; a segment that is itself black when off
    # has (5000 + 1592)/25465 = 0.26 against that face: darker than it. With a white segment it is 1.2.
    assert white.against_face == pytest.approx((5000 + 1592) / 25465, abs=0.002)
    plain = by_name(lit_cd_m2=5000.0, unlit_reflectance=0.8, face_reflectance=0.8)["sun"]
    assert plain.against_face == pytest.approx(1.2, abs=0.01)


def test_white_face_gets_the_advice_that_the_face_comes_first():
    found = all_lights(lit_cd_m2=5000.0, unlit_reflectance=0.05, face_reflectance=0.8).findings
    assert [finding.code for finding in found] == ["unreadable-lights"]
    assert found[0].remedy.startswith("The face first: in ")
    assert found[0].level == "note"
    assert all_lights(lit_cd_m2=5000.0, unlit_reflectance=0.05, face_reflectance=0.05).findings == ()


def test_lights_run_from_dark_to_bright_and_contrast_falls():
    lights = all_lights(lit_cd_m2=300.0, unlit_reflectance=0.3, face_reflectance=0.1).lights
    assert [light.name for light in lights] == list(LIGHTS)
    assert [light.ambient_lx for light in lights] == sorted(LIGHTS.values())
    for dark, bright in itertools.pairwise(lights):
        assert dark.against_unlit > bright.against_unlit
        assert dark.against_face > bright.against_face
        assert dark.worse == min(dark.against_unlit, dark.against_face)


@given(lit=st.floats(1, 20_000), unlit=SHARES, face=SHARES)
def test_each_cure_by_itself_just_does(lit, unlit, face):
    for name, light in by_name(lit_cd_m2=lit, unlit_reflectance=unlit, face_reflectance=face).items():
        assert (light.cure is None) == (light.worse >= LEAST)
        if light.cure is None:
            continue

        def worse(*, own=lit, tint=1.0, front=face, lux=LIGHTS[name]):
            """Contrast worked out anew: luminances added up behind a tint."""
            back = [share * tint**2 * lux / math.pi for share in (unlit, front)]
            return min((own * tint + back[0]) / behind for behind in back)

        assert worse(own=light.cure.luminance_cd_m2) == pytest.approx(LEAST, rel=1e-6)
        assert worse(tint=light.cure.tint) == pytest.approx(LEAST, rel=1e-6)
        if light.cure.face:
            assert light.cure.face < face
            assert worse(front=light.cure.face) == pytest.approx(LEAST, rel=1e-6)
        else:  # no face alone does it: the segment itself is washed out against its unlit neighbour
            assert worse(front=min(unlit, face, MATT_BLACK)) < LEAST + 1e-9


def test_tint_takes_light_once_and_reflections_twice():
    cure = cure_for(lit_cd_m2=500.0, unlit=0.5, face=0.05, ambient_lx=5000.0)
    assert cure.luminance_cd_m2 == pytest.approx(2 * 0.5 * 5000 / math.pi)  # (3 R - R) E/pi
    assert cure.tint == pytest.approx(500 / cure.luminance_cd_m2)
    assert cure.face == 0.0


def test_night_is_dimmed_and_a_board_switched_off_is_judged_as_if_lit():
    dimmed = by_name(lit_cd_m2=1000.0, unlit_reflectance=0.3, face_reflectance=0.1, night_share=0.05)
    assert (dimmed["night"].share, dimmed["night"].own_cd_m2) == (0.05, 50.0)
    assert {light.share for name, light in dimmed.items() if name != "night"} == {1.0}
    off = by_name(lit_cd_m2=1000.0, unlit_reflectance=0.3, face_reflectance=0.1, night_share=0.0)["night"]
    assert (off.share, off.own_cd_m2) == (0.0, 1000.0)


def test_text_names_good_and_bad_lights_and_rounds_down():
    found = all_lights(lit_cd_m2=500.0, unlit_reflectance=0.5, face_reflectance=0.05).findings[0]
    lights = by_name(lit_cd_m2=500.0, unlit_reflectance=0.5, face_reflectance=0.05)
    bad = [light for light in lights.values() if light.cure]
    assert 0 < len(bad) < len(LIGHTS)
    for light in bad:
        assert f"{math.floor(10 * light.worse) / 10:.1f}:1" in found.text
    assert found.value <= bad[-1].worse
    assert "at least 3:1 is needed" in found.text
    assert "hood it" in found.remedy


def test_a_light_that_was_judged_elsewhere_is_not_told_twice():
    given_ = {"unlit_reflectance": 0.05, "face_reflectance": 0.05}
    sun_only = all_lights(lit_cd_m2=3000.0, **given_)
    assert [light.name for light in sun_only.lights if light.cure] == ["sun"]
    assert sun_only.findings
    assert all_lights(lit_cd_m2=3000.0, **given_, judged="sun").findings == ()
    assert all_lights(lit_cd_m2=3000.0, **given_, judged="dusk").findings


def test_luminance_beyond_the_ceiling_is_said_to_be_too_much():
    found = all_lights(lit_cd_m2=500.0, unlit_reflectance=0.6, face_reflectance=0.6).findings[0]
    assert f"more than the {DAY_CEILING_CD_M2:.0f} that no sign should pass" in found.remedy


def test_lines_recompute(lines_hold):
    lines = all_lights(lit_cd_m2=300.0, unlit_reflectance=0.02, face_reflectance=0.5).lines
    lines_hold(lines)
    names = [line.name for line in lines]
    assert len(names) == len(set(names))
    assert {f"viewing.needed_{what}.sun" for what in ("luminance", "tint")} <= set(names)
    assert any(name.startswith("viewing.needed_face.") for name in names)


def test_values_that_cannot_be_come_in_one_message():
    with pytest.raises(InputError) as caught:
        all_lights(lit_cd_m2=-1.0, unlit_reflectance=1.5, face_reflectance=0.0)
    assert len(caught.value.problems) == 3


def test_mirror_image_of_an_even_sky():
    # 4 % of E/pi: at normal incidence ((n-1)/(n+1))^2 with n = 1.49 to 1.5 (fresnel-gloss)
    for n in (1.49, 1.5):
        assert ((n - 1) / (n + 1)) ** 2 == pytest.approx(0.04, abs=0.0015)
    found = mirror_note(10_000.0)
    assert found.value == pytest.approx(0.04 * 10_000 / math.pi, abs=0.1)
    assert "matt front" in found.remedy


def test_a_face_that_cures_bare_lamps_gives_three_to_one():
    given = {"lit_cd_m2": 1000.0, "unlit": 0.5, "face": 0.5, "ambient_lx": 20000.0}
    cure = cure_for(**given, bare=True)
    assert cure.face == pytest.approx(math.pi * 1000 / 20000 / 2)
    assert contrast(
        lit_cd_m2=1000.0, reflectance=cure.face, ambient_lx=20000.0, background_reflectance=cure.face
    ) == pytest.approx(3)
    seen = all_lights(lit_cd_m2=1000.0, unlit_reflectance=0.5, face_reflectance=0.5, bare=True)
    for line in seen.lines:
        value = evaluate(line.formula, {one.symbol: one.value for one in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-6), line.name
    assert "The face first" in seen.findings[0].remedy
    covered = all_lights(lit_cd_m2=1000.0, unlit_reflectance=0.5, face_reflectance=0.5)
    assert "The face first" not in covered.findings[0].remedy
