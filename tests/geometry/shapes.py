"""Digit shapes that the tests share."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import assume
from hypothesis import strategies as st

from segkit.geometry.digit import DigitShape, shape_problems
from segkit.geometry.segment import ENDS

SHAPE = DigitShape(300.0, 165.0, 42.0, 5.0, "pointed", 0.0, 42.0)


def shape(**changes: Any) -> DigitShape:
    return replace(SHAPE, **changes)


@st.composite
def accepted_shapes(draw: st.DrawFn) -> DigitShape:
    """Any shape that is not refused, from palm-sized to as tall as a door."""
    height = draw(st.floats(40, 2000))
    drawn = DigitShape(
        height_mm=height,
        width_mm=height * draw(st.floats(0.35, 1.1)),
        stroke_mm=height * draw(st.floats(0.05, 0.25)),
        gap_mm=max(0.3, height * draw(st.floats(0.001, 0.08))),
        ends=draw(st.sampled_from(ENDS)),
        slant_deg=draw(st.one_of(st.just(0.0), st.floats(-30, 30))),
        point_mm=height * draw(st.floats(0.05, 0.2)),
    )
    assume(not shape_problems(drawn))
    return drawn
