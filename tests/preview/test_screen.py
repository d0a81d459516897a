"""Luminances as colours on a screen."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from PIL import Image

from segkit.preview.scene import Scene
from segkit.preview.screen import decoded, encoded, on_screen, photograph

LUMA = np.array([0.2126, 0.7152, 0.0722])


def strip(own: list[float], reflected: list[float] | None = None) -> Scene:
    """A row of places; the reflected luminance is in cd/m2."""
    back = np.array([reflected or [0.0] * len(own)])
    return Scene(np.array([own]), back, 1.0, ambient_lx=np.pi)


def values(picture: Image.Image) -> np.ndarray:
    """Linear red, green and blue of the first row."""
    return decoded(np.asarray(picture, dtype=float)[0] / 255)


@pytest.mark.parametrize(
    ("linear", "printed"), [(0.0, 0.0), (0.0031308, 0.04045), (0.18, 0.4613), (0.5, 0.7354), (1.0, 1.0)]
)
def test_transfer_curve_is_that_of_the_standard(linear: float, printed: float) -> None:
    """IEC 61966-2-1: the joint of its two parts; 18 % grey at 118 of 255; half the light at 188 of 255."""
    ours = float(encoded(np.array([linear]))[0])
    assert ours == pytest.approx(printed, abs=1e-4), (printed, ours, "printed to four places")
    assert float(decoded(np.array([ours]))[0]) == pytest.approx(linear, abs=1e-4)


def test_what_is_beyond_the_screen_is_held_at_its_limits() -> None:
    assert encoded(np.array([-1.0, 7.0])) == pytest.approx([0.0, 1.0], abs=1e-12)


@pytest.mark.parametrize("colour", ["#ff2a1a", "#4dff2e", "#fff4e0"])
def test_brighter_is_never_shown_darker(colour: str) -> None:
    levels = [0.0, *np.geomspace(0.01, 1e6, 60).tolist()]
    shown = values(on_screen(strip(levels), colour=colour, white_cd_m2=100.0)).max(axis=1)
    assert all(b >= a for a, b in pairwise(shown))
    assert shown[0] == 0
    assert shown[-1] == 1
    darker_eye = values(on_screen(strip(levels), colour=colour, white_cd_m2=10.0)).max(axis=1)
    assert (darker_eye >= shown).all()


def test_well_below_the_white_ratios_are_kept() -> None:
    shown = values(on_screen(strip([0, 0, 0], [1.0, 3.0, 9.0]), colour="#ffffff", white_cd_m2=1000.0))
    assert shown[1, 0] / shown[0, 0] == pytest.approx(3, rel=0.12), "256 steps near black"
    assert shown[2, 0] / shown[1, 0] == pytest.approx(3, rel=0.06)


def test_a_photograph_has_the_true_ratios_and_is_full_at_its_brightest() -> None:
    shown = values(photograph(strip([0, 0, 0], [200.0, 60.0, 20.0]), colour="#ff2a1a"))[:, 0]
    assert shown == pytest.approx([1.0, 0.3, 0.1], abs=0.004)
    red = values(photograph(strip([200.0, 100.0, 0.0], [0.0, 0.0, 25.0]), colour="#ff2a1a"))
    luminance = red @ LUMA
    assert luminance[:2] / luminance[0] == pytest.approx([1, 0.5], abs=0.01)
    assert luminance[2] / luminance[0] == pytest.approx(25 / 200, rel=0.03), "red beside grey, by luminance"


def test_a_dark_scene_is_black() -> None:
    assert np.asarray(photograph(strip([0.0, 0.0]), colour="#ff2a1a")).max() == 0
    assert np.asarray(on_screen(strip([0.0]), colour="#ff2a1a", white_cd_m2=1.0)).max() == 0


def test_daylight_pales_the_colour_in_the_share_of_its_luminance() -> None:
    pure, mixed, washed = values(
        on_screen(strip([100, 100, 100], [0, 100, 10_000]), colour="#ff2a1a", white_cd_m2=20_000)
    )
    assert pure[1] / pure[0] < 0.05
    # half of the luminance is white: green holds half of it, red that half and the LEDs' 1/0.2126
    red, green, blue = decoded(np.array([255, 42, 26]) / 255)
    whole = np.dot([red, green, blue], LUMA)
    assert mixed[1] / mixed[0] == pytest.approx((green / whole + 1) / (red / whole + 1), rel=0.05)
    assert washed[1] / washed[0] > 0.9


def test_only_what_is_far_too_bright_goes_to_white() -> None:
    bright, blinding = values(on_screen(strip([300.0, 1e6]), colour="#ff2a1a", white_cd_m2=100.0))
    assert bright[1] / bright[0] < 0.1
    assert blinding[1] / blinding[0] > 0.9
