"""A scene as colours on a screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from segkit.preview.colours import rgb
from segkit.preview.eye import half_saturation_cd_m2, response
from segkit.preview.scene import Scene

if TYPE_CHECKING:
    from PIL import Image

    from segkit.optics.front_map import Array

_LUMA = (0.2126, 0.7152, 0.0722)  # iec-61966-2-1
_WHITENS_AT = 60.0  # times the half-saturation: a light that far above it looks half white; chosen by eye
_KNEE = 3.0  # how sharply a colour stops growing at the screen's limit; chosen by eye


def on_screen(scene: Scene, *, colour: str, adapting_cd_m2: float) -> Image.Image:
    """The scene as an eye set to a luminance takes it, in the screen's colours.

    The mix of the LEDs' colour and white daylight is scaled to the response of the eye; what a screen
    cannot show keeps its hue at the screen's limit, and goes to white where the eye is far overloaded.

    Args:
        scene: the board.
        colour: of the lit segments, ``#rrggbb``.
        adapting_cd_m2: luminance to which the eye is set, above 0.

    Sources: naka-rushton-1966, iec-61966-2-1.
    """
    import numpy as np
    from PIL import Image

    half = half_saturation_cd_m2(adapting_cd_m2)
    total = scene.total_cd_m2
    own = (scene.own_cd_m2 / np.maximum(total, 1e-12))[..., None]
    hue = own * _pure(colour) + (1 - own)
    overload = (total / half)[..., None]
    white = overload / (overload + _WHITENS_AT)
    hue = hue * (1 - white) + white
    light = hue * (response(total, half_cd_m2=half) / (hue @ np.array(_LUMA)))[..., None]
    top = light.max(axis=2, keepdims=True)
    light = light / (1 + top**_KNEE) ** (1 / _KNEE)
    return Image.fromarray(np.round(255 * encoded(light)).astype(np.uint8), "RGB")


def encoded(light: Array) -> Array:
    """Linear light 0 to 1 as the screen's values 0 to 1.

    Sources: iec-61966-2-1.
    """
    import numpy as np

    held = np.clip(light, 0, 1)
    found: Array = np.where(held <= 0.0031308, 12.92 * held, 1.055 * held ** (1 / 2.4) - 0.055)
    return found


def decoded(value: Array) -> Array:
    """The screen's values 0 to 1 as linear light; the reverse of ``encoded``.

    Sources: iec-61966-2-1.
    """
    import numpy as np

    found: Array = np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)
    return found


def _pure(colour: str) -> Array:
    """Linear red, green and blue of a colour, the largest 1."""
    import numpy as np

    light = decoded(np.array(rgb(colour)) / 255)
    found: Array = light / light.max()
    return found
