"""The board lit, as a drawing of flat areas."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from segkit.drawing.drawing import Circle, Drawing, Layer, Path
from segkit.errors import InputError, Problem
from segkit.geometry.board import Board, Segment
from segkit.optics.placement import LedPlace
from segkit.preview.colours import FACE, UNLIT

Lit = Mapping[int, frozenset[str]]


def lit_drawing(
    board: Board,
    lit: Lit,
    *,
    colour: str,
    face_colour: str = FACE,
    unlit_colour: str = UNLIT,
    title: str = "The board lit",
    stamp: str = "",
    bulbs: Sequence[LedPlace] = (),
    bulb_mm: float = 0.0,
) -> Drawing:
    """The board with some segments lit, as a page of filled areas at true size, seen from the front.

    Args:
        board: all segments in place.
        lit: digit number to the names of its lit segments, ``dp`` and ``colon`` among them; digits left
            out are dark.
        colour: of the lit segments, ``#rrggbb``; see ``colours.lit_colour``.
        face_colour, unlit_colour: of the board and of the segments that are off.
        title, stamp: for the file.
        bulbs: where bare lamps stand, which are drawn in place of the segments.
        bulb_mm: their diameter.

    Raises:
        InputError: a digit or a segment that the board does not have.

    Example:
        >>> from segkit.geometry.board import board_of
        >>> from segkit.geometry.digit import DigitShape
        >>> one = board_of(layout="8", shape=DigitShape(100, 55, 14, 3, "pointed", 0, 14), spacing_mm=20,
        ...                margin_mm=20)
        >>> page = lit_drawing(one, {1: frozenset("bc")}, colour="#ff2a1a")
        >>> [(layer.name, len(layer.shapes)) for layer in page.layers]
        [('unlit', 5), ('lit', 2)]
    """
    on, off = _parted(board, lit)
    areas = tuple(
        Layer(name, "fill", _bulbs(some, bulbs, bulb_mm) if bulbs else _areas(some), fill)
        for name, some, fill in (("unlit", off, unlit_colour), ("lit", on, colour))
    )
    layers = tuple(layer for layer in areas if layer.shapes)
    # The face is the background, so that it also fills the part of a pixel that a board leaves at its edge.
    return Drawing(title, board.width_mm, board.height_mm, layers, background=face_colour, stamp=stamp)


def _areas(segments: tuple[Segment, ...]) -> tuple[Path | Circle, ...]:
    return tuple(Path(outline) for segment in segments for outline in segment.outlines)


def _bulbs(
    segments: tuple[Segment, ...], bulbs: Sequence[LedPlace], bulb_mm: float
) -> tuple[Path | Circle, ...]:
    names = {(segment.digit, segment.name) for segment in segments}
    return tuple(Circle(one.at, bulb_mm / 2) for one in bulbs if (one.digit, one.segment) in names)


def _parted(board: Board, lit: Lit) -> tuple[tuple[Segment, ...], tuple[Segment, ...]]:
    """Segments that are on, and that are off."""
    refuse_unknown(board, lit)
    on = tuple(s for s in board.segments if s.name in lit.get(s.digit, frozenset()))
    return on, tuple(s for s in board.segments if s not in on)


def refuse_unknown(board: Board, lit: Lit) -> None:
    """Names every digit and segment that is to be lit and is not there.

    Raises:
        InputError: at least one such.
    """
    there = {(segment.digit, segment.name) for segment in board.segments}
    stray = sorted((d, name) for d, names in lit.items() for name in names if (d, name) not in there)
    if stray:
        raise InputError(
            Problem(
                f"digit {digit} of this board has no segment {name}.",
                limit=f"digits 1 to {board.digits}, and the points and colons of {board.layout!r}",
            )
            for digit, name in stray
        )
