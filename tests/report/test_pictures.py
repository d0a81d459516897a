"""The pictures of whole designs: which there are, in which light, from which numbers."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.geometry.polygon import bounds
from segkit.optics.stations import bay_of
from segkit.preview import luminance_map as maps
from segkit.preview.scene import scene_of
from segkit.project import Project, solve
from segkit.report import pictures as module
from segkit.report.pictures import NAMES, PICTURE_PX, ledge_mm, lighted, pictures, subject_of


def opened(content: bytes) -> Image.Image:
    return Image.open(io.BytesIO(content)).convert("RGB")


def test_every_picture_is_made_and_the_same_each_time(clock: Project) -> None:
    made = pictures(clock)
    assert tuple(made) == NAMES
    assert made == pictures(clock)
    for name, content in made.items():
        assert content.startswith(b"\x89PNG"), name
        assert b"tIME" not in content, name
        assert len(content) < 600_000, name
    assert opened(made["lit"]).width == PICTURE_PX
    for name in ("lights", "eye"):
        assert 1200 < opened(made[name]).width < 1600, name


@pytest.mark.parametrize("name", ["boules", "clock", "barrel"])
def test_light_in_the_scene_is_the_luminance_as_built(name: str, request: pytest.FixtureRequest) -> None:
    """Over the segments of a kind, the mean of the picture is the mean that the report prints, within 1 %."""
    project: Project = request.getfixturevalue(name)
    every = {
        digit: frozenset(s.name for s in project.board.segments if s.digit == digit)
        for digit in project.sample
    }
    subject = subject_of(project, every)
    scene = scene_of(subject, pixels_per_mm=1)
    for kind, segments in subject.pockets.kinds().items():
        light, area = 0.0, 0.0
        for segment in segments:
            for outline in segment.outlines:
                left, low, right, top = bounds([outline])
                rows = slice(int(project.board.height_mm - top), int(project.board.height_mm - low) + 2)
                patch = scene.own_cd_m2[rows, int(left) : int(right) + 2]
                light += float(patch.sum())
                area += abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True))) / 2  # fmt: skip
        if kind in ("point", "colon"):  # others reach into the box of a slanted segment
            assert light / area == pytest.approx(project.luminance[kind][1], rel=0.01), kind
    whole = sum(project.luminance[s.kind][1] * bay_of(s, n).area_mm2 for s in subject.pockets.segments for n in range(len(s.outlines)))  # fmt: skip
    assert float(scene.own_cd_m2.sum()) == pytest.approx(whole, rel=0.01)


def test_the_subject_is_the_board_as_built(boules: Project, clock: Project) -> None:
    lipped, let_in = subject_of(boules), subject_of(clock)
    assert (lipped.recess_mm, ledge_mm(boules)) == (5.0, 0.0)
    assert lipped.pockets is boules.board
    assert let_in.recess_mm == 0
    assert ledge_mm(clock) == 2.0
    assert let_in.pockets.segments[0].stroke_mm == pytest.approx(clock.board.segments[0].stroke_mm - 4)
    assert let_in.face_reflectance == pytest.approx(0.04 * 0.35**2), "the grey front, there and back"
    assert lipped.lit == boules.sample
    assert subject_of(boules, {1: frozenset("b")}).lit == {1: frozenset("b")}


def test_lights_are_named_and_dimmed_as_the_report_has_them(clock: Project) -> None:
    night, asked, own = lighted(clock, "night"), lighted(clock), lighted(clock, "250 lx")
    row = next(light for light in clock.lights if light.name == "night")
    assert 0 < row.share < 1
    assert night.light.drive == row.share
    assert night.label.startswith("night (4 lx), dimmed to ")
    assert (asked.label, asked.light.drive) == ("shade (20000 lx)", 1.0)
    assert (own.label, own.light.ambient_lx, own.light.drive) == ("250 lx", 250.0, 1.0)
    with pytest.raises(InputError, match="no such light"):
        lighted(clock, "nigth")


def sheets_of(project: Project, monkeypatch: pytest.MonkeyPatch) -> dict[str, list[tuple[Image.Image, str]]]:
    """Panels and labels of the sheets, by title."""
    found = {}

    def noted(panels, *, title, notes, **_):
        found[title] = panels
        assert notes
        return Image.new("RGB", (4, 4))

    monkeypatch.setattr(module, "sheet", noted)
    monkeypatch.setattr(module, "luminance_map", lambda *_, **__: b"")
    pictures(project)
    return found


def test_sheets_say_light_lux_contrast_distance_and_angle(
    boules: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    lights, eye = sheets_of(boules, monkeypatch).values()
    labels = [label for _, label in lights]
    assert [label.split(" (")[0] for label in labels] == ["night", "dusk", "overcast", "shade", "sun"]
    assert all(" lx)" in label for label in labels)
    assert [label for label in labels if "(asked)" in label] == [labels[1]]
    assert ":1 to unlit" in labels[1]
    assert ":1 to the face" in labels[1]
    assert [label for _, label in eye] == [
        "sharp, to compare",
        "eyes 20/40, 24 m (78 ft 9 in) away",
        "eyes 20/40, 48 m (157 ft 6 in) away: twice",
        "eyes 20/40, 24 m (78 ft 9 in) away, 30 deg to the right",
    ]
    means = [np.asarray(picture.convert("L"), dtype=float)[:3].mean() for picture, _ in lights]
    assert means == sorted(means), "the wall from night to sun"


def test_a_light_in_lux_is_drawn_besides_the_named_ones(monkeypatch: pytest.MonkeyPatch) -> None:
    made = solve(design_from_text('[display]\nlayout = "8"\n[reading]\nlight = "300 lx"\n'), name="x")
    lights, eye = sheets_of(made, monkeypatch).values()
    assert lights[-1][1].startswith("300 lx (asked)")
    assert len(lights) == 6
    assert eye[3][1].endswith("45 deg to the right"), "no angle asked for"


def test_a_board_that_must_be_off_at_night_is_drawn_off(monkeypatch: pytest.MonkeyPatch) -> None:
    text = '[display]\nlayout = "8"\n[reading]\nlight = "night"\nzone = "E0"\n'
    made = solve(design_from_text(text), name="x")
    (dark, label), (dusk, _), *_ = next(iter(sheets_of(made, monkeypatch).values()))
    assert label == "night (4 lx): must be switched off"
    assert np.asarray(dark, dtype=int).max() < 0.5 * np.asarray(dusk, dtype=int).max()
    named = lighted(made)
    assert named.light.drive == 1, "shown all the same close up"
    assert "must be off" in named.label


def test_the_map_has_a_panel_for_each_kind_with_its_leds(
    clock: Project, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: list[maps.Panel] = []
    monkeypatch.setattr(module, "luminance_map", lambda panels, **_: found.extend(panels) or b"")
    monkeypatch.setattr(module, "sheet", lambda *_, **__: Image.new("RGB", (4, 4)))
    pictures(clock)
    assert len(found) == len(clock.lightings)
    for panel, (kind, lighting) in zip(found, clock.lightings.items(), strict=True):
        assert panel.title.startswith(kind)
        assert "cd/m²" in panel.title
        assert panel.places == lighting.places_mm[0]
        assert panel.luminance_cd_m2 == clock.luminance[kind][1]
        left, low, right, top = bounds([panel.outline])
        assert all(left < x < right and low < y < top for x, y in panel.places)
    assert "one of its two dots" in found[-1].title


def test_a_board_without_light_has_its_pictures_too(boules: Project) -> None:
    dark = replace(
        boules,
        lightings={
            kind: replace(light, front=None, evenness=0.0) for kind, light in boules.lightings.items()
        },
        luminance=dict.fromkeys(boules.luminance, (0.0, 0.0, 0.0)),
        lights=(),
    )
    made = pictures(dark)
    assert set(made) == set(NAMES)
    lit = np.asarray(opened(made["lit"]), dtype=int)
    assert (lit.max(axis=2) - lit.min(axis=2)).max() == 0, "grey: nothing but what reflects"


def test_the_bright_spot_of_each_segment_lies_over_its_own_led() -> None:
    """LEDs off the middle and off the axis: the places that are drilled are the places that shine."""
    text = """[display]
layout = "8"
[digit]
height = "300 mm"
slant = "8 deg"
[pocket]
led = "red-5mm-diffused"
depth = "25 mm"
[pocket.places]
upright = ["20 mm, 6 mm"]
crossbar = ["-18 mm, -5 mm"]
"""
    made = solve(design_from_text(text), name="x")
    scene = scene_of(subject_of(made), pixels_per_mm=1)
    assert len(made.places) == 7
    for led in made.places:
        segment = next(s for s in made.board.segments if s.name == led.segment)
        left, low, right, top = (round(v) for v in bounds(segment.outlines))
        rows = slice(round(made.board.height_mm) - top, round(made.board.height_mm) - low)
        inside = scene.own_cd_m2[rows, left:right]
        down, across = np.unravel_index(inside.argmax(), inside.shape)
        found = (left + across + 0.5, made.board.height_mm - rows.start - down - 0.5)
        assert math.dist(found, led.at) < 5, (led, found)
