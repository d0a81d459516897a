"""The working of the LEDs of one outline."""

import pytest

from segkit.optics.pocket import Pocket
from segkit.optics.row import Asked, lay_row
from segkit.optics.row_lines import row_lines
from segkit.optics.solver import pocket_light
from segkit.optics.stations import bay_of
from segkit.working import evaluate


@pytest.mark.parametrize(
    "asked", [{}, {"count": 1}, {"count": 4}, {"rows": 2}, {"places": ((-3.0, 1.0), (4.0, 0.0))}]
)
@pytest.mark.parametrize("depth_mm", [12, 25, 60])
def test_lines_evaluate(make_bar, make_dots, red, asked, depth_mm):
    for segment, outlines in ((make_bar(), 1), (make_dots(), 2), (make_dots(60), 2)):
        pocket = Pocket(bay_of(segment).outline, depth_mm, red.tip_mm, 0.85, 0.85, 0.40, 0.50)
        row = lay_row(segment, led=red, pocket=pocket, asked=Asked(evenness=0.7, **asked))
        front = pocket_light(pocket, places=row.pattern.places, exponent=row.exponent).map
        made = row_lines(row, outlines=outlines, front=front, front_unit="lx", per_value=850.0)
        lines = {line.name.split(".")[1]: line for line in made}
        for line in lines.values():
            value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
            assert value == pytest.approx(line.value, rel=1e-6), line.name
            assert line.name.endswith(f".{segment.kind}")
        assert lines["leds"].value == outlines * row.count
        assert ("pitch" in lines) == (row.pattern.pitch_mm > 0 and "places" not in asked)
        if "pitch" in lines:
            assert lines["pitch"].value == pytest.approx(row.pattern.pitch_mm, abs=1e-3)
        assert lines["evenness"].value == pytest.approx(front.evenness)
        assert lines["evenness"].value <= lines["low_share"].value <= 1
        assert "not modelled" in lines["evenness"].note
        assert lines["flat_pitch"].value < lines["pitch_limit"].value
        assert lines["pitch_over_depth"].source == "light-box-practice"
