"""The wire list as a person reads it."""

import csv
import io

import pytest
from hypothesis import given

from segkit.wiring.harness import Harness
from segkit.wiring.run import Run
from segkit.wiring.wire_list import COLUMNS, polarity, rows, to_csv
from tests.wiring import boards


def read(whole: Harness) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(to_csv(whole))))


@boards.some_boards
@given(whole=boards.anything)
def test_no_wire_and_no_pin_is_lost(whole: Harness) -> None:
    assert [row["wire"] for row in read(whole)] == [wire.number for wire in whole.wires]
    listed = {(row["from"], row["from pin"]) for row in read(whole)}
    listed |= {(row["to"], row["to pin"]) for row in read(whole)}
    alone = {net.pins[0] for net in whole.circuit.nets if len(net.pins) == 1}
    wired = {pin for wire in whole.wires for pin in (wire.run.start, wire.run.end)}
    assert listed == {pin for net in whole.circuit.nets for pin in net.pins} - alone == wired


@boards.some_boards
@given(whole=boards.anything)
def test_polarity_follows_the_current_through_every_led(whole: Harness) -> None:
    """At a cathode a wire is on the minus side, at an anode on plus; a link leads from K to A."""
    for row in read(whole):
        for ref, pin in ((row["from"], row["from pin"]), (row["to"], row["to pin"])):
            if ref[0] != "D" or " to " in row["polarity"]:
                continue
            assert row["polarity"] == {"A": "+", "K": "-"}[pin]
        if row["polarity"] == "K to A":
            assert (row["from pin"], row["to pin"]) == ("K", "A")
            one, other = row["LED"].split(" to ")
            assert int(other) == int(one) + 1


@boards.some_boards
@given(whole=boards.anything)
def test_a_segments_wire_names_output_pin_and_pole(whole: Harness) -> None:
    outputs = {(str(c.digit), c.segment): c for c in whole.plan.wired}
    for row in read(whole):
        if row["group"] in ("segment", "string") or (row["group"] == "card" and row["segment"]):
            channel = outputs[row["digit"], row["segment"]]
            assert (row["chip"], row["output"], row["output pin"]) == (
                str(channel.chip), channel.output, str(channel.pin),
            )  # fmt: skip
            assert row["connector"] == f"X{channel.digit}"
            assert int(row["pole"]) == 2 + ("a", "b", "c", "d", "e", "f", "g", "dp", "colon").index(
                channel.segment
            )


@boards.some_boards
@given(whole=boards.anything)
def test_lengths_are_whole_and_never_shorter_than_the_route(whole: Harness) -> None:
    for row, wire in zip(read(whole), whole.wires, strict=True):
        if row["cut mm"]:
            assert float(row["cut mm"]) >= wire.run.route_mm
            assert float(row["cut mm"]) % 5 == 0
        else:
            assert row["wire to use"] in (
                "leads of the parts",
                "on the card",
                "on the strip of the connector",
            )


def test_a_row_worked_by_hand() -> None:
    row = next(r for r in read(boards.wired("88:88")) if (r["from"], r["from pin"]) == ("X2", "3"))
    assert row["to"].startswith("D2b")
    shown = {
        key: row[key] for key in COLUMNS if key not in ("wire", "to", "LED", "route mm", "slack mm", "cut mm")
    }
    assert shown == {
        "group": "segment", "from": "X2", "from pin": "3", "to pin": "K", "digit": "2", "segment": "b",
        "string": "", "polarity": "-", "connector": "X2", "pole": "3", "chip": "2", "output": "QB",
        "output pin": "1", "sink pin": "U22 17", "core": "BN", "colour": "brown",
        "wire to use": "Hook-up wire 0.25 mm2, solid",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("net", "end", "said"),
    [("LED_PLUS", ("X1", "1"), "+"), ("ZERO", ("X0", "2"), "-"), ("CLOCK", ("U11", "11"), "")],
)
def test_polarity_of_supply_and_signals(net: str, end: tuple[str, str], said: str) -> None:
    assert polarity(Run("supply", "wire", net, ("X1P", "1"), end, ())) == said


def test_every_row_has_every_column() -> None:
    assert {len(row) for row in rows(boards.wired("8"))} == {len(COLUMNS)}
