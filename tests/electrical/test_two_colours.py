"""Two colours behind the same resistors in turn: the sum of the board with a blue and a red digit."""

from dataclasses import replace

import pytest

from segkit.catalog.reader import sink
from segkit.electrical.driver import stated_sink
from segkit.electrical.multiplexing import SWITCHES, InTurn
from segkit.electrical.two_colours import two_colours
from segkit.optics.photometry import led_flux
from segkit.working import evaluate


@pytest.fixture
def colours(shop_led):
    """LEDs of a fixed voltage, as the sum has them: 3.3 V and 2.0 V."""
    blue = replace(
        shop_led(3.3), name="blue 3.3 V", colour="blue", intensity_cd=0.6, intensity_current_a=0.0077
    )
    red = replace(shop_led(2.0), name="red 2 V", colour="red", intensity_cd=0.8, intensity_current_a=0.0136)
    return blue, red


def at_5v(led, switch="p-mosfet", driver=None) -> InTurn:
    nothing = replace(SWITCHES[switch], ohm=0.0)
    return InTurn(led, driver or stated_sink(0.0), nothing, 5.0, 1, 1)


def test_a_blue_and_a_red_digit_share_220_ohm(colours):
    """(5 - 3.3)/220 = 7.7 mA; (5 - 2)/220 = 13.6 mA; 7.7/13.6 = 0.57."""
    blue, red = colours
    made = two_colours(at_5v(blue), red, resistor_ohm=220)
    assert made.currents_a == pytest.approx((1.7 / 220, 3.0 / 220))
    assert made.charge == pytest.approx((1.0, 1.7 / 3.0))
    (finding,) = (one for one in made.findings if one.code == "turns-two-colours")
    assert (finding.level, finding.value) == ("caution", 0.567)
    for part in ("the red gets 13.6 mA", "the blue 7.73 mA", "the red is lit 0.57", "not equal light"):
        assert part in finding.text, part
    turned = two_colours(at_5v(red), blue, resistor_ohm=220)
    assert turned.charge == pytest.approx((1.7 / 3.0, 1.0))
    assert turned.findings[0].text == finding.text


def test_equal_light_goes_by_what_an_ampere_gives(colours):
    """600 mcd at 7.7 mA and 800 mcd at 13.6 mA, one beam: red is brighter, 0.75 of the blue's on-time."""
    blue, red = colours
    made = two_colours(at_5v(blue), red, resistor_ohm=220)
    lights = [led_flux(led, current_a=a) for led, a in zip(colours, made.currents_a, strict=True)]
    assert made.light == pytest.approx((1.0, lights[0] / lights[1]))
    assert made.light[1] == pytest.approx(0.75, abs=0.01)
    assert "red 0.75 times as long as the blue" in made.findings[0].remedy
    bright_blue = replace(blue, intensity_cd=6.0)
    other = two_colours(at_5v(bright_blue), red, resistor_ohm=220)
    assert other.light[0] < other.light[1] == 1.0
    assert "Light the blue 0.13 times as long as the red" in other.findings[0].remedy


def test_without_intensities_only_the_charge_is_told(colours):
    blue, red = colours
    dark = replace(red, intensity_cd=0.0, radiant_power_w=0.0)
    made = two_colours(at_5v(blue), dark, resistor_ohm=220)
    assert made.light == ()
    assert "light of both is not known" in made.findings[0].text
    assert "electrical.turns_equal_light" not in {line.name for line in made.lines}


def test_eight_red_segments_are_too_much_for_one_register(colours):
    """8 x 13.6 = 109 mA through a chip of 70 mA; the blue alone stays at 8 x 7.7 = 62 mA."""
    blue, red = colours
    chip = sink("register-direct-hc595")
    made = two_colours(at_5v(blue, driver=chip), red, resistor_ohm=220)
    assert made.total_a == pytest.approx(8 * 3 / 220)
    over = next(one for one in made.findings if one.code == "register-overload")
    assert (over.level, over.value, over.limit) == ("stop", pytest.approx(109.09, abs=0.01), 70.0)
    assert "red digit lit" in over.subject
    assert "510 ohm" in over.remedy
    alone = two_colours(at_5v(red, driver=chip), blue, resistor_ohm=220)  # the round itself judges the red
    assert "register-overload" not in {one.code for one in alone.findings}


def test_every_line_evaluates_and_says_what_the_record_says(colours, red, darlington):
    blue, fixed = colours
    strange = replace(red, vf_v=3.2, vf_min_v=3.0, vf_max_v=3.6, name="other")
    for own, other in ((blue, fixed), (red, strange)):
        turn = InTurn(own, darlington, SWITCHES["pnp"], 6.0, 1, 2)
        made = two_colours(turn, other, resistor_ohm=150)
        lines = {line.name: line.value for line in made.lines}
        assert (lines["electrical.turns_own"], lines["electrical.turns_other"]) == made.currents_a
        assert lines["electrical.turns_charge"] == pytest.approx(min(made.charge))
        assert lines["electrical.turns_equal_light"] == pytest.approx(min(made.light))
        assert lines["electrical.turns_sink"] == pytest.approx(made.total_a)
        for line in made.lines:
            inputs = {one.symbol: one.value for one in line.inputs}
            assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6), line.name


def test_the_same_led_twice_is_no_news(red, darlington):
    turn = InTurn(red, darlington, SWITCHES["p-mosfet"], 12.0, 3, 1)
    assert not two_colours(turn, red, resistor_ohm=220).findings


def test_what_the_other_led_cannot_do(colours):
    blue, red = colours
    hot = next(
        o for o in two_colours(at_5v(blue), red, resistor_ohm=68).findings if o.code == "turns-led-limit"
    )
    assert (hot.level, hot.value) == ("stop", pytest.approx(1000 * 3 / 68, abs=0.01))
    assert "at least 100 ohm" in hot.remedy  # 3 V / 30 mA
    short = two_colours(at_5v(red), replace(blue, vf_v=4.6, vf_min_v=4.6, vf_max_v=4.6), resistor_ohm=220)
    assert "turns-headroom" in {one.code for one in short.findings}
    dark = two_colours(at_5v(red), replace(blue, vf_v=5.6, vf_min_v=5.6, vf_max_v=5.6), resistor_ohm=220)
    assert dark.charge == (0.0, 0.0)
    assert [one.code for one in dark.findings] == ["turns-headroom"]
    assert not dark.lines
