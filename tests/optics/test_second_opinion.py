"""The solver against a path tracer of the computer graphics trade, where it is installed.

``pip install -e '.[second-opinion]'`` brings it. Its noise at 4096 samples a cell is about 0.05 % in the mean
and 0.3 to 0.5 % (root mean square) in blocks of 10 x 10 mm, about twice that at 1024. Single cells and the
darkest of them are not compared: the darkest of many noisy cells reads low.
"""

import numpy as np
import pytest

from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.solver import pocket_light
from tests.conftest import missing
from tests.optics.renderer import rendered
from tests.optics.tracer import Grid

HEXAGON = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
THREE = ((-40.0, 0.0), (0.0, 0.0), (40.0, 0.0))
ASKEW = ((-30.0, 3.0), (20.0, -4.0))  # shows if one of the two maps were mirrored or turned
GRID = Grid(-60, -10, 2, 10, 60)


def in_blocks(values):
    """Means over blocks of 5 x 5 cells between the pointed ends."""
    return values[:, 5:55].reshape(2, 5, 10, 5).mean(axis=(1, 3))


@pytest.mark.tool
@pytest.mark.parametrize(
    ("full", "places", "samples", "mean_within", "blocks_within"),
    [(120, THREE, 4096, 0.003, 0.01), (30, ASKEW, 1024, 0.01, 0.025)],
)
def test_map_agrees_with_the_path_tracer(full, places, samples, mean_within, blocks_within, tmp_path):
    try:
        import mitsuba  # noqa: F401
    except ImportError:
        missing("the extra 'second-opinion'")
    pocket = Pocket(HEXAGON, 25, 6, 0.85, 0.85, 0.4, 0.5)
    front = pocket_light(pocket, places=places, exponent=lobe_exponent(full)).map
    assert (front.left_mm, front.bottom_mm, front.pitch_mm, front.values.shape) == (-60, -10, 2, (10, 60))
    drawn = rendered(pocket, GRID, places=places, full_angle_deg=full, samples=samples, folder=tmp_path)

    whole = np.isfinite(front.values)
    whole[:, :5] = whole[:, -5:] = False  # the edge cuts cells at the pointed ends
    level = drawn[whole].mean()
    assert front.values[whole].mean() == pytest.approx(level, rel=mean_within)
    miss = np.sqrt(((in_blocks(front.values) - in_blocks(drawn)) ** 2).mean()) / level
    assert miss < blocks_within
