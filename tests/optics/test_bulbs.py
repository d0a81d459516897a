from __future__ import annotations

import itertools
import math

import pytest

from segkit.catalog.reader import led, sheet
from segkit.geometry.board import Board, Segment, board_of
from segkit.geometry.digit import DigitShape
from segkit.geometry.polygon import area
from segkit.optics.bulbs import bulb_count, bulb_row, is_dot, light_bulbs
from segkit.optics.dots import Bulbs
from segkit.optics.placement import led_places
from segkit.working import evaluate


@pytest.fixture(params=["pointed", "blunt", "rounded"])
def board(request: pytest.FixtureRequest) -> Board:
    shape = DigitShape(300, 165, 42, 5, request.param, 8, 42)
    return board_of(layout="8:o.", shape=shape, spacing_mm=70, margin_mm=40)


def bulbs(**other: object) -> Bulbs:
    given = {
        "led": led("red-5mm-diffused"),
        "current_a": 0.015,
        "pitch_mm": 20.0,
        "face": sheet("plywood-4mm"),
    }
    return Bulbs(**{**given, **other})  # type: ignore[arg-type]


def test_even_pitch_along_the_centre_line(board: Board) -> None:
    places = led_places(board, light_bulbs(board, bulbs()))
    for segment in board.segments:
        row = [p.at for p in places if (p.digit, p.segment) == (segment.digit, segment.name)]
        if segment.name in ("dp", "colon"):
            assert row == [axis[0] for axis in segment.axes]
            continue
        (x1, y1), (x2, y2) = segment.axes[0]
        steps = [math.dist(a, b) for a, b in itertools.pairwise(row)]
        assert max(steps) - min(steps) < 1e-9
        if len(row) > 2:
            assert abs(steps[0] - 20) <= 20 / 2 / (len(row) - 1) + 1e-9, "no other count comes nearer"
        for x, y in row:
            assert abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) < 1e-6, "on the line"
        assert math.dist(row[0], (x1, y1)) == pytest.approx(segment.stroke_mm / 2)
        assert math.dist(row[-1], (x2, y2)) == pytest.approx(segment.stroke_mm / 2)


def test_count_of_a_bar_by_hand() -> None:
    # 120 mm long with a stroke of 20 leaves 100 mm from first to last: at 19 mm 5.26 steps, so 5 of 20 mm.
    bar = Segment(1, "g", "crossbar", (), (((0, 0), (120, 0)),), 120, 20)
    assert bulb_count(bar, pitch_mm=19) == 6
    assert [round(x, 9) for x, _ in bulb_row(bar, pitch_mm=19)[0]] == [-50, -30, -10, 10, 30, 50]
    assert bulb_count(bar, pitch_mm=500) == 2, "one at either end"
    assert not is_dot(bar)


def test_luminance_by_hand() -> None:
    # A plain bar of 100 x 20 mm: 2000 mm2 = 0.002 m2. 80 mm at 20 mm are 5 bulbs. 500 mcd at 20 mA are
    # 0.25 cd at 10 mA. On the axis L = N I/A = 5 * 0.25/0.002 = 625 cd/m2; dimmest bulbs 250 of 500 mcd.
    outline = ((0.0, 0.0), (100.0, 0.0), (100.0, 20.0), (0.0, 20.0))
    bar = Segment(1, "g", "crossbar", (outline,), (((0, 10), (100, 10)),), 100, 20)
    whole = board_of(
        layout="8", shape=DigitShape(300, 165, 42, 5, "pointed", 0, 42), spacing_mm=60, margin_mm=40
    )
    alone = Board(
        whole.layout, 100, 20, 0, whole.shape, None, (bar,), (), 4, (), ()
    )  # fmt: skip
    lit = light_bulbs(alone, bulbs(current_a=0.010))["crossbar"]
    assert lit.count == 5
    assert lit.luminance_cd_m2 == pytest.approx((312.5, 625.0, 625.0))
    # 30 degrees off the axis a 60 degree bulb has half of it, over an area that looks cos 30 as large:
    aside = light_bulbs(alone, bulbs(current_a=0.010, angle_deg=30.0))["crossbar"]
    assert aside.luminance_cd_m2[1] == pytest.approx(625 * 0.5 / math.cos(math.radians(30)))
    # A grey front passes T of the light once, and of what the face reflects twice.
    grey = sheet("grey-tint-3mm")
    tinted = light_bulbs(alone, bulbs(current_a=0.010, front=grey))["crossbar"]
    assert tinted.luminance_cd_m2[1] == pytest.approx(625 * grey.transmittance)
    assert tinted.unlit_reflectance == pytest.approx(sheet("plywood-4mm").reflectance * grey.transmittance**2)


def test_what_a_box_has_is_absent(board: Board) -> None:
    for kind, lit in light_bulbs(board, bulbs()).items():
        assert (lit.front, lit.evenness, lit.low_share, lit.efficiency, lit.gap_mm, lit.spread) == (None,) * 6
        assert lit.dots is not None
        segment = board.kinds()[kind][0]
        assert lit.dots.area_mm2 == pytest.approx(sum(area(outline) for outline in segment.outlines))
        assert lit.unlit_reflectance == sheet("plywood-4mm").reflectance
        assert len(lit.places_mm) == len(segment.outlines)


@pytest.mark.parametrize("lamp", ["red-5mm-diffused", "uv-400-5mm"])
def test_every_line_gives_its_number(board: Board, lamp: str) -> None:
    made = light_bulbs(board, bulbs(led=led(lamp), angle_deg=20.0, vertical_angle_deg=10.0))
    lines = [line for lit in made.values() for line in lit.lines]
    assert len({line.name for line in lines}) == len(lines)
    for line in lines:
        value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-6), line.name
    assert {"optics.leds.upright", "optics.pitch.upright", "optics.luminance.small-upright"} <= {
        line.name for line in lines
    }


def test_a_reader_outside_the_beam_is_told(board: Board) -> None:
    def codes(**other: object) -> list[str]:
        return [one.code for lit in light_bulbs(board, bulbs(**other)).values() for one in lit.findings]

    assert "outside-beam" not in codes(angle_deg=30.0)
    assert "outside-beam" in codes(angle_deg=30.0, vertical_angle_deg=10.0)
    assert "bare-violet" in codes(led=led("uv-400-5mm"))
    assert "bare-violet" not in codes()


@pytest.mark.parametrize("wrong", [{"pitch_mm": 0.0}, {"current_a": 0.0}])
def test_what_cannot_be_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(Exception, match=r"no pitch|no current"):
        bulbs(**wrong)
