"""The working of a row."""

import pytest

from segkit.optics.row import lay_row
from segkit.optics.row_lines import row_lines
from segkit.working import evaluate


@pytest.mark.parametrize("per_segment", [None, 1, 4])
@pytest.mark.parametrize("depth_mm", [12, 25, 60])
def test_lines_evaluate(make_bar, make_dots, red, per_segment, depth_mm):
    for segment, outlines in ((make_bar(), 1), (make_dots(), 2)):
        row = lay_row(segment, led=red, depth_mm=depth_mm, per_segment=per_segment, evenness=0.7)
        lines = {line.name.split(".")[1]: line for line in row_lines(row, outlines=outlines)}
        for line in lines.values():
            value = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
            assert value == pytest.approx(line.value, rel=1e-6), line.name
            assert line.name.endswith(f".{segment.kind}")
        assert lines["leds"].value == outlines * row.count
        assert ("pitch" in lines) == (row.count > 1)
        if row.count > 1:
            assert lines["pitch"].value == pytest.approx(row.pitch_mm)
        assert "estimate" in lines["evenness"].note
        assert lines["flat_pitch"].value < lines["pitch_limit"].value
        assert lines["pitch_over_depth"].source == "light-box-practice"
