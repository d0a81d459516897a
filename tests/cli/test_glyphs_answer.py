"""The answers for programs."""

from __future__ import annotations

import json

from segkit.cli.glyphs_answer import Request, as_data, fault_table, findings_of, glyph_data, sent, words
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.characters import Style
from tests.cli.yard import segkit

ORDER = parse_order("dp g f e d c b a")


def request(text: str, chars: str, **changed: object) -> Request:
    usual = {
        "sent": None,
        "active": "high",
        "sink": None,
        "style": Style(),
        "custom": {},
        "seen": None,
        "faults": False,
    }
    return Request(text=text, chars=tuple(chars), order=ORDER, **{**usual, **changed})  # type: ignore[arg-type]


def test_words_are_texts_and_no_ranges() -> None:
    assert words(request("GUEST", "GUEST")) == "GUEST"
    assert words(request("0-9", "0123456789")) == ""


def test_slips_and_readings_for_programs() -> None:
    data = json.loads(segkit("glyphs", "16", "--json").stdout)
    assert data["upside_down"] == "91"
    assert {"place": 1, "segment": "a", "fault": "stuck", "reads": "76"} in data["slips"]
    assert {slip["reads"] for slip in data["slips"]} == {"76", "15", "18"}
    assert [finding["code"] for finding in data["findings"]] == ["reads-upside-down"]
    assert json.loads(segkit("glyphs", "0-9", "--json").stdout)["upside_down"] is None


def test_parts_of_the_answer() -> None:
    one = request("1", "1", sent=parse_order("a b c d e f g dp"))
    assert glyph_data("1", one)["hex"] == "0x06"
    assert sent(one)[0].lights == ("f", "g")
    assert sent(request("1", "1")) == ()
    assert fault_table(one)[0].fault == "order reversed"
    assert findings_of(one) == ()
    assert as_data(one, ())["sent"]["glyphs"][0]["mask"] == 0x60
