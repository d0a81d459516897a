"""A scene as colours on a screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from segkit.preview.colours import rgb
from segkit.preview.scene import Scene

if TYPE_CHECKING:
    from PIL import Image

    from segkit.optics.front_map import Array

_LUMA = (0.2126, 0.7152, 0.0722)  # iec-61966-2-1
_BRIGHTEST = 6.0  # times the white: what is brighter is cut; chosen by eye
_SHADES = 65536  # steps of linear light, so fine that none of the screen's 256 values is missed
_WHITENS_AT = 200.0  # times the white: a light that bright looks half white; chosen by eye


def on_screen(scene: Scene, *, colour: str, white_cd_m2: float) -> Image.Image:
    """The scene in the colours of a screen on which white stands for a luminance.

    Luminances well below the white keep their ratios; near it and above they are pressed together, since a
    screen ends there. With x the largest of red, green and blue, 1 for the white:

        shown = x (1 + x/36)/(1 + x), at most 1

    The LEDs' colour and white daylight are mixed in the shares of their luminances. What is brighter than a
    screen can show keeps its hue, and goes to white only when far above. What reflects has no colour of
    its own.

    Args:
        scene: the board.
        colour: of the lit segments, ``#rrggbb``.
        white_cd_m2: luminance of the white, above 0.

    Sources: naka-rushton-1966 for the form of the pressing, iec-61966-2-1 for the colours.
    """
    import numpy as np

    light = _mixed(scene, colour) / white_cd_m2
    top = _top(light)
    light *= np.minimum((1 + top / _BRIGHTEST**2) / (1 + top), 1 / np.maximum(top, 1e-12))
    return _image(_whitened(light, scene.own_cd_m2 / white_cd_m2))


def photograph(scene: Scene, *, colour: str, exposed_cd_m2: float = 0.0) -> Image.Image:
    """The scene with the true ratios of its luminances, exposed for its brightest place or as asked.

    Args:
        scene: the board.
        colour: of the lit segments, ``#rrggbb``.
        exposed_cd_m2: luminance shown as white; what is brighter is cut and keeps its hue. 0 for the
            brightest place.

    Sources: iec-61966-2-1.
    """
    import numpy as np

    light = _mixed(scene, colour)
    light = light / max(exposed_cd_m2 or float(light.max()), 1e-12)
    return _image(light / np.maximum(_top(light), 1))


def _mixed(scene: Scene, colour: str) -> Array:
    """Red, green and blue of each place with its luminance in cd/m2."""
    import numpy as np

    pure = _pure(colour)
    tone = (pure / (pure @ np.array(_LUMA))).reshape(1, 1, 3)
    reflected = scene.total_cd_m2 - scene.own_cd_m2
    mixed: Array = scene.own_cd_m2[..., None] * tone + reflected[..., None]
    return mixed


def _whitened(light: Array, overload: Array) -> Array:
    """Colours on their way to white, where a light is far brighter than the white of the screen."""
    share = (overload / (overload + _WHITENS_AT))[..., None]
    return light + (_top(light) - light) * share


def _top(light: Array) -> Array:
    """The largest of red, green and blue, in a last axis of one."""
    import numpy as np

    return np.maximum(np.maximum(light[..., :1], light[..., 1:2]), light[..., 2:])


def _image(light: Array) -> Image.Image:
    import numpy as np
    from PIL import Image

    shades = np.round(255 * encoded(np.linspace(0, 1, _SHADES))).astype(np.uint8)
    return Image.fromarray(shades[(np.clip(light, 0, 1) * (_SHADES - 1) + 0.5).astype(np.uint16)], "RGB")


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
