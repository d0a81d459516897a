"""What the check bar measures: the factors against the units that programs take for granted."""

from __future__ import annotations

import pytest

from segkit.fabrication.paper import PaperSettings
from segkit.fabrication.wrong_scale import wrong_scales


def test_the_factor_brings_the_bar_back_and_the_smallest_comes_first() -> None:
    rows = wrong_scales(PaperSettings("a3", 8.0))
    assert [one.bar_mm for one in rows] == sorted({one.bar_mm for one in rows})
    for one in rows:
        assert one.bar_mm * one.factor == pytest.approx(100)
        assert abs(one.bar_mm - 100) > 1  # a true bar is no fault


def test_units_taken_for_others() -> None:
    bars = {round(one.bar_mm, 2): one.cause for one in wrong_scales(PaperSettings("a4", 0.0))}
    # CSS 2.1: 96 px to the inch; 25.4 mm to the inch
    assert set(bars) == {3.94, 26.46, 75.0, 93.75, 106.67, 133.33, 377.95, 2540.0}
    assert "inches" in bars[2540.0]
    assert "pixels" in bars[26.46]


def test_a_page_fitted_into_its_margins() -> None:
    # the long side decides: (297 - 10)/297 = 96.6 %, against (210 - 10)/210 = 95.2 % of the short one
    (fitted,) = (one for one in wrong_scales(PaperSettings("a4", 5.0)) if "fitted" in one.cause)
    assert fitted.bar_mm == pytest.approx(100 * 287 / 297)
