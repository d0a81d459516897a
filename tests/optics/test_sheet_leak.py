from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.optics.sheet_leak import edge_share, gap_for, leak_finding, leak_line
from segkit.working import evaluate
from tests.optics.sheet_tracer import traced_share

SIZES = st.floats(0.05, 50)


@pytest.mark.parametrize("wall", [0.0, 0.8])
@pytest.mark.parametrize(("depth", "gap"), [(0.5, 2.0), (1.0, 1.0), (1.0, 2.0), (2.0, 1.0), (2.0, 2.0)])
def test_within_the_stated_factor_of_traced_rays(depth: float, gap: float, wall: float) -> None:
    traced, told = traced_share(depth=depth, gap=gap, wall=wall), edge_share(thickness_mm=1, gap_mm=gap)
    assert told / 2 < traced < 2 * told, f"traced {traced:.4f}, estimate {told:.4f}"


@pytest.mark.parametrize(("depth", "wall"), [(0.5, 0.8), (1.0, 0.0), (1.0, 0.8)])
def test_three_thicknesses_away_it_is_little_either_way(depth: float, wall: float) -> None:
    traced, told = traced_share(depth=depth, gap=3.0, wall=wall), edge_share(thickness_mm=1, gap_mm=3)
    assert told < traced < 2.4 * told, f"traced {traced:.4f}, estimate {told:.4f}"
    assert traced < 0.06


@pytest.mark.parametrize("gap", [1.0, 2.0, 3.0])
def test_a_dense_sheet_leaks_no_more_than_stated(gap: float) -> None:
    traced, told = traced_share(depth=5.0, gap=gap, wall=0.8), edge_share(thickness_mm=1, gap_mm=gap)
    assert traced < 1.1 * told, f"traced {traced:.4f}, estimate {told:.4f}"


def test_at_the_edge_of_the_lit_part_both_give_one_half() -> None:
    assert edge_share(thickness_mm=3, gap_mm=0) == 0.5
    traced = traced_share(depth=2.0, gap=0.0, wall=0.0)
    assert 0.42 < traced < 0.5, "half, less what it falls over the width that is read"


def test_limits() -> None:
    assert edge_share(thickness_mm=0, gap_mm=5) == 0
    assert edge_share(thickness_mm=1e-3, gap_mm=5) < 1e-7
    assert edge_share(thickness_mm=3, gap_mm=1e6) < 1e-11


@given(thickness=SIZES, gap=SIZES, more=st.floats(1.05, 4))
def test_a_thinner_sheet_and_a_wider_gap_leak_less(thickness: float, gap: float, more: float) -> None:
    share = edge_share(thickness_mm=thickness, gap_mm=gap)
    assert edge_share(thickness_mm=thickness * more, gap_mm=gap) > share
    assert edge_share(thickness_mm=thickness, gap_mm=gap * more) < share
    assert edge_share(thickness_mm=thickness * more, gap_mm=gap * more) == pytest.approx(
        share, rel=1e-6, abs=1e-9
    )


@given(ratio=st.floats(2.1, 100), thickness=SIZES)
def test_the_gap_for_a_ratio_gives_that_ratio(ratio: float, thickness: float) -> None:
    gap = gap_for(ratio, thickness_mm=thickness)
    assert 1 / edge_share(thickness_mm=thickness, gap_mm=gap) == pytest.approx(ratio, rel=1e-4)


@given(thickness=SIZES, gap=SIZES)
def test_the_working(thickness: float, gap: float) -> None:
    line = leak_line(thickness_mm=thickness, gap_mm=gap)
    assert evaluate(line.formula, {g.symbol: g.value for g in line.inputs}) == pytest.approx(
        line.value, rel=1e-6
    )


@pytest.mark.parametrize(
    ("gap", "level", "words"),
    [
        (1.0, "caution", "taken for lit"),
        (1.1, "caution", "10:1 or more is asked for"),
        (3.99, "caution", "10:1 or more is asked for"),
        (4.01, "note", "soft rim"),
    ],
)
def test_verdicts_on_both_sides_of_the_limits(gap: float, level: str, words: str) -> None:
    found = leak_finding(thickness_mm=3, gap_mm=gap)
    assert found.level == level
    assert words in found.text
    assert "make.fit" in found.remedy


def test_the_remedy_holds_at_worst() -> None:
    remedy = leak_finding(thickness_mm=3, gap_mm=5).remedy
    sheet, gap = (
        float(remedy.split(f"a {what} of ")[1].removeprefix("at most ").split(" mm")[0])
        for what in ("sheet", "gap")
    )
    for thickness, width in ((sheet, 5), (3, gap)):
        assert 2 * edge_share(thickness_mm=thickness, gap_mm=width) <= 0.1
    assert "a gap of" not in leak_finding(thickness_mm=1, gap_mm=9).remedy, "nothing to be done about that"
