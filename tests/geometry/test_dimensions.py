"""Worksheet lines: each formula gives its printed value, and the values are the measured ones."""

from __future__ import annotations

import pytest
from hypothesis import given

from segkit.geometry.board import board_of
from segkit.geometry.digit import digit_outlines, joint_gaps
from segkit.geometry.dimensions import bar_lines, digit_lines, dot_lines, web_line
from segkit.sources import source
from segkit.working import Line, evaluate
from tests.geometry.shapes import SHAPE, accepted_shapes, shape


def check(lines: tuple[Line, ...]) -> None:
    names = [line.name for line in lines]
    assert len(names) == len(set(names))
    for line in lines:
        assert line.name.startswith("geometry.")
        assert source(line.source)
        given_values = {given.symbol: given.value for given in line.inputs}
        assert len(given_values) == len(line.inputs)
        value = evaluate(line.formula, given_values)
        assert value == pytest.approx(line.value, rel=1e-6, abs=1e-9), (
            f"{line.name}: {line.formula} gives {value}"
        )


@given(accepted_shapes())
def test_every_formula_gives_its_value(drawn):
    check(board_of(layout="88.:8 8", shape=drawn, spacing_mm=drawn.stroke_mm, margin_mm=30).lines)


def test_every_formula_gives_its_value_with_small_digits():
    board = board_of(layout="88:8.:oo.", shape=shape(slant_deg=9.0), spacing_mm=60, margin_mm=30)
    check(board.lines)
    names = {line.name for line in board.lines}
    assert {
        "geometry.width",
        "geometry.stroke",
        "geometry.gap_measured",
        "geometry.gap_measured.small-digit",
        "geometry.web",
        "geometry.board_width",
        "geometry.board_height",
        "geometry.one_piece_width",
        "geometry.segment_area.crossbar",
        "geometry.segment_area.small-upright",
        "geometry.segment_length.upright",
        "geometry.segment_length.small-point",
        "geometry.segment_area.colon",
    } <= names


def test_the_lines_of_one_bar():
    length, area = bar_lines("crossbar", SHAPE, length_mm=115.9289, area_mm2=3987.015, upright=False)
    assert (length.name, length.formula) == ("geometry.segment_length.crossbar", "W - T - 2*p")
    assert (area.name, area.formula, area.unit) == ("geometry.segment_area.crossbar", "L*T - T**2/2", "mm2")


def test_measured_gap_names_all_eight_joints():
    lines = digit_lines(SHAPE, joint_gaps(digit_outlines(SHAPE), ends=SHAPE.ends), small=False)
    (gap,) = [line for line in lines if line.name == "geometry.gap_measured"]
    assert gap.value == pytest.approx(5, abs=1e-9)
    assert [given.symbol for given in gap.inputs] == ["ab", "af", "bg", "cg", "cd", "de", "eg", "fg"]


def test_dots_and_webs():
    check(web_lines := (web_line(joint_mm=5.0, other_mm=4.0),))
    assert web_lines[0].value == 4.0
    alone = web_line(joint_mm=5.0, other_mm=float("inf"))
    check((alone,))
    assert alone.formula == "j"
    _, area = dot_lines("colon", diameter_mm=42, area_mm2=1.0, dots=2)
    assert evaluate(area.formula, {given.symbol: given.value for given in area.inputs}) == pytest.approx(
        2 * 3.14159265 * 21**2, rel=2e-3
    )
