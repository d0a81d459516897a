"""From the LEDs of a segment to the plug, on whole designs."""

import pytest

from segkit.design.reader import design_from_text
from segkit.findings import Finding
from segkit.project import Project, solve


def project(text: str) -> Project:
    return solve(design_from_text(text), name="yard")


def found(made: Project, code: str) -> list[Finding]:
    return [finding for finding in made.findings if finding.code == code]


def value(made: Project, name: str) -> float:
    return next(line.value for line in made.lines if line.name == name)


LONG = '[display]\nlayout = "88:88"\n[power]\ncable = {{ kind = "cat5e", length = "20 m", carries = "{}" }}\n'


def test_two_supply_wires_carry_the_whole_board_out_and_back() -> None:
    made = project(LONG.format("supply"))
    ohm = made.parts.wire.resistance_ohm_per_m * 20
    assert value(made, "electrical.supply_drop") == pytest.approx(2 * made.budget.all_on_a * ohm)
    (thin,) = found(made, "return-too-thin")
    assert thin.value == pytest.approx(made.budget.all_on_a, abs=0.001)  # what the glance says, no other sum
    assert found(made, "supply-drop")
    assert not found(made, "shared-return-drop")


def test_a_segment_cable_has_a_core_a_segment_and_one_return() -> None:
    four = LONG.replace("[power]\n", "[power]\nin_series = 4\n").format("segments")
    made = project(four + '[pocket]\nper_segment = 8\ncurrent = "20 mA"\n')
    lamps = [segment.kind for segment in made.board.segments if segment.digit == 2]
    real = sum(made.circuits[kind].current_a for kind in lamps)
    assert len(lamps) == 8  # seven segments and the colon
    assert value(made, "electrical.return_current") == pytest.approx(real)
    assert value(made, "electrical.return_drop") == pytest.approx(
        real * made.parts.wire.resistance_ohm_per_m * 20
    )
    assert found(made, "shared-return-drop")
    (few,) = found(made, "too-few-cores")
    assert (few.level, few.value, few.limit, few.holds) == ("stop", 8.0, 9.0, ())


UNEQUAL = """
[display]
layout = "{layout}"
[digit]
height = "500 mm"
small = 0.35
[pocket]
led = "white-5mm-straw-hat"
current = "18 mA"
depth = "30 mm"
[power]
supply = "12 V"
driver = "logic-mosfet"
register = "hct595"
cable = {{ kind = "alarm-8-core", length = "12 m", carries = "segments" }}
"""


def digit_currents(made: Project, attribute: str) -> dict[int, float]:
    """Current of each digit with everything lit, A."""
    sums: dict[int, float] = {}
    for segment in made.board.segments:
        current = getattr(made.circuits[segment.kind], attribute)
        sums[segment.digit] = sums.get(segment.digit, 0.0) + current
    return sums


def test_the_fuse_of_a_digit_minds_the_largest_digit() -> None:
    for layout in ("8", "8oooo"):
        made = project(UNEQUAL.format(layout=layout))
        worst = digit_currents(made, "highest_a")
        assert made.budget.fused_a == pytest.approx(max(worst.values()))
        assert max(worst.values()) / 0.8 > 0.6  # a core of 0.22 mm2 is planned with 0.6 A
        assert made.budget.fuse_a == 0
        (finding,) = found(made, "fuse-above-wire")
        assert finding.value == pytest.approx(max(worst.values()) / 0.8, abs=0.001)
        assert value(made, "electrical.digit_current_highest") == pytest.approx(max(worst.values()))
        typical = digit_currents(made, "current_a")
        assert value(made, "electrical.return_current") == pytest.approx(max(typical.values()))
    assert made.budget.all_on_highest_a / 5 / 0.8 < 0.6  # the average would have hidden it


def test_only_the_cable_of_segments_needs_many_cores() -> None:
    text = '[display]\nlayout = "88"\n[power]\ncable = {{ kind = "hook-up-awg-20", length = "1 m", carries = "{}" }}\n'
    assert not found(project(text.format("supply")), "too-few-cores")
    assert found(project(text.format("segments")), "too-few-cores")[0].value == 1.0


def test_a_string_far_too_long_is_told_the_length_that_works() -> None:
    text = '[display]\nlayout = "8"\n[pocket]\nled = "white-5mm-straw-hat"\nper_segment = 12\n[power]\nin_series = {}\n'
    stops = found(project(text.format(6)), "no-headroom")
    assert stops
    for stop in stops:
        best = int(stop.remedy.split("Put ")[1].split(" instead of 6")[0])
        assert not found(project(text.format(best)), "no-headroom")
        assert found(project(text.format(best + 1)), "no-headroom")


STEADY = """
[display]
layout = "{layout}"
[reading]
distance = "8 m"
[pocket]
per_segment = 4
[power]
driver = "constant-current-sink-8"
logic = "{logic}"
in_series = {in_series}
cable = {{ kind = "cat5e", length = "20 m", carries = "segments" }}
"""


def steady(layout: str = "88", logic: str = "5 V", in_series: int = 4) -> Project:
    return project(STEADY.format(layout=layout, logic=logic, in_series=in_series))


def test_a_constant_current_sink_does_not_dim_with_the_cable() -> None:
    made = steady()
    assert not found(made, "shared-return-drop")
    assert not found(made, "cable-takes-headroom")
    assert "electrical.evenness" not in {line.name for line in made.lines}


def test_a_constant_current_sink_on_3v3_takes_3v3_signals() -> None:
    assert not found(steady(logic="3.3 V"), "logic-level")


def test_kinds_of_unequal_strings_cannot_share_a_set_resistor() -> None:
    assert not found(steady(), "one-set-resistor")
    (finding,) = found(steady(layout="8.8", in_series=2), "one-set-resistor")
    assert (finding.value, finding.limit) == (30.0, 15.0)  # two strings of 15 mA in a bar, one in the point
    assert "point 15 mA" in finding.text


def test_a_register_is_offered_one_resistor_only_where_an_output_has_one_string() -> None:
    text = (
        '[display]\nlayout = "88"\n[reading]\ndistance = "20 m"\n[pocket]\nper_segment = {}\ncurrent = "{} mA"\n'
        '[power]\nsupply = "5 V"\ndriver = "register-direct-hct595"\n'
    )
    (lone,) = (f for f in found(project(text.format(1, 15)), "register-overload") if "one chip" in f.text)
    assert "ohm" in lone.remedy
    (shared,) = (f for f in found(project(text.format(4, 5)), "register-overload") if "one chip" in f.text)
    assert "ohm" not in shared.remedy
    assert "Design for" in shared.remedy


def test_mean_current_is_that_of_the_digits_0_to_9() -> None:
    made = project('[display]\nlayout = "8"\n')
    uses = {"a": 8, "b": 8, "c": 9, "d": 7, "e": 4, "f": 6, "g": 7}  # digits of ten, 49 in all
    lit = sum(made.circuits[s.kind].current_a * uses[s.name] / 10 for s in made.board.segments)
    assert made.budget.mean_a == pytest.approx(lit)


def test_a_hotter_box_heats_the_sinks() -> None:
    text = '[display]\nlayout = "88"\n[pocket]\nper_segment = 4\n'
    usual, hot = project(text), project(text + "[drive]\nbox_c = 70.0\n")
    assert hot.heats[0].all_on_c == pytest.approx(usual.heats[0].all_on_c + 20)
    assert value(hot, "electrical.sink_junction") == pytest.approx(
        value(usual, "electrical.sink_junction") + 20
    )
    assert value(hot, "electrical.sink_junction_mean") < value(hot, "electrical.sink_junction")


def test_every_package_is_reckoned_by_what_it_shows() -> None:
    made = project('[display]\nlayout = "8:8"\n[power.use]\ncontent = "everything"\n')
    usual = project('[display]\nlayout = "8:8"\n')
    assert len(made.heats) == made.channels.chips
    for full, mean in zip(made.heats, usual.heats, strict=True):
        assert full.all_on_w == mean.all_on_w
        assert full.mean_w > mean.mean_w
    alone = project('[display]\nlayout = "8"\n[power]\ndriver = "logic-mosfet"\n')
    assert len(alone.heats) == 7  # one part for each segment
    assert sum(heat.outputs for heat in alone.heats) == 7


def test_the_input_of_the_array_stands_in_the_worksheet() -> None:
    made = project('[display]\nlayout = "8"\n[power]\nlogic = "3.3 V"\n')
    assert value(made, "electrical.array_input") == pytest.approx((3.3 - 1.4) / 2700)
    assert value(made, "electrical.array_input_needed") < value(made, "electrical.array_input")
