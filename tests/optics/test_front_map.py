"""The raster of a diffuser's light: its figures, and reading between its cells."""

import numpy as np
import pytest

from segkit.optics.front_map import FrontMap


@pytest.fixture
def ramp():
    """Values 1 to 8 along x in two rows, the last cell outside."""
    values = np.array([[1.0, 3.0, 5.0, 7.0], [2.0, 4.0, 6.0, np.nan]])
    return FrontMap(left_mm=-4, bottom_mm=-2, pitch_mm=2, inset_mm=0.5, values=values)


def test_figures_are_of_the_cells_inside(ramp):
    assert ramp.mean == pytest.approx(28 / 7)
    assert ramp.evenness == pytest.approx(1 / 4)
    assert ramp.peak == pytest.approx(7 / 4)
    assert ramp.low_share == pytest.approx(np.percentile([1, 2, 3, 4, 5, 6, 7], 5) / 4)


def test_between_the_cells_in_proportion(ramp):
    # middles of the cells: x -3, -1, 1, 3; y -1, 1
    found = ramp.at(np.array([-3.0, -2.0, -3.0, -2.0]), np.array([-1.0, -1.0, 0.0, 0.0])) * ramp.mean
    assert found == pytest.approx([1, 2, 1.5, 2.5])


def test_outside_takes_the_nearest_inside(ramp):
    found = ramp.at(np.array([3.0, -90.0, 90.0]), np.array([1.0, -90.0, -90.0])) * ramp.mean
    assert found == pytest.approx([6, 1, 7]) or found == pytest.approx([7, 1, 7])


def test_one_row_and_one_column_can_be_read():
    single = FrontMap(0, 0, 1, 0, np.array([[3.0]]))
    assert single.at(np.array([0.2, 5.0]), np.array([0.7, -5.0])) == pytest.approx([1, 1])
