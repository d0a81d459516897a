from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.catalog.part import Sheet
from segkit.fabrication.settings import MakeSettings
from segkit.fabrication.weather import (
    PLACES,
    Site,
    breath_litres,
    bulb_weather_findings,
    growth_line,
    weather_findings,
)
from segkit.findings import CUT_PARTS
from segkit.geometry.board import Board
from segkit.working import evaluate

Sheets = Callable[[str], Sheet]


def stack(sheets: Sheets, name: str, **other: str) -> dict[str, Sheet]:
    return {part: sheets(other.get(part, name)) for part in CUT_PARTS}


def codes(board: Board, used: dict[str, Sheet], site: Site, **made: object) -> list[str]:
    settings = MakeSettings(**made)  # type: ignore[arg-type]
    return [f.code for f in weather_findings(board, board, used, settings, site, depth_mm=30)]


def test_ten_litres_cooled_from_60_to_10_degrees_draw_in_a_litre_and_a_half() -> None:
    """10*(1 - 283/333) = 1.5 litres: a sealed box breathes all the same."""
    assert breath_litres(10, hot_c=60, cold_c=10) == pytest.approx(1.5, abs=0.005)


def test_acrylic_grows_by_the_printed_figure(sheets: Sheets) -> None:
    """0.072 mm for a metre and a kelvin; 1 m over 50 K grows 3.6 mm."""
    line = growth_line("face", sheets("opal-acrylic-3mm"), Site("sheltered", 28, -10, 40), length_mm=1000)
    assert line.value == pytest.approx(3.6)
    assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == pytest.approx(line.value)


def test_indoors_nothing_outdoors_vent_and_drain(board: Board, sheets: Sheets) -> None:
    used = stack(sheets, "aluminium-composite-3mm")
    assert codes(board, used, Site("indoors")) == []
    assert codes(board, used, Site("outdoors")) == ["vent-and-drain"]
    assert set(PLACES) == {"indoors", "sheltered", "outdoors"}


def test_a_face_that_grows_more_than_what_it_is_screwed_to_wants_slots(
    boards: Callable[..., Board], sheets: Sheets
) -> None:
    used = stack(sheets, "aluminium-composite-3mm", face="acrylic-white-3mm")
    assert "expansion-slots" in codes(boards("88:88 88"), used, Site("outdoors"))
    assert "expansion-slots" not in codes(
        boards("88:88 88"), stack(sheets, "acrylic-white-3mm"), Site("outdoors")
    )


def test_a_let_in_piece_needs_more_play_than_it_grows(boards: Callable[..., Board], sheets: Sheets) -> None:
    used = stack(sheets, "aluminium-composite-3mm", diffuser="opal-acrylic-3mm")
    tall = boards("8", height_mm=600.0, stroke_mm=70.0)
    assert "piece-jams" in codes(tall, used, Site("outdoors"), fit="let-in", clearance_mm=0.05)
    assert "piece-jams" not in codes(tall, used, Site("outdoors"), fit="let-in", clearance_mm=0.6)


@pytest.mark.parametrize(
    ("name", "code"),
    [("foam-board-5mm", "not-weatherproof"), ("mdf-3mm", "not-weatherproof"), ("pvc-foam-5mm", "")],
)
def test_sheets_that_do_not_last(board: Board, sheets: Sheets, name: str, code: str) -> None:
    found = codes(board, stack(sheets, name), Site("outdoors"))
    assert ("not-weatherproof" in found) == (code == "not-weatherproof")


def test_a_dark_plastic_in_the_sun_softens(board: Board, sheets: Sheets) -> None:
    used = stack(sheets, "acrylic-black-3mm")
    assert "soft-in-sun" in codes(board, used, Site("outdoors", hottest_c=50))
    assert "soft-in-sun" not in codes(board, used, Site("sheltered", hottest_c=50))


def test_a_board_of_bulbs_outdoors_is_open_behind(sheets: Callable[[str], Sheet]) -> None:
    wood = sheets("plywood-4mm")
    assert not [*bulb_weather_findings(wood, Site("indoors"))]
    assert [one.code for one in bulb_weather_findings(wood, Site("outdoors"))] == [
        "not-weatherproof", "open-rear",
    ]  # fmt: skip
    assert [one.code for one in bulb_weather_findings(wood, Site("sheltered"))] == ["open-rear"]
