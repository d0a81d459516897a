from __future__ import annotations

from collections.abc import Callable

import hypothesis.strategies as st
import pytest
from hypothesis import given

from segkit.catalog.part import Sheet
from segkit.catalog.reader import sheet
from segkit.fabrication.depth import built_depth_mm, grid_layers
from segkit.fabrication.lines import built_depth_line
from segkit.working import evaluate


@pytest.mark.parametrize(("asked", "layers", "built"), [(25, 5, 25), (22, 5, 25), (5, 1, 5), (25.004, 5, 25)])
def test_whole_layers(sheets: Callable[[str], Sheet], asked: float, layers: int, built: float) -> None:
    foam = sheets("foam-board-5mm")
    assert grid_layers(foam, depth_mm=asked) == layers
    assert built_depth_mm(foam, depth_mm=asked) == built
    line = built_depth_line(foam, depth_mm=asked)
    assert evaluate(line.formula, {given.symbol: given.value for given in line.inputs}) == pytest.approx(
        line.value
    )


@given(st.floats(5, 300))
def test_the_built_depth_is_enough_and_less_than_a_layer_more(asked: float) -> None:
    mdf = sheet("mdf-6mm")
    built = built_depth_mm(mdf, depth_mm=asked)
    assert asked - 0.001 * 6 - 1e-9 <= built < asked + 6
