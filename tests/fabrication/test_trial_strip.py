from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Circle, Path, Text
from segkit.fabrication.settings import TOOLS, MakeSettings
from segkit.fabrication.trial_strip import SQUARE_MM, STEP_MM, step_diameters, trial_strip


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("body", [3.0, 5.0, 10.0])
def test_holes_rise_in_steps_round_the_planned_one(tool: str, body: float) -> None:
    settings = MakeSettings(tool=tool, led_body_mm=body)
    sizes = step_diameters(settings)
    assert settings.hole_mm in sizes
    assert all(b - a == pytest.approx(STEP_MM[tool]) for a, b in itertools.pairwise(sizes))
    assert sizes[0] < settings.hole_mm < sizes[-1]


@pytest.mark.parametrize("kerf", [0.15, 0.3])
def test_what_is_left_after_the_cut_has_the_size_that_is_written(
    kerf: float, sheets: Callable[[str], Sheet]
) -> None:
    """A round beam takes half its width off either side of the path: the square loses a kerf, a hole gains one."""
    settings = MakeSettings(tool="laser", kerf_mm=kerf)
    page = trial_strip(sheets("plywood-3mm"), settings, title="Lap clock")
    layers = {layer.name: layer.shapes for layer in page.layers}
    made = [
        round(2 * hole.radius_mm + kerf, 6) for hole in layers["drill-led-holes"] if isinstance(hole, Circle)
    ]
    assert made == [*step_diameters(settings)]
    square = layers["cut-outline"][1]
    assert isinstance(square, Path)
    xs = [x for x, _ in square.points]
    assert max(xs) - min(xs) - kerf == pytest.approx(SQUARE_MM)
    words = [text.text for text in layers["notes"] if isinstance(text, Text)]
    assert {f"{size:g}" for size in step_diameters(settings)} <= set(words)


def test_same_size_for_insert_and_hole_is_loose_by_two_kerfs() -> None:
    """Drawn alike, cut with 0.2 mm: the insert loses 0.2, the hole gains 0.2, so 0.4 mm of play; a full kerf of
    0.2 makes a drawn 6.2 finger and a 5.8 slot both 6.0."""
    assert pytest.approx(0.4) == 0.2 + 0.2
    assert pytest.approx(5.8 + 0.2) == 6.2 - 0.2
