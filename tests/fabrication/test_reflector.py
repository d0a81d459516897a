from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
import shapely

from segkit.drawing.drawing import Circle, Path, Text
from segkit.errors import InputError
from segkit.fabrication.cut_set import CutSet, cut_drawings
from segkit.fabrication.pockets import pocket_board
from segkit.fabrication.reflector import (
    Floor,
    deep_reflector,
    floor_play_mm,
    floors,
    hole_mm,
    reflector_findings,
    reflector_lines,
    reflector_nest,
    reflector_shapes,
    tape_mm,
)
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.tile_page import text_box
from segkit.fabrication.tool import EDGE_MM
from segkit.geometry.board import Board
from segkit.working import evaluate
from tests.fabrication.conftest import make_board, places_on, sheet

LASER = MakeSettings(tool="laser", led_body_mm=5.0, fit="let-in", drain_mm=4.0)
TAPE, CARD = sheet("aluminium-tape"), sheet("acrylic-white-3mm")


def made(settings: MakeSettings = LASER, count: int = 3) -> tuple[Board, tuple[Floor, ...], float]:
    board = make_board()
    pockets = pocket_board(board, ledge_mm=settings.ledge_mm)
    play = floor_play_mm(settings, lining_mm=0.05)
    return pockets, floors(pockets, places_on(board, count), settings, play_mm=play), play


def solve(reflector: str | None, settings: MakeSettings = LASER) -> CutSet:
    board = make_board()
    return cut_drawings(
        board, places_on(board), settings=settings, face=sheet("acrylic-black-3mm"), grid=sheet("mdf-6mm"),
        back=sheet("mdf-3mm"), diffuser=sheet("opal-acrylic-3mm"), depth_mm=24, title="Pool lap clock",
        reflector=sheet(reflector) if reflector else None, lining_mm=0.05,
    )  # fmt: skip


@pytest.mark.parametrize("tool", ["knife", "laser", "router"])
def test_each_piece_goes_into_its_pocket_at_worst(tool: str) -> None:
    """Pocket too small and piece too large by the tolerance of the tool, tape on the walls."""
    pockets, pieces, _ = made(replace(LASER, tool=tool))
    outlines = [outline for segment in pockets.segments for outline in segment.outlines]
    assert len(pieces) == len(outlines)
    for outline, piece in zip(outlines, pieces, strict=True):
        small = shapely.Polygon(outline).buffer(-EDGE_MM[tool] - 0.05, join_style="mitre")
        large = shapely.Polygon(piece.outline).buffer(EDGE_MM[tool], join_style="mitre")
        assert small.buffer(1e-6).contains(large)
        assert large.area > 0.8 * small.area, "and covers the floor"


def test_every_led_and_every_drain_has_its_hole_once() -> None:
    board = make_board()
    _, pieces, _ = made()
    held = [at for piece in pieces for at in piece.leds]
    assert sorted(held) == sorted(place.at for place in places_on(board))
    assert all(len(piece.drains) == 1 for piece in pieces), "each pocket drains by itself"
    assert all(shapely.Polygon(p.outline).contains(shapely.Point(at)) for p in pieces for at in p.holes)


def test_a_piece_pushed_aside_hides_no_led() -> None:
    _, _, play = made()
    assert hole_mm(LASER, play_mm=play) / 2 - play >= LASER.hole_mm / 2 - 1e-9


@pytest.mark.parametrize("stock", [TAPE, CARD])
def test_nested_pieces_keep_their_shape_their_holes_and_their_distance(stock) -> None:  # type: ignore[no-untyped-def]
    _, pieces, play = made()
    nest = reflector_nest(pieces, LASER, stock)
    shapes = reflector_shapes(pieces, nest, LASER, play_mm=play)
    laid = {piece.label: shapely.Polygon(piece.outline) for piece in nest.pieces}
    assert len(shapes.outlines) == len(pieces) == len(laid)
    kerf = LASER.cut_width_mm
    for one, other in itertools.combinations(laid.values(), 2):
        assert one.distance(other) >= kerf + 3 - 1e-6
    circles = [*shapes.led_holes, *shapes.other_holes]
    for piece in pieces:
        mine = [c for c in circles if laid[piece.label].contains(shapely.Point(c.centre))]
        finished = shapely.Polygon(piece.outline)
        assert laid[piece.label].area == pytest.approx(
            finished.buffer(kerf / 2, join_style="mitre").area, rel=1e-6
        )
        told = sorted(finished.exterior.distance(shapely.Point(at)) + kerf / 2 for at in piece.holes)
        found = sorted(laid[piece.label].exterior.distance(shapely.Point(c.centre)) for c in mine)
        assert found == pytest.approx(told, abs=1e-6), piece.label
        spans = sorted(
            shapely.Point(a).distance(shapely.Point(b)) for a, b in itertools.combinations(piece.holes, 2)
        )
        laid_spans = sorted(
            shapely.Point(a.centre).distance(shapely.Point(b.centre))
            for a, b in itertools.combinations(mine, 2)
        )
        assert laid_spans == pytest.approx(spans, abs=1e-6)
    assert {round(2 * c.radius_mm + kerf, 6) for c in shapes.led_holes} == {
        round(hole_mm(LASER, play_mm=play), 6)
    }
    frames = [shapely.box(*frame) for frame in nest.sheets]
    assert all(any(frame.buffer(1e-6).contains(piece) for frame in frames) for piece in laid.values())


def test_lengths_of_tape_lie_beside_each_other_and_add_up() -> None:
    _, pieces, _ = made()
    nest = reflector_nest(pieces, LASER, TAPE)
    frames = [shapely.box(*frame) for frame in nest.sheets]
    assert all(one.disjoint(other) for one, other in itertools.combinations(frames, 2))
    for left, bottom, right, top in nest.sheets:
        assert min(right - left, top - bottom) <= 50 + 1e-6
        assert max(right - left, top - bottom) <= 600 + 1e-6
    longest = sum(max(x for x, _ in p.outline) - min(x for x, _ in p.outline) for p in nest.pieces)
    assert tape_mm(nest) >= longest / 2
    assert solve("aluminium-tape").stock_sheets["reflector"] == 1


def test_names_stand_clear_of_the_holes() -> None:
    for count in (1, 3, 8):
        _, pieces, play = made(count=count)
        nest = reflector_nest(pieces, LASER, CARD)
        shapes = reflector_shapes(pieces, nest, LASER, play_mm=play)
        holes = [
            shapely.Point(c.centre).buffer(c.radius_mm) for c in (*shapes.led_holes, *shapes.other_holes)
        ]
        for mark in shapes.notes:
            assert isinstance(mark, Text)
            assert not any(shapely.box(*text_box(mark)).intersects(hole) for hole in holes), (
                count,
                mark.text,
            )


def test_a_sheet_only_where_one_is_named() -> None:
    assert "reflector" not in solve(None).drawings
    whole = solve("acrylic-white-3mm")
    layers = {layer.name: layer for layer in whole.drawings["reflector"].layers}
    assert {"drill-led-holes", "drill-other-holes", "cut-outline"} <= set(layers)
    assert (whole.counts["reflector"], whole.stock_sheets["reflector"]) == (1, 1)
    assert len(layers["cut-outline"].shapes) == len(solve(None).drawings["diffuser"].layers[0].shapes)
    assert all(isinstance(shape, Circle) for shape in layers["drill-led-holes"].shapes)
    assert all(isinstance(shape, Path) for shape in layers["cut-outline"].shapes)
    bulbs = replace(LASER, construction="string-bulbs", fit="lip")
    assert "reflector" not in solve("acrylic-white-3mm", bulbs).drawings


def test_what_a_laser_must_not_cut_is_held_back() -> None:
    (found,) = (f for f in solve("polycarbonate-opal-3mm").findings if f.subject == "reflector" and f.holds)
    assert (found.code, found.holds) == ("no-laser", ("reflector",))


def test_floors_wider_than_the_tape_are_told_and_left_out() -> None:
    narrow = replace(TAPE, width_mm=28.0)
    _, pieces, play = made()
    nest = reflector_nest(pieces, LASER, narrow)
    (found,) = (
        f for f in reflector_findings(pieces, nest, LASER, narrow, play_mm=play) if "strips" in f.code
    )
    assert found.value == len(nest.too_large) > 0
    assert not {piece.label for piece in nest.pieces} & set(nest.too_large)
    assert not reflector_nest(pieces, LASER, replace(TAPE, width_mm=8.0)).pieces
    fits = reflector_nest(pieces, LASER, TAPE)
    assert not fits.too_large
    assert not [f for f in reflector_findings(pieces, fits, LASER, TAPE, play_mm=play) if "strips" in f.code]


def test_webs_on_both_sides_of_the_limit() -> None:
    """Holes of 5.2 + 0.7 mm in a bar: at a pitch of 6.9 mm 1 mm is left, at 6.8 mm less."""
    settings, play = replace(LASER, drain_mm=0.0), 0.35
    bar = ((0.0, 0.0), (60.0, 0.0), (60.0, 20.0), (0.0, 20.0))
    nest = reflector_nest([Floor("1a", bar, (), (), ((0.0, 10.0), (60.0, 10.0)))], settings, CARD)
    for pitch, near, told in ((6.9, 10.0, False), (6.8, 10.0, True), (20.0, 3.96, False), (20.0, 3.9, True)):
        piece = Floor("1a", bar, ((near, 10.0), (near + pitch, 10.0)), (), ((0.0, 10.0), (60.0, 10.0)))
        codes = {f.code: f.level for f in reflector_findings([piece], nest, settings, CARD, play_mm=play)}
        assert codes == ({"reflector-web": "caution"} if told else {})
        on_tape = {f.code: f.level for f in reflector_findings([piece], nest, settings, TAPE, play_mm=play)}
        assert on_tape == ({"reflector-web": "note"} if told else {})


def test_a_thick_reflector_takes_depth() -> None:
    assert not [*deep_reflector(TAPE, tip_mm=6, depth_mm=40)]
    (found,) = deep_reflector(CARD, tip_mm=6, depth_mm=40)
    assert "37 mm deep" in found.text
    assert "tips 3 mm over it" in found.text


def test_a_play_that_swallows_a_piece_is_refused() -> None:
    board = make_board()
    with pytest.raises(InputError):
        floors(board, places_on(board), LASER, play_mm=20.0)


def test_the_working() -> None:
    _, pieces, _ = made()
    lines = reflector_lines(pieces, LASER, lining_mm=0.05)
    for line in lines:
        assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == pytest.approx(
            line.value, rel=1e-9
        )
    assert lines[2].value == pytest.approx(sum(shapely.Polygon(p.outline).area for p in pieces) / 1e6)
