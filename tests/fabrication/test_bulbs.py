from __future__ import annotations

import itertools
import math
from collections.abc import Callable

import pytest

from segkit.fabrication.bulbs import bulb_count, bulb_findings, bulb_line, bulb_places
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.working import evaluate


def test_even_pitch_along_the_centre_line(board: Board) -> None:
    places = bulb_places(board, pitch_mm=20)
    for segment in board.segments:
        row = [p.at for p in places if (p.digit, p.segment) == (segment.digit, segment.name)]
        if segment.name in ("dp", "colon"):
            assert row == [axis[0] for axis in segment.axes]
            continue
        (x1, y1), (x2, y2) = segment.axes[0]
        steps = [math.dist(a, b) for a, b in itertools.pairwise(row)]
        assert max(steps) - min(steps) < 1e-9
        assert abs(steps[0] - 20) <= 20 / 2 / (len(row) - 1) + 1e-9, "no other count comes nearer"
        for x, y in row:
            assert abs((x - x1) * (y2 - y1) - (y - y1) * (x2 - x1)) < 1e-6, "on the line"
        ends = math.dist(row[0], (x1, y1)) + math.dist(row[-1], (x2, y2))
        assert ends == pytest.approx(segment.stroke_mm)


def test_the_line_gives_the_pitch(board: Board) -> None:
    segment = board.segments[0]
    line = bulb_line(segment, pitch_mm=20)
    assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == pytest.approx(line.value)
    assert bulb_count(segment, pitch_mm=20) >= 2


def test_holes_that_meet_are_found(board: Board) -> None:
    assert not [*bulb_findings(board, pitch_mm=20, hole_mm=6)]
    (near,) = bulb_findings(board, pitch_mm=7, hole_mm=6)
    assert (near.level, near.code) == ("caution", "bulb-holes-meet")
    (meet,) = bulb_findings(board, pitch_mm=5, hole_mm=6)
    assert meet.level == "stop"
    assert meet.holds == ("face",)


def test_one_board_with_holes_and_nothing_else(cut: Callable[..., CutSet], board: Board) -> None:
    made = cut(board, construction="string-bulbs", bulb_hole_mm=6.0, bulb_pitch_mm=18.0)
    assert tuple(made.drawings) == ("face",)
    assert made.counts == {"back_board": 0, "light_grid": 0, "diffuser": 0, "face": 1}
    layers = {layer.name: layer for layer in made.drawings["face"].layers}
    assert "cut-openings" not in layers
    holes = layers["drill-led-holes"].shapes
    assert len(holes) == len(bulb_places(board, pitch_mm=18))
    assert {round(2 * hole.radius_mm, 6) for hole in holes} == {5.8}, "6 mm less the beam of 0.2 mm"  # type: ignore[union-attr]


def test_settings_out_of_range_are_refused() -> None:
    with pytest.raises(Exception, match="bulb_pitch"):
        MakeSettings(bulb_pitch_mm=1)
