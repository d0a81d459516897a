from __future__ import annotations

import colorsys

import pytest

from segkit.catalog.reader import leds
from segkit.errors import InputError
from segkit.preview.colours import FACE, LED_COLOURS, UNLIT, lit_colour, rgb


def hue_deg(colour: str) -> float:
    return 360 * colorsys.rgb_to_hsv(*(v / 255 for v in rgb(colour)))[0]


@pytest.mark.parametrize(
    ("led", "low", "high"),
    [
        ("red", -12, 12),
        ("amber", 28, 48),
        ("green", 100, 150),
        ("blue", 205, 240),
        ("near-ultraviolet", 250, 280),
    ],
)
def test_hue_is_that_of_the_name(led: str, low: float, high: float) -> None:
    assert low <= hue_deg(lit_colour(led)) <= high


@pytest.mark.parametrize(
    ("peak_nm", "low", "high"),
    [(470, 200, 225), (510, 95, 125), (560, 65, 90), (595, 25, 45), (615, 0, 12), (650, 0, 12)],
)
def test_a_fluorescent_sheet_sets_the_colour(peak_nm: float, low: float, high: float) -> None:
    assert low <= hue_deg(lit_colour("near-ultraviolet", emission_nm=peak_nm)) <= high


def test_every_led_of_the_catalogue_has_a_colour() -> None:
    assert {led.colour for led in leds().values()} <= set(LED_COLOURS)


def test_unlit_is_just_seen_on_the_face() -> None:
    assert 10 < sum(rgb(UNLIT)) - sum(rgb(FACE)) < 120


def test_an_unknown_colour_names_the_known_ones() -> None:
    with pytest.raises(InputError, match="Allowed: red, amber"):
        lit_colour("crimson")
