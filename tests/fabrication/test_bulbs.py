from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.catalog.part import Sheet
from segkit.fabrication.bulbs import bulb_findings, fit_findings
from segkit.fabrication.cut_set import CutSet
from segkit.fabrication.settings import MakeSettings
from segkit.geometry.board import Board
from segkit.optics.placement import LedPlace
from tests.fabrication.conftest import places_on


def row_of(places: tuple[LedPlace, ...], pitch_mm: float) -> tuple[LedPlace, ...]:
    first = places[0]
    (x, y) = first.at
    return tuple(LedPlace(1, "a", n + 1, (x + n * pitch_mm, y)) for n in range(4))


@pytest.mark.parametrize(("pitch", "level"), [(7.0, "caution"), (5.0, "stop")])
def test_holes_that_meet_are_found(
    board: Board, places: tuple[LedPlace, ...], sheets: Callable[[str], Sheet], pitch: float, level: str
) -> None:
    settings = MakeSettings(construction="string-bulbs", led_hole_mm=5.2, tool="drill")
    wood = sheets("plywood-3mm")
    assert not [*bulb_findings(board, row_of(places, 20.0), wood, settings)]
    (meet,) = bulb_findings(board, row_of(places, pitch), wood, settings)
    assert (meet.level, meet.code) == (level, "bulb-holes-meet")
    assert meet.holds == (("face",) if level == "stop" else ())
    assert meet.value == pytest.approx(pitch - 5.2, abs=0.005)


def test_a_bulb_keeps_off_a_fixing_hole(board: Board, sheets: Callable[[str], Sheet]) -> None:
    settings = MakeSettings(construction="string-bulbs", led_hole_mm=5.2, tool="drill")
    x, y = board.fixings[0]
    near = (LedPlace(1, "a", 1, (x + 5.6, y)),)  # 5.6 mm less radii of 2.6 and 2 mm leaves 1 mm
    (found,) = bulb_findings(board, near, sheets("plywood-3mm"), settings)
    assert (found.level, found.code, found.value) == ("caution", "bulb-at-fixing", 1.0)


# A hole is as wide as the body in soft foam and 0.2 mm wider in rigid sheet (common practice); bodies vary by
# a few tenths of a millimetre; the rim of a 5 mm LED is 0.8 mm wider than its body.
@pytest.mark.parametrize(
    ("sheet", "hole", "found"),
    [
        ("plywood-3mm", 4.9, ("stop", "bulb-hole-tight", "do not go in")),
        ("plywood-3mm", 5.0, None),
        ("plywood-3mm", 5.5, None),
        ("plywood-3mm", 5.6, ("caution", "bulb-hole-loose", "fall out")),
        ("plywood-3mm", 6.0, ("caution", "bulb-hole-loose", "fall through")),
        ("foam-board-5mm", 4.6, ("caution", "bulb-hole-tight", "split")),
        ("foam-board-5mm", 4.8, None),
        ("foam-board-5mm", 5.0, None),
        ("foam-board-5mm", 5.4, ("caution", "bulb-hole-loose", "fall out")),
    ],
)
def test_hole_and_body_go_together(
    sheets: Callable[[str], Sheet], sheet: str, hole: float, found: tuple[str, str, str] | None
) -> None:
    made = [*fit_findings(sheets(sheet), hole_mm=hole, body_mm=5.0)]
    if found is None:
        assert made == []
        return
    level, code, word = found
    (one,) = made
    assert (one.level, one.code) == (level, code)
    assert word in one.text
    assert one.limit == (5.0 if sheet.startswith("foam") else 5.2)
    assert ("face" in one.holds) == (level == "stop")


def test_one_board_with_holes_and_nothing_else(cut: Callable[..., CutSet], board: Board) -> None:
    made = cut(board, construction="string-bulbs", led_hole_mm=5.2, leds=6)
    assert tuple(made.drawings) == ("face",)
    assert made.counts == {"back_board": 0, "light_grid": 0, "diffuser": 0, "face": 1}
    layers = {layer.name: layer for layer in made.drawings["face"].layers}
    assert "cut-openings" not in layers
    holes = layers["drill-led-holes"].shapes
    apart = {
        (round(hole.centre[0] - place.at[0], 6), round(hole.centre[1] - place.at[1], 6))  # type: ignore[union-attr]
        for hole, place in zip(holes, places_on(board, 6), strict=True)
    }
    assert len(apart) == 1, "one hole for each bulb, all moved alike to their place on the page"
    assert {round(2 * hole.radius_mm, 6) for hole in holes} == {5.0}, "5.2 mm less the beam of 0.2 mm"  # type: ignore[union-attr]


def test_the_sheet_of_bulbs_is_whole(cut: Callable[..., CutSet], board: Board) -> None:
    lines = {line.name: line for line in cut(board, construction="string-bulbs", leds=6).lines}
    kept = next(given.value for given in lines["fabrication.mass.face"].inputs if given.symbol == "a")
    assert kept == pytest.approx(board.width_mm * board.height_mm)
    assert not [name for name in lines if "lip" in name or "depth" in name or "grid" in name]
