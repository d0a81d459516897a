"""Size of the lit picture: as many pixels as a screen shows, not more."""

from __future__ import annotations

from segkit.geometry.board import Board

PICTURE_PX = 1200


def pixels_per_mm(board: Board) -> float:
    """Pixels a millimetre for a picture about ``PICTURE_PX`` wide (or high, if it is higher than wide).

    Args:
        board: the board.
    """
    return PICTURE_PX / max(board.width_mm, board.height_mm)
