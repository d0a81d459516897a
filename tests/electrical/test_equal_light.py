import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.catalog.reader import led, sink
from segkit.electrical.equal_light import EqualLight, Lit, equal_light, equal_light_sentence, mean_led_a
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS, in_series
from segkit.errors import InputError
from segkit.working import evaluate

ON_12V = {"supply_v": 12.0, "supply_min_v": 11.4, "supply_max_v": 12.6}


def light_of(kinds, red, darlington, **more) -> EqualLight:
    return equal_light(kinds, led=red, sink=darlington, **{**ON_12V, "current_a": 0.018, **more})


def test_uprights_of_four_and_crossbars_of_three_come_out_alike(red, darlington):
    """Worked by hand: 1.3 times the light wants 1/1.3 of the current, 18 mA against 13.8 mA."""
    board = light_of((Lit("upright", 4, 100), Lit("crossbar", 3, 130)), red, darlington)
    assert board.aimed_a["crossbar"] / board.aimed_a["upright"] == pytest.approx(100 / 130)
    assert board.untreated == pytest.approx(1.3)
    assert board.ratio < 1.05
    assert min(board.light.values()) == pytest.approx(1 / board.ratio)
    upright, crossbar = board.circuits
    assert mean_led_a(upright) / mean_led_a(crossbar) == pytest.approx(1.3, rel=0.05)
    assert not board.findings
    assert "differ 1.30 times" in equal_light_sentence(board)


@given(
    st.lists(st.tuples(st.integers(1, 6), st.floats(1, 3)), min_size=2, max_size=4),
    st.sampled_from(["E12", "E24", "E96"]),
)
def test_kinds_are_alike_within_the_step_of_the_series(some, series):
    kinds = [Lit(f"kind {i}", leds, luminance) for i, (leds, luminance) in enumerate(some)]
    board = light_of(kinds, led("red-5mm-diffused"), sink("darlington-sink-8"), series=series)
    # sqrt(widest step) on each side, the LED's own slope only dampens it
    assert board.ratio <= board.limit**2 * (1 + 1e-9)
    assert all(
        in_series(string.chosen_ohm, series) for circuit in board.circuits for string in circuit.strings
    )
    assert max(board.aimed_a.values()) <= 0.018 * (1 + 1e-9)
    assert (board.ratio > board.limit * 1.000001) == any(f.code == "unequal-light" for f in board.findings)


def test_a_finer_series_brings_them_closer(red, darlington):
    kinds = (Lit("upright", 4, 100), Lit("crossbar", 3, 117), Lit("point", 1, 210))
    coarse, fine = (light_of(kinds, red, darlington, series=series) for series in ("E12", "E96"))
    assert fine.ratio < 1.02
    assert fine.ratio <= coarse.ratio


def test_a_dark_point_does_not_hold_the_digits_back(red, darlington):
    kinds = (Lit("upright", 4, 100), Lit("point", 1, 40, leads=False))
    board = light_of(kinds, red, darlington)
    assert board.aimed_a["upright"] == board.aimed_a["point"]
    (finding,) = board.findings
    assert "39%" in finding.text
    assert (finding.level, finding.code, finding.subject) == ("note", "kind-left-behind", "point")
    held = light_of((kinds[0], replace(kinds[1], leads=True)), red, darlington)
    assert held.aimed_a["upright"] == pytest.approx(0.4 * held.aimed_a["point"])


def test_a_dark_point_is_named_as_soon_as_it_leaves_the_tolerance(red, darlington):
    # E24: the widest step is 1.154, so kinds may differ 1.074 times: a dot below 93 % is told, one above is not.
    for luminance, told in ((83, True), (98, False)):
        kinds = (Lit("upright", 4, 100), Lit("point", 4, luminance, leads=False))
        board = light_of(kinds, red, darlington)
        assert (board.light["point"] < 1 / board.limit) is told
        assert ("kind-left-behind" in {finding.code for finding in board.findings}) is told
        sentence = equal_light_sentence(board)
        assert "upright sets the pace" in sentence
        assert f"The point is not counted in that: it reaches {board.light['point']:.0%}" in sentence


def test_one_set_resistor_gives_all_kinds_the_same_current(red, steady):
    board = light_of((Lit("upright", 4, 100), Lit("crossbar", 3, 130)), red, steady, current_a=0.02)
    assert set(board.aimed_a.values()) == {0.02}
    assert board.ratio == board.untreated == pytest.approx(1.3)
    assert not board.findings


def test_unequal_strings_of_a_segment_keep_their_leds_alike(red, darlington):
    board = light_of((Lit("upright", 8, 100), Lit("crossbar", 7, 110)), red, darlington, in_series=4)
    crossbar = board.circuits[1]
    assert [string.leds for string in crossbar.strings] == [4, 3]
    assert crossbar.strings[0].current_a == pytest.approx(crossbar.strings[1].current_a, rel=0.08)
    mean = sum(s.leds * s.current_a for s in crossbar.strings) / 7
    assert mean_led_a(crossbar) == pytest.approx(mean)


def test_each_formula_gives_its_value(red, darlington):
    board = light_of(
        (Lit("upright", 4, 100), Lit("crossbar", 3, 130), Lit("left point", 1, 300)), red, darlington
    )
    lines = [*board.lines, *(line for circuit in board.circuits for line in circuit.lines)]
    assert {line.name for line in board.lines} >= {
        "electrical.equal_current.left-point",
        "electrical.equal_ratio",
    }
    for line in lines:
        ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs}, WORKSHEET_FUNCTIONS)
        assert ours == pytest.approx(line.value, rel=1e-6), line.name
    assert len({line.name for line in lines}) == len(lines)


def test_no_headroom_is_told_by_the_circuits(red, darlington):
    board = light_of((Lit("upright", 6, 100), Lit("crossbar", 3, 130)), red, darlington, in_series=6)
    assert board.ratio == math.inf
    assert any(f.code == "no-headroom" for f in board.circuits[0].findings)


def test_unusable_kinds(red, darlington):
    with pytest.raises(InputError) as caught:
        light_of((Lit("upright", 4, 0.0, leads=False), Lit("upright", 4, -1.0, leads=False)), red, darlington)
    assert len(caught.value.problems) == 4


KINDS = (Lit("upright", 4, 100), Lit("crossbar", 3, 130))


def test_given_resistors_are_used_as_they_are_and_the_values_that_would_do_are_named(red, darlington):
    """One value for both: the crossbars of three get more current than the uprights of four, not less."""
    board = light_of(KINDS, red, darlington, given_ohm={"upright": 180.0, "crossbar": 180.0}, in_series=4)
    assert [[string.chosen_ohm for string in one.strings] for one in board.circuits] == [[180.0], [180.0]]
    free = light_of(KINDS, red, darlington, in_series=4)
    (finding,) = board.findings
    assert finding.code == "unequal-light"
    assert finding.value == pytest.approx(board.ratio, abs=1e-4)
    assert board.ratio > 1.5
    assert "with the resistors given the crossbar" in finding.text
    for circuit in free.circuits:
        assert f"{circuit.kind} {circuit.strings[0].chosen_ohm:g} ohm" in finding.remedy
    assert board.aimed_a["upright"] == pytest.approx(0.018)  # what was asked, though another current flows
    assert "The resistors of upright and crossbar are given" in equal_light_sentence(board)
    assert f"come out {board.ratio:.2f} times apart" in equal_light_sentence(board)
    given = next(line for line in board.circuits[0].lines if line.name == "electrical.resistor.upright")
    assert (given.formula, given.value, given.title) == ("R", 180.0, "resistor, given by the builder")


def test_kinds_without_one_follow_the_kind_that_has_one(red, darlington):
    """A given resistor that dims the uprights dims the crossbars too, one that is too small does not."""
    dim = light_of(KINDS, red, darlington, given_ohm={"upright": 470.0}, in_series=4)
    assert dim.ratio <= dim.limit
    assert not dim.findings
    upright, crossbar = dim.circuits
    assert upright.strings[0].chosen_ohm == 470.0
    assert in_series(crossbar.strings[0].chosen_ohm, "E24")
    assert dim.aimed_a["crossbar"] == pytest.approx(mean_led_a(upright) / 1.3, rel=0.16)  # and 0.85 of it up
    bright = light_of(KINDS, red, darlington, given_ohm={"upright": 100.0}, in_series=4)
    assert max(bright.aimed_a.values()) <= 0.018 * (1 + 1e-9)
    assert bright.findings[0].code == "unequal-light"
    for board in (dim, bright):
        for line in (*board.lines, *(line for one in board.circuits for line in one.lines)):
            inputs = {one.symbol: one.value for one in line.inputs}
            assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(line.value, rel=1e-6)
