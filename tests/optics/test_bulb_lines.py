from __future__ import annotations

import pytest

from segkit.catalog.reader import led, sheet
from segkit.optics.bulb_lines import board_lines
from segkit.optics.dots import Bulbs
from segkit.working import evaluate


@pytest.mark.parametrize(
    ("lamp", "formula", "source"),
    [
        ("red-5mm-diffused", "I0*J/Jt", "led-usual-algainp"),
        ("uv-400-5mm", "Phi*(m + 1)/(2*pi)", "cie-v-lambda"),
    ],
)
def test_intensity_comes_from_what_the_row_has(lamp: str, formula: str, source: str) -> None:
    bulbs = Bulbs(led(lamp), 0.010, 20.0, sheet("foam-board-5mm"), None, 25.0, 5.0)
    lines = {line.name: line for line in board_lines(bulbs)}
    axis = lines["optics.axis_intensity"]
    assert (axis.formula, axis.source) == (formula, source)
    for line in lines.values():
        value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
        assert value == pytest.approx(line.value, rel=1e-6), line.name
