"""Questions about light that builders ask, answered from the design file on, with the sum behind each answer."""

import math
from dataclasses import replace
from functools import cache

import pytest

from segkit.catalog.reader import led, sheet
from segkit.design.reader import design_from_text
from segkit.geometry.board import Segment
from segkit.optics.photometry import beam_width
from segkit.optics.placement import Lighting, light_segment
from segkit.optics.spacing import depth_range
from segkit.project import Project, solve

SCOREBOARD = """
[display]
layout = "8"
[reading]
light = "sun"
[digit]
height = "250 mm"
width = "one-piece"
[pocket]
evenness = 0.3
per_segment = 4
current = "20 mA"
[pocket.led]
name = "white wide"
colour = "white"
vf = "3.2 V"
test_current = "20 mA"
intensity = "6780 mcd"
angle = "120 deg"
[make]
"""
FACES = {
    "black": 'face = "black-foam-board-5mm"',  # 5 %
    "white": 'face = "acrylic-white-3mm"\ntool = "laser"',  # 80 %
}


@cache
def in_the_sun(face: str) -> Project:
    return solve(design_from_text(SCOREBOARD + FACES[face]), name="yard")


# A scoreboard washed out by the sun: brighter LEDs, or a dark face?


def test_the_face_comes_first() -> None:
    # 100 000 lx x 0.05/pi = 1592 and x 0.8/pi = 25 465 cd/m2 (lambert-surface). Segments of 5000 cd/m2 that
    # themselves send nothing back but what the face beside them does: (5000 + 1592)/1592 = 4.1 against the
    # black face, (5000 + 25 465)/25 465 = 1.2 against the white one; 3:1 is the usual least.
    for face, sent_back, plain in (("black", 1592, 4.1), ("white", 25465, 1.2)):
        light = next(one for one in in_the_sun(face).lights if one.name == "sun")
        assert light.own_cd_m2 == pytest.approx(5000, rel=0.02)
        assert light.face_cd_m2 == pytest.approx(sent_back, abs=1)
        assert (light.own_cd_m2 + light.face_cd_m2) / light.face_cd_m2 == pytest.approx(plain, abs=0.1)
        # an opal diffuser over a white pocket sends back far more than a black face: that is counted too
        assert light.lit_cd_m2 == pytest.approx(light.own_cd_m2 + light.unlit_cd_m2)
        assert light.against_face == pytest.approx(light.lit_cd_m2 / light.face_cd_m2)
    white, black = (
        {finding.code: finding for finding in in_the_sun(face).findings} for face in ("white", "black")
    )
    assert "Use a matt black face" in white["washed-out"].remedy
    assert "The face first" in white["unreadable-lights"].remedy
    assert "a matt black one (5 %)" in white["unreadable-lights"].remedy
    # once it is black, it is the segments' own whiteness: a tint, and no word about the face
    assert "face" not in black["unreadable-lights"].remedy
    assert "tinted or darker front" in black["washed-out"].remedy


# How deep must the light box be for a strip of 60 LEDs a metre, 120 degrees?


def strip_box(*, per_metre: int, leds: int, depth_mm: float) -> Lighting:
    pitch = 1000 / per_metre
    half, side = pitch * leds / 2, 10.0
    outline = (
        (-half, 0.0), (side - half, -side), (half - side, -side), (half, 0.0), (half - side, side),
        (side - half, side),
    )  # fmt: skip
    bar = Segment(1, "g", "crossbar", (outline,), (((-half, 0.0), (half, 0.0)),), 2 * half, 2 * side)
    return light_segment(
        bar, led=replace(led("white-5mm-straw-hat"), full_angle_deg=120, tip_mm=1.6), current_a=0.01,
        depth_mm=depth_mm, walls=sheet("foam-board-5mm"), diffuser=sheet("opal-acrylic-3mm"), front=None,
        per_segment=None, evenness=0.3, places=tuple((pitch * (k - (leds - 1) / 2), 0.0) for k in range(leds)),
    )  # fmt: skip


def test_depth_of_a_light_box_by_the_pitch_of_the_strip() -> None:
    # light-box-practice: pitch over depth 1 to 1.5. 1000/60 = 16.7 mm: 11.1 to 16.7 mm deep; 30 a metre: 22 to 33.
    assert depth_range(1000 / 60) == pytest.approx((11.1, 16.7), abs=0.05)
    assert depth_range(1000 / 30) == pytest.approx((22.2, 33.3), abs=0.05)
    # 15 mm: 16.7/15 = 1.11; each cone is 2 x 15 x tan 60 = 52 mm wide, so 52/16.7 = 3.1 of them overlap
    cone = beam_width(gap_mm=15, full_angle_deg=120)
    assert cone == pytest.approx(52, abs=0.05)
    assert cone / (1000 / 60) == pytest.approx(3.1, abs=0.05)


def test_the_depth_rule_holds_in_the_solved_pocket() -> None:
    shallow, fair, rule, thin = (
        strip_box(per_metre=per_metre, leds=leds, depth_mm=depth)
        for per_metre, leds, depth in ((60, 6, 8), (60, 6, 11.1), (60, 6, 15), (30, 3, 15))
    )
    line = next(one for one in rule.lines if one.name == "optics.pitch_over_depth.crossbar")
    assert line.value == pytest.approx(1.11, abs=0.005)
    assert line.source == "light-box-practice"
    assert "11.1 to 16.7 mm deep" in line.note
    spot = next(one for one in rule.lines if one.name == "optics.spot.crossbar")
    assert spot.value == pytest.approx(2 * (15 - 1.6) * math.tan(math.radians(60)))
    assert "2.8 pitches" in spot.note
    # inside the rule the strip is even by itself, at twice the pitch or half the depth its LEDs show
    assert rule.evenness > 0.8
    assert 0.7 < fair.evenness < rule.evenness
    assert shallow.evenness < 0.6
    assert thin.evenness < 0.7
    assert strip_box(per_metre=30, leds=3, depth_mm=22.2).evenness == pytest.approx(rule.evenness, abs=0.03)
    assert math.isclose(rule.gap_mm, 15 - 1.6)
