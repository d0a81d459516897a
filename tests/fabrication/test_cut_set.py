from __future__ import annotations

import io
from collections.abc import Callable

import pytest
import shapely

from segkit.drawing.drawing import Circle, Drawing, Text
from segkit.drawing.svg import svg_text
from segkit.fabrication.cut_set import CutSet
from segkit.findings import CUT_PARTS
from segkit.geometry.board import Board
from segkit.geometry.polygon import offset
from segkit.sources import bibliography
from tests.conftest import missing

Cut = Callable[..., CutSet]
MM = 25.4 / 96  # a reader at 96 to the inch


def words(drawing: Drawing) -> str:
    return " ".join(s.text for layer in drawing.layers for s in layer.shapes if isinstance(s, Text))


def test_the_four_parts_and_how_often_each_is_cut(cut: Cut) -> None:
    made = cut(depth_mm=24)
    assert tuple(made.drawings) == CUT_PARTS
    assert made.counts == {"back_board": 1, "light_grid": 8, "diffuser": 1, "face": 1}
    assert made.stock_sheets["light_grid"] == 2
    assert not [f for f in made.findings if f.level == "stop"]


def test_every_sheet_says_what_it_is(cut: Cut) -> None:
    for part, drawing in cut().drawings.items():
        said = words(drawing)
        for needed in (
            "Boules court scoreboard",
            "Kerf 0.2 mm",
            "100 mm",
            "4 in",
            "print at 100 %",
            "design 0123",
        ):
            assert needed in said, (part, needed)
        assert drawing.title == f"Boules court scoreboard: {part.replace('_', ' ')}"


def test_holes_of_the_back_board_are_where_the_leds_are_seen_from_behind(
    cut: Cut, board: Board, places: tuple
) -> None:  # type: ignore[type-arg]
    """Read back with an independent reader; a front view laid on the back of the sheet meets every hole."""
    import svgelements

    drawing = cut(board).drawings["back_board"]
    read = svgelements.SVG.parse(io.StringIO(svg_text(drawing)), ppi=96)
    edge = next(g for g in read.elements() if isinstance(g, svgelements.Group) and g.id == "cut-outline")
    left, top, right, bottom = (side * MM for side in edge.bbox())
    assert (right - left, bottom - top) == pytest.approx(
        (board.width_mm + 0.2, board.height_mm + 0.2), abs=0.01
    )
    holes = next(g for g in read.elements() if isinstance(g, svgelements.Group) and g.id == "drill-led-holes")
    found = sorted((round(right - 0.1 - c.cx * MM, 2), round(bottom - 0.1 - c.cy * MM, 2)) for c in holes)
    expected = sorted((round(x, 2), round(y, 2)) for x, y in (p.at for p in places))
    assert [c for pair in found for c in pair] == pytest.approx(
        [c for pair in expected for c in pair], abs=0.011
    )


def test_face_openings_read_back_at_true_size(cut: Cut, board: Board) -> None:
    import svgelements

    read = svgelements.SVG.parse(io.StringIO(svg_text(cut(board).drawings["face"])), ppi=96)
    group = next(g for g in read.elements() if isinstance(g, svgelements.Group) and g.id == "cut-openings")
    boxes = [[side * MM for side in path.bbox()] for path in group]
    for box, outline in zip(boxes, (o for s in board.segments for o in s.outlines), strict=True):
        x1, y1, x2, y2 = shapely.Polygon(offset(outline, distance_mm=-0.1)).bounds
        assert (box[2] - box[0], box[3] - box[1]) == pytest.approx((x2 - x1, y2 - y1), abs=0.01)


def test_digits_are_numbered_as_the_reader_counts_them(cut: Cut) -> None:
    drawing = cut().drawings["back_board"]
    numbers = {
        s.text: s.at[0]
        for layer in drawing.layers
        for s in layer.shapes
        if isinstance(s, Text) and s.text in "12"
    }
    assert numbers["1"] > numbers["2"], "digit 1 is on the right as seen from behind"
    side = {
        s.text: s.at[0]
        for layer in drawing.layers
        for s in layer.shapes
        if isinstance(s, Text) and "reader" in s.text
    }
    assert side["reader's left"] > side["reader's right"]


@pytest.mark.parametrize(
    "title", ["", "</title><script>", "Großer Preis – 90 °, «наука» 日", "x" * 80, "W " * 40]
)
def test_any_title_stays_on_the_page(cut: Cut, title: str) -> None:
    try:
        import cairosvg
    except OSError:
        missing("libcairo")
    from PIL import Image

    for drawing in cut(title=title).drawings.values():
        png = cairosvg.svg2png(bytestring=svg_text(drawing).encode(), output_width=700)
        grey = Image.open(io.BytesIO(png)).convert("L")
        left, top, right, bottom = grey.point([255 if v < 200 else 0 for v in range(256)]).getbbox() or (
            0,
            0,
            0,
            0,
        )
        assert min(left, top, grey.width - right, grey.height - bottom) >= 2


def test_stops_hold_only_what_they_spoil(cut: Cut) -> None:
    made = cut(board_sheet="pvc-foam-5mm", lip_mm=4.0)
    held = {f.code: f.holds for f in made.findings if f.level == "stop"}
    assert held["lip-overlap"] == ("diffuser",)
    assert {f.holds for f in made.findings if f.code == "no-laser"} == {
        ("back_board",),
        ("light_grid",),
        ("face",),
    }
    assert all(f.source in bibliography() for f in made.findings)


def test_a_web_too_thin_for_the_sheet_stops_face_and_grid(cut: Cut, boards: Callable[..., Board]) -> None:
    made = cut(boards(gap_mm=3.0), board_sheet="foam-board-5mm", tool="knife")
    assert {part for f in made.findings if f.code == "thin-web" for part in f.holds} == {"face", "light_grid"}


def test_what_cannot_be_drawn_is_a_stop_and_no_crash(cut: Cut, boards: Callable[..., Board]) -> None:
    made = cut(
        boards("8", height_mm=60.0, stroke_mm=6.0, gap_mm=3.0),
        tool="router",
        kerf_mm=6.5,
        board_sheet="plywood-3mm",
    )
    lost = {f.holds[0] for f in made.findings if f.code == "cannot-cut"}
    assert {"face", "light_grid"} <= lost
    assert "back_board" not in lost, "its holes are drilled, whatever the bit"
    assert not lost & set(made.drawings)


def test_an_unknown_thing_about_a_round_bit_is_told(cut: Cut) -> None:
    made = cut(tool="router", kerf_mm=3.0, fit="let-in")
    assert "inside-corner" in {f.code for f in made.findings}
    assert "inside-corner" not in {f.code for f in cut().findings}, (
        "a beam of 0.2 mm rounds nothing to speak of"
    )


def test_let_in_pieces_have_no_lip(cut: Cut) -> None:
    made = cut(fit="let-in")
    assert not [line for line in made.lines if ".lip" in line.name]
    assert not [f for f in made.findings if "lip" in f.code]


def test_the_same_board_gives_the_same_sheets(cut: Cut) -> None:
    first, second = cut(), cut()
    assert [svg_text(d) for d in first.drawings.values()] == [svg_text(d) for d in second.drawings.values()]


def test_holes_are_circles_and_cut_layers_hold_no_text(cut: Cut) -> None:
    for drawing in cut().drawings.values():
        for layer in drawing.layers:
            if layer.operation == "drill":
                assert all(isinstance(shape, Circle) for shape in layer.shapes)
            if layer.operation != "note":
                assert not any(isinstance(shape, Text) for shape in layer.shapes)


def circles(drawing: Drawing, layer: str) -> set[float]:
    return {
        round(2 * s.radius_mm, 6)
        for one in drawing.layers
        if one.name == layer
        for s in one.shapes
        if isinstance(s, Circle)
    }


@pytest.mark.parametrize(
    ("tool", "kerf_mm", "fixing", "led"),
    [("knife", 0.0, 4.0, 5.0), ("laser", 0.2, 3.8, 5.0), ("router", 3.175, 4.0, 5.2)],
)
def test_only_a_laser_draws_holes_smaller_than_they_come_out(
    cut: Cut, tool: str, kerf_mm: float, fixing: float, led: float
) -> None:
    """A drill leaves its own diameter; a beam takes half its width off all round (arithmetic)."""
    made = cut(tool=tool, kerf_mm=kerf_mm)
    for part in ("face", "light_grid", "back_board"):
        assert circles(made.drawings[part], "drill-fixing-holes") == {fixing}
        assert "Fixing holes 4 mm" in words(made.drawings[part])
    assert circles(made.drawings["back_board"], "drill-led-holes") == {led}


def test_let_in_pieces_rest_on_a_ledge(cut: Cut, board: Board) -> None:
    made = cut(board, fit="let-in")
    values = {line.name: line.value for line in made.lines}
    assert values["fabrication.ledge"] == 2.0
    for one, other in zip(board.segments, made.pockets.segments, strict=True):
        for opening, pocket in zip(one.outlines, other.outlines, strict=True):
            piece = shapely.Polygon(opening).buffer(-0.3, join_style="mitre", mitre_limit=9)
            hole = shapely.Polygon(pocket)
            assert piece.contains(hole)
            assert piece.exterior.distance(hole) == pytest.approx(1.7, abs=0.02)
    assert "ledge of 2 mm" in words(made.drawings["light_grid"])
    assert "ledge of 2 mm" in words(made.drawings["diffuser"])
    assert "ledge" not in words(cut(board).drawings["light_grid"])
    assert cut(board).pockets == board


def test_led_holes_are_judged_against_the_narrower_pocket(cut: Cut) -> None:
    """Stroke 28 less two ledges of 11 leaves 6 mm: 0.4 mm on either side of a hole of 5.2 mm."""
    made = cut(fit="let-in", lip_mm=11.0)
    near = [f for f in made.findings if f.code == "led-near-wall"]
    assert near
    assert [f.value for f in near] == pytest.approx([0.4] * len(near), abs=0.011), (
        "rounded, measured on a slant"
    )


def test_many_sheets_are_told_with_their_mass(cut: Cut) -> None:
    made = cut(depth_mm=200.0)
    assert made.stock_sheets["light_grid"] > 10
    (finding,) = [f for f in made.findings if f.code == "many-sheets"]
    assert (finding.level, finding.value) == ("caution", made.stock_sheets["light_grid"])
    assert "kg" in finding.text
