"""A page with one of everything."""

from __future__ import annotations

import pytest

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text


@pytest.fixture
def page() -> Drawing:
    return Drawing(
        "Rain barrel <gauge> & \"friends\" ]]> 'x'",
        120.5,
        80.25,
        (
            Layer(
                "field", "fill", (Path(((5, 5), (45, 5), (45, 30), (5, 30))), Circle((60, 20), 10)), "#204060"
            ),
            Layer("drill-holes", "drill", (Circle((100, 60), 2.6), Circle((110, 60), 1.5)), "#aa2200"),
            Layer("cut-edge", "cut", (Path(((10, 40), (40.123456, 40), (60, 70))),), "#1e88e5", 0.1),
            Layer("score", "score", (Path(((70, 40), (90, 50)), closed=False),), "#008000", 0.5),
            Layer(
                "notes",
                "note",
                (Text((10, 75), "5 < 6 & up", 4), Text((90, 30), "side", 5, "middle", 90)),
                "#333333",
            ),
        ),
        background="#ffffff",
        stamp="design 3f2a, segkit 0",
    )
