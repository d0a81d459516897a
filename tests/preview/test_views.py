"""Whole pictures: lit where they must be, darker by night, more blurred from afar, narrower from the side."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from segkit.errors import InputError
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds
from segkit.preview.scene import Subject
from segkit.preview.views import Light, Reader, by_readers, close_up, in_lights

Make = Callable[..., Subject]
DUSK = Light(400.0)


def middle(board: Board, digit: int, name: str) -> tuple[float, float]:
    left, low, right, top = bounds(
        [next(s for s in board.segments if (s.digit, s.name) == (digit, name)).outlines[0]]
    )
    return (left + right) / 2, (low + top) / 2


def shown(picture: Image.Image, board: Board, at: tuple[float, float]) -> tuple[int, ...]:
    scale = picture.width / board.width_mm
    pixel = picture.getpixel((round(at[0] * scale), round((board.height_mm - at[1]) * scale)))
    assert isinstance(pixel, tuple)
    return pixel


def luma(picture: Image.Image) -> np.ndarray:
    return np.asarray(picture.convert("L"), dtype=float)


@pytest.mark.parametrize("colour", ["red", "white"])
def test_close_up_is_bright_where_it_is_lit_and_only_there(subjects: Make, clock: Board, colour: str) -> None:
    subject = subjects("12:45", colour=colour)
    picture = close_up(subject, DUSK, width_px=600)
    assert picture.size == (600, round(600 * clock.height_mm / clock.width_mm))
    for segment in clock.segments:
        brightest = max(shown(picture, clock, middle(clock, segment.digit, segment.name)))
        lit = segment.name in subject.lit[segment.digit]
        assert brightest > 230 if lit else brightest < 160, (segment.digit, segment.name)
    x, y = middle(clock, 1, "b")
    beside = shown(picture, clock, (x + 0.9 * clock.shape.stroke_mm, y))
    assert max(beside) >= max(shown(picture, clock, (5, 5))), "the glow of stray light"


@pytest.mark.parametrize("width_px", [500, 501, 637, 803])
def test_the_face_reaches_every_edge(subjects: Make, width_px: int) -> None:
    dark = close_up(replace(subjects(), lit={}), DUSK, width_px=width_px)
    rows = np.asarray(dark)
    edges = np.concatenate([rows[0], rows[-1], rows[:, 0], rows[:, -1]])
    assert len(np.unique(edges, axis=0)) == 1


def test_each_light_is_shown_lighter_than_the_one_before_and_contrast_sinks(
    subjects: Make, clock: Board
) -> None:
    lights = [Light(4.0, 0.5), DUSK, Light(5000.0), Light(20_000.0), Light(100_000.0)]
    pictures = in_lights(subjects("12:45", luminance_cd_m2=500.0), lights, distance_m=24, width_px=320)
    walls = [luma(picture)[:4].mean() for picture in pictures]
    assert walls == sorted(walls)
    assert walls[0] < 60 < 100 < walls[-1]
    edge = (pictures[0].width - 320) // 2
    boards = [picture.crop((edge, edge, picture.width - edge, picture.height - edge)) for picture in pictures]
    apart = [
        luma(board)[round((clock.height_mm - y) * 320 / clock.width_mm), round(x * 320 / clock.width_mm)]
        for board in boards
        for x, y in (middle(clock, 1, "b"), middle(clock, 1, "f"))
    ]
    ratios = [lit / unlit for lit, unlit in zip(apart[::2], apart[1::2], strict=True)]
    assert ratios == sorted(ratios, reverse=True)
    assert ratios[-1] < 1.15, "washed out by the sun"


def test_readers_see_it_blurred_by_distance_and_narrow_from_the_side(subjects: Make) -> None:
    readers = [Reader(24), Reader(24, 40), Reader(48, 40), Reader(24, 40, 60)]
    sharp, near, far, side = by_readers(subjects("88:88"), DUSK, readers, width_px=400)
    assert sharp.size == near.size == far.size, "all at the same scale"
    assert side.height == sharp.height
    assert side.width == pytest.approx(sharp.width * math.cos(math.radians(60)), abs=1)
    steps = [np.abs(np.diff(luma(picture), axis=1)).max() for picture in (sharp, near, far)]
    assert steps[0] > 2 * steps[1] > 2 * 1.4 * steps[2]
    wall = {picture.getpixel((2, 2)) for picture in (sharp, near)}
    assert len(wall) == 1, "the same eye, exposed alike"


def test_pictures_are_the_same_each_time(subjects: Make) -> None:
    subject = subjects()
    for _ in range(2):
        first, again = (in_lights(subject, [DUSK], distance_m=20, width_px=200)[0] for _ in range(2))
        assert first.tobytes() == again.tobytes()


def test_close_up_from_the_side_is_narrower(subjects: Make) -> None:
    straight, side = (close_up(subjects(), DUSK, width_px=300, angle_deg=angle) for angle in (0, 45))
    assert (straight.height, round(straight.width * math.cos(math.pi / 4))) == (side.height, side.width)


def test_lights_and_readers_that_cannot_be_are_refused(subjects: Make) -> None:
    with pytest.raises(InputError, match="out of range"):
        close_up(subjects(), Light(2e5), width_px=200)
    with pytest.raises(InputError, match="out of range"):
        by_readers(subjects(), DUSK, [Reader(9000.0, 40)], width_px=200)
    with pytest.raises(InputError, match="too large"):
        close_up(subjects(), DUSK, width_px=30_000)
