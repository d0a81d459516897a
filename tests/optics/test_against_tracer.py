"""The solver against photons followed one by one through the same pocket (``tracer``), and the tracer itself.

3e5 photons leave a noise of about 0.1 % in the mean and 0.5 to 0.75 % (root mean square) in blocks of 5 x 5
cells, 10 mm on a stroke of 20 mm; the tracer measures both from its batches. What the solver may miss by
beyond its noise is thus 0.2 % in the mean and 1.3 % in the blocks; its patches account for 0.2 to 0.5 %.
"""

import math

import numpy as np
import pytest

from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import SOLVER_MISS, Pocket
from segkit.optics.solver import pocket_light
from tests.optics.tracer import Grid, trace

PHOTONS = 300_000
HEXAGON = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
SMALL = tuple((x / 2, y / 2) for x, y in HEXAGON)
LEANING = tuple(
    (x + y * math.tan(math.radians(10)), y) for x, y in ((-35, -10), (35, -10), (35, 10), (-35, 10))
)
DOT = tuple((12 * math.cos(math.tau * k / 16), 12 * math.sin(math.tau * k / 16)) for k in range(16))
NO_GRID = Grid(0, 0, 1, 1, 1)
THREE = ((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0))

#: Outline, depth, tip, walls, back, diffuser, LEDs, full angle, cells in a block (each way).
CASES = {
    "reference, 120 deg": (HEXAGON, 25, 6, 0.85, 0.85, 0.4, THREE, 120, 5),
    "reference, 30 deg": (HEXAGON, 25, 6, 0.85, 0.85, 0.4, THREE, 30, 5),
    "small and pointed, 30 deg": (SMALL, 20, 6, 0.85, 0.85, 0.4, ((-20, 0), (0, 0), (20, 0)), 30, 5),
    "leaning, two rows, 60 deg": (LEANING, 25, 3, 0.8, 0.7, 0.2, ((-20, -4), (0, 4), (20, -4)), 60, 5),
    "dot, 60 deg": (DOT, 30, 6, 0.85, 0.85, 0.4, ((0, 0),), 60, 3),
}


def traced(pocket, places, full_angle_deg, *, grid=NO_GRID, photons=PHOTONS, mirror=0.0):
    return trace(
        pocket.outline, depth=pocket.depth_mm, tip=pocket.tip_mm, places=places, full_angle_deg=full_angle_deg,
        walls=pocket.wall_reflectance, back=pocket.back_reflectance, diffuser=pocket.diffuser_reflectance,
        grid=grid, photons=photons, mirror=mirror,
    )  # fmt: skip


def whole_cells(grid, outline):
    """Cells that no edge of the outline cuts; its corners run counter-clockwise."""
    x, y = np.meshgrid(
        grid.left + grid.pitch * np.arange(grid.columns + 1),
        grid.bottom + grid.pitch * np.arange(grid.rows + 1),
    )
    inside = np.ones(x.shape, dtype=bool)
    for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1], strict=True):
        inside &= (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= -1e-9
    return inside[1:, 1:] & inside[1:, :-1] & inside[:-1, 1:] & inside[:-1, :-1]


def in_blocks(cells, kept, side):
    """Means over blocks of ``side`` x ``side`` cells; blocks of less than half as many whole cells left out."""
    row, column = np.nonzero(kept)
    _, block = np.unique(row // side * 10_000 + column // side, return_inverse=True)
    count = np.bincount(block)
    means = np.array([np.bincount(block, each[kept]) / count for each in cells])
    return means[:, count >= side * side / 2]


def rms(values):
    return float(np.sqrt((values**2).mean()))


@pytest.mark.parametrize("case", CASES)
def test_mean_losses_and_map_agree_with_the_photons(case):
    outline, depth, tip, walls, back, diffuser, places, full, side = CASES[case]
    pocket = Pocket(outline, depth, tip, walls, back, diffuser, 0.5)
    light = pocket_light(pocket, places=places, exponent=lobe_exponent(full))
    front = light.map
    grid = Grid(front.left_mm, front.bottom_mm, front.pitch_mm, *front.values.shape)
    photons = traced(pocket, places, full, grid=grid)

    mean, noise = photons.mean()
    assert noise < 0.0015 * mean, f"{case}: too few photons to judge by: {noise:.5f}"
    assert light.front_per_flux == pytest.approx(mean, rel=SOLVER_MISS), f"{case}: noise {noise / mean:.4f}"
    assert light.wall_loss == pytest.approx(float(photons.lost_walls.mean()), abs=0.003)
    assert light.back_loss == pytest.approx(float(photons.lost_back.mean()), abs=0.003)

    kept = whole_cells(grid, outline) & np.isfinite(front.values)
    per_cell = photons.cells * pocket.front_area_mm2 / grid.pitch**2
    ours, theirs = in_blocks([front.values], kept, side)[0], in_blocks(per_cell, kept, side)
    level = theirs.mean()
    noise = rms(theirs.std(axis=0, ddof=1)) / math.sqrt(len(theirs)) / level
    miss = rms(ours - theirs.mean(axis=0)) / level
    assert len(ours) >= 6
    assert noise < 0.01, f"{case}: too few photons to judge by"
    assert miss < 0.015, f"{case}: blocks differ by {miss:.4f}, noise {noise:.4f}"


@pytest.mark.parametrize(("full", "printed"), [(120, 1.12), (30, 1.00)])
def test_foil_is_understated_by_no_more_than_is_said(full, printed):
    # pocket-study, table of mirror-like walls: 1.12 and 1.00 times the light of matt walls that reflect as
    # much. The solver's text says 0 to 13 % more; 30 degrees gives 0.4 % less, which the two digits hide.
    pocket = Pocket(HEXAGON, 25, 6, 0.85, 0.85, 0.4, 0.5)
    matt = pocket_light(pocket, places=THREE, exponent=lobe_exponent(full)).front_per_flux
    foil, noise = traced(pocket, THREE, full, photons=60_000, mirror=1.0).mean()
    assert noise < 0.003
    assert foil / matt == pytest.approx(printed, abs=0.01)


@pytest.mark.parametrize(("radius", "gap", "printed"), [(0.2, 0.5, 0.137931), (1.0, 1.0, 0.5)])
def test_the_tracer_sends_the_handbook_share_to_a_disc(radius, gap, printed):
    # view-factor-handbook: an element facing a disc, r^2/(r^2+h^2); a 120 degree LED is such an element.
    # The polygon of 96 corners has the area of the disc; the noise of 1.5e5 photons is 0.001.
    r = 10 * radius * math.sqrt(math.tau / 96 / math.sin(math.tau / 96))
    disc = tuple((r * math.cos(math.tau * k / 96), r * math.sin(math.tau * k / 96)) for k in range(96))
    found, noise = traced(Pocket(disc, 10 * gap + 1, 1, 0, 0, 0, 1), ((0, 0),), 120, photons=150_000).mean()
    assert noise < 0.0015
    assert found == pytest.approx(printed, abs=3.5 * noise)


def test_the_tracer_loses_no_light():
    # between white walls all light ends in the diffuser at last: 1/(1 - 0.4)
    white = traced(Pocket(HEXAGON, 25, 6, 1, 1, 0.4, 0.5), THREE, 60, photons=45_000)
    mean, noise = white.mean()
    assert mean == pytest.approx(1 / 0.6, abs=3.5 * noise + 1e-9)
    grey = traced(Pocket(HEXAGON, 25, 6, 0.6, 0.3, 0.4, 0.5), THREE, 60, photons=45_000)
    ends = 0.6 * grey.front + grey.lost_walls + grey.lost_back
    assert ends.mean() == pytest.approx(1, abs=3.5 * ends.std() / math.sqrt(len(ends)) + 1e-9)
