"""Lighting of segments and boards, and the places of the LEDs."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.findings import CUT_PARTS
from segkit.optics import view_factor
from segkit.optics.placement import led_places, light_board, light_segment
from segkit.sources import source
from segkit.working import evaluate


@pytest.fixture(scope="session")
def build(red, white, opal):
    return {
        "led": red, "current_a": 0.015, "depth_mm": 25, "walls": white, "diffuser": opal, "front": None,
        "per_segment": None,
    }  # fmt: skip


def test_a_bar(make_bar, build):
    lit = light_segment(make_bar(), **build)
    assert (lit.kind, lit.led, lit.count, lit.rows, lit.gap_mm) == ("crossbar", "red-test", 5, 1, 19)
    assert lit.front is not None
    assert lit.evenness == lit.front.evenness >= 0.7
    assert lit.evenness <= lit.low_share <= 1
    assert 0.2 < lit.efficiency < 0.9
    assert lit.luminance_cd_m2[0] < lit.luminance_cd_m2[1] < lit.luminance_cd_m2[2]
    assert 0.4 < lit.unlit_reflectance < 0.8
    assert lit.findings == ()


def test_a_colon_counts_both_dots(make_dots, build):
    lit = light_segment(make_dots(), **build)
    assert (lit.count, lit.places_mm, lit.pitch_mm) == (2, (((0.0, 0.0),), ((0.0, 0.0),)), 0)
    assert light_segment(make_dots(), **{**build, "per_segment": 2}).count == 4


@settings(max_examples=15)  # a fresh pocket each
@given(
    full=st.floats(10, 170),
    depth=st.floats(1, 80),
    reflectance=st.floats(0.05, 0.9),
    given_count=st.none() | st.integers(1, 12),
)
def test_any_bar_gives_lines_that_hold_and_findings_that_can_be_read(
    full, depth, reflectance, given_count, make_bar, make_led, make_sheet, build
):
    changed = {
        **build, "led": make_led(full_angle_deg=full), "depth_mm": depth, "per_segment": given_count,
        "walls": make_sheet(reflectance=reflectance),
    }  # fmt: skip
    lit = light_segment(make_bar(), **changed)
    assert lit.count >= 1
    assert len({line.name for line in lit.lines}) == len(lit.lines)
    for line in lit.lines:
        value = evaluate(line.formula, {part.symbol: part.value for part in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-6), line.name
        assert source(line.source)
    low, expected, high = lit.luminance_cd_m2
    assert low <= expected <= high
    assert math.isfinite(high)
    for finding in lit.findings:
        assert source(finding.source)
        assert finding.remedy
        assert set(finding.holds) <= set(CUT_PARTS)
        assert finding.level == "stop" or not finding.holds
    if depth > 6:
        assert expected > 0
    else:
        assert "led-above-diffuser" in [finding.code for finding in lit.findings]


def test_board_has_every_kind_and_led_lines_once(board, build):
    lit = light_board(board, **build)
    assert list(lit) == ["crossbar", "colon", "upright"]
    names = [line.name for lighting in lit.values() for line in lighting.lines]
    assert len(names) == len(set(names))
    assert names.count("optics.flux") == 1
    assert names.count("optics.luminance.colon") == 1


def test_per_segment_is_for_bars(board, build):
    lit = light_board(board, **{**build, "per_segment": 5})
    assert [lit[kind].count for kind in lit][::2] == [5, 5]


def test_free_counts_make_kinds_equally_bright(board, build):
    lit = light_board(board, **build)
    means = [lighting.luminance_cd_m2[1] for lighting in lit.values()]
    assert max(means) / min(means) <= 1.2  # 1.15 aimed at; the places move a little with the count
    alone = [light_segment(members[0], **build).count for members in board.kinds().values()]
    assert all(lighting.count >= count for lighting, count in zip(lit.values(), alone, strict=True))


def test_own_places_reach_the_board(board, build):
    own = {"crossbar": ((-40.0, -3.0), (0.0, 3.0), (40.0, -3.0)), "colon": ((2.0, 0.0),)}
    lit = light_board(board, **build, places=own)
    assert lit["crossbar"].places_mm == (own["crossbar"],)
    assert lit["colon"].count == 2
    places = led_places(board, lit)
    assert [p.at for p in places if p.segment == "a"] == list(own["crossbar"])
    assert [p.at for p in places if p.segment == "colon"] == [(202.0, 0.0), (202.0, 40.0)]
    with pytest.raises(InputError) as caught:
        light_board(board, **build, places={"crossbar": ((70.0, 0.0),), "point": ((0.0, 0.0),)})
    assert [p.key for p in caught.value.problems] == ["pocket.places.crossbar", "pocket.places.point"]


def test_rows_and_reflector(make_bar, build, make_sheet):
    two = light_segment(make_bar(), **build, rows=2)
    assert two.rows == 2
    assert len({across for _, across in two.places_mm[0]}) == 2
    black = light_segment(make_bar(), **build, reflector=make_sheet(reflectance=0.05))
    assert black.efficiency < light_segment(make_bar(), **build).efficiency


def test_kinds_far_apart_in_brightness(board, build):
    own = {"colon": ((-4.0, 0.0), (4.0, 0.0))}
    lit = light_board(board, **{**build, "per_segment": 1}, places=own)
    codes = {kind: [f.code for f in lighting.findings] for kind, lighting in lit.items()}
    mean = {kind: lighting.luminance_cd_m2[1] for kind, lighting in lit.items()}
    dark = min(mean, key=mean.get)
    assert max(mean.values()) / mean[dark] > 1.3
    assert [kind for kind in codes if "unequal-brightness" in codes[kind]] == [dark]
    told = next(f for f in lit[dark].findings if f.code == "unequal-brightness")
    assert told.value == pytest.approx(max(mean.values()) / mean[dark])
    assert f"{100 / told.value:.0f} % of the current" in told.remedy


def test_places_in_order_and_inside(board, build):
    lit = light_board(board, **build)
    places = led_places(board, lit)
    assert len(places) == sum(lit[segment.kind].count for segment in board.segments)
    keys = [(place.digit, place.segment) for place in places]
    assert list(dict.fromkeys(keys)) == [(s.digit, s.name) for s in board.segments]
    for segment in board.segments:
        mine = [p for p in places if (p.digit, p.segment) == (segment.digit, segment.name)]
        assert [p.number for p in mine] == list(range(1, lit[segment.kind].count + 1))
        for place in mine:
            inside = [view_factor.clearance(outline, place.at) for outline in segment.outlines]
            assert max(inside) >= 2.5 + 1 - 1e-6, "body and room around it inside the outline"
    assert (places[0].digit, places[0].segment, places[0].number) == (1, "a", 1)
    one = light_board(board, **{**build, "rows": 1})
    leaning = [p.at for p in led_places(board, one) if p.segment == "b"]
    assert all(y == pytest.approx(5 * (x - 300)) for x, y in leaning)  # on its leaning axis


def test_kind_without_lighting(board):
    with pytest.raises(InputError, match="crossbar, colon, upright"):
        led_places(board, {})


def test_all_bad_input_at_once(make_bar, build, make_sheet, make_led):
    bad = {
        **build, "current_a": 0, "depth_mm": -3, "per_segment": 0, "evenness": 70,
        "diffuser": make_sheet(reflectance=0.7, transmittance=0.7), "led": make_led(full_angle_deg=0),
    }  # fmt: skip
    with pytest.raises(InputError) as caught:
        light_segment(make_bar(), **bad)
    keys = [problem.key for problem in caught.value.problems]
    for key in ("current", "depth", "per_segment", "evenness", "full_angle_deg"):
        assert keys.count(key) == 1
    assert any(key.startswith("diffuser") for key in keys)


def test_fluorescent_board_warns_for_the_eyes(make_bar, build, violet, glowing):
    lit = light_segment(make_bar(), **{**build, "led": violet, "diffuser": glowing})
    assert "near-uv-eyes" in [finding.code for finding in lit.findings]
    assert lit.luminance_cd_m2[2] > 5 * lit.luminance_cd_m2[0]


def test_half_angle_note_reaches_the_lighting(make_bar, build, make_led):
    lit = light_segment(make_bar(), **{**build, "led": make_led(full_angle_deg=10)})
    assert "half-angle-given" in [finding.code for finding in lit.findings]


def test_moving_and_mirroring_a_segment_changes_nothing(make_bar, build):
    bar = make_bar()
    moved = replace(
        bar,
        outlines=(tuple((-x + 7, y + 3) for x, y in reversed(bar.outlines[0])),),
        axes=(tuple((-x + 7, y + 3) for x, y in bar.axes[0]),),
    )
    one, other = light_segment(bar, **build), light_segment(moved, **build)
    for ours, theirs in zip(one.places_mm[0], other.places_mm[0], strict=True):
        assert ours == pytest.approx(theirs)
    assert other.luminance_cd_m2 == pytest.approx(one.luminance_cd_m2, rel=1e-6)
