from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.errors import InputError
from segkit.fabrication import pockets
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.sources import bibliography
from segkit.working import evaluate


def test_without_a_ledge_the_pockets_are_the_openings(board: Board) -> None:
    assert pockets.pocket_board(board, ledge_mm=0.0) is board


def test_pockets_are_narrower_by_the_ledge_on_both_sides(board: Board) -> None:
    made = pockets.pocket_board(board, ledge_mm=2.0)
    assert {s.stroke_mm for s in made.segments} == {s.stroke_mm - 4 for s in board.segments}
    assert made.fixings == board.fixings


def test_a_ledge_that_swallows_a_pocket(boards: Callable[..., Board]) -> None:
    thin = boards("8", stroke_mm=10.0)
    with pytest.raises(InputError):
        pockets.pocket_board(thin, ledge_mm=6.0)
    assert pockets.pockets_or_openings(thin, ledge_mm=6.0) is thin
    settings = MakeSettings(fit="let-in", lip_mm=6.0)
    (finding,) = pockets.ledge_findings(thin, settings)
    assert (finding.level, finding.code) == ("stop", "ledge-leaves-no-pocket")
    assert finding.holds == ("back_board", "light_grid")


@pytest.mark.parametrize(("stroke", "stopped"), [(9.1, False), (8.9, True)])
def test_a_pocket_narrower_than_the_led(boards: Callable[..., Board], stroke: float, stopped: bool) -> None:
    """A knife's hole for a body of 5 mm and two ledges of 2 mm want a stroke of 9 mm."""
    found = list(pockets.ledge_findings(boards("8", stroke_mm=stroke), MakeSettings(fit="let-in")))
    assert [f.code for f in found] == ["ledge-leaves-no-pocket"] * stopped


@pytest.mark.parametrize(
    ("lip", "code"), [(0.0, "no-ledge"), (0.6, "no-ledge"), (1.0, "narrow-ledge"), (1.6, ""), (None, "")]
)
def test_a_piece_must_not_slip_off_its_ledge(board: Board, lip: float | None, code: str) -> None:
    settings = MakeSettings(fit="let-in", lip_mm=lip, clearance_mm=0.3)
    found = list(pockets.ledge_findings(board, settings))
    assert [f.code for f in found] == ([code] if code else [])
    assert all(f.source in bibliography() for f in found)


@pytest.mark.parametrize("lip", [None, 3.0])
def test_working_of_the_ledge(lip: float | None) -> None:
    made = pockets.ledge_lines(MakeSettings(fit="let-in", lip_mm=lip))
    assert made[0].value == (lip or 2.0)
    assert [
        evaluate(line.formula, {given.symbol: given.value for given in line.inputs}) for line in made
    ] == pytest.approx([line.value for line in made])
    assert pockets.ledge_lines(MakeSettings(fit="lip", lip_mm=lip)) == ()
