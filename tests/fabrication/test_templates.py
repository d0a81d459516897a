from __future__ import annotations

from collections.abc import Callable

import pytest
import shapely

from segkit.catalog.part import Sheet
from segkit.drawing.drawing import Circle, Drawing, Path, Text
from segkit.fabrication.mirror import mirrored
from segkit.fabrication.paper import PaperSettings
from segkit.fabrication.pockets import pocket_board
from segkit.fabrication.reflector import floor_play_mm
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.templates import LARGEST_PAGES, Template, template_pages, templates, too_many_findings
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace

Sheets = Callable[[str], Sheet]


@pytest.fixture
def made(board: Board, places: tuple[LedPlace, ...], sheets: Sheets) -> Callable[..., tuple[Template, ...]]:
    def draw(reflector: str = "", **chosen: object) -> tuple[Template, ...]:
        settings = MakeSettings(**chosen)  # type: ignore[arg-type]
        return templates(
            board, pocket_board(board, ledge_mm=settings.ledge_mm), places, settings=settings,
            paper=PaperSettings(), lip_mm=2.0, diffuser=sheets("opal-acrylic-3mm"), title="Lap clock",
            reflector=sheets(reflector) if reflector else None, lining_mm=0.05,
        )  # fmt: skip

    return draw


def layer(drawing: Drawing, name: str):  # type: ignore[no-untyped-def]
    return next(layer.shapes for layer in drawing.layers if layer.name == name)


def test_one_print_serves_face_and_grid_with_a_lip(made: Callable[..., tuple[Template, ...]]) -> None:
    assert [one.part for one in made()] == ["face", "back_board", "diffuser"]
    assert [one.part for one in made(fit="let-in")] == ["face", "light_grid", "back_board", "diffuser"]
    assert made()[0].text.part == "FACE AND LIGHT GRID"


def test_finished_edges_whatever_the_kerf(made: Callable[..., tuple[Template, ...]], board: Board) -> None:
    """A template is for a hand tool: no line is moved by a kerf."""
    for tool in ("knife", "laser", "router"):
        face = made(tool=tool, kerf_mm=0.4)[0].drawing
        assert [path.points for path in layer(face, "cut-openings")] == [
            outline for segment in board.segments for outline in segment.outlines
        ]
        assert layer(face, "cut-outline")[0].points[2] == (board.width_mm, board.height_mm)


def test_rear_template_is_the_front_view_mirrored_and_marked(
    made: Callable[..., tuple[Template, ...]], places: tuple[LedPlace, ...], board: Board
) -> None:
    back = next(one for one in made() if one.part == "back_board")
    holes = {circle.centre for circle in layer(back.drawing, "drill-led-holes")}
    assert holes == {(board.width_mm - place.at[0], place.at[1]) for place in places}
    assert back.text.rear
    assert "BEHIND" in back.text.side
    assert mirrored(mirrored(back.drawing)) == back.drawing


def test_each_led_hole_has_a_cross_to_punch(made: Callable[..., tuple[Template, ...]]) -> None:
    back = next(one for one in made() if one.part == "back_board")
    arms = {shape.points for shape in layer(back.drawing, "notes") if isinstance(shape, Path)}
    for hole in layer(back.drawing, "drill-led-holes"):
        x, y = hole.centre
        assert any(abs(a[0] + b[0] - 2 * x) < 1e-9 and abs(a[1] + b[1] - 2 * y) < 1e-9 for a, b in arms)


def test_a_hole_has_its_finished_diameter(made: Callable[..., tuple[Template, ...]]) -> None:
    back = next(one for one in made(tool="laser", led_body_mm=5.0) if one.part == "back_board")
    assert {
        round(2 * c.radius_mm, 6) for c in layer(back.drawing, "drill-led-holes") if isinstance(c, Circle)
    } == {5.2}


def test_a_map_before_the_tiles_of_each(made: Callable[..., tuple[Template, ...]]) -> None:
    found = made()
    pages = template_pages(found, paper=PaperSettings(), settings=MakeSettings())
    assert len(pages) == sum(1 + len(one.plan.tiles) for one in found)
    assert "map of the pages" in pages[0].title
    assert "page A1" in pages[1].title


def test_what_is_not_told_as_left_out_is_there(boards: Callable[..., Board], sheets: Sheets) -> None:
    """All templates of a large board together may take more pages than one of them may."""
    large, paper = boards("88 88", height_mm=900.0), PaperSettings()
    assert not [*too_many_findings(large, paper)]
    found = templates(
        large, large, (), settings=MakeSettings(), paper=paper, lip_mm=1.0,
        diffuser=sheets("opal-acrylic-3mm"), title="Large",
    )  # fmt: skip
    pages = template_pages(found, paper=paper, settings=MakeSettings())
    assert [one.part for one in found] == ["face", "back_board", "diffuser"]
    assert len(pages) == sum(1 + len(one.plan.tiles) for one in found) > LARGEST_PAGES


def test_no_note_stands_beside_the_part(made: Callable[..., tuple[Template, ...]]) -> None:
    for one in made():
        for text in (s for la in one.drawing.layers for s in la.shapes if isinstance(s, Text)):
            assert 0 <= text.at[0] <= one.drawing.width_mm


def test_bulbs_have_one_template_of_holes(made: Callable[..., tuple[Template, ...]]) -> None:
    (one,) = made(construction="string-bulbs", led_hole_mm=6.0)
    assert one.text.part == "BULB BOARD"
    assert {round(2 * hole.radius_mm, 6) for hole in layer(one.drawing, "drill-led-holes")} == {6.0}


def test_a_diffuser_of_one_sheet_needs_no_template(made: Callable[..., tuple[Template, ...]]) -> None:
    assert [one.part for one in made(fit="sheet")] == ["face", "back_board"]


def test_a_wall_gets_no_templates_and_is_told_so(boards: Callable[..., Board], sheets: Sheets) -> None:
    wall = boards("8" * 90, height_mm=300.0)
    none = templates(
        wall, wall, (), settings=MakeSettings(), paper=PaperSettings(), lip_mm=1.0,
        diffuser=sheets("opal-acrylic-3mm"), title="Wall",
    )  # fmt: skip
    assert none == ()
    (note,) = too_many_findings(wall, PaperSettings())
    assert note.code == "templates-left-out"
    assert note.value > LARGEST_PAGES  # type: ignore[operator]
    assert not [*too_many_findings(boards("88"), PaperSettings())]


@pytest.mark.parametrize("tool", ["knife", "laser"])
@pytest.mark.parametrize("stock", ["aluminium-tape", "acrylic-white-3mm"])
def test_reflector_pieces_have_a_template_whose_pieces_go_into_the_pockets(
    made: Callable[..., tuple[Template, ...]],
    board: Board,
    places: tuple[LedPlace, ...],
    stock: str,
    tool: str,
) -> None:
    for fit in ("lip", "sheet"):
        drawn = made(stock, tool=tool, fit=fit)
        assert drawn[-1].part == "reflector"
        cut = layer(drawn[-1].drawing, "cut-outline")
        pockets = [outline for segment in board.segments for outline in segment.outlines]
        assert len(cut) == len(pockets)
        # finished size: each pocket less its play on all sides, whatever the kerf
        play = floor_play_mm(MakeSettings(tool=tool), lining_mm=0.05)
        wanted = sorted(
            shapely.Polygon(outline).buffer(-play, join_style="mitre").area for outline in pockets
        )
        assert sorted(shapely.Polygon(path.points).area for path in cut) == pytest.approx(wanted, rel=1e-6)
        assert len(layer(drawn[-1].drawing, "drill-led-holes")) == len(places)
    assert not [one for one in made() if one.part == "reflector"]
