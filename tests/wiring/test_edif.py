"""The EDIF netlist, read back by an independent reader of netlists."""

from __future__ import annotations

import logging
from dataclasses import replace
from pathlib import Path

import pytest

from segkit.wiring.edif import edif_netlist
from segkit.wiring.harness import Harness
from tests.wiring import boards


def parsed(text: str, folder: Path):
    """The top cell as the reader understands it; its own log lines are kept out of the test."""
    logging.disable()
    try:
        import spydrnet

        file = folder / "board.edf"
        file.write_text(text, encoding="ascii")
        return spydrnet.parse(str(file)).top_instance.reference
    finally:
        logging.disable(logging.NOTSET)


def read(whole: Harness, folder: Path):
    return parsed(edif_netlist(whole.plan, whole.circuit), folder)


def nets(top) -> set[frozenset[tuple[str, str]]]:
    return {
        frozenset((pin.instance.name, pin.inner_pin.port.name) for wire in cable.wires for pin in wire.pins)
        for cable in top.cables
    }


def wire_list_nets(whole: Harness) -> set[frozenset[tuple[str, str]]]:
    """Pins that the wires of the list join, net by net."""
    found: dict[str, set[tuple[str, str]]] = {}
    for wire in whole.wires:
        found.setdefault(wire.run.net, set()).update((wire.run.start, wire.run.end))
    return {frozenset(pins) for pins in found.values()}


@pytest.mark.parametrize(
    ("layout", "driver", "carries", "networked"),
    [
        ("88:88", "darlington-sink-8", "supply", False),
        ("8.:8.", "logic-mosfet", "supply", False),
        ("8.8", "power-register-8", "segments", False),
        ("8", "constant-current-sink-8", "supply", False),
        ("8.8", "darlington-sink-8", "supply", True),
        ("8.8", "logic-mosfet", "segments", True),
    ],
)
def test_the_reader_finds_the_nets_of_the_wire_list(
    layout, driver, carries, networked, tmp_path: Path
) -> None:
    whole = boards.wired(layout, dot=1, driver=driver, carries=carries, networked=networked)
    found = {pins for pins in nets(read(whole, tmp_path)) if len(pins) > 1}
    assert found == wire_list_nets(whole)


@pytest.mark.parametrize("networked", [False, True])
def test_the_reader_finds_every_part_with_its_value_and_its_pins(networked, tmp_path: Path) -> None:
    whole = boards.wired("8.8", networked=networked)
    top = read(whole, tmp_path)
    parts = {part.ref: part for part in whole.circuit.components}
    assert {child.name for child in top.children} == set(parts)
    for child in top.children:
        part = parts[child.name]
        assert child.reference.name.split("_")[0] == part.kind
        assert {port.name for port in child.reference.ports} == set(part.pins)
        (value,) = (p["value"] for p in child["EDIF.properties"] if p["identifier"] == "value")
        assert value == part.value.replace("Ω", "%937%")


def test_a_pin_moved_to_another_net_is_found_out(tmp_path: Path) -> None:
    """The check above can fail."""
    whole = boards.wired("8")
    text = edif_netlist(whole.plan, whole.circuit)
    one, other = "(portRef pK (instanceRef D1a2))", "(portRef pK (instanceRef D1b2))"
    swapped = text.replace(one, "#").replace(other, one).replace("#", other)
    assert swapped != text
    assert {pins for pins in nets(parsed(swapped, tmp_path)) if len(pins) > 1} != wire_list_nets(whole)


def test_letters_of_any_script_stay_plain(tmp_path: Path) -> None:
    whole = boards.wired("8")
    odd = replace(whole, plan=replace(whole.plan, stamp='Löwe "100 %"'))
    assert read(odd, tmp_path).name == "board"
