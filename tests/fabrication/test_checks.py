from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from segkit.catalog.part import Sheet
from segkit.fabrication import checks
from segkit.fabrication.nesting import Piece, nested
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace

Sheets = Callable[[str], Sheet]


@pytest.mark.parametrize("name", ["pvc-foam-5mm", "polycarbonate-opal-3mm"])
def test_pvc_and_polycarbonate_are_kept_from_the_laser(sheets: Sheets, name: str) -> None:
    (finding,) = checks.material_findings("face", sheets(name), MakeSettings(tool="laser"))
    assert (finding.level, finding.code, finding.holds) == ("stop", "no-laser", ("face",))
    assert "chlorine" in finding.text
    assert "saw" in finding.remedy


@pytest.mark.parametrize(
    ("tool", "name", "level", "holds"),
    [
        ("knife", "opal-acrylic-3mm", "caution", ()),
        ("laser", "foam-board-5mm", "stop", ("face",)),
        ("router", "foam-board-5mm", "stop", ("face",)),
    ],
)
def test_a_tool_that_does_not_cut_the_sheet(
    sheets: Sheets, tool: str, name: str, level: str, holds: tuple[str, ...]
) -> None:
    """A machine would spoil the sheet; a knife's file has no kerf and still serves as a template."""
    (finding,) = checks.material_findings("face", sheets(name), MakeSettings(tool=tool))
    assert (finding.code, finding.level, finding.holds) == ("tool-cannot-cut", level, holds)
    assert f"A {tool} does not cut" in finding.text


@pytest.mark.parametrize(
    ("tool", "name"), [("knife", "foam-board-5mm"), ("laser", "plywood-3mm"), ("router", "pvc-foam-5mm")]
)
def test_a_tool_that_cuts_the_sheet_is_fine(sheets: Sheets, tool: str, name: str) -> None:
    assert not list(checks.material_findings("face", sheets(name), MakeSettings(tool=tool)))


def test_a_sheet_that_nothing_cuts_has_another_remedy(sheets: Sheets) -> None:
    odd = replace(sheets("plywood-3mm"), tools=())
    (finding,) = checks.material_findings("face", odd, MakeSettings(tool="laser"))
    assert finding.remedy == "Choose another sheet."


def test_a_grid_of_another_depth_than_asked_is_noted(sheets: Sheets) -> None:
    foam = sheets("foam-board-10mm")
    (finding,) = checks.grid_findings(foam, depth_mm=21, layers=3)
    assert (finding.level, finding.code, finding.value) == ("note", "grid-deeper", 30)
    assert "reckoned with the 30 mm" in finding.text
    assert list(checks.grid_findings(foam, depth_mm=29.4, layers=3))
    assert not list(checks.grid_findings(foam, depth_mm=29.5, layers=3))


def test_a_kerf_for_a_knife_is_noted() -> None:
    (finding,) = checks.kerf_findings(MakeSettings(tool="knife", kerf_mm=0.2))
    assert finding.code == "knife-kerf"
    assert not list(checks.kerf_findings(MakeSettings(tool="laser", kerf_mm=0.2)))


def test_a_kerf_that_no_laser_has_is_asked_about() -> None:
    (half,) = checks.kerf_findings(MakeSettings(tool="laser", kerf_mm=0.1))
    assert (half.code, half.limit) == ("kerf-unusual", 0.14)
    assert "half of 0.2 mm" in half.text
    (wide,) = checks.kerf_findings(MakeSettings(tool="laser", kerf_mm=0.6))
    assert wide.limit == 0.3
    (none,) = checks.kerf_findings(MakeSettings(tool="laser", kerf_mm=0.0))
    assert "half" not in none.text.split(";")[0]
    for kept in (MakeSettings(tool="laser"), MakeSettings(tool="router", kerf_mm=6.0)):
        assert not list(checks.kerf_findings(kept))


def test_lips_that_meet_stop_the_diffuser() -> None:
    (finding,) = checks.lip_findings(lip_mm=3, limit_mm=2.35, gap_mm=5)
    assert (finding.level, finding.code, finding.holds) == ("stop", "lip-overlap", ("diffuser",))
    assert "2.3 mm" in finding.remedy
    (tight,) = checks.lip_findings(lip_mm=3, limit_mm=0.4, gap_mm=1)
    assert "Make the gap wider" in tight.remedy


def test_a_lip_may_be_just_as_wide_as_the_limit_but_not_too_narrow() -> None:
    assert not list(checks.lip_findings(lip_mm=2.35, limit_mm=2.35, gap_mm=5))
    (finding,) = checks.lip_findings(lip_mm=0.8, limit_mm=2.35, gap_mm=5)
    assert (finding.level, finding.code) == ("caution", "narrow-lip")


def test_pieces_larger_than_the_sheet(sheets: Sheets) -> None:
    opal = sheets("opal-acrylic-3mm")
    long = Piece("1a", ((0.0, 0.0), (650.0, 0.0), (650.0, 50.0), (0.0, 50.0)))
    nest = nested([long], width_mm=opal.width_mm, height_mm=opal.height_mm, spacing_mm=3)
    (finding,) = checks.piece_findings(nest, opal)
    assert (finding.code, finding.holds) == ("larger-than-sheet", ("diffuser",))
    assert "1a" in finding.text


def crossbar(board: Board) -> tuple[tuple[float, float], tuple[float, float]]:
    return next(s for s in board.segments if (s.digit, s.name) == (1, "a")).axes[0]


@pytest.mark.parametrize(
    ("up_mm", "code", "level"),
    [(0.0, "", ""), (10.9, "led-near-wall", "caution"), (13.0, "led-outside-pocket", "stop")],
)
def test_a_hole_near_the_wall_of_its_pocket(board: Board, up_mm: float, code: str, level: str) -> None:
    """Stroke 28: the wall is 14 mm from the axis; a hole of 5.2 has 1 mm left up to 10.4 mm from it."""
    (x1, y1), (x2, y2) = crossbar(board)
    place = LedPlace(1, "a", 1, ((x1 + x2) / 2, (y1 + y2) / 2 + up_mm))
    found = list(checks.hole_findings(board, [place], hole_mm=5.2))
    assert [(f.code, f.level) for f in found] == ([(code, level)] if code else [])
    if level == "stop":
        assert found[0].holds == ("back_board",)
        assert found[0].value == pytest.approx(-1.6, abs=0.01)


def test_a_pocket_narrower_than_the_hole(boards: Callable[..., Board]) -> None:
    thin = boards("8", stroke_mm=10.0)
    (x1, y1), (x2, y2) = crossbar(thin)
    (finding,) = checks.hole_findings(thin, [LedPlace(1, "a", 1, ((x1 + x2) / 2, (y1 + y2) / 2))], hole_mm=12)
    assert (finding.code, finding.value) == ("led-outside-pocket", pytest.approx(-1.0, abs=0.01))


@pytest.mark.parametrize(("pitch", "level"), [(8.0, None), (6.0, "caution"), (5.0, "stop")])
def test_holes_that_meet(board: Board, pitch: float, level: str | None) -> None:
    (x1, y1), (x2, y2) = crossbar(board)
    middle = ((x1 + x2) / 2, (y1 + y2) / 2)
    two = [LedPlace(1, "a", i, (middle[0] + i * pitch, middle[1])) for i in (0, 1)]
    assert [f.level for f in checks.hole_findings(board, two, hole_mm=5.2) if f.code == "led-holes-meet"] == [
        level
    ] * (level is not None)
