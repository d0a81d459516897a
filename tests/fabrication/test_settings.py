from __future__ import annotations

import pytest

from segkit.errors import InputError
from segkit.fabrication.settings import MakeSettings


@pytest.mark.parametrize(
    ("tool", "kerf_mm", "corner_mm"), [("knife", 0, 0), ("laser", 0.2, 0), ("router", 3, 1.5)]
)
def test_kerf_and_corners_by_tool(tool: str, kerf_mm: float, corner_mm: float) -> None:
    settings = MakeSettings(tool=tool)
    assert (settings.cut_width_mm, settings.corner_radius_mm) == (kerf_mm, corner_mm)


def test_a_knife_takes_no_kerf_even_if_told() -> None:
    assert MakeSettings(tool="knife", kerf_mm=0.5).cut_width_mm == 0
    assert MakeSettings(tool="laser", kerf_mm=0.0).cut_width_mm == 0


def test_the_led_hole_is_the_body_and_a_clearance_or_as_asked() -> None:
    assert MakeSettings(tool="knife", led_body_mm=5).hole_mm == 5.0  # common practice: grips in foam
    assert MakeSettings(tool="laser", led_body_mm=5).hole_mm == pytest.approx(5.2)
    assert MakeSettings(tool="laser", led_body_mm=5, led_hole_mm=6.5).hole_mm == 6.5


def test_all_faults_in_one_message() -> None:
    with pytest.raises(InputError) as caught:
        MakeSettings(
            tool="lazer", fit="loose", kerf_mm=9, lip_mm=-1, clearance_mm=float("nan"), led_body_mm=0
        )
    assert [problem.key for problem in caught.value.problems] == [
        "tool",
        "fit",
        "kerf",
        "lip",
        "clearance",
        "led_body",
    ]
    assert 'Did you mean "laser"?' in str(caught.value)
