"""Resistors of the builder's own: one value, or one by kind; every fault in one message."""

import pytest

from segkit.design.reader import design_from_text
from segkit.design.resistors import Ohms, missing_kinds, sink_problem
from segkit.errors import InputError


def faults(text: str) -> str:
    with pytest.raises(InputError) as caught:
        design_from_text(text)
    return " ".join(str(problem) for problem in caught.value.problems)


def test_one_value_or_a_table_by_kind() -> None:
    assert design_from_text("").power.resistor_ohm is None
    assert design_from_text('[power]\nresistor = "4k7"\n').power.resistor_ohm == 4700.0
    table = '[power.resistor]\nupright = "100 ohm"\nsmall-colon = "2.2 kohm"\n'
    assert design_from_text(table).power.resistor_ohm == {"upright": 100.0, "small-colon": 2200.0}


def test_all_faults_stand_in_one_message() -> None:
    said = faults(
        '[power.resistor]\nuprihgt = "100 ohm"\ncrossbar = 220\nbar = "banana"\npoint = "0 ohm"\n'
        'colon = "9 Mohm"\n'
    )
    for part in (
        '"uprihgt" is no kind of segment', 'Did you mean "upright"', "crossbar: 220: a resistance is written as text", 'bar: "banana"',
        'point: "0 ohm"', 'colon: "9 Mohm"', "1 ohm to 100 kohm",
    ):  # fmt: skip
        assert part in said, part


def test_one_value_is_refused_as_any_other() -> None:
    said = faults("[power]\nresistor = 220\n")
    assert "power.resistor" in said
    assert "written as text with its unit" in said


def test_a_sink_that_holds_the_current_takes_no_resistor() -> None:
    assert sink_problem("logic-mosfet") is None
    said = faults('[power]\ndriver = "constant-current-sink-8"\nresistor = "220 ohm"\n')
    assert "holds the current itself" in said
    assert "pocket.current" in said
    both = (
        '[power]\ndriver = "constant-current-sink-8"\nresistor = "220 ohm"\n[power.converter]\nfrom = "5 V"\n'
    )
    said = faults(both)
    assert "holds the current itself" in said
    assert "cannot raise the voltage" in said


def test_kinds_that_the_board_has_not() -> None:
    missing = missing_kinds(
        {"upright": 100.0, "small-bar": 1.0, "point": 1.0}, {"upright": 0, "small point": 0}
    )
    assert [problem.key for problem in missing] == ["power.resistor.small-bar", "power.resistor.point"]
    assert "small-point" in missing[0].limit


def test_an_editor_is_told_both_forms() -> None:
    one, some = Ohms().json_schema()["anyOf"]
    assert one["type"] == "string"
    assert "small-upright" in some["propertyNames"]["enum"]
