import pytest

from segkit.electrical.turns_verdicts import dark_time_findings, limit_findings, order_finding


@pytest.mark.parametrize(
    ("dark_us", "slot_us", "code"),
    [(5, 1000, "turns-ghosts"), (50, 1000, ""), (150, 1000, ""), (150, 500, "turns-too-dark")],
)
def test_dark_time(dark_us, slot_us, code):
    codes = [one.code for one in dark_time_findings(dark_s=dark_us * 1e-6, slot_s=slot_us * 1e-6)]
    assert codes == ([code] if code else [])


def test_all_limits_at_once(red):
    found = limit_findings(
        digits=4, wanted_a=0.06, led=red, light=0.5, headroom_v=0.3, digit_a=1.0, switch_name="PNP",
        switch_max_a=0.8, peak_a=0.02,
    )  # fmt: skip
    assert [(one.level, one.code) for one in found] == [
        ("caution", "turns-cost-light"),
        ("stop", "turns-headroom"),
        ("stop", "turns-switch-limit"),
    ]
    assert "60 mA" in found[0].text
    assert "50%" in found[0].text


def test_nothing_to_say(red):
    assert not limit_findings(
        digits=2, wanted_a=0.02, led=red, light=1.0, headroom_v=3.0, digit_a=0.1, switch_name="PNP",
        switch_max_a=0.8, peak_a=0.02,
    )  # fmt: skip


def test_the_order_begins_dark_and_ends_lit():
    words = order_finding().text.split(":")[0]
    places = [words.index(word) for word in ("blank", "shift", "latch", "switch", "enable")]
    assert places == sorted(places)


def test_a_given_resistor_is_judged_by_what_it_lets_through(red):
    parts = {
        "digits": 2,
        "led": red,
        "headroom_v": 3.0,
        "digit_a": 0.1,
        "switch_name": "PNP",
        "switch_max_a": 0.8,
    }
    (dim,) = limit_findings(**parts, wanted_a=0.02, peak_a=0.01, light=0.5, given_ohm=300.0, would_ohm=140.0)
    assert dim.code == "turns-cost-light"
    assert "through the 300 ohm given an LED gets 10 mA" in dim.text
    assert "140 ohm would give 100% of it" in dim.remedy
    (held,) = limit_findings(**parts, wanted_a=0.06, peak_a=0.01, light=0.17, given_ohm=300.0, would_ohm=95.0)
    assert "95 ohm would give 51% of it" in held.remedy  # 30 of 60 mA, the LED's limit
    (over,) = limit_findings(**parts, wanted_a=0.02, peak_a=0.04, light=2.0, given_ohm=50.0, would_ohm=140.0)
    assert (over.level, over.code, over.value, over.limit) == ("stop", "turns-led-limit", 40.0, 30.0)
    assert not limit_findings(
        **parts, wanted_a=0.02, peak_a=0.02, light=1.0, given_ohm=140.0, would_ohm=140.0
    )
