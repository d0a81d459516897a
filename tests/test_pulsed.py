"""Dimming, digits in turn, power-on and touch on whole designs."""

import pytest

from segkit.design.reader import design_from_text
from segkit.errors import InputError
from segkit.findings import stops
from segkit.project import Project, solve


def project(more: str = "", power: str = "") -> Project:
    text = f'[display]\nlayout = "8888"\n[digit]\nheight = "150 mm"\n[pocket]\nper_segment = 3\n[power]\n{power}\n{more}'
    return solve(design_from_text(text), name="yard")


def codes(made: Project) -> list[str]:
    return [finding.code for finding in made.findings]


def value(made: Project, name: str) -> float:
    return next(line.value for line in made.lines if line.name == name)


def test_levels_and_night_share_reach_the_book() -> None:
    made = project("[dimming]\nlevels = 4\nbits = 8\n")
    assert [level.count for level in made.pulses.dimmed.levels] == [11, 47, 123, 255]
    assert value(made, "electrical.dimming_clock") == 6000 * 256
    assert made.pulses.dimmed.night_share <= 1


def test_nothing_takes_turns_unless_asked() -> None:
    made = project()
    assert made.pulses.turns is None
    assert not any(line.name.startswith("electrical.turns") for line in made.lines)


def test_turns_are_compared_and_stop_nothing() -> None:
    made = project("[turns]\ndigits = 4\nswitch = 'source-array'\n", 'supply = "5 V"\nin_series = 1\n')
    turns = made.pulses.turns
    assert turns is not None
    assert turns.light < 1
    asked = [one for one in made.findings if one.text.startswith("if digits took turns: ")]
    assert {"turns-headroom", "turns-cost-light"} <= {one.code for one in asked}
    assert not stops(asked)
    assert not any(one.holds for one in asked)
    assert value(made, "electrical.turns_light") == turns.light


def test_a_drop_in_plus_of_the_board_counts_in_turns_and_one_in_a_digit_is_its_switch() -> None:
    turns = "[turns]\ndigits = 2\n"
    left_v = {}
    for where in ("board", "digit"):
        made = project(turns + f'[power.common]\ndrop = "0.6 V"\ndrop_in = "{where}"\n')
        assert made.pulses.turns is not None
        left_v[where] = made.pulses.turns.headroom_v
    assert left_v["digit"] - left_v["board"] == pytest.approx(0.6, abs=0.05)


def test_a_round_without_time_names_its_table() -> None:
    with pytest.raises(InputError, match="turns"):
        project('[turns]\ndigits = 8\nrefresh = "5 kHz"\n')


def test_slow_dimming_of_a_wet_board_is_stopped() -> None:
    slow = '[dimming]\nfrequency = "120 Hz"\n[drive]\ntouch = "wet"\n'
    assert "touch-pulsed" in codes(project(slow))
    assert "touch-pulsed" not in codes(project(slow.replace("120 Hz", "6 kHz")))
    assert "touch-pulsed" not in codes(project(slow.replace("wet", "enclosed")))


def test_power_on_says_what_flows() -> None:
    made = project()
    assert made.pulses.first.flash_a == made.budget.all_on_a


def test_another_led_in_the_round_is_worked_out_with_the_resistor_of_the_round() -> None:
    text = '[turns]\ndigits = 2\nled = "{}"\n'
    made = project(text.format("blue-5mm-clear"))
    colours, turns = made.pulses.colours, made.pulses.turns
    assert colours is not None
    assert turns is not None
    assert colours.currents_a[0] == pytest.approx(turns.peak_a, rel=1e-6)
    assert colours.currents_a[1] < colours.currents_a[0]
    told = next(one for one in made.findings if one.code == "turns-two-colours")
    assert told.text.startswith("if digits took turns: ")
    assert project("[turns]\ndigits = 2\n").pulses.colours is None
    assert (
        project(text.format("blue-5mm-clear"), 'driver = "constant-current-sink-8"\n').pulses.colours is None
    )


def test_a_given_resistor_is_that_of_the_turn() -> None:
    made = project("[turns]\ndigits = 2\n", 'resistor = "220 ohm"\n')
    assert made.pulses.turns is not None
    assert made.pulses.turns.resistor_ohm == 220.0
    assert "through the 220 ohm given" in next(f for f in made.findings if f.code == "turns-cost-light").text


def test_another_led_is_refused_as_any_other() -> None:
    with pytest.raises(InputError, match=r"turns\.led"):
        project('[turns]\nled = "blu"\n')
