"""The eye's blur, stray light and adaptation, held against the eye chart, the glare formula and a Gaussian."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from segkit.errors import InputError
from segkit.preview.eye import (
    SIGMA_PER_GAP,
    adapting_cd_m2,
    blur_mm,
    blurred,
    seen,
    stray_light,
    white_cd_m2,
)
from segkit.preview.scene import SURROUNDINGS, Scene, Subject, in_light, scene_of


def contrast(row: np.ndarray) -> float:
    """Michelson contrast."""
    return float((row.max() - row.min()) / (row.max() + row.min()))


def test_smallest_gap_is_a_stroke_of_the_letter_on_the_eye_chart() -> None:
    """The 20/20 letter of the chart for 20 ft is 8.87 mm tall and five strokes high (Snellen's 5 minutes)."""
    gap_mm = blur_mm(distance_m=20 * 0.3048, eyesight=20) / SIGMA_PER_GAP
    printed, ours = 8.87 / 5, gap_mm
    assert ours == pytest.approx(printed, rel=2e-3), (printed, ours, "letter height printed to 0.01 mm")
    assert blur_mm(distance_m=48, eyesight=40) == pytest.approx(2 * blur_mm(distance_m=24, eyesight=40))
    assert blur_mm(distance_m=24, eyesight=200) == pytest.approx(
        10 * blur_mm(distance_m=24, eyesight=20), rel=1e-5
    )


@given(
    sigma_px=some.floats(0, 5000),
    seed=some.integers(0, 99),
    shape=some.tuples(some.integers(1, 40), some.integers(1, 40)),
)
def test_blur_keeps_all_light_and_makes_none(sigma_px: float, seed: int, shape: tuple[int, int]) -> None:
    picture = np.random.default_rng(seed).random(shape) ** 8 * 1000
    soft = blurred(picture, sigma_px=sigma_px)
    assert soft.mean() == pytest.approx(picture.mean(), rel=1e-9)
    assert soft.min() >= 0
    assert soft.max() <= picture.max() * (1 + 1e-9)


@pytest.mark.parametrize("sigma_px", [2.0, 5.0, 12.0])
def test_blur_is_that_of_a_gaussian(sigma_px: float) -> None:
    """Held against the filter of a general library, which sums in the picture and not over waves."""
    from scipy.ndimage import gaussian_filter

    picture = np.zeros((120, 160))
    picture[40:70, 30:110] = 100
    other = gaussian_filter(picture, sigma_px, mode="reflect", truncate=8)
    worst = np.abs(blurred(picture, sigma_px=sigma_px) - other).max()
    assert worst < 4.5 / sigma_px**2, "of 100; the blur of a grid has longer tails, by the width of a pixel"


@pytest.mark.parametrize(("period_px", "sigma_px"), [(16, 2.0), (16, 4.0), (40, 9.0), (64, 5.0)])
def test_a_grating_keeps_the_contrast_that_a_gaussian_leaves_it(period_px: int, sigma_px: float) -> None:
    """Contrast of a sine grating behind a Gaussian: exp(-2 pi^2 (sigma/period)^2), optics handbooks."""
    wave = 1 + 0.8 * np.cos(2 * np.pi * (np.arange(8 * period_px) + 0.5) / period_px)
    kept = contrast(blurred(np.tile(wave, (6, 1)), sigma_px=sigma_px)[3]) / contrast(wave)
    by_hand = math.exp(-2 * math.pi**2 * (sigma_px / period_px) ** 2)
    assert kept == pytest.approx(by_hand, rel=0.06), (by_hand, kept, "pixels: cos in place of its parabola")


def test_bars_at_the_limit_of_the_eye_are_just_to_be_seen() -> None:
    """A tenth of the contrast is left of bars one gap wide, nothing of bars half as wide."""
    gap_px = 12
    sigma_px = SIGMA_PER_GAP * gap_px
    bars = np.tile(np.repeat([0.0, 1.0] * 12, gap_px), (4, 1))
    fine = np.tile(np.repeat([0.0, 1.0] * 24, gap_px // 2), (4, 1))
    middle = slice(6 * gap_px, 18 * gap_px)
    assert 0.08 < contrast(blurred(bars, sigma_px=sigma_px)[2, middle]) < 0.13
    assert contrast(blurred(fine, sigma_px=sigma_px)[2, middle]) < 2e-3


@pytest.mark.parametrize("away_deg", [4.0, 10.0, 20.0])
def test_veil_beside_a_lamp_is_that_of_the_glare_formula(away_deg: float) -> None:
    """Stiles and Holladay: L = 10 E/theta^2 cd/m2, E in lx at the eye, theta in degrees."""
    pixel_deg = 0.05
    picture = np.zeros((96, 1000))
    picture[40:48, 40:48] = 5000.0
    solid_sr = (8 * math.radians(pixel_deg)) ** 2
    by_hand = 10 * 5000.0 * solid_sr / away_deg**2
    there = 44 + round(away_deg / pixel_deg)
    assert stray_light(picture, pixel_deg=pixel_deg)[44, there] == pytest.approx(by_hand, rel=0.03)


def test_veil_is_in_proportion_and_held_near_the_lamp_and_ends_at_30_degrees() -> None:
    picture = np.zeros((64, 640))
    picture[:8, :8] = 100.0
    veil = stray_light(picture, pixel_deg=0.1)
    assert stray_light(3 * picture, pixel_deg=0.1) == pytest.approx(3 * veil)
    assert veil[4, 4] == pytest.approx(10 * 100 * math.radians(0.8) ** 2, rel=2e-3)
    assert veil[4, 400:].max() == pytest.approx(0, abs=1e-9)
    single = stray_light(np.full((4, 4), 100.0), pixel_deg=0.1)
    assert single.shape == (4, 4)
    assert single.max() == pytest.approx(10 * 25 * math.radians(0.8) ** 2, rel=1e-5)


def test_an_eye_far_away_sets_itself_to_the_surroundings_and_nearby_to_the_board() -> None:
    board = in_light(Scene(np.full((100, 200), 300.0), np.full((100, 200), 0.05), 0.2), ambient_lx=400)
    around = SURROUNDINGS * 400 / math.pi
    assert adapting_cd_m2(board, distance_m=500) == pytest.approx(around, rel=2e-2)
    assert adapting_cd_m2(board, distance_m=0.5) == pytest.approx(board.total_cd_m2.mean())
    steps = [adapting_cd_m2(board, distance_m=d) for d in (1, 2, 4, 8, 16)]
    assert steps == sorted(steps, reverse=True)


def test_what_an_eye_is_used_to_looks_darker_the_darker_it_is() -> None:
    levels = [0.01, 1.0, 100.0, 1000.0, 20_000.0]
    greys = [level / white_cd_m2(level) for level in levels]
    assert greys == sorted(greys)
    assert greys[3] == pytest.approx(SURROUNDINGS)
    whites = [white_cd_m2(level) for level in levels]
    assert whites == sorted(whites)


def test_from_twice_as_far_the_digits_are_blurred_more(subjects: Callable[..., Subject]) -> None:
    scene = in_light(scene_of(subjects("88:88"), pixels_per_mm=0.5), ambient_lx=0.1)
    near, far = (seen(scene, distance_m=d, eyesight=40).own_cd_m2 for d in (24, 48))
    sharp = seen(scene, distance_m=24).own_cd_m2
    assert sharp.std() > 1.05 * near.std() > 1.05 * 1.1 * far.std()
    row = scene.own_cd_m2.shape[0] // 2
    assert np.abs(np.diff(near[row])).max() > 1.5 * np.abs(np.diff(far[row])).max()
    poorer = seen(scene, distance_m=24, eyesight=80).own_cd_m2
    assert poorer == pytest.approx(far, abs=0.5), "half the eyesight is twice the distance"


def test_what_reflects_is_blurred_too_and_the_veil_is_of_the_leds_alone(
    subjects: Callable[..., Subject],
) -> None:
    scene = in_light(scene_of(subjects("  :  "), pixels_per_mm=0.5), ambient_lx=1000, drive=0.0)
    found = seen(scene, distance_m=30, eyesight=40)
    assert found.own_cd_m2.max() == 0
    assert found.reflectance.mean() == pytest.approx(scene.reflectance.mean())
    assert found.reflectance.std() < scene.reflectance.std()


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ({"distance_m": 0.0, "eyesight": 40.0}, "distance_m"),
        ({"distance_m": 10.0, "eyesight": 5.0}, "eyesight"),
    ],
)
def test_eyes_and_distances_that_cannot_be_are_refused(values: dict[str, float], named: str) -> None:
    scene = Scene(np.ones((4, 4)), np.ones((4, 4)), 1.0)
    with pytest.raises(InputError) as caught:
        seen(scene, **values)
    assert [problem.key for problem in caught.value.problems] == [named]
