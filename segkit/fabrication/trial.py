"""A scale trial: the board drawn small on one page, to be read from a distance just as much shorter."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Shape, Text
from segkit.drawing.move import scaled
from segkit.fabrication.cut_sheet import size_to_fit, wrapped
from segkit.fabrication.layers import NOTE_MM, Palette
from segkit.fabrication.paper import STRIP_MM, PaperSettings
from segkit.fabrication.tile_page import rulers, side_text
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace
from segkit.units import plain_number
from segkit.viewing.legibility import parse_eyesight

USUAL = 10
LARGER = (5, 2, 1)  # for boards that are read from so near that 1:10 would be under the nose
SMALLER = (10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 400, 500, 750, 1000)
NEAREST_M = 1.0  # eyes over forty do not focus nearer without glasses; source common-practice
_DARK, _UNLIT, _TYPE_MM = "#14161a", "#2a2d33", 4.0


@dataclass(frozen=True)
class TrialReader:
    """Who will read the board.

    Attributes:
        distance_m: of the farthest reader, above 0.
        angle_deg: to the side of the axis, 0 to 75.
        eyesight: such as ``20/40``.
        light: of the worst time, in words.
    """

    distance_m: float
    angle_deg: float
    eyesight: str
    light: str


def trial_scale(board: Board, paper: PaperSettings, *, distance_m: float) -> tuple[int, bool]:
    """How many times smaller the board is drawn, and whether the page lies in landscape.

    1:10 if that fits twice on a page; smaller if it does not; larger if a tenth of the distance were under
    1 m, as far as the page allows.

    Args:
        board: the board.
        paper: paper and margin.
        distance_m: of the farthest reader, above 0.

    Sources: common-practice.
    """
    for scale in (USUAL, *LARGER) if distance_m / USUAL < NEAREST_M else ():
        if distance_m / scale >= NEAREST_M and (way := _way(board, paper, scale)) is not None:
            return scale, way
    for scale in SMALLER:
        if (way := _way(board, paper, scale)) is not None:
            return scale, way
    return SMALLER[-1], False


def scale_trial(
    board: Board,
    lit: Mapping[int, frozenset[str]],
    *,
    reader: TrialReader,
    colour: str,
    paper: PaperSettings,
    palette: Palette,
    title: str,
    stamp: str = "",
    bulbs: Sequence[LedPlace] = (),
    bulb_mm: float = 0.0,
) -> Drawing:
    """The page: the sample text lit on dark, the same as outline, and from where to look at it.

    ``d = D/n`` for a scale of 1:n, so that every stroke is seen at the angle that it will have.

    Args:
        board: all segments in place.
        lit: segments lit in the sample, by digit.
        reader: distance, angle, eyesight and light.
        colour: of the lit segments, ``#rrggbb``.
        paper: paper and margin.
        palette: colours of the notes.
        title, stamp: of the design.
        bulbs: where bare bulbs stand, which are drawn in place of the segments.
        bulb_mm: their diameter.

    Sources: arithmetic, snellen-chart.
    """
    scale, turned = trial_scale(board, paper, distance_m=reader.distance_m)
    width, height = paper.page_mm(turned=turned)
    left, right = paper.margin_mm + STRIP_MM + 4.0, width - paper.margin_mm
    top, room = height - paper.margin_mm, right - left
    words = f"SCALE TRIAL 1:{scale}: look from {_m(reader.distance_m / scale)}"
    size = size_to_fit(words, width_mm=room, largest_mm=8.0)
    head = (Text((left, top - 0.9 * size), words, size), Text((left, top - 0.9 * size - 6.5), title, 4.2))
    across, up = board.width_mm / scale, board.height_mm / scale
    x = left + (room - across) / 2
    dark_y = top - 0.9 * size - 14.0 - up
    outline_y = dark_y - 8.0 - up
    rows = wrapped(_sentences(reader, scale), width_mm=room, height_mm=_TYPE_MM)
    block = tuple(
        Text((left, outline_y - 9.0 - i * 1.45 * _TYPE_MM), row, _TYPE_MM) for i, row in enumerate(rows)
    )
    notes = (*head, *block, *rulers(paper), _side(stamp or title, height, paper))
    shown = _Shown(board, lit, bulbs, bulb_mm)
    layers = (
        *_lit_on_dark(shown, colour, {"factor": 1 / scale, "dx_mm": x, "dy_mm": dark_y}),
        *_as_outline(shown, {"factor": 1 / scale, "dx_mm": x, "dy_mm": outline_y}),
        Layer("page", "note", notes, palette.notes, NOTE_MM),
    )
    return Drawing(
        f"{title}: scale trial 1:{scale}", width, height, layers, background="#ffffff", stamp=stamp
    )


def _way(board: Board, paper: PaperSettings, scale: int) -> bool | None:
    """Whether two boards and the text fit in landscape (True), in portrait (False), or not at all."""
    for turned in (False, True):
        width, height = paper.window_mm(turned=turned)
        text = 110.0 if not turned else 80.0
        if board.width_mm / scale <= width - 4 and 2 * board.height_mm / scale + text <= height:
            return turned
    return None


def _frame(board: Board) -> Path:
    w, h = board.width_mm, board.height_mm
    return Path(((0.0, 0.0), (w, 0.0), (w, h), (0.0, h)))


@dataclass(frozen=True)
class _Shown:
    """A board with a text on it: its segments, or its bulbs."""

    board: Board
    lit: Mapping[int, frozenset[str]]
    bulbs: Sequence[LedPlace]
    bulb_mm: float


def _shapes(shown: _Shown, *, on: bool) -> list[Shape]:
    board, lit = shown.board, shown.lit
    if shown.bulbs:
        return [
            Circle(one.at, shown.bulb_mm / 2)
            for one in shown.bulbs
            if (one.segment in lit.get(one.digit, frozenset())) == on
        ]
    return [
        Path(outline)
        for segment in board.segments
        if (segment.name in lit.get(segment.digit, frozenset())) == on
        for outline in segment.outlines
    ]


def _lit_on_dark(shown: _Shown, colour: str, place: Mapping[str, float]) -> Iterator[Layer]:
    for name, shapes, fill in (
        ("board", [_frame(shown.board)], _DARK),
        ("unlit", _shapes(shown, on=False), _UNLIT),
        ("lit", _shapes(shown, on=True), colour),
    ):
        if shapes:
            yield Layer(name, "fill", tuple(scaled(shapes, **place)), fill)


def _as_outline(shown: _Shown, place: Mapping[str, float]) -> Iterator[Layer]:
    shapes = _shapes(shown, on=True)
    if shapes:
        yield Layer("outline", "note", tuple(scaled(shapes, **place)), "#000000", 0.25)
    yield Layer("frame", "note", tuple(scaled([_frame(shown.board)], **place)), "#9aa3ab", 0.2)


def _side(words: str, height: float, paper: PaperSettings) -> Text:
    return side_text(words, page_height_mm=height, paper=paper, largest_mm=2.6)


def _sentences(reader: TrialReader, scale: int) -> Iterator[str]:
    near = reader.distance_m / scale
    yield (
        f"Everything is 1:{scale}. From {_m(near)} each stroke looks as large as it will on the board from "
        f"{_m(reader.distance_m)}."
    )
    if reader.angle_deg:
        yield f"Then stand {plain_number(reader.angle_deg)} degrees to the side, and read it again."
    worse = parse_eyesight(reader.eyesight) / 20
    if worse > 1:
        yield (
            f"The board is meant for readers with {reader.eyesight}. If yours is 20/20, with glasses if you "
            f"wear them, stand {plain_number(worse, 3)} times as far, {_m(worse * near)}: so they see it."
        )
    yield (
        f"Light: {reader.light}. Paper does not glow, so look at the upper picture in good light for the "
        "shape; how bright the board must be is worked out elsewhere."
    )
    yield "Ask someone who does not know what it says. Measure the rulers first: 100 mm and 4 in."


def _m(value: float) -> str:
    return f"{plain_number(round(value, 2), 4)} m"
