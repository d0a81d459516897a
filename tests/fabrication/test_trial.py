from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.drawing.drawing import Circle, Drawing, Path, Text
from segkit.fabrication.layers import Palette
from segkit.fabrication.paper import PAPERS, PaperSettings
from segkit.fabrication.trial import NEAREST_M, TrialReader, scale_trial, trial_scale
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds
from segkit.optics.placement import LedPlace

LIT = {1: frozenset("bc"), 2: frozenset("abdeg")}


def page(board: Board, *, distance_m: float = 24.0, size: str = "a4", eyesight: str = "20/40") -> Drawing:
    return scale_trial(
        board, LIT, reader=TrialReader(distance_m, 30.0, eyesight, "dusk"), colour="#ff2a1a",
        paper=PaperSettings(size), palette=Palette(), title="Boules court scoreboard", stamp="design 1",
    )  # fmt: skip


def said(drawing: Drawing) -> str:
    return " ".join(s.text for layer in drawing.layers for s in layer.shapes if isinstance(s, Text))


def box(drawing: Drawing, layer: str) -> tuple[float, float, float, float]:
    shapes = next(la.shapes for la in drawing.layers if la.name == layer)
    return bounds([s.points for s in shapes if isinstance(s, Path)])


def test_a_tenth_of_the_size_from_a_tenth_of_the_distance(board: Board) -> None:
    made = page(board)
    left, bottom, right, top = box(made, "board")
    assert (right - left, top - bottom) == pytest.approx((board.width_mm / 10, board.height_mm / 10))
    assert "look from 2.4 m" in said(made)


def test_the_angle_of_a_stroke_is_that_of_the_board(board: Board) -> None:
    """Stroke over distance, on the page and on the board: the same visual angle."""
    made = page(board, distance_m=36)
    outline = next(la.shapes for la in made.layers if la.name == "outline")[0]
    left, bottom, right, top = bounds([outline.points])  # type: ignore[union-attr]
    real = bounds([next(s.outlines[0] for s in board.segments if s.name == "b" and s.digit == 1)])
    assert (top - bottom) / 3.6 == pytest.approx((real[3] - real[1]) / 36)
    assert (right - left) / 3.6 == pytest.approx((real[2] - real[0]) / 36)


def test_good_eyes_stand_as_much_farther_as_they_see_better(board: Board) -> None:
    """20/40 sees at 20 ft what 20/20 sees at 40 ft: the definition of the fraction."""
    assert "4.8 m" in said(page(board, eyesight="20/40"))
    assert "times as far" not in said(page(board, eyesight="20/20"))


def test_a_board_that_does_not_fit_is_drawn_smaller(boards: Callable[..., Board]) -> None:
    wide = boards("88888888", height_mm=400.0, stroke_mm=50.0)
    assert trial_scale(boards("88:88:88:88:88", height_mm=600.0), PaperSettings(), distance_m=40)[0] > 10
    for size in PAPERS:
        scale, turned = trial_scale(wide, PaperSettings(size), distance_m=40)
        width, _ = PaperSettings(size).window_mm(turned=turned)
        assert wide.width_mm / scale <= width
        left, _, right, _ = box(page(wide, distance_m=40, size=size), "board")
        assert right - left == pytest.approx(wide.width_mm / scale)


def test_a_board_read_from_near_is_drawn_larger(boards: Callable[..., Board]) -> None:
    scale, _ = trial_scale(boards("88", height_mm=100.0, stroke_mm=14.0), PaperSettings(), distance_m=8)
    assert scale == 5
    assert 8 / scale >= NEAREST_M


def test_lit_unlit_and_outline_are_the_sample(board: Board) -> None:
    made = {layer.name: layer for layer in page(board).layers}
    outlines = sum(len(s.outlines) for s in board.segments)
    lit = sum(len(s.outlines) for s in board.segments if s.name in LIT.get(s.digit, ()))
    assert len(made["lit"].shapes) == len(made["outline"].shapes) == lit
    assert len(made["unlit"].shapes) == outlines - lit
    assert made["lit"].colour == "#ff2a1a"


def test_all_of_it_is_on_the_page(board: Board) -> None:
    made = page(board, size="letter")
    assert min(box(made, "frame")) > 6
    assert said(made).count("100 mm") >= 2


def test_bare_bulbs_are_tried_as_dots(board: Board, places: tuple[LedPlace, ...]) -> None:
    made = scale_trial(
        board, LIT, reader=TrialReader(24.0, 0.0, "20/40", "dusk"), colour="#ff2a1a", paper=PaperSettings(),
        palette=Palette(), title="Boules court scoreboard", bulbs=places, bulb_mm=5.0,
    )  # fmt: skip
    lit = next(la.shapes for la in made.layers if la.name == "lit")
    assert len(lit) == sum(one.segment in LIT.get(one.digit, frozenset()) for one in places)
    assert {round(s.radius_mm, 9) for s in lit if isinstance(s, Circle)} == {0.25}, "2.5 mm at 1:10"
