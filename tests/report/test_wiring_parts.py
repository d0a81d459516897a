"""Wire and connectors in the parts list; references of the lists and the parts list agree in number."""

from collections import Counter

import pytest

from segkit.project import Project
from segkit.report.bill_of_materials import bill_of_materials
from segkit.report.wiring_parts import wiring_parts


def test_wire_is_bought_by_size_with_its_colours(boules: Project) -> None:
    wires = [part for part in wiring_parts(boules) if part.unit == "m"]
    lines = {line.name: line.value for line in boules.lines}
    for part in wires:
        assert part.used == pytest.approx(lines[f"wiring.wire_length.{part.id}"])
        assert "red" in part.where
    assert {part.id for part in wires} == {
        n.rsplit(".")[-1] for n in lines if n.startswith("wiring.wire_length")
    }


def test_connectors_are_those_of_the_circuit(boules: Project) -> None:
    """Four cards in a chain: 4 in, 3 out; a supply pair for each and the entry; one of ten poles a digit."""
    parts = {part.what: part.used for part in wiring_parts(boules) if part.unit == "pcs"}
    assert parts == {
        "Connector, 2 poles, plug and header": 5,
        "Connector, 6 poles, plug and header": 7,
        "Connector, 10 poles, plug and header": 4,
    }


@pytest.mark.parametrize("name", ["boules", "clock"])
def test_the_parts_list_has_as_many_as_the_circuit(name: str, request: pytest.FixtureRequest) -> None:
    project: Project = request.getfixturevalue(name)
    counted = Counter((part.kind, part.value) for part in project.harness.circuit.components)
    listed: Counter[str] = Counter()
    for item in bill_of_materials(project):
        listed[item.what] += int(item.used) if item.unit == "pcs" else 0
    leds = sum(number for (kind, _), number in counted.items() if kind == "led")
    assert listed[project.parts.led.name] == leds
    assert listed[project.parts.register.name] == sum(n for (k, _), n in counted.items() if k == "register")
    assert listed["Capacitor 100 nF, ceramic"] == counted["capacitor", "100 nF"]
    values = {value for kind, value in counted if kind == "resistor"}
    for value in values:
        bought = sum(number for what, number in listed.items() if what.startswith(f"Resistor {value},"))
        assert bought == counted["resistor", value]
