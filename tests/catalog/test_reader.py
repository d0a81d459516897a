from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from segkit.catalog import reader
from segkit.catalog.part import ResistorNetwork, Supply
from segkit.errors import InputError, MissingPartError

HEAD = "id,name,circuit,pins,resistors,package_w,element_w,tolerance,source,knowledge\n,,,,,{},W,%,,\n"
GOOD = "sip-8,Network,bussed,8,7,1000,0.2,2,sip-networks,datasheet\n"


def read(rows: str, unit: str = "mW") -> tuple[ResistorNetwork, ...]:
    return reader.read_csv(HEAD.format(unit) + rows, ResistorNetwork, file="own.csv")


def faults(text: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        reader.read_csv(text, ResistorNetwork, file="own.csv")
    return [str(problem) for problem in caught.value.problems]


def test_units_of_the_second_line_are_converted() -> None:
    assert read(GOOD)[0].package_w == 1.0
    assert read(GOOD.replace("1000", "1"), unit="W")[0].package_w == 1.0
    assert read(GOOD)[0].tolerance == 0.02


def test_all_faults_at_once_with_line_and_column() -> None:
    rows = (
        "SIP 8,Network,bussed,8,6,1000,0.2,2,sip-networks,datasheet\n"
        "sip-9,Network,star,9,8,much,0.2,2,nowhere,hearsay\n"
        "sip-10,Network,bussed,10,9,1250,0.2\n"
        "sip-8,Network,bussed,8,7,1000,0.2,200,sip-networks,datasheet\n"
        "sip-8,Network,bussed,8,7,1000,0.2,2,sip-networks,datasheet\n"
    )
    found = faults(HEAD.format("mW") + rows)
    for start in (
        "own.csv: line 3, column id: the id is not written",
        "own.csv: line 3, column resistors: 6 resistors on 8 pins",
        'own.csv: line 4, column package_w = "much": a number is needed',
        "own.csv: line 5: 7 cells for 10 columns.",
        "own.csv: line 6, column tolerance: 2 is out of range.",
        'own.csv: line 7, column id = "sip-8": the id stands in line 6 already.',
    ):
        assert sum(fault.startswith(start) for fault in found) == 1, (start, found)
    assert len(found) == 6


def test_words_and_sources_are_checked_once_the_cells_can_be_read() -> None:
    found = faults(HEAD.format("mW") + "sip-9,Network,star,9,8,1130,0.2,2,nowhere,hearsay\n")
    assert [fault.split(":")[1].strip() for fault in found] == [
        "line 3, column source", "line 3, column knowledge", "line 3, column circuit",
    ]  # fmt: skip
    assert "bussed, isolated" in found[2]


def test_wrong_unit_and_bad_row_are_told_together() -> None:
    found = faults(HEAD.format("mA") + GOOD.replace("7,1000", "seven,1000"))
    assert len(found) == 2
    assert found[0].startswith('own.csv: line 2, column package_w = "mA": the unit must be one of W, mW.')
    assert "line 3, column resistors" in found[1]


def test_unknown_and_missing_columns() -> None:
    found = faults(HEAD.format("mW").replace("package_w", "package_watt") + GOOD)
    assert any("column package_watt: unknown column" in fault and '"package_w"' in fault for fault in found)
    assert any("column package_w: the column is missing" in fault for fault in found)
    assert any(
        "stands twice" in fault for fault in faults(HEAD.format("mW").replace("pins", "circuit") + GOOD)
    )
    swapped = HEAD.format("mW").replace("source,knowledge", "knowledge,source")
    assert any("last two columns" in fault for fault in faults(swapped + GOOD))


@pytest.mark.parametrize("text", ["", "id,name\n", HEAD.format("mW")])
def test_a_file_without_parts_is_refused(text: str) -> None:
    assert "at least one part" in faults(text)[0]


def test_a_short_unit_row_is_told() -> None:
    assert "9 units for 10 columns" in faults(HEAD.format("mW").replace(",%,,", ",%,") + GOOD)[0]


@pytest.mark.parametrize("kind", reader.KINDS)
def test_every_file_has_its_rows_and_no_other_file_lies_about(kind: str) -> None:
    entry = reader.KINDS[kind]
    text = (files("segkit.catalog") / entry.file).read_text(encoding="utf-8")
    lines = list(csv.reader(text.splitlines()))
    assert len(reader.rows(kind)) == len(lines) - 2 > 0
    assert reader.rows(kind) is reader.rows(kind)
    on_disk = {file.name for file in files("segkit.catalog").iterdir() if file.name.endswith(".csv")}
    assert on_disk == {each.file for each in reader.KINDS.values()}


def test_typed_getters() -> None:
    assert reader.led("red-5mm-old") is reader.leds()["red-5mm-old"]
    assert reader.sink("logic-mosfet") is reader.sinks()["logic-mosfet"]
    assert reader.register("hct595") is reader.registers()["hct595"]
    assert reader.wire("cat5e") is reader.wires()["cat5e"]
    assert reader.sheet("mdf-3mm") is reader.sheets()["mdf-3mm"]
    assert reader.network("sip-isolated-8") is reader.networks()["sip-isolated-8"]
    assert reader.supply("adapter-12v-2a") is reader.supplies()["adapter-12v-2a"]


def test_a_missing_part_is_told_with_the_nearest_and_the_list() -> None:
    with pytest.raises(MissingPartError) as caught:
        reader.led("red-5mm-difused")
    message = str(caught.value.at(file="boules.toml", key="pocket.led"))
    assert message.startswith(
        'boules.toml: pocket.led = "red-5mm-difused": the catalogue has no LED of that id.'
    )
    assert 'Did you mean "red-5mm-diffused"?' in message
    assert len(message) < 200  # the nearest is enough; the whole list is told where nothing is near
    with pytest.raises(MissingPartError) as caught:
        reader.led("zzz")
    assert all(id_ in str(caught.value) for id_ in reader.leds())
    with pytest.raises(MissingPartError, match=r"Known: hc595, hct595"):
        reader.register("zzz")


def test_an_unknown_kind_is_told() -> None:
    with pytest.raises(InputError, match='Did you mean "leds"'):
        reader.part("led", "red-5mm-old")


def test_written_units() -> None:
    assert reader.written_units("leds")["test_current_a"] == "mA"
    assert reader.written_units("leds")["colour"] == ""


def test_comma_in_a_name_needs_quotes_and_the_message_says_so() -> None:
    text = "id,name,type,nominal_v,min_v,max_v,max_current_a,capacity_ah,source,knowledge\n,,,V,V,V,A,Ah,,\n"
    row = "pack,Battery, sealed,lead-acid,12,11,13.8,0,7,supply-batteries,common practice\n"
    with pytest.raises(InputError, match="in quotes"):
        reader.read_csv(text + row, Supply, file="own.csv")
    parts = reader.read_csv(
        text + row.replace("Battery, sealed", '"Battery, sealed"'), Supply, file="own.csv"
    )
    assert parts[0].name == "Battery, sealed"
