"""Luminances of a scene: mean and place of the pockets' light, what reflects, what the face hides."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from shapely.affinity import translate
from shapely.geometry import Polygon

from segkit.errors import InputError
from segkit.fabrication.pockets import pocket_board
from segkit.geometry.board import Board
from segkit.optics.bulbs import bulb_row
from segkit.optics.dots import Dots
from segkit.optics.front_map import FrontMap
from segkit.optics.pocket import Pocket
from segkit.optics.solver import pocket_light
from segkit.optics.stations import axis_frame, bay_of
from segkit.preview.scene import SURROUNDINGS, Lamp, Scene, Subject, in_light, scene_of

Make = Callable[..., Subject]


def lit_outlines(subject: Subject, board: Board) -> list[Polygon]:
    return [
        Polygon(outline)
        for segment in board.segments
        if segment.name in subject.lit.get(segment.digit, frozenset())
        for outline in segment.outlines
    ]


def light_of(scene: Scene) -> float:
    """Luminance times area, cd/m2 mm2, as seen."""
    return float(scene.own_cd_m2.sum()) / scene.pixels_per_mm**2


@pytest.mark.parametrize("pixels_per_mm", [0.4, 0.97, 1.3])
def test_light_of_the_scene_is_luminance_times_area(subjects: Make, pixels_per_mm: float) -> None:
    subject = subjects("12:45")
    area = sum(outline.area for outline in lit_outlines(subject, subject.board))
    assert light_of(scene_of(subject, pixels_per_mm=pixels_per_mm)) == pytest.approx(100 * area, rel=0.01)


def test_a_ledge_takes_the_light_from_the_rim(subjects: Make, clock: Board) -> None:
    pockets = pocket_board(clock, ledge_mm=3)
    subject = subjects("12:45", pockets=pockets)
    area = sum(outline.area for outline in lit_outlines(subject, pockets))
    assert light_of(scene_of(subject, pixels_per_mm=1)) == pytest.approx(100 * area, rel=0.01)
    whole = scene_of(subjects("12:45"), pixels_per_mm=1)
    assert scene_of(subject, pixels_per_mm=1).reflectance == pytest.approx(whole.reflectance)


def solved(board: Board, place: tuple[float, float]) -> dict[str, FrontMap]:
    """Each kind's pocket, solved with one narrow LED near its second end."""
    maps = {}
    for kind, segments in board.kinds().items():
        bay = bay_of(segments[0])
        pocket = Pocket(bay.outline, 25.0, 8.0, 0.6, 0.6, 0.3, 0.5)
        at = (5.0, 3.0) if bay.dot else place
        maps[kind] = pocket_light(pocket, places=(at,), exponent=8.0).map
    return maps


def test_solved_light_keeps_its_mean_and_peaks_over_its_led(subjects: Make, clock: Board) -> None:
    place = (25.0, 4.0)
    subject = subjects("88:88", front=solved(clock, place))
    scene = scene_of(subject, pixels_per_mm=1)
    area = sum(outline.area for outline in lit_outlines(subject, clock))
    assert light_of(scene) == pytest.approx(100 * area, rel=0.02)
    for segment in clock.segments:
        if segment.name == "colon":
            continue
        (mx, my), (ux, uy) = axis_frame(segment.axes[0])
        led = (mx + place[0] * ux - place[1] * uy, my + place[0] * uy + place[1] * ux)
        box = Polygon(segment.outlines[0]).bounds
        rows = slice(round(clock.height_mm - box[3]), round(clock.height_mm - box[1]))
        columns = slice(round(box[0]), round(box[2]))
        row, column = np.unravel_index(
            scene.own_cd_m2[rows, columns].argmax(), scene.own_cd_m2[rows, columns].shape
        )
        found = (columns.start + column + 0.5, clock.height_mm - rows.start - row - 0.5)
        assert math.dist(found, led) < 6, (segment.digit, segment.name, led, found)


def test_light_off_the_axis_lies_to_its_left(subjects: Make, clock: Board, bright_end: FrontMap) -> None:
    """Not mirrored: across is counted to the left of the way from the first end to the second."""
    scene = scene_of(subjects("8 :  ", front={"upright": bright_end}), pixels_per_mm=1)
    segment = next(s for s in clock.segments if (s.digit, s.name) == (1, "b"))
    (mx, my), (ux, uy) = axis_frame(segment.axes[0])

    def at(along: float, across: float) -> float:
        x, y = mx + along * ux - across * uy, my + along * uy + across * ux
        return float(scene.own_cd_m2[math.floor(clock.height_mm - y), math.floor(x)])

    assert at(30, 6) > 2 * at(30, -6) > 0
    assert at(30, 6) > 2 * at(-30, 6) > 0


@pytest.mark.parametrize("angle_deg", [30.0, 60.0])
def test_a_deep_face_hides_what_geometry_says(subjects: Make, clock: Board, angle_deg: float) -> None:
    """Held against a geometry library: an opening and its diffuser, moved by depth times tangent."""
    depth_mm = 8.0
    subject = subjects("12:45", recess_mm=depth_mm)
    moved = depth_mm * math.tan(math.radians(angle_deg))
    seen = sum(o.intersection(translate(o, moved)).area for o in lit_outlines(subject, clock))
    found = light_of(scene_of(subject, pixels_per_mm=1, angle_deg=angle_deg))
    assert found == pytest.approx(100 * seen * math.cos(math.radians(angle_deg)), rel=0.015)


def test_a_reader_at_the_right_sees_the_cut_edge_at_the_left(
    subjects: Make, boards: Callable[..., Board]
) -> None:
    upright = boards(slant_deg=0.0)
    subject = subjects("11:11", board=upright, recess_mm=10.0)
    scene = scene_of(subject, pixels_per_mm=1, angle_deg=45.0)
    segment = next(s for s in upright.segments if (s.digit, s.name) == (1, "b"))
    (x, y), _ = axis_frame(segment.axes[0])
    row = scene.own_cd_m2[round(upright.height_mm - y)]
    half, squeeze = segment.stroke_mm / 2, math.cos(math.radians(45))
    assert row[round((x - half + 3) * squeeze)] == 0, "the cut edge"
    assert row[round((x + half - 3) * squeeze)] > 90, "the diffuser reaches the right edge"


def test_what_is_off_reflects_like_its_pocket_and_the_wall_is_grey(subjects: Make, clock: Board) -> None:
    scene = scene_of(subjects("  :  "), pixels_per_mm=0.5, wall_mm=50)
    assert scene.own_cd_m2[:-30].sum() > 0, "the colon is lit"
    dark = scene_of(replace(subjects("88:88"), lit={}), pixels_per_mm=0.5, wall_mm=50)
    assert dark.own_cd_m2.max() == 0
    assert dark.reflectance.shape == (round(clock.height_mm / 2) + 50, round(clock.width_mm / 2) + 50)
    assert dark.reflectance[0] == pytest.approx(SURROUNDINGS)
    assert {round(float(v), 3) for v in np.unique(dark.reflectance)} >= {0.05, 0.3, SURROUNDINGS}
    assert dark.reflectance.min() == pytest.approx(0.05)


def test_ambient_light_comes_back_as_from_a_matt_surface() -> None:
    """A white card in full sun, 100 000 lx and 80 %, has 25 465 cd/m2 (L = R E/pi)."""
    card = Scene(np.zeros((1, 1)), np.full((1, 1), 0.8), 1.0)
    assert in_light(card, ambient_lx=100_000).total_cd_m2[0, 0] == pytest.approx(25_465, abs=1)


def test_bright_and_dim_lights_change_nothing_else(subjects: Make) -> None:
    scene = scene_of(subjects(), pixels_per_mm=0.3)
    sun, night = in_light(scene, ambient_lx=1e5), in_light(scene, ambient_lx=4, drive=0.25)
    assert sun.own_cd_m2 == pytest.approx(4 * night.own_cd_m2)
    assert (sun.total_cd_m2 - sun.own_cd_m2).max() / (
        night.total_cd_m2 - night.own_cd_m2
    ).max() == pytest.approx(25_000)


def test_what_cannot_be_drawn_is_refused(subjects: Make) -> None:
    subject = subjects()
    with pytest.raises(InputError, match="no segment dp"):
        scene_of(replace(subject, lit={1: frozenset({"dp"})}), pixels_per_mm=1)
    with pytest.raises(InputError) as caught:
        scene_of(replace(subject, face_reflectance=1.2), pixels_per_mm=1, angle_deg=90)
    assert {problem.key for problem in caught.value.problems} == {"angle_deg", "reflectance"}
    with pytest.raises(InputError, match="too large"):
        scene_of(subject, pixels_per_mm=40)
    with pytest.raises(InputError):
        in_light(scene_of(subject, pixels_per_mm=0.2), ambient_lx=1e7)


@pytest.mark.parametrize("pixels_per_mm", [0.3, 1.3])
def test_bare_lamps_are_discs_with_the_light_of_the_segment(subjects: Make, pixels_per_mm: float) -> None:
    subject = subjects()
    rows = {kind: bulb_row(members[0], pitch_mm=15.0) for kind, members in subject.board.kinds().items()}
    sizes = {
        kind: sum(Polygon(outline).area for outline in members[0].outlines)
        for kind, members in subject.board.kinds().items()
    }
    lamps = {
        kind: Lamp(200.0, 0.3, None, Dots(4.0, 3.0, 0.0, sizes[kind]), row) for kind, row in rows.items()
    }
    bare = replace(subject, lamps=lamps)
    scene = scene_of(bare, pixels_per_mm=pixels_per_mm)
    mm2 = sum(outline.area for outline in lit_outlines(subject, subject.board))
    assert light_of(scene) == pytest.approx(200.0 * mm2, rel=1e-6)
    if pixels_per_mm > 1:
        # 4 mm discs 15 mm apart along a bar 39 mm wide fill 12.6 of 585 mm2; rims of pixels double that.
        assert float((scene.own_cd_m2 > 0).sum()) / pixels_per_mm**2 < 0.06 * mm2
    # From 60 degrees the lobe leaves cos^3 of it, on a picture half as wide: cos^2 as bright.
    aside = scene_of(bare, pixels_per_mm=pixels_per_mm, angle_deg=60.0)
    assert light_of(aside) == pytest.approx(200.0 * mm2 * 0.25 * 0.5, rel=0.02)
