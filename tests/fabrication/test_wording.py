from __future__ import annotations

from collections.abc import Callable

from segkit.catalog.part import Sheet
from segkit.fabrication import wording
from segkit.fabrication.settings import MakeSettings

Sheets = Callable[[str], Sheet]
LASER = MakeSettings(tool="laser", kerf_mm=0.25)


def test_every_sheet_says_material_tool_kerf_and_true_size(sheets: Sheets) -> None:
    wood = sheets("plywood-3mm")
    for text in (
        wording.face(wood, LASER),
        wording.light_grid(wood, LASER, count=4),
        wording.back_board(wood, LASER, leds=84),
        wording.diffuser(wood, LASER, pieces=30, sheets=1, lip_mm=2),
    ):
        said = " ".join(text.lines)
        assert "Birch plywood 3 mm. Tool: laser. Kerf 0.25 mm, full width" in said
        assert "print at 100 %" in said


def test_which_side_is_which_is_in_the_banner(sheets: Sheets) -> None:
    wood = sheets("plywood-3mm")
    assert wording.back_board(wood, LASER, leds=1).banner == "BACK BOARD: SEEN FROM BEHIND"
    assert "digit 1 is on the right" in wording.back_board(wood, LASER, leds=1).banner_below
    assert wording.face(wood, LASER).banner == "FACE: SEEN FROM THE FRONT"


def test_the_grid_says_how_often_and_when_to_line_it(sheets: Sheets) -> None:
    foam = wording.light_grid(sheets("foam-board-5mm"), MakeSettings(), count=5)
    assert foam.banner == "LIGHT GRID: CUT 5 x"
    assert "5 x 5 mm = 25 mm deep" in " ".join(foam.lines)
    assert "line the walls" in " ".join(foam.lines)
    assert "line the walls" not in " ".join(wording.light_grid(sheets("plywood-3mm"), LASER, count=5).lines)


def test_the_fit_of_the_pieces(sheets: Sheets) -> None:
    opal = sheets("opal-acrylic-3mm")
    lip = wording.diffuser(opal, LASER, pieces=30, sheets=2, lip_mm=2.35)
    assert "lip of 2.35 mm" in " ".join(lip.lines)
    assert "2 stock sheets are needed" in " ".join(lip.lines)
    let_in = wording.diffuser(opal, MakeSettings(fit="let-in"), pieces=30, sheets=1, lip_mm=0)
    assert "0.3 mm of play" in " ".join(let_in.lines)
    assert "No kerf: cut on the line" in " ".join(let_in.lines)
