"""The whole wiring: numbers, sizes, sums; the wires join exactly what the circuit joins."""

from dataclasses import replace

import pytest
from hypothesis import given

from segkit.wiring.harness import GROUPS, Harness, harness, size_of, total_mm
from segkit.working import evaluate
from tests.wiring import boards


def joined(pairs):
    """Sets of pins that hang together."""
    parent: dict = {}

    def root(pin):
        while parent.setdefault(pin, pin) != pin:
            pin = parent[pin]
        return pin

    for one, other in pairs:
        parent[root(one)] = root(other)
    found: dict = {}
    for pin in list(parent):
        found.setdefault(root(pin), set()).add(pin)
    return {frozenset(pins) for pins in found.values()}


@boards.some_boards
@given(whole=boards.anything)
def test_the_wires_join_exactly_the_nets(whole: Harness) -> None:
    """The circuit comes from channel map and strings, the wires from the places on the board."""
    wires = joined((wire.run.start, wire.run.end) for wire in whole.wires)
    assert wires == {frozenset(net.pins) for net in whole.circuit.nets if len(net.pins) > 1}


@boards.some_boards
@given(whole=boards.anything)
def test_each_wire_says_the_net_it_belongs_to(whole: Harness) -> None:
    net = whole.circuit.net_of()
    for wire in whole.wires:
        assert wire.run.net == net[wire.run.start] == net[wire.run.end]


def test_wires_are_numbered_in_the_order_of_their_groups() -> None:
    wires = boards.wired().wires
    assert [wire.number for wire in wires] == [f"W{n}" for n in range(1, len(wires) + 1)]
    groups = [GROUPS.index(wire.run.group) for wire in wires]
    assert groups == sorted(groups)


@boards.some_boards
@given(whole=boards.anything)
def test_every_wire_carries_its_current_and_is_the_thinnest_that_does(whole: Harness) -> None:
    stock = sorted(whole.plan.stock, key=lambda w: w.area_mm2)
    for wire in whole.wires:
        assert (wire.size is None) == (wire.run.make in ("leads", "card"))
        if wire.run.make == "wire":
            fused_a = whole.plan.fuse_a if wire.run.group == "supply" else 0.0
            needed_a = max(wire.run.current_a, fused_a)
            fits = [w for w in stock if w.max_current_a >= needed_a and w.area_mm2 >= 0.25]
            assert wire.size == fits[0]


@boards.some_boards
@given(whole=boards.anything)
def test_worksheet_lines_say_what_they_compute(whole: Harness) -> None:
    for line in whole.lines:
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6)
    lengths = {line.name: line.value for line in whole.lines if "wire_length" in line.name}
    sums: dict[str, float] = {}
    for (size, _), length in total_mm(whole.wires).items():
        sums[f"wiring.wire_length.{size}"] = sums.get(f"wiring.wire_length.{size}", 0.0) + length / 1000
    assert lengths == pytest.approx(sums)


def test_too_much_current_for_the_thickest_wire_is_a_caution() -> None:
    plan = boards.plan("8")
    strong = {k: replace(c, highest_a=3.0) for k, c in plan.circuits.items()}
    finding, *_ = harness(replace(plan, circuits=strong)).findings
    assert (finding.code, finding.level) == ("no-wire-thick-enough", "caution")
    assert finding.value == pytest.approx(21.0)
    assert finding.limit == 7.0
    assert "no-wire-thick-enough" not in {one.code for one in boards.wired("8").findings}


def test_a_core_is_of_the_cable_and_leads_are_of_nothing() -> None:
    plan = boards.plan("8")
    whole = harness(plan)
    core = next(w.run for w in whole.wires if w.run.make == "core")
    assert size_of(plan, core) == plan.cable
    assert size_of(plan, replace(core, make="leads")) is None


def test_thin_plus_wires_behind_a_large_fuse_are_told() -> None:
    plan = boards.wired().plan
    thin = next(w.size for w in boards.wired().wires if w.run.group == "plus" and w.size)
    codes = {
        fuse_a: {one.code for one in harness(replace(plan, fuse_a=fuse_a)).findings}
        for fuse_a in (thin.max_current_a, 4 * thin.max_current_a)
    }
    assert "fuse-above-branch" not in codes[thin.max_current_a]
    assert "fuse-above-branch" in codes[4 * thin.max_current_a]
    pair = [
        w.size
        for w in harness(replace(plan, fuse_a=4.0)).wires
        if w.run.group == "supply" and w.run.make == "wire"
    ]
    assert pair
    assert all(size is not None and size.max_current_a >= 4.0 for size in pair)
