"""Kinds of segment of whole designs made equally bright, boards of parts as they come, networks."""

import pytest

from segkit.design.reader import design_from_text
from segkit.electrical.preferred import WORKSHEET_FUNCTIONS
from segkit.errors import InputError
from segkit.project import Project, solve
from segkit.report.bill_of_materials import bill_of_materials
from segkit.working import evaluate

YARD = """
[display]
layout = "{layout}"
[digit]
height = "200 mm"
[pocket]
per_segment = {per_segment}
current = "15 mA"
places = {{ upright = {upright} }}
depth = "30 mm"
[power]
driver = "{driver}"
values = "{values}"
"""
FOUR, EIGHT = ("[" + ", ".join(f'"{mm} mm"' for mm in places) + "]" for places in (
    (-30, -10, 10, 30), (-35, -25, -15, -5, 5, 15, 25, 35),
))  # fmt: skip


def yard(**more: object) -> Project:
    asked = {
        "layout": "88",
        "per_segment": 4,
        "upright": FOUR,
        "driver": "darlington-sink-8",
        "values": "E24",
    }
    return solve(design_from_text(YARD.format(**{**asked, **more})), name="yard")


def codes(made: Project) -> list[str]:
    return [finding.code for finding in made.findings]


def value(made: Project, name: str) -> float:
    return next(line.value for line in made.lines if line.name == name)


def test_uprights_with_other_leds_come_out_as_bright_as_crossbars() -> None:
    made = yard(per_segment='"auto"', upright=EIGHT)
    equal = made.drive.equal
    assert made.lightings["upright"].count == 8
    asked = {kind: lighting.luminance_cd_m2[1] for kind, lighting in made.lightings.items()}
    assert equal.untreated == pytest.approx(max(asked.values()) / min(asked.values()))
    assert equal.ratio <= equal.limit
    built = {kind: light[1] for kind, light in made.luminance.items()}
    assert max(built.values()) / min(built.values()) == pytest.approx(equal.ratio, rel=0.02)
    assert value(made, "electrical.equal_ratio") == equal.ratio
    assert "unequal-brightness" not in codes(made)  # mended by the resistors


def test_what_resistors_cannot_mend_is_still_said() -> None:
    made = yard(per_segment='"auto"', upright='["0 mm"]', driver="constant-current-sink-8")
    assert made.drive.equal.untreated > 1.3
    assert "unequal-brightness" in codes(made)
    assert made.drive.many is None
    assert made.drive.networks == ()


def test_a_finer_series_brings_kinds_closer() -> None:
    coarse, fine = (yard(per_segment='"auto"', upright=EIGHT, values=series) for series in ("E12", "E96"))
    assert fine.drive.equal.ratio <= coarse.drive.equal.ratio
    assert fine.drive.equal.ratio < 1.02


def test_boards_of_parts_as_they_come_lie_within_the_corners() -> None:
    made = yard()
    strings = [string for circuit in made.circuits.values() for string in circuit.strings]
    many = made.drive.many
    assert many is not None
    assert min(s.lowest_a for s in strings) <= many.current_a.low
    assert many.highest_a.high <= max(s.highest_a for s in strings)
    assert many == yard().drive.many


def test_a_bag_of_leds_is_more_even() -> None:
    text = YARD.format(layout="88", per_segment=4, upright=FOUR, driver="darlington-sink-8", values="E24")
    bag = solve(design_from_text(text + "[drive]\none_bag = true\n"), name="yard").drive.many
    mixed = yard().drive.many
    assert bag is not None
    assert mixed is not None
    assert bag.light_ratio.middle < mixed.light_ratio.middle


def test_heat_and_cold_widen_the_corners() -> None:
    text = YARD.format(layout="8", per_segment=4, upright=FOUR, driver="darlington-sink-8", values="E24")
    room = solve(design_from_text(text + "[drive]\ncoldest_c = 25.0\nhottest_c = 25.0\n"), name="yard")
    yard_ = solve(design_from_text(text), name="yard")
    narrow, wide = room.circuits["upright"].strings[0], yard_.circuits["upright"].strings[0]
    if narrow.chosen_ohm == wide.chosen_ohm:
        assert wide.highest_a > narrow.highest_a
        assert wide.lowest_a < narrow.lowest_a


def test_networks_replace_every_resistor_of_a_digit() -> None:
    made = yard(layout="88")
    per_digit = sum(len(made.circuits[s.kind].strings) for s in made.board.segments if s.digit == 1)
    alike = made.drive.networks
    assert sum(one.resistors for one in alike if 1 in one.digits) == per_digit
    for one in alike:
        wired = [pin for pin in one.plan.pins if pin.goes_to not in ("LED supply +", "spare")]
        assert len(wired) == one.resistors
        assert bool(one.remark) or one.plan.fit.fits


def test_each_formula_of_the_drive_gives_its_value() -> None:
    made = yard(per_segment='"auto"', upright=EIGHT)
    lines = [line for line in made.lines if line.name.startswith("electrical.")]
    assert len({line.name for line in lines}) == len(lines)
    for line in lines:
        ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs}, WORKSHEET_FUNCTIONS)
        assert ours == pytest.approx(line.value, rel=1e-6), line.name


def test_a_resistor_for_a_kind_that_is_not_there_is_refused() -> None:
    text = YARD.format(layout="8", per_segment=4, upright=FOUR, driver="darlington-sink-8", values="E24")
    both = '[power.resistor]\nbar = "220 ohm"\nsmall-colon = "220 ohm"\nupright = "220 ohm"\n'
    with pytest.raises(InputError) as refused:
        solve(design_from_text(text + both), name="yard")
    assert [one.key for one in refused.value.problems] == ["power.resistor.bar", "power.resistor.small-colon"]


def test_what_is_given_goes_into_draws_networks_and_working() -> None:
    text = YARD.format(layout="8", per_segment=4, upright=FOUR, driver="darlington-sink-8", values="E24")
    made = solve(design_from_text(text + '[power.resistor]\nupright = "270 ohm"\n'), name="yard")
    assert {one.chosen_ohm for one in made.circuits["upright"].strings} == {270.0}
    assert 270.0 in {one.ohm for one in made.drive.networks}
    assert 270.0 in {one.ohm for one in made.harness.plan.strings}
    lines = {line.name: line for line in made.lines}
    assert lines["electrical.resistor.upright"].value == 270.0
    assert "given" in lines["electrical.resistor.upright"].title
    for line in lines.values():
        if line.name.startswith("electrical."):
            ours = evaluate(line.formula, {one.symbol: one.value for one in line.inputs}, WORKSHEET_FUNCTIONS)
            assert ours == pytest.approx(line.value, rel=1e-6), line.name


NETWORKED = "[power.resistor]\n" + "".join(f'{kind} = "1 kohm"\n' for kind in ("upright", "crossbar"))


def networked(more: str = "", driver: str = "darlington-sink-8", ohms: str = NETWORKED) -> Project:
    text = YARD.format(layout="88", per_segment=4, upright=FOUR, driver=driver, values="E24")
    text = text.replace("[power]\n", f'[power]\nresistor_parts = "networks"\n{more}', 1)
    return solve(design_from_text(text + ohms), name="yard")


def test_networks_are_bought_wired_and_named_in_place_of_single_resistors() -> None:
    made = networked()
    strings = [string for string in made.harness.plan.strings if string.network]
    assert len(strings) == sum(len(made.circuits[s.kind].strings) for s in made.board.segments)
    packages = {string.resistor for string in strings}
    plans = made.drive.chosen_networks()
    assert len(packages) == sum(plan.packages for some in plans.values() for plan in some)
    listed = {item.what: item for item in bill_of_materials(made)}
    (item,) = [item for what, item in listed.items() if "Resistor network" in what]
    assert (item.used, item.unit) == (len(packages), "pcs")
    assert item.what.endswith("1 kΩ")
    assert not [
        item for item in listed.values() if "LED string" in item.remark and item.unit == "pcs" and not item.id
    ]
    # the plan of the book and the pins of the netlist are the same
    for digit, some in plans.items():
        told = {(pin.package, pin.pin, pin.goes_to.split(",")[0]) for plan in some for pin in plan.pins}
        for one in (string for string in strings if string.digit == digit):
            assert (ord(one.resistor[-1]) - ord("A") + 1, int(one.own_pin), one.segment) in told


def test_networks_that_get_too_hot_or_replace_nothing_are_refused() -> None:
    hot = '[power.resistor]\nupright = "68 ohm"\ncrossbar = "68 ohm"\n'
    for made in (lambda: networked(ohms=hot), lambda: networked(driver="constant-current-sink-8", ohms="")):
        with pytest.raises(InputError) as refused:
            made()
        (problem, *_) = refused.value.problems
        assert problem.key == "power.resistor_parts"
        assert "single" in problem.remedy
    with pytest.raises(InputError, match="strongest network"):
        networked(ohms=hot)


def test_networks_say_what_shops_keep_and_what_tolerance_they_have() -> None:
    odd = NETWORKED.replace("1 kohm", "1.1 kohm")
    assert "network-value" in {one.code for one in networked(ohms=odd).findings}
    assert "network-tolerance" in {one.code for one in networked('tolerance = "1 %"\n').findings}
    plain = {one.code for one in networked().findings}
    assert not {"network-value", "network-tolerance"} & plain
