import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.fuse import fuse_a, fuse_findings, fuse_line, thinnest_for
from segkit.electrical.preferred import FUSES_A, WORKSHEET_FUNCTIONS
from segkit.working import evaluate

WIRES = tuple(reader.wires().values())


def finding(load_a, wire_a, **more):
    values = {"board_a": load_a, "digit": False, "wires": WIRES, **more}
    return fuse_findings(load_a=load_a, wire_a=wire_a, **values)


def test_fuses_as_published(rows):
    for row in rows("fuse a"):
        assert fuse_a(**row["given"]) == float(row["published"])


@given(st.floats(0.01, 20), st.floats(0.01, 30))
def test_fuse_lies_between_load_and_wire(load_a, wire_a):
    size = fuse_a(load_a=load_a, wire_a=wire_a)
    if size:
        assert size in FUSES_A
        assert load_a / 0.8 * (1 - 1e-9) <= size <= wire_a * (1 + 1e-9)


def test_working_of_a_fuse():
    line = fuse_line(1.25, load_a=0.9)
    inputs = {given.symbol: given.value for given in line.inputs}
    assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == line.value


@pytest.mark.parametrize("load_a", [0.1, 0.45, 0.9, 1.5, 2.7, 5.0])
def test_the_wire_of_the_remedy_cures_and_no_thinner_one_does(load_a):
    (found,) = finding(load_a, 0.01)
    wire = thinnest_for(load_a, WIRES)
    assert f"({wire.id})" in found.remedy
    assert finding(load_a, wire.max_current_a) == ()
    thinner = (w for w in WIRES if w.cores == 1 and w.area_mm2 < wire.area_mm2)
    assert all(finding(load_a, other.max_current_a) for other in thinner)


def test_beyond_all_wires_the_board_is_fed_by_several():
    assert finding(15.0, 7.0)[0].remedy == "Feed the board by several wires with a fuse each."


def test_all_cores_of_a_digit_are_behind_its_fuse():
    # seven segments, 0.537 A at the worst: 0.67 A, next usual 0.8 A, above the 0.6 A of a 0.22 mm2 core
    (found,) = finding(0.537, 0.6, board_a=1.1, digit=True)
    assert found.code == "fuse-above-wire"
    assert found.value == pytest.approx(0.671)
    assert "cores are planned with 0.8 A" in found.remedy
    assert "supply cable" in found.remedy
    assert f"({thinnest_for(1.1, WIRES).id})" in found.remedy  # that cable feeds the whole board
    assert "thicker return" not in found.remedy
