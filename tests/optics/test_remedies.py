"""What would do: each remedy is true, and the next lesser one is not."""

from dataclasses import replace

import pytest

from segkit.optics.patterns import pattern, plans
from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.remedies import BEAMS_DEG, Remedies, Uneven, evenness_of, remedies
from segkit.optics.search import best_layout
from segkit.optics.stations import Bay


@pytest.fixture
def uneven(hexagon):
    bay = Bay(hexagon, 120, False)
    plan = plans(bay, total=3, rows=1, body_mm=5)[0]
    return Uneven(
        bay=bay, pocket=Pocket(hexagon, 25, 6, 0.85, 0.85, 0.40, 0.50),
        pattern=pattern(bay, plan, reach_mm=40.0, body_mm=5), full_angle_deg=60, body_mm=5, evenness=0.65,
        rows=None, count=3, own=False, layer_mm=5.0,
    )  # fmt: skip


def test_each_would_do(uneven):
    would = remedies(uneven)
    places, exponent = uneven.pattern.places, lobe_exponent(60)
    assert would.depth_mm is not None
    assert (would.depth_mm - 25) % 5 == pytest.approx(0)
    deep, less = (
        evenness_of(replace(uneven.pocket, depth_mm=depth), places=places, exponent=exponent)
        for depth in (would.depth_mm, would.depth_mm - 5)
    )
    assert less < uneven.evenness <= deep
    assert would.beam_deg in BEAMS_DEG
    assert would.beam_deg > 60
    assert would.leds is not None
    leds, rows = would.leds
    assert leds > 3
    assert best_layout(
        uneven.bay,
        uneven.pocket,
        exponent,
        body_mm=5,
        evenness=0.65,
        rows=rows,
        least=leds,
        most=leds,
    ).met
    for words in (f"{would.depth_mm:g} mm deep", f"{leds} LEDs", f"{would.beam_deg} deg"):
        assert words in would.sentence


def test_rows_only_where_they_have_not_been_tried(uneven):
    narrow = replace(uneven, full_angle_deg=30, rows=1, count=None)
    would = remedies(narrow)
    assert would.leds is None
    if would.rows:
        rows, leds = would.rows
        assert best_layout(
            uneven.bay, uneven.pocket, lobe_exponent(30), body_mm=5, evenness=0.65, rows=rows, most=leds
        ).met
    assert remedies(replace(narrow, rows=None)).rows is None


def test_two_changes_together_where_none_does_alone(uneven):
    # 2 LEDs under a sheet 9 mm above their tips, where the same LEDs would need more than three times the depth
    shallow = replace(uneven.pocket, depth_mm=15)
    two = pattern(uneven.bay, plans(uneven.bay, total=2, rows=1, body_mm=5)[0], reach_mm=50.0, body_mm=5)
    would = remedies(replace(uneven, pocket=shallow, pattern=two, count=2, evenness=0.8))
    assert (would.depth_mm, would.beam_deg, would.rows) == (None, None, None)
    assert would.deep is not None
    assert would.wide is not None
    depth, leds, rows = would.deep
    asked = {"body_mm": 5, "evenness": 0.8, "rows": rows}
    deeper = replace(shallow, depth_mm=depth)
    assert best_layout(uneven.bay, deeper, lobe_exponent(60), least=leds, most=leds, **asked).met
    assert f"{depth:g} mm deep with {leds} LEDs" in would.sentence
    beam, leds, rows = would.wide
    asked["rows"] = rows
    assert beam > 60
    assert best_layout(uneven.bay, shallow, lobe_exponent(beam), least=leds, most=leds, **asked).met
    assert f"{leds} LEDs of {beam} deg" in would.sentence


def test_the_words():
    assert Remedies(None, 90, None, None).sentence == "LEDs of 90 deg would do."
    both = Remedies(None, None, None, (24, 4), (20.0, 12, 3), (90, 6, 1))
    assert both.sentence == (
        "24 LEDs in 4 rows, or 20 mm deep with 12 LEDs in 3 rows, or 6 LEDs of 90 deg would do."
    )
    assert "change the size of the segment" in Remedies(None, None, None, None).sentence


def test_nothing_that_would_do(uneven):
    # evenness of 1 is out of reach for any LEDs
    would = remedies(replace(uneven, evenness=1.0))
    assert would == Remedies(None, None, None, None)
