import pytest

from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.electrical.string_working import kind_key, segment_lines
from segkit.working import evaluate


def test_names_of_kinds():
    assert kind_key("upright") == "upright"
    assert kind_key("decimal point") == "decimal-point"


def test_segment_current_is_the_sum_of_its_strings():
    lines = segment_lines(suffix="upright", currents_a=[0.02, 0.02, 0.018], highest_a=[0.025] * 3, source="x")
    assert [line.name for line in lines] == [
        "electrical.segment_current.upright",
        "electrical.segment_current_highest.upright",
    ]
    assert [line.value for line in lines] == pytest.approx([0.058, 0.075])
    for line in lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-9)
