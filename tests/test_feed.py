"""From the plug to the board, on whole designs."""

import pytest

from segkit.design.reader import design_from_text
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.project import Project, solve
from segkit.working import evaluate

BOARD = '[display]\nlayout = "88:88"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nevenness = 0.3\nper_segment = 4\n'


def project(text: str) -> Project:
    return solve(design_from_text(BOARD + text), name="yard")


def value(made: Project, name: str) -> float:
    return next(line.value for line in made.lines if line.name == name)


def codes(made: Project) -> dict:
    return {finding.code: finding for finding in made.findings}


def formulas_hold(made: Project) -> None:
    for line in made.lines:
        if line.name.startswith("electrical."):
            inputs = {given.symbol: given.value for given in line.inputs}
            assert evaluate(line.formula, inputs, WORKSHEET_FUNCTIONS) == pytest.approx(
                line.value, rel=1e-6
            ), line.name


def test_the_battery_lives_on_what_is_shown() -> None:
    battery = '[power]\nsource = "lead-acid"\nbattery = "7 Ah"\n[power.use]\ncontent = "{}"\n'
    clock, full = (project(battery.format(words)) for words in ("clock 24 h", "everything"))
    assert value(clock, "glyphs.content_lit") == pytest.approx(18.4 + 1)  # published mean, and the colon
    segment_a = clock.circuits["bar"].current_a
    colon_a = clock.circuits["colon"].current_a
    assert clock.budget.mean_a == pytest.approx(18.4 * segment_a + colon_a)
    assert clock.budget.runtime_h > full.budget.runtime_h == pytest.approx(clock.budget.full_h)
    formulas_hold(clock)


def test_dimming_and_wanted_hours() -> None:
    text = '[power]\nsource = "lithium"\nbattery = "6 Ah"\n[power.use]\nlevel = {}\nlasts = "20 h"\n'
    bright, dim = project(text.format(1.0)), project(text.format(0.2))
    assert "battery-too-short" in codes(bright)
    assert "battery-too-short" not in codes(dim)
    assert dim.budget.mean_a == pytest.approx(0.2 * bright.budget.mean_a)
    formulas_hold(dim)


def test_content_that_does_not_fit_names_its_key() -> None:
    with pytest.raises(InputError) as caught:
        project('[power.use]\ncontent = "count 0 to 1000"\n')
    assert caught.value.problems[0].key == "power.use.content"


def test_a_converter_lowers_the_current_in_the_cable_and_keeps_the_light_even() -> None:
    cable = '[power.cable]\nkind = "0.5 mm2"\nlength = "20 m"\n'
    plain, made = project(cable), project(cable + '[power.converter]\nfrom = "24 V"\n')
    assert "supply-drop" in codes(plain)
    assert "24 V to a step-down converter" in codes(plain)["supply-drop"].remedy
    assert not {"supply-drop", "converter-drop", "converter-starved"} & set(codes(made))
    drawn_a = value(made, "electrical.converter_input")
    assert drawn_a < plain.budget.all_on_a * 12 / 24 * 1.35
    assert made.budget.needed_a == pytest.approx(drawn_a / 0.8)  # the supply to buy is the one before it
    assert made.parts.source.nominal_v == 24
    assert made.parts.supply.max_v < 12.5
    formulas_hold(made)


def test_a_starved_converter_stops_and_still_has_a_budget() -> None:
    made = project('[power.cable]\nkind = "28 AWG"\nlength = "200 m"\n[power.converter]\nfrom = "24 V"\n')
    assert codes(made)["converter-starved"].level == "stop"
    assert 0 < made.budget.needed_a < 10


def test_a_common_of_its_own_lifts_the_eight() -> None:
    cable = '[power.cable]\nkind = "{}"\nlength = "60 m"\ncarries = "segments"\nreturn = "{}"\n'
    thin = project(cable.format("10 x 0.22 mm2", "1 core"))
    two = project(cable.format("10 x 0.22 mm2", "2 cores"))
    own = project(cable.format("8 x 0.22 mm2", "2.5 mm2"))
    even = [value(made, "electrical.evenness") for made in (thin, two, own)]
    assert even == sorted(even)
    assert even[0] < 0.9 < even[2]
    assert "too-few-cores" not in codes(own)  # eight lamps on the busiest digit, the common apart
    assert "too-few-cores" in codes(project(cable.format("8 x 0.22 mm2", "1 core")))
    formulas_hold(own)


def test_the_far_digit_of_each_way_to_bring_the_current() -> None:
    thin = '[power.cable]\nalong = "30 AWG"\nfeed = "{}"\n'
    left, middle = (project(thin.format(feed)) for feed in ("left", "middle"))
    assert value(left, "electrical.far_digit") < value(middle, "electrical.far_digit") < 1
    segments = project('[power.cable]\nkind = "10 x 0.22 mm2"\ncarries = "segments"\nlength = "1 m"\n')
    assert 0.9 < value(segments, "electrical.far_digit") < 1
    formulas_hold(segments)


def test_signal_wires_and_the_ground_beside_them() -> None:
    made = project('[power.cable]\nkind = "0.5 mm2"\nlength = "20 m"\n[power.signals]\nlength = "20 m"\n')
    assert value(made, "electrical.shift_time") == pytest.approx(len(made.channels.channels) / 1e6)
    assert "signal-too-long" in codes(made)
    lifted_v = made.budget.all_on_a * 20 * 0.039
    assert ("ground-shift" in codes(made)) == (5 - lifted_v < 3.5)
    beside = project('[power.cable]\nkind = "0.5 mm2"\nlength = "20 m"\n')
    assert not {"signal-too-long", "ground-shift"} & set(codes(beside))


def test_a_regulator_on_the_led_supply() -> None:
    linear = project('[power.regulator]\nkind = "linear"\ncurrent = "300 mA"\n')
    assert codes(linear)["regulator-heat"].level == "stop"
    step = project('[power.regulator]\nkind = "step-down"\ncurrent = "300 mA"\n')
    assert "regulator-heat" not in codes(step)
    assert linear.budget.all_on_a - step.budget.all_on_a == pytest.approx(0.3 - 5 * 0.3 / (0.85 * 12))
    formulas_hold(step)


def test_the_fuse_minds_the_thinnest_wire_that_is_named() -> None:
    thick = project('[power.cable]\nkind = "1.5 mm2"\n')
    thin = project('[power.cable]\nkind = "1.5 mm2"\nalong = "26 AWG"\n')
    assert thick.budget.fuse_a
    assert not thin.budget.fuse_a
    assert "fuse-above-wire" in codes(thin)


def test_the_wire_list_takes_the_wires_that_the_design_names() -> None:
    along = project('[power.cable]\nalong = "1.5 mm2"\n').harness.wires
    rails = [wire.size.id for wire in along if wire.run.group == "supply" and wire.run.route]
    assert set(rails) == {"1.5 mm2"}
    cable = '[power.cable]\nkind = "10 x 0.22 mm2"\ncarries = "segments"\nreturn = "{}"\n'
    for text, size, each in (("2 cores", "10 x 0.22 mm2", 2), ("1.5 mm2", "1.5 mm2", 1)):
        made = project(cable.format(text))
        common = [
            w for w in made.harness.wires if w.run.group == "cable" and w.run.digit == 1 and not w.run.segment
        ]
        assert [wire.size.id for wire in common] == [size] * each
        cores = [
            w for w in made.harness.wires if w.run.group == "cable" and w.run.digit == 1 and w.run.segment
        ]
        assert {wire.size.id for wire in cores} == {"10 x 0.22 mm2"}


def test_cores_of_a_network_cable_side_by_side() -> None:
    cable = '[power.cable]\nkind = "cat5e"\nlength = "20 m"\neach_way = {}\n'
    one, four = project(cable.format(1)), project(cable.format(4))
    assert value(four, "electrical.supply_drop") == pytest.approx(value(one, "electrical.supply_drop") / 4)
    cores = [wire.run for wire in four.harness.wires if wire.run.group == "cable"]
    assert len(cores) == 8
    assert len({run.code for run in cores}) == 8  # each core has its own colour
    assert sum(run.current_a for run in cores[:4]) == pytest.approx(sum(run.current_a for run in cores[4:]))
    assert codes(project(cable.format(5)))["too-few-cores"].limit == 10
    formulas_hold(four)


def test_what_stands_in_the_common_lead_is_reckoned_by_digit_or_for_the_board() -> None:
    text = '[power]\ndriver = "logic-mosfet"\nin_series = 2\n[power.common]\ndrop = "1.3 V"\ndrop_in = "{}"\n'
    each, whole = project(text.format("digit")), project(text.format("board"))
    segment_a, colon_a = (each.circuits[kind].current_a for kind in ("bar", "colon"))
    assert value(each, "electrical.common_heat") == pytest.approx(1.3 * (7 * segment_a + colon_a))
    assert value(whole, "electrical.common_heat") == pytest.approx(1.3 * (28 * segment_a + colon_a))
    assert codes(each)["common-drop"].subject == "the common lead of each digit"
    assert value(each, "electrical.common_share") == pytest.approx(1.3 / 12)
    free = project('[power]\ndriver = "logic-mosfet"\nin_series = 2\n')
    assert "common-drop" not in codes(free)
    assert free.circuits["bar"].strings[0].headroom_v - each.circuits["bar"].strings[0].headroom_v == (
        pytest.approx(1.3, abs=0.01)
    )
    assert each.budget.all_on_a == pytest.approx(28 * segment_a + colon_a)
    formulas_hold(each)
    formulas_hold(whole)


def test_logic_counts_where_the_led_supply_feeds_it() -> None:
    own = project("")
    fed = project('[power.regulator]\nkind = "linear"\ncurrent = "80 mA"\n')
    for name in ("total_current", "total_current_highest", "mean_current"):
        more = value(fed, f"electrical.{name}") - value(own, f"electrical.{name}")
        assert more == pytest.approx(0.08)
    assert value(own, "electrical.total_current") == pytest.approx(
        sum(len(some) * own.circuits[kind].current_a for kind, some in own.board.kinds().items())
    )


def test_a_diode_in_plus_of_the_board_carries_the_logic_too() -> None:
    text = '[power.common]\ndrop = "0.5 V"\ndrop_in = "{}"\n'
    linear = '[power.regulator]\nkind = "linear"\ncurrent = "80 mA"\n'
    for where, logic_a in (("board", 0.08), ("digit", 0.0)):
        own, fed = project(text.format(where)), project(text.format(where) + linear)
        more = value(fed, "electrical.common_heat") - value(own, "electrical.common_heat")
        assert more == pytest.approx(0.5 * logic_a)
        formulas_hold(fed)


def test_a_board_that_cannot_light_is_told_so_and_not_refused() -> None:
    dark = project('[power]\nsupply = "5 V"\nin_series = 4\nsource = "lead-acid"\nbattery = "7 Ah"\n')
    assert dark.budget.all_on_a == dark.budget.runtime_h == 0
    assert any(finding.level == "stop" for finding in dark.findings)


def test_the_far_cable_is_cut_as_long_as_it_is_reckoned() -> None:
    made = project(
        '[power.cable]\nkind = "8 x 0.22 mm2"\nlength = "8 m"\ncarries = "segments"\nreturn = "1 mm2"\n'
    )
    (line,) = [line for line in made.lines if line.name == "electrical.far_digit"]
    reckoned = {given.symbol: given.value for given in line.inputs}
    cut = {wire.run.beyond_mm / 1000 for wire in made.harness.wires if wire.run.group == "cable"}
    assert (min(cut), max(cut)) == (pytest.approx(reckoned["ln"]), pytest.approx(reckoned["lf"]))


def test_a_constant_current_sink_is_left_less_to_burn() -> None:
    text = '[power]\ndriver = "constant-current-sink-8"\n'
    free, behind = project(text), project(text + '[power.common]\ndrop = "1.3 V"\n')
    assert value(behind, "electrical.sink_heat") < value(free, "electrical.sink_heat")
    formulas_hold(behind)


@pytest.mark.parametrize("feed", ["left", "right", "middle", None])
@pytest.mark.parametrize("layout", ["88:88", "8.8o"])
def test_the_drop_is_reckoned_over_the_wires_that_are_drawn(feed: str | None, layout: str) -> None:
    """Lengths of the plus wires from card to card as routed, against those of the worksheet."""
    key = f'feed = "{feed}"\n' if feed else ""
    text = BOARD.replace("88:88", layout) + f'[power]\nfirst_digit = "right"\n[power.cable]\n{key}'
    made = solve(design_from_text(text), name="yard")
    plan = made.harness.plan
    drawn: dict[str, tuple[str, float]] = {}  # card to the card before it and the length between them
    for wire in made.harness.wires:
        run = wire.run
        if (run.group, run.net) == ("supply", "LED_PLUS"):
            drawn[run.end[0]] = (run.start[0], run.route_mm / 1000)
    digits = len(plan.digits)
    fed = {"left": 1, "right": digits, "middle": (digits + 1) // 2, None: digits}[feed]
    (first,) = [card for card, (before, _) in drawn.items() if before == "X0"]
    assert first == f"X{plan.card_of(fed)}P"
    assert abs(made.harness.stations.entry[0] - made.harness.stations.cards[plan.card_of(fed)][0]) < 60
    ends = set(drawn) - {before for before, _ in drawn.values()}
    sides = []
    for end in ends:
        lengths, card = list[float](), end
        while card != first:
            card, metres = drawn[card]
            lengths.insert(0, metres)
        sides.append(lengths)
    (line,) = [line for line in made.lines if line.name == "electrical.bus_drop"]
    reckoned = [given.value for given in line.inputs if given.symbol.startswith("l")]
    assert any(reckoned == pytest.approx(side, abs=1e-6) for side in sides)
    assert sum(len(side) for side in sides) == digits - 1


def test_a_battery_that_nothing_reckons_with_is_told() -> None:
    assert "battery-not-reckoned" in codes(project('[power]\nbattery = "7 Ah"\n'))
    alone = project('[power]\nsource = "lead-acid"\nbattery = "7 Ah"\n')
    assert "battery-not-reckoned" not in codes(alone)
    assert "logic-supply-apart" in codes(alone)
    made = project('[power]\nsource = "lead-acid"\nbattery = "7 Ah"\n[power.regulator]\nkind = "step-down"\n')
    assert "logic-supply-apart" not in codes(made)
