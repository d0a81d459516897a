import pytest

from segkit.electrical.string_verdicts import (
    dark_findings,
    headroom_findings,
    limit_findings,
    raised_finding,
)
from segkit.sources import source


def headroom(headroom_v, supply_v=12.0, leds=3, **more):
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
    more = {"subject": "s", "leds": 3, "supply_min_v": 11.0}
    assert dark_findings(typical_left_v=1, worst_left_v=0.2, **more) == ()
    assert dark_findings(typical_left_v=1, worst_left_v=-0.2, **more)[0].level == "caution"
    assert dark_findings(typical_left_v=-0.1, worst_left_v=-2, **more)[0].level == "stop"


def test_raised_names_both_values():
    finding = raised_finding(subject="s", plain_ohm=150, chosen_ohm=180, limit_a=0.03)
    assert "180 ohm instead of 150 ohm" in finding.text
    assert source(finding.source).key == "arithmetic"
