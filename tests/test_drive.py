"""From the LEDs of a segment to the plug, on whole designs."""

import pytest

from segkit.design.reader import design_from_text
from segkit.findings import Finding
from segkit.project import Project, solve


def project(text: str) -> Project:
    return solve(design_from_text(text), name="yard")


def found(made: Project, code: str) -> list[Finding]:
    return [finding for finding in made.findings if finding.code == code]


def value(made: Project, name: str) -> float:
    return next(line.value for line in made.lines if line.name == name)


LONG = '[display]\nlayout = "88:88"\n[power]\ncable = {{ kind = "cat5e", length = "20 m", carries = "{}" }}\n'


def test_two_supply_wires_carry_the_whole_board_out_and_back() -> None:
    made = project(LONG.format("supply"))
    ohm = made.parts.wire.resistance_ohm_per_m * 20
    assert value(made, "electrical.supply_drop") == pytest.approx(2 * made.budget.all_on_a * ohm)
    (thin,) = found(made, "return-too-thin")
    assert thin.value == pytest.approx(made.budget.all_on_a, abs=0.001)  # what the glance says, no other sum
    assert found(made, "supply-drop")
    assert not found(made, "shared-return-drop")


def test_a_segment_cable_has_a_core_a_segment_and_one_return() -> None:
    made = project(LONG.format("segments") + '[pocket]\nper_segment = 8\ncurrent = "20 mA"\n')
    one = value(made, "electrical.cable_drop")
    assert value(made, "electrical.return_drop") == pytest.approx(8 * one)  # seven segments and the colon
    assert found(made, "shared-return-drop")


STEADY = """
[display]
layout = "{layout}"
[reading]
distance = "8 m"
[pocket]
per_segment = 4
[power]
driver = "constant-current-sink-8"
logic = "{logic}"
in_series = {in_series}
cable = {{ kind = "cat5e", length = "20 m", carries = "segments" }}
"""


def steady(layout: str = "88", logic: str = "5 V", in_series: int = 4) -> Project:
    return project(STEADY.format(layout=layout, logic=logic, in_series=in_series))


def test_a_constant_current_sink_does_not_dim_with_the_cable() -> None:
    made = steady()
    assert not found(made, "shared-return-drop")
    assert not found(made, "cable-takes-headroom")
    assert "electrical.evenness" not in {line.name for line in made.lines}


def test_a_constant_current_sink_on_3v3_takes_3v3_signals() -> None:
    assert not found(steady(logic="3.3 V"), "logic-level")


def test_kinds_of_unequal_strings_cannot_share_a_set_resistor() -> None:
    assert not found(steady(), "one-set-resistor")
    (finding,) = found(steady(layout="8.8", in_series=2), "one-set-resistor")
    assert (finding.value, finding.limit) == (30.0, 15.0)  # two strings of 15 mA in a bar, one in the point
    assert "point 15 mA" in finding.text


def test_a_register_is_offered_one_resistor_only_where_an_output_has_one_string() -> None:
    text = (
        '[display]\nlayout = "88"\n[reading]\ndistance = "20 m"\n[pocket]\nper_segment = {}\ncurrent = "{} mA"\n'
        '[power]\nsupply = "5 V"\ndriver = "register-direct-hct595"\n'
    )
    (lone,) = (f for f in found(project(text.format(1, 15)), "register-overload") if "one chip" in f.text)
    assert "ohm" in lone.remedy
    (shared,) = (f for f in found(project(text.format(4, 5)), "register-overload") if "one chip" in f.text)
    assert "ohm" not in shared.remedy
    assert "Design for" in shared.remedy


def test_mean_current_is_that_of_the_digits_0_to_9() -> None:
    made = project('[display]\nlayout = "8"\n')
    lit = sum(made.circuits[s.kind].current_a for s in made.board.segments) * 49 / 70  # 49 of 70 lit
    assert made.budget.mean_a == pytest.approx(0.05 + lit)
