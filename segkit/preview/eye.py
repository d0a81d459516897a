"""What an eye makes of a scene: its blur, the stray light in it, and what it takes for bright."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from segkit.preview.scene import SURROUNDINGS, Scene
from segkit.viewing import limits

if TYPE_CHECKING:
    from segkit.optics.front_map import Array

#: Width (sigma) of the blur over the smallest gap resolved. A choice of ours: a grating of bars as wide as
#: that gap keeps a tenth of its contrast, one of bars half as wide keeps nothing that could be seen.
SIGMA_PER_GAP = 0.7

#: Field over whose mean an eye sets itself, degrees across (cie-88-field).
FIELD_DEG = 20.0

#: The eye follows the light, but not all the way, so that dusk and night look darker than day:
#: (cd/m2 at which surroundings look the middle grey that they are, power of the rest). A choice of ours.
_DAY_CD_M2, _FOLLOWS = 1000.0, 0.75

_GLARE_FROM_DEG, _GLARE_TO_DEG = 1.0, 30.0
_COARSE = 8  # pixels, each way, of one place of the stray light


def blur_mm(*, distance_m: float, eyesight: float) -> float:
    """Width (sigma) of the eye's blur on the board, mm.

        sigma = 0.7 * distance * tan((X/20)/60 deg)

    Args:
        distance_m: from the eye to the board, 0.2 to 2000 m.
        eyesight: X of 20/X, 10 to 400.

    Raises:
        InputError: a value out of its range.

    Sources: snellen-chart for the gap of X/20 minutes of arc; the 0.7 is a choice of ours.

    Example:
        >>> round(blur_mm(distance_m=24.0, eyesight=40.0), 2)
        9.77
    """
    limits.check(distance_m=distance_m, eyesight=eyesight)
    return SIGMA_PER_GAP * math.tan(math.radians(eyesight / 20 / 60)) * distance_m * 1000


def blurred(luminance: Array, *, sigma_px: float) -> Array:
    """A picture with the eye's blur, in linear light: its mean is kept, nothing gets below zero.

    The blur is that of heat spreading over a grid whose edges let none out, which for widths of a pixel or
    more is a Gaussian, and which is exact at any width. Along each side of n pixels, part k of the cosine
    transform is taken times

        exp(-sigma^2 * (1 - cos(pi k/n)))

    Args:
        luminance: array (rows, columns), 0 or more.
        sigma_px: width, pixels, 0 or more.

    Sources: arithmetic.
    """
    import numpy as np
    from scipy import fft

    if sigma_px < 0.05:
        return luminance
    parts = fft.dctn(luminance, type=2, norm="ortho")
    for axis, count in enumerate(luminance.shape):
        damped = np.exp(-(sigma_px**2) * (1 - np.cos(np.pi * np.arange(count) / count)))
        parts *= np.expand_dims(damped, 1 - axis)
    soft: Array = np.maximum(fft.idctn(parts, type=2, norm="ortho"), 0.0)
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

    rows, columns = luminance.shape
    coarse = np.pad(luminance, ((0, -rows % _COARSE), (0, -columns % _COARSE)))
    high, wide = coarse.shape[0] // _COARSE, coarse.shape[1] // _COARSE
    coarse = coarse.reshape(high, _COARSE, wide, _COARSE).mean(axis=(1, 3))
    step = _COARSE * pixel_deg
    y, x = np.mgrid[-high + 1 : high, -wide + 1 : wide]
    square = (x**2 + y**2) * step**2
    kernel = np.where(square < _GLARE_TO_DEG**2, 10 / np.maximum(square, _GLARE_FROM_DEG**2), 0.0)
    whole = (3 * high - 2, 3 * wide - 2)  # room for a plain convolution, with nothing that comes round again
    spread = np.fft.irfft2(np.fft.rfft2(coarse, whole) * np.fft.rfft2(kernel, whole), whole)
    veil = np.maximum(spread[high - 1 : 2 * high - 1, wide - 1 : 2 * wide - 1], 0) * math.radians(step) ** 2
    size = (wide * _COARSE, high * _COARSE)
    fine = Image.fromarray(veil.astype(np.float32)).resize(size, Image.Resampling.BILINEAR)
    return np.asarray(fine, dtype=float)[:rows, :columns]


def adapting_cd_m2(scene: Scene, *, distance_m: float) -> float:
    """Luminance to which the eye sets itself: surroundings and board over a field of 20 degrees.

    Args:
        scene: the board.
        distance_m: from the eye to the board, m.

    Sources: cie-88-field.
    """
    around = SURROUNDINGS * scene.ambient_lx / math.pi
    field_mm2 = math.pi * (1000 * distance_m * math.tan(math.radians(FIELD_DEG / 2))) ** 2
    share = min(1.0, scene.own_cd_m2.size / scene.pixels_per_mm**2 / field_mm2)
    return share * float(scene.total_cd_m2.mean()) + (1 - share) * around


def white_cd_m2(adapting_cd_m2: float) -> float:
    """Luminance of what looks white to an eye that has set itself.

    Such that surroundings of 1000 cd/m2 look the middle grey of 18 % that they are, darker ones darker:

        L_w = 1000/0.18 * (L_a/1000)^0.75

    Args:
        adapting_cd_m2: luminance it is set to, cd/m2, above 0.

    Sources: a choice of ours, tried by eye.

    Example:
        >>> round(white_cd_m2(1000.0)), round(white_cd_m2(1.0))
        (5556, 31)
    """
    return float(_DAY_CD_M2 / SURROUNDINGS * (adapting_cd_m2 / _DAY_CD_M2) ** _FOLLOWS)


def seen(scene: Scene, *, distance_m: float, eyesight: float | None = None) -> Scene:
    """The scene on the retina: blurred for the eyesight, with the veil of the LEDs' stray light.

    The stray light of the surroundings is left out: it lies over all alike.

    Args:
        scene: the board.
        distance_m: from the eye, m.
        eyesight: X of 20/X; None leaves it sharp.

    Raises:
        InputError: a value out of its range.

    Sources: snellen-chart, stiles-holladay.
    """
    limits.check(distance_m=distance_m)
    sigma = 0.0
    if eyesight is not None:
        sigma = blur_mm(distance_m=distance_m, eyesight=eyesight) * scene.pixels_per_mm
    pixel_deg = math.degrees(math.atan(1 / scene.pixels_per_mm / 1000 / distance_m))
    own = blurred(scene.own_cd_m2, sigma_px=sigma) + stray_light(scene.own_cd_m2, pixel_deg=pixel_deg)
    return replace(scene, own_cd_m2=own, reflectance=blurred(scene.reflectance, sigma_px=sigma))
