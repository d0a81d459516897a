from __future__ import annotations

import pytest

from segkit.drawing.drawing import Path, Text
from segkit.fabrication.ruler import ruler


@pytest.mark.parametrize("upright", [False, True])
def test_100_mm_and_4_in_from_the_same_start(upright: bool) -> None:
    """4 in are 101.6 mm: the inch is 25.4 mm by definition."""
    drawn = ruler((20.0, 10.0), upright=upright)
    ticks = [s.points for s in drawn[1:] if isinstance(s, Path)]
    along, aside = (1, 0) if upright else (0, 1)
    start = (10.0, 20.0)[upright is False]
    side = {p[0][along] - start: p[1][aside] - p[0][aside] for p in ticks[:101]}
    assert max(side) - min(side) == pytest.approx(100.0)
    assert max(p[0][along] for p in ticks[101:]) - start == pytest.approx(101.6)
    assert len(ticks[101:]) == 33
    assert {s.text for s in drawn if isinstance(s, Text)} == {"100 mm", "4 in"}


def test_millimetres_and_inches_lie_on_different_sides() -> None:
    drawn = [s.points for s in ruler((0.0, 0.0), upright=False) if isinstance(s, Path)]
    assert all(p[1][1] > 0 for p in drawn[1:102])
    assert all(p[1][1] < 0 for p in drawn[102:])
