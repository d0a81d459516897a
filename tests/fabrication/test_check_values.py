"""Published values, printed beside ours: ``fixtures/check_values/fabrication.csv``."""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from segkit.catalog.reader import sheet
from segkit.fabrication.columns import in_columns, kinds_of
from segkit.fabrication.kerf import around_kept, inside_opening
from segkit.fabrication.mounting import mounting_lines
from segkit.fabrication.paper import PAPERS
from segkit.fabrication.weather import Site, breath_litres, growth_line
from segkit.geometry.board import Board
from segkit.geometry.polygon import bounds
from segkit.geometry.segment import segment_outline
from segkit.sources import bibliography

TABLE = Path(__file__).parents[2] / "fixtures/check_values/fabrication.csv"
ROWS = [*csv.DictReader(TABLE.read_text(encoding="utf-8").splitlines())]


def given(row: Mapping[str, str]) -> dict[str, str]:
    return dict(pair.split("=") for pair in row["inputs"].split())


def square(side: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (side, 0.0), (side, side), (0.0, side))


def cut_off(side: float, kerf: float, *, kept: bool) -> float:
    """Side of what a tool of that width leaves when its middle follows a square: less of a piece, more of a hole."""
    path = around_kept(square(side), kerf_mm=0.0) if kept else inside_opening(square(side), kerf_mm=0.0)
    left, _, right, _ = bounds([path.points])
    return right - left + (-kerf if kept else kerf)


def columns(inputs: Mapping[str, str]) -> tuple[float, float]:
    flat = segment_outline(
        length_mm=float(inputs["length"]), stroke_mm=float(inputs["stroke"]), ends="pointed"
    )
    count, gap = int(inputs["pieces"]), float(inputs["gap"])
    kinds = kinds_of([flat] * count, [(0, 90)] * count, spacing_mm=gap)
    made = in_columns(kinds, width_mm=float(inputs["width"]), spacing_mm=gap)
    left, bottom, right, top = bounds([piece.outline for piece in made or ()])
    return right - left, top - bottom


def pressure(board: Board, speed: float) -> float:
    lines = mounting_lines(board, Site("outdoors", gust_m_s=speed), mass_kg=1.0)
    return next(line.value for line in lines if line.name == "fabrication.wind_pressure")


OURS: Mapping[str, Callable[[Mapping[str, str], Board], float]] = {
    "paper_width_mm": lambda i, _: PAPERS[i["size"]][0],
    "paper_height_mm": lambda i, _: PAPERS[i["size"]][1],
    "wind_pressure_pa": lambda i, board: pressure(board, float(i["v"])),
    "growth_mm": lambda i, _: growth_line(
        "face", replace(sheet(i["sheet"]), reflectance=0.5),
        Site("sheltered", coldest_c=0.0, hottest_c=float(i["rise"])), length_mm=float(i["length"]),
    ).value,
    "breath_l": lambda i, _: breath_litres(float(i["volume"]), hot_c=float(i["hot"]), cold_c=float(i["cold"])),
    "kept_after_cut_mm": lambda i, _: cut_off(float(i["drawn"]), float(i["kerf"]), kept=True),
    "opening_after_cut_mm": lambda i, _: cut_off(float(i["drawn"]), float(i["kerf"]), kept=False),
    "columns_length_mm": lambda i, _: columns(i)[0],
    "columns_height_mm": lambda i, _: columns(i)[1],
}  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['what']} {row['inputs']}")
def test_ours_is_what_is_published(row: dict[str, str], board: Board) -> None:
    ours, published = OURS[row["what"]](given(row), board), float(row["published"])
    beside = f"published {published:g}, ours {ours:.6g}; {row['remark']}"
    assert ours == pytest.approx(published, abs=float(row["tolerance"]) + 1e-9), beside


def test_every_row_names_a_source_that_is_listed() -> None:
    assert {row["source"] for row in ROWS} <= set(bibliography())


def test_a_piece_drawn_half_a_kerf_out_comes_out_at_its_size() -> None:
    """Grown by half a kerf, the square loses the whole of it again; the opening shrunk by half gains it."""
    for kerf in (0.1, 0.2, 3.0):
        outer = bounds([around_kept(square(20), kerf_mm=kerf).points])
        inner = bounds([inside_opening(square(20), kerf_mm=kerf).points])
        assert outer[2] - outer[0] - kerf == pytest.approx(20)
        assert inner[2] - inner[0] + kerf == pytest.approx(20)
