"""What colour a lit segment looks on a screen."""

from __future__ import annotations

from segkit.errors import InputError, Problem, nearest

Rgb = tuple[int, int, int]

#: Colours on a screen for the light of an LED seen through a white diffuser; chosen by eye.
LED_COLOURS = {
    "red": "#ff2a1a",
    "amber": "#ffab1a",
    "green": "#2bff6a",
    "blue": "#3a7bff",
    "white": "#fff4e0",
    "near-ultraviolet": "#7b3cff",
}
#: Upper end of the band [nm] and colour on a screen, for sheets that fluoresce.
_EMISSION_COLOURS = (
    (490.0, "#3a8bff"),
    (505.0, "#25f0c0"),
    (545.0, "#4dff2e"),
    (575.0, "#c8ff1f"),
    (590.0, "#ffd21a"),
    (605.0, "#ff8a14"),
    (1000.0, "#ff3a24"),
)
FACE = "#15171a"
UNLIT = "#2b2d31"


def lit_colour(led_colour: str, *, emission_nm: float = 0.0) -> str:
    """Colour of a lit segment as ``#rrggbb``.

    Args:
        led_colour: red, amber, green, blue, white or near-ultraviolet.
        emission_nm: peak of the fluorescent sheet over the LEDs [nm]; 0 if there is none.

    Raises:
        InputError: an unknown colour.

    Example:
        >>> lit_colour("red"), lit_colour("near-ultraviolet", emission_nm=510)
        ('#ff2a1a', '#4dff2e')
    """
    if led_colour not in LED_COLOURS:
        raise InputError(
            Problem(
                "no picture colour for these LEDs.",
                value=led_colour,
                limit=", ".join(LED_COLOURS),
                remedy=nearest(led_colour, tuple(LED_COLOURS)),
            )
        )
    if emission_nm > 0:
        return next((colour for end, colour in _EMISSION_COLOURS if emission_nm <= end), "#ff3a24")
    return LED_COLOURS[led_colour]


def rgb(colour: str) -> Rgb:
    """``#rrggbb`` as three numbers from 0 to 255.

    Example:
        >>> rgb("#ff8000")
        (255, 128, 0)
    """
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
