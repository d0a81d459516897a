import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog import reader
from segkit.electrical.cable import COPPER_OHM_MM2_PER_M, awg_resistance_ohm_per_m, warm_ohm
from segkit.electrical.wire_size import side_by_side, wire_of
from segkit.errors import InputError, MissingPartError


def named(row):
    return wire_of(row["given"]["size"].replace("-", " "))


def test_resistance_of_every_tabled_size(rows, agrees):
    for row in rows("wire ohm_per_km"):
        agrees(row, 1000 * named(row).resistance_ohm_per_m)


def test_how_much_the_standard_allows_above_ideal_copper(rows, agrees):
    for row in rows("wire excess_percent"):
        wire = named(row)
        ideal = COPPER_OHM_MM2_PER_M / wire.area_mm2
        agrees(row, 100 * (wire.resistance_ohm_per_m / ideal - 1))


def test_area_and_planned_current_of_gauges(rows, agrees):
    for row in rows("wire area_mm2"):
        agrees(row, named(row).area_mm2)
    for row in rows("wire planned_a"):
        agrees(row, named(row).max_current_a)


def test_network_cable_against_its_standard(rows, agrees):
    cable = reader.wire("cat5e")
    for row in rows("network cable ohm"):
        agrees(row, cable.resistance_ohm_per_m * row["given"]["length_m"])
    for row in rows("network cable percent_above_ideal"):
        ideal = awg_resistance_ohm_per_m(int(row["given"]["awg"]))
        agrees(row, 100 * (cable.resistance_ohm_per_m / ideal - 1))


def test_copper_grows_warm_as_the_codes_say(rows, agrees):
    for row in rows("warm ratio"):
        agrees(row, warm_ohm(1.0, temperature_c=row["given"]["temperature_c"]))


def test_stranded_gauges_against_the_code(rows, agrees):
    for row in rows("stranded warm ohm_per_km"):
        ours = warm_ohm(named(row).resistance_ohm_per_m, temperature_c=row["given"]["temperature_c"])
        agrees(row, 1000 * ours)
        assert 1000 * ours >= float(row["published"])  # on the careful side
    for row in rows("network cable planned_a"):
        agrees(row, reader.wire("cat5e").max_current_a)


@pytest.mark.parametrize("id_", ["hook-up-awg-22", "hook-up-0-5mm2", "hook-up-1-5mm2"])
def test_sizes_made_here_agree_with_the_catalogue_rows(id_):
    row = reader.wire(id_)
    size = (
        id_.removeprefix("hook-up-")
        .replace("awg-", "awg ")
        .replace("0-5mm2", "0.5 mm2")
        .replace("1-5mm2", "1.5 mm2")
    )
    made = wire_of(size)
    assert made.resistance_ohm_per_m == pytest.approx(row.resistance_ohm_per_m, rel=1e-4)
    assert made.area_mm2 == pytest.approx(row.area_mm2, rel=1e-3)
    assert made.max_current_a == pytest.approx(row.max_current_a, rel=0.02)


@pytest.mark.parametrize(
    ("text", "cores", "area_mm2"),
    [
        ("8 x 0.22 mm2", 8, 0.22),
        ("2x0.5mm²", 2, 0.5),
        ("4 × 24 AWG", 4, 0.2047),
        ("AWG 20", 1, 0.5176),
        (".75 mm2", 1, 0.75),
    ],
)
def test_ways_to_write_it(text, cores, area_mm2):
    wire = wire_of(text)
    assert (wire.cores, round(wire.area_mm2, 4)) == (cores, area_mm2)


def test_a_catalogue_id_is_the_row_itself():
    assert wire_of(" bell-wire ") is reader.wire("bell-wire")


@given(st.floats(0.05, 35.0))
def test_no_size_is_better_than_ideal_copper(area_mm2):
    wire = wire_of(f"{area_mm2:.3f} mm2")
    assert wire.resistance_ohm_per_m >= COPPER_OHM_MM2_PER_M / wire.area_mm2 * 0.99


def test_what_is_no_wire_is_said_with_a_way_to_write_it():
    with pytest.raises(MissingPartError, match=r'Did you mean "cat5e"'):
        wire_of("cat5")
    with pytest.raises(InputError, match="35 mm2"):
        wire_of("400 mm2")
    with pytest.raises(InputError, match="100 cores"):
        wire_of("0 x 1 mm2")


def test_four_pairs_side_by_side_as_computed_by_hand():
    # Four pairs of 24 AWG in parallel over 30 m, out and back: 1.263 ohm.
    four = side_by_side(wire_of("24 AWG"), cores=4)
    assert 2 * 30 * four.resistance_ohm_per_m == pytest.approx(1.263, abs=0.001)
    assert four.max_current_a == pytest.approx(4 * 0.58)
    assert side_by_side(wire_of("cat5e"), cores=1) is reader.wire("cat5e")
    with pytest.raises(InputError):
        side_by_side(four, cores=0)
