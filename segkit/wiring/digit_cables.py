"""Where the wires along the board reach each digit, and how long the cable of each one is."""

from __future__ import annotations

from itertools import accumulate, pairwise

from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point
from segkit.wiring.channel_map import FirstDigit
from segkit.wiring.digit_layout import digit_layout


def along_mm(one: Point, other: Point) -> float:
    """Length of a wire from card to card, which runs across first and then up or down.

    Args:
        one, other: middles of the cards, mm.

    Source: design-choice (the routes).

    Example:
        >>> along_mm((0, 0), (300, 40))
        340
    """
    return abs(other[0] - one[0]) + abs(other[1] - one[1])


def digits_of(board: Board) -> list[list[Segment]]:
    """The segments of each digit from the left, points and colons with the digit on their left.

    Args:
        board: from the geometry.
    """
    found: dict[int, list[Segment]] = {}
    for segment in board.segments:
        found.setdefault(segment.digit, []).append(segment)
    return [found[digit] for digit in sorted(found)]


def places_m(board: Board) -> list[float]:
    """Where the wires along the digits reach each one, m from the leftmost: as they are drawn.

    Args:
        board: from the geometry.
    """
    at = [digit_layout(digit).connector_at for digit in digits_of(board)]
    return [0.0, *accumulate(along_mm(one, other) / 1000 for one, other in pairwise(at))]


def digit_cables_m(board: Board, *, length_m: float, nearest: FirstDigit) -> dict[int, float]:
    """Length of the cable of each digit where each has its own, without slack.

    Args:
        board: from the geometry.
        length_m: from the driver box to the board, which is the cable of the nearest digit, m.
        nearest: the end of the board that the cables come from.

    Formula: ``length + |place - place of the nearest|``.

    Source: design-choice (the cables run along the board).
    """
    places = places_m(board)
    start = places[0] if nearest == "left" else places[-1]
    numbers = [digit[0].digit for digit in digits_of(board)]
    return {number: length_m + abs(place - start) for number, place in zip(numbers, places, strict=True)}
