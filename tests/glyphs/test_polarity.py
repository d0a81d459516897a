"""Which bit value lights a segment, by the sink."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from segkit.catalog.part import Sink
from segkit.catalog.reader import sinks
from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.polarity import active_for, polarity_findings, spoken

Published = Callable[[str], list[dict[str, str]]]
ORDER = parse_order("dp g f e d c b a")


@pytest.fixture
def darlington() -> Sink:
    return sinks()["darlington-sink-8"]


def test_flipped_behind_an_inverting_sink(darlington: Sink, published: Published) -> None:
    values = {
        row["what"]: row["published"] for row in published("glyphs") if row["what"].startswith("inverted")
    }
    (finding,) = polarity_findings(darlington, active="low", order=ORDER)
    assert (finding.level, finding.code, finding.limit) == ("stop", "inverted-twice", "0x06")
    assert finding.value == f"0x{values['inverted twice, byte']}"
    assert spoken(tuple(values["inverted twice, lights"].split())) == "a d e f g and the point"
    assert "lights a d e f g and the point" in finding.text


def test_right_polarity_is_silent(darlington: Sink) -> None:
    assert active_for(darlington) == "high"
    assert polarity_findings(darlington, active="high", order=ORDER) == ()


def test_an_output_that_does_not_invert(darlington: Sink) -> None:
    direct = replace(darlington, inverts=False)
    assert active_for(direct) == "low"
    assert polarity_findings(direct, active="low", order=ORDER) == ()
    (finding,) = polarity_findings(direct, active="high", order=ORDER)
    assert (finding.level, finding.code) == ("caution", "not-inverted")


def test_spoken() -> None:
    assert [spoken(names) for names in ((), ("dp",), ("a", "b"))] == ["nothing", "the point", "a b"]
