from __future__ import annotations

import math

import pytest

from segkit.catalog.reader import led, sheet
from segkit.optics.dots import Bulbs, Dots, dots_luminance


def test_direction_of_the_reader_by_hand() -> None:
    # cos 30 * cos 30 = 0.75, so 41.41 degrees; a 60 degree bulb has m = ln 2/-ln cos 30 = 4.8188, which
    # leaves 0.75^4.8188 = 0.25 of its axis: half of it each way.
    seen = Bulbs(led("red-5mm-diffused"), 0.020, 20.0, sheet("plywood-4mm"), None, 30.0, 30.0)
    assert seen.off_axis_deg == pytest.approx(41.4096, abs=1e-4)
    assert seen.axis_cd == pytest.approx(0.5)
    assert seen.towards_cd == pytest.approx(0.125)


@pytest.mark.parametrize("angle", [0.0, 20.0, 60.0])
def test_share_is_the_ratio_of_two_luminances(angle: float) -> None:
    m = 4.8188
    here, there = (
        dots_luminance(intensity_cd=math.cos(math.radians(a)) ** m, count=5, area_mm2=2000.0, off_axis_deg=a)
        for a in (15.0, angle)
    )
    assert Dots(5.0, m, 15.0, 2000.0).share_at(angle) == pytest.approx(there / here)


def test_a_matt_lamp_looks_as_bright_from_anywhere() -> None:
    assert Dots(5.0, 1.0, 0.0, 2000.0).share_at(70.0) == 1.0
