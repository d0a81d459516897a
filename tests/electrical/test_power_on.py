from segkit.electrical.power_on import flash_sentence, power_on
from segkit.working import evaluate


def test_outputs_are_held_off_before_anything_is_shifted(sinks, hc595):
    made = power_on(sinks["darlington"], hc595, all_on_a=1.5, logic_v=5.0)
    assert "output-enable (pin 13)" in made.steps[0]
    latch = next(i for i, step in enumerate(made.steps) if "latch" in step)
    assert latch == 2
    assert "low" in made.steps[-1]
    assert made.findings == ()
    assert "1.5 A" in flash_sentence(made)


def test_a_dark_frame_has_the_polarity_of_the_sink(sinks, hc595):
    assert any("zeros" in step for step in power_on(sinks["darlington"], hc595, all_on_a=1, logic_v=5).steps)
    assert any("ones" in step for step in power_on(sinks["register"], hc595, all_on_a=1, logic_v=5).steps)


def test_gates_must_not_float(sinks, hc595):
    made = power_on(sinks["mosfet"], hc595, all_on_a=1.0, logic_v=5.0)
    assert [one.code for one in made.findings] == ["gate-pull-down"]
    assert any("gate to ground" in step for step in made.steps)


def test_each_formula_gives_its_value(sinks, hc595):
    for line in power_on(sinks["darlington"], hc595, all_on_a=1.0, logic_v=3.3).lines:
        assert evaluate(line.formula, {one.symbol: one.value for one in line.inputs}) == line.value
