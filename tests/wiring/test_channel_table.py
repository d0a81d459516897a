"""The channel map on paper."""

from __future__ import annotations

import csv
import io

from segkit.catalog.reader import registers, sinks
from segkit.glyphs.text import lamps
from segkit.wiring.channel_map import ChannelMap, channel_map
from segkit.wiring.channel_table import COLUMNS, byte_lines, rows, to_csv

ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")


def board(layout: str) -> ChannelMap:
    return channel_map(
        lamps=lamps(layout), register=registers()["hc595"], sink=sinks()["darlington-sink-8"], order=ORDER
    )


def test_csv_reads_back() -> None:
    channels = board("88:88")
    text = to_csv(channels)
    assert "\r" not in text
    found = list(csv.DictReader(io.StringIO(text)))
    assert tuple(found[0]) == COLUMNS
    assert len(found) == 32
    assert found[0] == dict(zip(COLUMNS, ("1", "a", "1", "QA", "15", "18", "0", "31"), strict=True))
    spare = [row for row in found if row["segment"] == "spare"]
    assert [(row["digit"], row["chip"], row["output"]) for row in spare] == [
        ("", "1", "QH"), ("", "3", "QH"), ("", "4", "QH"),
    ]  # fmt: skip
    assert len(rows(channels)) == len(channels.channels)


def test_bytes_in_the_order_of_sending() -> None:
    assert byte_lines(board("8:8")) == (
        "byte 1: chip 2, digit 2; bits 7 to 0: spare g f e d c b a",
        "byte 2: chip 1, digit 1; bits 7 to 0: colon g f e d c b a",
    )


def test_a_guest_on_another_chip_says_whose_it_is() -> None:
    first, second = byte_lines(board("8.:8"))
    assert first == "byte 1: chip 2, digit 1 and digit 2; bits 7 to 0: colon/1 g/2 f/2 e/2 d/2 c/2 b/2 a/2"
    assert second.endswith("dp g f e d c b a")


def test_after_a_walk_the_plan_stands_beside_what_was_built() -> None:
    channels = board("8")
    built = {(c.chip, c.output): ((1, c.segment),) if c.segment else () for c in channels.channels}
    built[1, "QA"], built[1, "QB"], built[1, "QC"] = ((1, "b"),), ((1, "a"),), ((1, "c"), (1, "d"))
    found = list(csv.DictReader(io.StringIO(to_csv(channels, built))))
    assert tuple(found[0]) == (*COLUMNS, "as built")
    assert [row["segment"] for row in found] == [row[1] for row in rows(channels)], "the plan stays"
    assert [row["as built"] for row in found] == [
        "b of 1", "a of 1", "c of 1 and d of 1", "d of 1", "e of 1", "f of 1", "g of 1", "nothing",
    ]  # fmt: skip
