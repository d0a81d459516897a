"""Symbols of schematics."""

import math

import pytest

from segkit.drawing.drawing import Circle, Path, Text
from segkit.wiring import symbols
from segkit.wiring.pen import Pen


def pen() -> Pen:
    return Pen("t", "s", 200, 200)


def paths(page: Pen, layer: str = "line") -> list[Path]:
    found = [s for one in page.drawing().layers if one.name == layer for s in one.shapes]
    return [s for s in found if isinstance(s, Path)]


def ends(page: Pen) -> set[tuple[float, float]]:
    return {end for path in paths(page) if not path.closed for end in (path.points[0], path.points[-1])}


@pytest.mark.parametrize(("start", "end"), [((10, 50), (10, 30)), ((10, 50), (40, 50))])
def test_a_resistor_is_a_box_between_its_points(start, end) -> None:
    page = pen()
    symbols.resistor(page, start, end, "R1a1", "510 Ω")
    (box,) = (path for path in paths(page) if path.closed)
    sides = sorted(math.dist(a, b) for a, b in zip(box.points, box.points[1:], strict=False))
    assert sides[0] < sides[-1]  # longer than wide, without zigzag
    assert {start, end} <= ends(page)
    said = " ".join(s.text for one in page.drawing().layers for s in one.shapes if isinstance(s, Text))
    assert "R1a1" in said
    assert "510 Ω" in said


def test_an_led_points_down_and_sends_out_two_arrows() -> None:
    page = pen()
    symbols.led_down(page, (50, 100), "D1a1", reach=7)
    (triangle,) = (path for path in paths(page) if path.closed)
    tip = min(triangle.points, key=lambda p: p[1])
    assert tip[0] == 50
    assert tip[1] < 100
    assert len([path for path in paths(page, "solid") if path.closed]) == 2
    assert {(50, 107), (50, 93)} <= ends(page)


def test_an_led_in_its_hole_has_the_bar_at_the_cathode() -> None:
    page = pen()
    symbols.led_in_hole(page, (40, 50), (44, 50), radius=5)
    (triangle,) = paths(page, "solid")
    assert max(triangle.points, key=lambda p: p[0])[1] == 50
    bars = [p for p in paths(page) if abs(p.points[0][0] - p.points[1][0]) < 1e-9]
    assert [round(bar.points[0][0], 3) for bar in bars] == [44.5]


def test_a_capacitor_has_two_plates_and_zero_three_bars() -> None:
    page = pen()
    symbols.capacitor(page, (10, 50), (10, 30), "C11", "100 nF")
    assert len(paths(page, "heavy")) == 2
    page = pen()
    symbols.zero(page, (10, 50))
    assert len(paths(page)) == 4


def test_an_inverter_has_its_circle_at_the_output() -> None:
    for towards in (1, -1):
        page = pen()
        symbols.inverter(page, (50, 50), left=40, right=60, towards=towards)
        (circle,) = (s for one in page.drawing().layers for s in one.shapes if isinstance(s, Circle))
        assert (circle.centre[0] - 50) * towards > 0
        assert {(40, 50), (60, 50)} <= ends(page)


def test_a_mosfet_has_drain_on_top_source_below_gate_at_the_side() -> None:
    page = pen()
    symbols.mosfet(page, (50, 50))
    assert {(50, 58), (50, 42), (68, 50)} <= ends(page)


def test_a_chip_has_numbers_outside_and_names_inside() -> None:
    page = pen()
    symbols.chip(
        page, left=50, foot=50, wide=30, high=40, name="U11", kind="hc595",
        left_pins=[symbols.PinRow("14", "data", 80)], right_pins=[symbols.PinRow("15", "QA", 80)],
    )  # fmt: skip
    found = {s.text: s for one in page.drawing().layers for s in one.shapes if isinstance(s, Text)}
    assert found["14"].at[0] < 50 < found["data"].at[0]
    assert found["QA"].at[0] < 80 < found["15"].at[0]


def test_supply_join_and_transistor_are_drawn() -> None:
    page = pen()
    symbols.plus(page, (20, 20), "+12 V")
    symbols.join(page, (30, 30))
    symbols.transistor(page, (40, 40), "Q11")
    found = [s.text for one in page.drawing().layers for s in one.shapes if isinstance(s, Text)]
    assert found == ["+12 V", "Q11", "G", "D"]
