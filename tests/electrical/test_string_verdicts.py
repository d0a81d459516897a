from dataclasses import replace

import pytest

from segkit.catalog.reader import led
from segkit.electrical.corners import Conditions
from segkit.electrical.driver import Drop
from segkit.electrical.string_verdicts import (
    Longest,
    dark_findings,
    headroom_findings,
    limit_findings,
    longest_strings,
    raised_finding,
)
from segkit.sources import source


def headroom(headroom_v, supply_v=12.0, leds=3, **more):
    more = {"longest": Longest(lit=2, steady=1), **more}
    found = headroom_findings(subject="string", leds=leds, supply_v=supply_v, headroom_v=headroom_v, **more)
    return found[0] if found else None


@pytest.mark.parametrize(
    ("headroom_v", "level", "code"),
    [(-0.3, "stop", "no-headroom"), (0.0, "stop", "no-headroom"), (0.5, "stop", "no-headroom"),
     (0.9, "caution", "thin-headroom"), (2.1, "caution", "thin-headroom"), (2.4, None, None)],
)  # fmt: skip
def test_headroom_on_twelve_volts(headroom_v, level, code):
    finding = headroom(headroom_v)
    assert (finding and finding.level, finding and finding.code) == (level, code)


def test_two_volts_are_the_least_on_a_low_supply():
    assert headroom(1.9, supply_v=5.0).limit == 2.0
    assert headroom(2.0, supply_v=5.0) is None
    assert headroom(4.7, supply_v=24.0).limit == pytest.approx(4.8)


def test_steady_sink_needs_its_own_drop_only():
    assert headroom(0.1, resistor=False) is None
    assert headroom(-0.1, resistor=False).code == "no-headroom"


def test_texts_carry_the_number_and_the_remedy():
    assert "0.3 V short" in headroom(-0.3).text
    assert "2 instead of 3 in series" in headroom(-0.3).remedy
    assert "; 1 without one" in headroom(-0.3).remedy
    assert "1 instead of 3 in series" in headroom(0.9).remedy
    none = headroom(-0.3, longest=Longest(0, 0)).remedy
    assert none.startswith("Not even one LED leaves enough: take a higher supply")
    assert headroom(0.9, longest=Longest(2, 0)).remedy.startswith("Take a higher supply")
    assert headroom(-0.3, leds=1).remedy.startswith("Take a higher supply")
    assert "only 0.5 V is left" in headroom(0.5).text


def test_limit():
    more = {
        "subject": "s",
        "leds": 5,
        "supply_max_v": 13.8,
        "remedy": "use at least 150 ohm",
        "source": "arithmetic",
    }
    assert limit_findings(highest_a=0.03, limit_a=0.03, **more) == ()
    (finding,) = limit_findings(highest_a=0.04, limit_a=0.03, **more)
    assert (finding.level, finding.code, finding.value, finding.limit) == (
        "stop",
        "over-led-limit",
        40.0,
        30.0,
    )
    assert finding.holds == ("back_board",)
    single = limit_findings(highest_a=0.04, limit_a=0.03, **{**more, "leds": 1})
    assert single[0].remedy == "Use at least 150 ohm."


def test_dark():
    more = {"subject": "s", "leds": 3, "supply_min_v": 11.0, "longest": Longest(lit=2, steady=1)}
    assert dark_findings(typical_left_v=1, worst_left_v=0.2, **more) == ()
    assert dark_findings(typical_left_v=1, worst_left_v=-0.2, **more)[0].level == "caution"
    assert dark_findings(typical_left_v=-0.1, worst_left_v=-2, **more)[0].level == "stop"
    assert "2 instead of 3" in dark_findings(typical_left_v=-0.1, worst_left_v=-2, **more)[0].remedy
    assert "1 instead of 3" in dark_findings(typical_left_v=1, worst_left_v=-0.2, **more)[0].remedy


def shop(vf_v):
    return replace(led("red-5mm-diffused"), vf_v=vf_v, vf_min_v=vf_v, vf_max_v=vf_v, slope_ohm=0.0)


def plain(supply_v, low_v=None, drop_v=0.0):
    here = Conditions(supply_v, low_v or supply_v, supply_v, Drop(drop_v, drop_v, drop_v))
    return lambda _: here


@pytest.mark.parametrize(
    ("supply_v", "vf_v", "expected"),
    # by hand: 3 - 2 = 1 V is more than 0.6 V, less than 2 V; 12 - 9.6 = 2.4 V is 20 %; 12 - 10 = 2 V, 12 - 8 = 4 V
    [(3.0, 2.0, Longest(1, 0)), (12.0, 3.2, Longest(3, 3)), (12.0, 2.0, Longest(5, 4)), (1.5, 2.0, Longest(0, 0))],
)  # fmt: skip
def test_longest_string(supply_v, vf_v, expected):
    assert longest_strings(shop(vf_v), plain(supply_v), most=8) == expected


def test_longest_string_minds_the_lowest_supply_the_bins_and_the_sink():
    assert longest_strings(shop(2.0), plain(12.0, low_v=8.0), most=8) == Longest(3, 3)
    wide = replace(shop(2.0), vf_max_v=2.8)
    assert longest_strings(wide, plain(12.0, low_v=11.0), most=8) == Longest(5, 3)
    assert longest_strings(shop(2.0), plain(12.0, drop_v=1.1), most=8) == Longest(5, 4)
    assert longest_strings(shop(2.0), plain(12.0, drop_v=0.5), most=8, resistor=False) == Longest(5, 5)

    def dropping(count):  # strings of one LED overload the sink
        return plain(12.0, drop_v=11.0 if count == 1 else 1.0)(count)

    assert longest_strings(shop(2.0), dropping, most=8).lit == 5


def test_raised_names_both_values():
    finding = raised_finding(subject="s", plain_ohm=150, chosen_ohm=180, limit_a=0.03)
    assert "180 ohm instead of 150 ohm" in finding.text
    assert source(finding.source).key == "arithmetic"
