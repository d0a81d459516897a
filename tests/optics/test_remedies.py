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


def test_nothing_that_would_do(uneven):
    lone = replace(
        uneven,
        full_angle_deg=140,
        evenness=0.95,
        count=None,
        pattern=replace(uneven.pattern, places=((-50.0, 0.0),)),
    )
    would = remedies(lone)
    assert (would.depth_mm, would.beam_deg, would.rows, would.leds) == (None, None, None, None)
    assert "change two of them" in would.sentence
    assert Remedies(None, 90, None, None).sentence == "LEDs of 90 deg would do."
