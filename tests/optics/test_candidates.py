"""Columns of light: turned over where the pocket is alike, read between places."""

import numpy as np
import pytest

from segkit.optics import solver
from segkit.optics.candidates import Candidates, cells, mirrored_cells
from segkit.optics.patterns import pattern, plans
from segkit.optics.pocket import Pocket
from segkit.optics.stations import Bay, bay_of

LEANING = ((-60.0, -11.0), (60.0, -9.0), (64.0, 11.0), (-56.0, 9.0))


def turned_leaning():
    middle = [sum(p[i] for p in LEANING) / 4 for i in (0, 1)]
    return tuple((x - middle[0], y - middle[1]) for x, y in LEANING)


@pytest.mark.parametrize("shape", ["pointed", "leaning"])
@pytest.mark.parametrize("offset", [0.0, 3.0, -3.0])
def test_turned_columns_are_those_worked_out(shape, offset, hexagon):
    outline = hexagon if shape == "pointed" else turned_leaning()
    pocket = Pocket(outline, 25, 6, 0.85, 0.85, 0.40, 0.50)
    table = Candidates(Bay(outline, 120, False), pocket, 4.8, 5.0)
    for row in (offset, -offset):
        line = table.line(row)
        count = len(line.columns)
        xs = [line.first_mm + line.step_mm * index for index in range(count)]
        direct = solver.light_columns(pocket, places=tuple((x, row) for x in xs), exponent=4.8)
        assert np.max(np.abs(line.columns - direct)) < 2e-3 * direct.max()


def test_cells_fall_on_each_other(hexagon):
    pocket = Pocket(hexagon, 25, 6, 0.85, 0.85, 0.40, 0.50)
    xs, ys = cells(pocket)
    turned = mirrored_cells(pocket, -1, 1)
    assert turned is not None
    assert xs[list(turned)] == pytest.approx(-xs)
    assert ys[list(turned)] == pytest.approx(ys)
    lopsided = (*hexagon[:-1], (-45.0, 10.0))
    assert mirrored_cells(Pocket(lopsided, 25, 6, 0.85, 0.85, 0.40, 0.50), -1, 1) is None


@pytest.mark.parametrize("total", [1, 4, 7])
def test_maps_between_places_are_close_to_exact(total, hexagon, make_dots):
    for bay in (Bay(hexagon, 120, False), bay_of(make_dots(60))):
        pocket = Pocket(bay.outline, 25, 6, 0.85, 0.85, 0.40, 0.50)
        table = Candidates(bay, pocket, 19.99, 5.0)
        for plan in plans(bay, total=total, rows=1, body_mm=5):
            maps = table.maps(plan)
            for index in (0, len(plan.reaches_mm) - 1):
                chosen = pattern(bay, plan, reach_mm=plan.reaches_mm[index], body_mm=5)
                exact = solver.light_columns(pocket, places=chosen.places, exponent=19.99).mean(axis=0)
                assert np.max(np.abs(maps[index] - exact)) < 0.02 * exact.max()
