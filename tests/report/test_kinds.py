"""The table of the light of each kind of segment."""

from dataclasses import replace

import pytest

from segkit.report.kinds import CAPTION, kind_numbers, kind_rows


def test_every_kind_has_a_row_that_agrees_with_its_lighting(boules, clock, barrel):
    for project in (boules, clock, barrel):
        rows = kind_rows(project)
        assert [row.kind for row in rows] == list(project.lightings)
        for row, numbers in zip(rows, kind_numbers(project), strict=True):
            lighting = project.lightings[row.kind]
            assert int(row.leds) == numbers["leds"] == sum(map(len, lighting.places_mm))
            assert float(row.evenness) == pytest.approx(lighting.front.evenness, abs=0.005)
            assert float(row.built) == pytest.approx(lighting.spread.evenness, abs=0.005)
            assert numbers["segment_ratio"] == lighting.spread.ratio <= 1
            assert lighting.spread.evenness < lighting.evenness
            assert lighting.evenness <= lighting.low_share <= 1


def test_places_in_words(clock):
    words = {row.kind: row.places for row in kind_rows(clock)}
    assert words["upright"].startswith("1 row, ")
    assert words["colon"].endswith(" in each of 2 dots")


def test_a_diffuser_that_does_not_go_on_has_no_light(boules):
    kind, lighting = next(iter(boules.lightings.items()))
    dark = replace(lighting, front=None, spread=None, efficiency=0.0)
    project = replace(boules, lightings={kind: dark})
    row, numbers = kind_rows(project)[0], kind_numbers(project)[0]
    assert (row.luminance, row.evenness, row.built, row.efficiency) == ("none", "", "", "")
    assert numbers["evenness"] is numbers["evenness_built"] is None


def test_what_is_not_modelled_stands_there():
    for word in ("bodies", "side lobes", "spread inside the sheet", "leaking", "heat"):
        assert word in CAPTION
