"""Situations that builders met, as small designs: what ``segkit check`` says of each, with the sum behind it."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from segkit.glyphs.bitmask import parse_order
from segkit.glyphs.faults import sent_as
from segkit.glyphs.polarity import polarity_findings
from segkit.glyphs.symptoms import diagnose
from segkit.report.bill_of_materials import bill_of_materials
from tests.cases import CASES, found, made, value
from tests.cli.yard import app

NEAR = 0.02  # of a sum done with a fixed LED voltage: ours follows the LED's curve


def strings(name: str) -> list[tuple[int, float]]:
    """LEDs and resistor of each string of a segment."""
    return [(string.leds, string.chosen_ohm) for string in made(name).circuits["bar"].strings]


def command(*arguments: str) -> dict:
    done = CliRunner().invoke(app, [*arguments, "--json"])
    return json.loads(done.output)


def test_every_case_is_asked_about() -> None:
    text = "".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.glob("test_*cases.py"))
    for path in CASES.glob("*.toml"):
        assert f'"{path.stem}"' in text, path.stem


# Strings


def test_the_amperes_of_a_supply_are_a_ceiling_not_a_push() -> None:
    # Two of 3.0 V on 12 V: (12 - 6)/0.020 = 300, next 330 ohm, 6/330 = 18.2 mA, four strings 72.7 mA, 0.11 W.
    assert strings("skittles_board_led_pairs") == [(2, 330.0)] * 4
    circuit = made("skittles_board_led_pairs").circuits["bar"]
    assert circuit.current_a == pytest.approx(0.0727, rel=NEAR)
    assert value("skittles_board_led_pairs", "electrical.resistor_heat.bar") > 0.11  # at the worst corner
    assert not {"supply-too-small", "supply-loaded", "no-headroom"} & set(found("skittles_board_led_pairs"))
    # Three behind a Darlington: (12 - 9 - 0.9)/0.020 = 105, next 110 ohm, 19.1 mA.
    assert strings("skittles_board_led_threes") == [(3, 110.0)] * 2
    assert made("skittles_board_led_threes").circuits["bar"].current_a / 2 == pytest.approx(0.0191, rel=NEAR)


def test_four_reds_on_a_battery_are_safe_and_five_are_not() -> None:
    # Five reds with 100 ohm: (11 - 10)/100 = 10 mA, (12 - 10)/100 = 20 mA, (13.8 - 10)/100 = 38 mA.
    # Four with 220 ohm: (11 - 8)/220 = 13.6, (12 - 8)/220 = 18.2, (13.8 - 8)/220 = 26.4 mA.
    for name, leds, ohm, low_a, asked_a, high_a in (
        ("orchard_bin_counter_five_reds", 5, 100.0, 0.010, 0.020, 0.038),
        ("orchard_bin_counter_four_reds", 4, 220.0, 0.0136, 0.0182, 0.0264),
    ):
        (string,) = made(name).circuits["bar"].strings
        assert (string.leds, string.chosen_ohm) == (leds, ohm)
        assert value(name, "electrical.resistor.bar") == ohm
        assert string.simple_current_a == pytest.approx(asked_a, rel=NEAR)
        # on the LED's curve the ends lie closer: 12.2 and 34.9 mA, 14.2 and 25.9 mA
        assert low_a < string.lowest_a < string.current_a < string.highest_a < high_a
        assert string.highest_a == pytest.approx(high_a, rel=0.09)
    five, four = found("orchard_bin_counter_five_reds"), found("orchard_bin_counter_four_reds")
    assert five["thin-headroom"].value == pytest.approx(2.0, abs=0.01)  # (12 - 10) V
    assert five["wide-swing"].value > 2  # 38/10 = 3.8 times by the sum, 2.9 on the curve
    assert "Put 4 instead of 5" in five["wide-swing"].remedy
    assert (five["over-led-limit"].level, five["over-led-limit"].limit) == ("stop", 30.0)
    assert "use at least 120 ohm" in five["over-led-limit"].remedy
    assert not {"thin-headroom", "wide-swing", "over-led-limit", "no-headroom"} & set(four)
    swings = []
    for series, ohm in (("5", "100"), ("4", "220")):
        asked = ("--supply-range", "11 V to 13.8 V", "--vf", "2.0V", "--series", series, "--ohm", ohm)
        swings.append(command("resistor", *asked, "--tolerance", "0%"))
    assert "over-led-limit" in {finding["code"] for finding in swings[0]["findings"]}  # 38 mA of 30
    assert "over-led-limit" not in {finding["code"] for finding in swings[1]["findings"]}


def test_one_reel_of_resistors_does_not_suit_every_kind() -> None:
    # Four reds: (12 - 0.9 - 8)/220 = 14.1 mA in an upright; three: (12 - 0.9 - 6)/220 = 23.2 mA in a crossbar.
    name = "regatta_clock_one_reel"
    for kind, current_a in (("upright", 0.0141), ("crossbar", 0.0232)):
        (string,) = made(name).circuits[kind].strings
        assert (string.chosen_ohm, string.current_a) == (220.0, pytest.approx(current_a, rel=2 * NEAR))
    unequal = found(name)["unequal-light"]
    assert unequal.level == "caution"
    assert "with the resistors given the crossbar" in unequal.text
    assert "unequal-light" not in found("regatta_clock_two_reels")
    for kind, circuit in made("regatta_clock_two_reels").circuits.items():
        assert f"{kind} {circuit.strings[0].chosen_ohm:g} ohm" in unequal.remedy  # 300 and 390 ohm
    bought = {item.what for item in bill_of_materials(made(name))}
    assert {f"Resistor 220 Ω, 1/{part} W, as given in the design" for part in (4, 2)} <= bought


def test_the_drop_of_the_array_is_part_of_the_sum() -> None:
    # (5 - 0.9 - 1.8)/0.020 = 115, next 120 ohm, 2.3/120 = 19.2 mA.
    assert strings("potting_bench_one_red") == [(1, 120.0)]
    assert made("potting_bench_one_red").circuits["bar"].current_a == pytest.approx(0.0192, rel=NEAR)
    assert "no-headroom" not in found("potting_bench_one_red")


def test_nothing_left_for_the_resistor_is_refused() -> None:
    # 5 - 0.9 - 3.6 = 0.5 V; a 4.0 V LED leaves 5 - 0.9 - 4.0 = 0.1 V behind a sink array, and below a source
    # array of 1.3 V it is short by 5 - 1.3 - 4.0 = -0.3 V.
    for name, left_v in (
        ("potting_bench_two_reds", 0.5),
        ("potting_bench_blue", 0.1),
        ("potting_bench_source_array", -0.3),
    ):
        stop = found(name)["no-headroom"]
        assert (stop.level, stop.value) == ("stop", pytest.approx(left_v, abs=0.01))
        assert value(name, "electrical.headroom.bar") == pytest.approx(left_v, abs=0.01)
    short = found("potting_bench_source_array")["no-headroom"]
    assert "0.3 V short, with 1.3 V lost in the common lead" in short.text
    assert "higher supply" in short.remedy
    assert "P-channel MOSFET in place of what takes 1.3 V" in short.remedy


def test_a_diode_against_reversal_is_part_of_the_sum() -> None:
    # Four reds, 220 ohm, 0.4 to 0.7 V in the diode: (12 - 0.55 - 8)/220 = 15.7 mA instead of 18.2; at 11 V
    # (11 - 0.7 - 8)/220 = 10.5, at 13.8 V (13.8 - 0.4 - 8)/220 = 24.5 mA; 14 segments 0.22 A, 0.7 x 0.34 = 0.24 W.
    name = "sheepdog_trial_reversal_diode"
    (string,) = made(name).circuits["bar"].strings
    assert value(name, "electrical.headroom.bar") == pytest.approx(3.45, abs=0.01)
    assert string.simple_current_a == pytest.approx(0.0157, rel=NEAR)
    assert 0.0105 < string.lowest_a < string.current_a < string.highest_a < 0.0245
    assert string.highest_a == pytest.approx(0.0245, rel=0.07)  # the curve holds the ends closer: 23.7 mA
    diode = found(name)["common-drop"]
    assert (diode.level, diode.subject) == ("note", "the common lead of the board")
    assert value(name, "electrical.common_heat") == pytest.approx(0.55 * 14 * string.current_a)
    assert diode.value == pytest.approx(0.7 * 14 * string.highest_a, abs=5e-4)
    assert diode.value == pytest.approx(0.24, rel=0.07)
    assert "common-resistor" not in found(name)


def test_one_resistor_in_the_common_lead_makes_a_one_brighter() -> None:
    # (5 - 2)/220 = 13.6 mA in all: 6.8 mA a segment for a "1", 1.95 for an "8"; 7/2 = 3.5.
    refused = found("bakery_ticket_common_resistor")["common-resistor"]
    assert (refused.level, refused.value) == ("stop", 3.5)
    for number in ("13.6 mA", "6.8 mA", "1.9"):
        assert number in refused.text
    assert "own resistor" in refused.remedy


def test_a_resistor_that_just_fits_its_rating_is_too_small() -> None:
    # 8.8 V over 470 ohm: 18.7 mA, 0.165 W, 66 % of a quarter watt: half a watt is bought. Three: 120 ohm, 0.048 W.
    assert strings("boathouse_level_one_white") == [(1, 470.0)]
    one, three = (
        made(name).circuits["bar"].strings[0]
        for name in ("boathouse_level_one_white", "boathouse_level_three_whites")
    )
    assert one.current_a == pytest.approx(0.0187, rel=NEAR)
    assert one.current_a**2 * 470 == pytest.approx(0.165, rel=2 * NEAR)
    assert one.rating_w == 0.5
    assert strings("boathouse_level_three_whites") == [(3, 120.0)]
    assert three.current_a**2 * 120 == pytest.approx(0.048, rel=NEAR)
    assert three.rating_w < one.rating_w


# What switches


def test_eight_leds_are_too_much_for_a_register_alone() -> None:
    # 8 x 20 mA = 160 mA, 2.3 times the 70 mA of a chip; (5 - 2)/0.006 = 500, next 510 ohm, 47 mA in all.
    over = found("ferry_queue_register_alone")["register-overload"]
    assert (over.level, over.limit) == ("stop", 70.0)
    assert over.value == pytest.approx(160, rel=NEAR)
    assert "510 ohm, 47 mA" in over.remedy
    gentle = made("ferry_queue_register_gently")
    assert "register-overload" not in found("ferry_queue_register_gently")
    assert gentle.budget.all_on_highest_a < 0.048


def test_the_array_is_not_what_fails_when_an_eight_goes_dark() -> None:
    # (12 - 0.9 - 8)/220 = 14.1 mA, 28 strings 395 mA, 0.36 W at 0.9 V: within 500 mA for each output.
    name = "hay_loft_counter_sixteen_leds"
    assert strings(name) == [(4, 220.0)] * 4
    digit_a = 7 * made(name).circuits["bar"].current_a
    assert digit_a == pytest.approx(0.395, rel=NEAR)
    typical_w = digit_a * value(name, "electrical.sink_drop.bar")
    assert typical_w == pytest.approx(0.36, rel=NEAR)
    assert not {code for code in found(name) if code.startswith("sink")}
    assert not {"supply-too-small", "supply-loaded"} & set(found(name))


def test_a_gate_is_judged_by_its_stated_voltage_not_by_a_threshold() -> None:
    # 60 mA through a part that is fully on: 0.060 x 0.05 = 3 mV.
    stop = found("greenhouse_three_volt_gates")["gate-too-low"]
    assert (stop.level, stop.value, stop.limit) == ("stop", 3.3, 10.0)
    assert "threshold" in stop.remedy
    assert "gate-too-low" not in found("greenhouse_gates_that_fit")
    current_a = made("greenhouse_gates_that_fit").circuits["bar"].current_a
    assert current_a * made("greenhouse_gates_that_fit").parts.sink.on_resistance_worst_ohm == pytest.approx(
        0.003, abs=3e-4
    )


def test_a_resistor_in_the_common_feed_is_no_dimmer() -> None:
    # 2.1/(1000 + 120) = 1.88 mA alone, 2.1/(1000 + 15)/8 = 0.26 mA each of eight: 7 times; a "1" lights two.
    refused = found("chapel_hymn_dimmed_bank")["common-resistor"]
    assert refused.level == "stop"
    assert strings("chapel_hymn_dimmed_bank") == [(1, 120.0)]
    assert "0.26 mA" in refused.text
    assert refused.value == pytest.approx((8 * 1000 + 120) / (2 * 1000 + 120), rel=NEAR)


def test_three_volt_pins_into_five_volt_registers() -> None:
    # 0.7 x 5 = 3.5 V is asked for; an HCT register asks for 2.0 V; at 3.3 V an HC one for 2.31 V.
    refused = found("sauna_clock_three_volt_controller")["logic-level"]
    assert (refused.level, refused.value, refused.limit) == ("stop", 3.3, 3.5)
    for name in ("sauna_clock_hct_register", "sauna_clock_register_at_three_volts"):
        assert "logic-level" not in found(name)


# Bits and bytes


def test_nothing_is_inverted_twice() -> None:
    # An array inverts: 1 = lit, "1" is 0x06; flipped for the common anode it is 0xF9: a d e f g and the point.
    board = made("tram_stop_strip_behind_array")
    assert next(glyph.mask for glyph in board.table.glyphs if glyph.char == "1") == 0x06
    (twice,) = polarity_findings(board.parts.sink, active="low", order=board.channels.order)
    assert (twice.code, twice.level, twice.value) == ("inverted-twice", "stop", "0xF9")
    for name in "adefg":
        assert name in twice.text.split("lights ")[1]
    # Cathodes on a 5 V pin: an output that is off sees the 12 V supply.
    pins = found("tram_stop_strip_on_logic_pins")["sink-voltage"]
    assert (pins.level, pins.limit) == ("stop", 5.5)


def test_bytes_in_the_other_order_leave_a_fingerprint() -> None:
    wired = made("hill_climb_timer_digit_order").channels.order
    shown = {one.char: one for one in sent_as("1238", order=wired, sent=parse_order("a b c d e f g dp"))}
    assert {char: one.value for char, one in shown.items()} == {"1": 0x60, "2": 0xDA, "3": 0xF2, "8": 0xFE}
    assert shown["1"].lights == ("f", "g")
    assert set(shown["2"].lights) == {"b", "d", "e", "g", "dp"}
    assert set(shown["3"].lights) == {"b", "e", "f", "g", "dp"}
    assert set(shown["8"].lights) == {"b", "c", "d", "e", "f", "g", "dp"}


def test_digits_in_the_wrong_order() -> None:
    note = found("hill_climb_timer_digit_order")["chain-order"]
    assert "Chip 1, next to the controller, drives digit 1" in note.text
    assert "sent first" in note.text
    for seen, code in (("4123", "digits-rotated"), ("4321", "digits-reversed")):
        assert code in {finding.code for finding in diagnose("1234", seen)}
    assert "digits-rotated" in {finding.code for finding in diagnose("3210", "2103")}


def test_dark_at_power_on() -> None:
    note = found("hill_climb_timer_digit_order")["dark-at-power-on"]
    assert "empties the shift stage only" in note.text
    assert "10 kohm" in note.remedy
    assert note.remedy.index("latch") < note.remedy.index("pull output-enable low")


def test_a_long_chain_is_not_cured_by_a_slow_clock() -> None:
    # A 6 ns edge over 6 x 5 ns/m: any wire over 0.2 m is long; 80 bits at 125 kHz take 0.64 ms.
    name = "pigeon_race_clock_long_chain"
    assert value(name, "electrical.signal_critical") == pytest.approx(0.2)
    assert value(name, "electrical.shift_time") == pytest.approx(0.64e-3)
    far = found(name)["signal-too-long"]
    assert far.level == "caution"
    assert "does not help" in far.text
    for word in ("33 to 100", "Schmitt", "ground wire", "100 nF", "differential"):
        assert word in far.remedy
    for metres, registers, milliseconds in (("5m", "8", 6.7), ("12m", "40", None)):
        run = command("signals", "--run", metres, "--registers", registers, "--clock", "9600 Hz")
        assert run["findings"]
        if milliseconds:
            assert 1000 * run["shift_s"] == pytest.approx(milliseconds, abs=0.05)


def test_digits_that_take_turns_need_dark_between_them() -> None:
    ghosts = found("curling_board_taking_turns")["turns-ghosts"]
    assert (ghosts.value, ghosts.limit) == (0.0, 50.0)
    order = found("curling_board_taking_turns")["turns-order"].text
    assert order.index("blank") < order.index("shift") < order.index("latch") < order.index("enable")
    over = found("curling_board_taking_turns")["register-overload"]  # 8 x 13.6 = 109 mA through a 70 mA chip
    assert over.limit == 70.0


def test_two_colours_on_the_same_lines_want_different_times() -> None:
    # (5 - 3.3)/220 = 7.7 mA in the blue, (5 - 2)/220 = 13.6 mA in the red: 7.7/13.6 = 0.57 of the blue's time;
    # 8 x 13.6 = 109 mA through a chip good for 70 mA, while the blue digit alone takes 8 x 7.7 = 62 mA.
    name = "curling_board_two_colours"
    assert value(name, "electrical.turns_own") == pytest.approx(0.0077, rel=NEAR)
    assert value(name, "electrical.turns_other") == pytest.approx(0.0136, rel=NEAR)
    assert value(name, "electrical.turns_charge") == pytest.approx(0.57, rel=NEAR)
    apart = found(name)["turns-two-colours"]
    assert (apart.level, apart.value) == ("caution", pytest.approx(0.57, rel=NEAR))
    for part in ("red gets 13.6 mA", "blue 7.7 mA", "0.57 of the on-time of the blue", "not equal light"):
        assert part in apart.text, part
    # 600 mcd at 7.7 mA and 800 mcd at 13.6 mA of one beam: 600/800 = 0.75
    assert value(name, "electrical.turns_equal_light") == pytest.approx(0.75, rel=NEAR)
    assert "red 0.75 times as long as the blue" in apart.remedy
    over = found(name)["register-overload"]
    assert (over.value, over.limit) == (pytest.approx(109, rel=NEAR), 70.0)
    assert "red digit lit" in over.subject
    assert value(name, "electrical.turns_sink") == pytest.approx(0.109, rel=NEAR)
    assert 8 * value(name, "electrical.turns_own") < 0.070


def test_steady_to_the_eye_and_banded_on_film() -> None:
    # 490/60 = 8.2 bands a frame, 490/1000 = 0.49 cycles in an exposure; 6000/1000 = 6 are enough.
    bands = found("ski_race_board_on_film")["bands-on-film"]
    assert bands.value == pytest.approx(0.49)
    assert "8.2 bands" in bands.text
    assert "bands-on-film" not in found("ski_race_board_fast_dimming")
    turns = found("ski_race_board_seven_turns")["bands-on-film"]  # 7 x 1.64 ms: 87 rounds a second
    assert turns.value == pytest.approx(0.087, abs=0.001)


# Supply


def test_the_supply_of_strip_digits() -> None:
    # 2 x 20 = 40 mA a segment, 280 mA a digit; four digits 1.12 A, at 80 % 1.4 A; six 1.68 A, 2.1 A, buy 2.5 A.
    for name, lit_a, needed_a, buy_a in (
        ("duck_race_board_four_digits", 1.12, 1.4, 1.5),
        ("duck_race_board_strips", 1.68, 2.1, 2.5),
    ):
        budget = made(name).budget
        assert budget.all_on_a == pytest.approx(lit_a, rel=NEAR)
        assert budget.needed_a == pytest.approx(needed_a, rel=NEAR)
        assert budget.supply_a == buy_a
    assert 12 * made("duck_race_board_strips").budget.all_on_a == pytest.approx(20.2, rel=NEAR)


def test_small_cells_under_nine_digits() -> None:
    # 9 x 7 x 20 mA = 1.26 A; 8 x 0.15 ohm lose 1.5 V: 10.5 V; on average 4.9 segments, 0.882 A, one to two hours.
    name = "village_cricket_cells"
    budget, sag = made(name).budget, found(name)["cells-sag"]
    assert budget.all_on_a == pytest.approx(1.26, rel=NEAR)
    assert budget.mean_a == pytest.approx(0.882, rel=NEAR)
    assert sag.value == pytest.approx(1.5, abs=0.03)
    assert "10.5 V of 12 V" in sag.text
    assert 1 <= budget.runtime_h <= 2
    assert "lead-acid or lithium" in sag.remedy


@pytest.mark.parametrize(
    ("name", "celsius", "level"),
    [
        ("bee_hive_scale_regulator", 88, "caution"),
        ("bee_hive_scale_regulator_bare", 117, "caution"),
        ("bee_hive_scale_regulator_in_the_sun", 145, "stop"),
    ],
)
def test_a_hot_regulator_is_no_fault_until_it_is_too_hot(name: str, celsius: float, level: str) -> None:
    # (12 - 5) x 0.2085 = 1.46 W; 22 + 1.46 x 45 = 88; 22 + 1.46 x 65 = 117.
    assert value(name, "electrical.regulator_heat") == pytest.approx(1.46, abs=0.005)
    heat = found(name)["regulator-heat"]
    assert heat.value == pytest.approx(celsius, abs=0.5)
    assert heat.level == level
    assert "Never feed LEDs from it" in heat.remedy
