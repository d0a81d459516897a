"""What an eye makes of a scene: its blur, the stray light in it, and what it takes for bright."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from segkit.preview.scene import Scene

if TYPE_CHECKING:
    from segkit.optics.front_map import Array

#: Width (sigma) of the blur over the smallest gap resolved: a grating of such bars keeps a tenth of its
#: contrast, one of bars a third as wide keeps nothing (common-practice; snellen-chart for the gap).
SIGMA_PER_GAP = 0.7

#: Mean reflectance of surroundings, as light meters take it (common-practice).
SURROUNDINGS = 0.18

#: Field over whose mean an eye sets itself, degrees across (common-practice).
FIELD_DEG = 20.0

#: Steepness of the response (boynton-whitten-1970).
STEEPNESS = 0.74

#: The half-saturation follows the adapting luminance almost, so that dusk and night look darker than day:
#: (cd/m2 at which the middle grey of a screen shows the surroundings, power). Chosen by eye.
_DAY_CD_M2, _FOLLOWS = 1000.0, 0.8

_SCREEN_GREY = 0.18
_GLARE_FROM_DEG, _GLARE_TO_DEG = 1.0, 30.0
_COARSE = 8  # pixels, each way, of one place of the stray light


def resolved_arcmin(eyesight: float) -> float:
    """Smallest gap that the eye resolves, minutes of arc: X/20.

    Args:
        eyesight: X of 20/X, 10 to 400.

    Sources: snellen-chart.

    Example:
        >>> resolved_arcmin(40.0)
        2.0
    """
    return eyesight / 20


def blur_mm(*, distance_m: float, eyesight: float) -> float:
    """Width (sigma) of the eye's blur on the board, mm.

        sigma = 0.7 * (X/20)/60 deg * distance

    Args:
        distance_m: from the eye to the board, m.
        eyesight: X of 20/X.

    Sources: snellen-chart; common-practice for the 0.7.

    Example:
        >>> round(blur_mm(distance_m=24.0, eyesight=40.0), 2)
        9.77
    """
    return SIGMA_PER_GAP * math.radians(resolved_arcmin(eyesight) / 60) * distance_m * 1000


def blurred(luminance: Array, *, sigma_px: float) -> Array:
    """A picture with the eye's blur, in linear light; its mean is kept.

    Args:
        luminance: array (rows, columns).
        sigma_px: width of the Gaussian, pixels.
    """
    if sigma_px < 0.05:
        return luminance
    from scipy.ndimage import gaussian_filter

    soft: Array = gaussian_filter(luminance, sigma_px, mode="reflect", truncate=5.0)
    return soft


def stray_light(luminance: Array, *, pixel_deg: float) -> Array:
    """Luminance of the veil that light scattered in the eye lays over the scene, cd/m2.

        L_v = sum of 10 E/theta^2, E in lx at the eye, theta in degrees, 1 to 30; held below 1

    Args:
        luminance: array (rows, columns), cd/m2.
        pixel_deg: angle of a pixel, degrees.

    Sources: stiles-holladay.
    """
    import numpy as np
    from PIL import Image
    from scipy.signal import fftconvolve

    rows, columns = luminance.shape
    coarse = np.pad(luminance, ((0, -rows % _COARSE), (0, -columns % _COARSE)))
    high, wide = coarse.shape[0] // _COARSE, coarse.shape[1] // _COARSE
    coarse = coarse.reshape(high, _COARSE, wide, _COARSE).mean(axis=(1, 3))
    step = _COARSE * pixel_deg
    y, x = np.mgrid[-high + 1 : high, -wide + 1 : wide]
    square = (x**2 + y**2) * step**2
    kernel = np.where(square < _GLARE_TO_DEG**2, 10 / np.maximum(square, _GLARE_FROM_DEG**2), 0.0)
    veil = np.maximum(fftconvolve(coarse, kernel, mode="same"), 0) if coarse.size > 1 else coarse * kernel
    veil = veil[:high, :wide] * math.radians(step) ** 2
    size = (wide * _COARSE, high * _COARSE)
    fine = Image.fromarray(veil.astype(np.float32)).resize(size, Image.Resampling.BILINEAR)
    return np.asarray(fine, dtype=float)[:rows, :columns]


def adapting_cd_m2(scene: Scene, *, distance_m: float) -> float:
    """Luminance to which the eye sets itself: surroundings and board over a field of 20 degrees.

    Args:
        scene: the board.
        distance_m: from the eye to the board, m.

    Sources: common-practice.
    """
    around = SURROUNDINGS * scene.ambient_lx / math.pi
    field_mm2 = math.pi * (1000 * distance_m * math.tan(math.radians(FIELD_DEG / 2))) ** 2
    share = min(1.0, scene.own_cd_m2.size / scene.pixels_per_mm**2 / field_mm2)
    return share * float(scene.total_cd_m2.mean()) + (1 - share) * around


def half_saturation_cd_m2(adapting_cd_m2: float) -> float:
    """Luminance that draws half of the eye's response, once it has set itself.

    Args:
        adapting_cd_m2: luminance it is set to, cd/m2, above 0.

    Sources: naka-rushton-1966; common-practice for how it follows.
    """
    above = (1 / _SCREEN_GREY - 1) ** (1 / STEEPNESS)
    return float(above * _DAY_CD_M2 * (adapting_cd_m2 / _DAY_CD_M2) ** _FOLLOWS)


def response(luminance: Array, *, half_cd_m2: float) -> Array:
    """Share of the eye's largest response, 0 to 1.

        R = L^n/(L^n + s^n), n = 0.74

    Args:
        luminance: cd/m2, 0 or more.
        half_cd_m2: half-saturation s, cd/m2, above 0.

    Sources: naka-rushton-1966, boynton-whitten-1970.

    Example:
        >>> import numpy as np
        >>> response(np.array([0.0, 20.0]), half_cd_m2=20.0).tolist()
        [0.0, 0.5]
    """
    power = (luminance / half_cd_m2) ** STEEPNESS
    found: Array = power / (1 + power)
    return found


def from_side(scene: Scene, *, angle_deg: float) -> Scene:
    """The scene narrowed by cos(angle), as a reader off its axis sees it; luminances stay as they are.

    Args:
        scene: from ``scene_of`` with its ``shift_mm`` for the angle.
        angle_deg: 0 to below 90.

    Sources: arithmetic; lambert-surface.
    """
    narrow = max(1, round(scene.own_cd_m2.shape[1] * math.cos(math.radians(angle_deg))))
    own, reflected = (_narrowed(a, narrow) for a in (scene.own_cd_m2, scene.reflected_cd_m2))
    return replace(scene, own_cd_m2=own, reflected_cd_m2=reflected)


def _narrowed(luminance: Array, columns: int) -> Array:
    import numpy as np
    from PIL import Image

    size = (columns, luminance.shape[0])
    return np.asarray(
        Image.fromarray(luminance.astype(np.float32)).resize(size, Image.Resampling.BOX), dtype=float
    )


def seen(scene: Scene, *, distance_m: float, eyesight: float | None = None) -> Scene:
    """The scene on the retina: blurred for the eyesight, with the veil of stray light.

    Args:
        scene: the board.
        distance_m: from the eye, m.
        eyesight: X of 20/X; None leaves it sharp.

    Sources: snellen-chart, stiles-holladay.
    """
    sigma = 0.0
    if eyesight is not None:
        sigma = blur_mm(distance_m=distance_m, eyesight=eyesight) * scene.pixels_per_mm
    pixel_deg = math.degrees(1 / scene.pixels_per_mm / 1000 / distance_m)
    own = blurred(scene.own_cd_m2, sigma_px=sigma)
    veil = stray_light(scene.own_cd_m2, pixel_deg=pixel_deg)
    return replace(
        scene, own_cd_m2=own + veil, reflected_cd_m2=blurred(scene.reflected_cd_m2, sigma_px=sigma)
    )
