"""The picture is as wide as a screen shows, whatever the board."""

import pytest

from segkit.geometry.board import board_of
from segkit.geometry.digit import DigitShape
from segkit.preview.picture import PICTURE_PX, pixels_per_mm


@pytest.mark.parametrize("layout", ["8", "88:88"])
def test_longer_side_has_the_pixels(layout: str) -> None:
    shape = DigitShape(300, 165, 42, 5, "pointed", 0, 42)
    board = board_of(layout=layout, shape=shape, spacing_mm=60, margin_mm=30)
    assert pixels_per_mm(board) * max(board.width_mm, board.height_mm) == pytest.approx(PICTURE_PX)
