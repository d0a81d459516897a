"""Key numbers and the verdict."""

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.glance import glance, supply_rating, verdict


def values(project: Project) -> dict[str, str]:
    return {row.name: row.value for row in glance(project)}


def test_key_numbers_are_those_of_the_stages(boules: Project, barrel: Project) -> None:
    assert values(boules)["digit height"] == "280 mm (11 in)"
    assert values(boules)["LEDs"] == "224"
    assert not any("battery" in name for name in values(boules))
    assert values(barrel)["battery lasts, showing count 0 to 999"].startswith(
        f"{barrel.budget.runtime_h:.0f} h"
    )


def test_verdicts(boules: Project) -> None:
    cautions = sum(1 for finding in boules.findings if finding.level == "caution")
    assert verdict(boules) == f"This can be built; {cautions} cautions to read first."
    stopped = solve(design_from_text('[digit]\ngap = "1 mm"\n'), name="x")
    assert verdict(stopped).startswith("Do not build this yet: ")
    assert "No cut file for: light grid, face board" in verdict(stopped)


def test_a_battery_is_asked_for_what_it_must_give() -> None:
    battery = solve(design_from_text('[power]\nsource = "lead-acid"\n'), name="x")
    assert values(battery)["battery must give"] == f"{battery.budget.supply_a:g} A or more"
    assert "supply to buy" not in values(battery)


def test_beyond_the_largest_supply_the_current_is_named() -> None:
    text = (
        '[display]\nlayout = "88888888"\n[digit]\nheight = "600 mm"\n[pocket]\nper_segment = 60\nrows = 1\n'
    )
    huge = solve(design_from_text(text + '[power]\nsupply = "3 V"\ndriver = "logic-mosfet"\n'), name="x")
    needed = f"{huge.budget.needed_a:.3g} A"
    assert huge.budget.needed_a > 40
    assert values(huge)["supplies to buy"] == f"several, {needed} or more together"
    assert supply_rating(huge.budget) == needed


def test_a_board_that_its_own_light_washes_out_is_told_so() -> None:
    text = '[display]\nlayout = "88"\n[reading]\ndistance = "18 m"\nlight = "{}"\n'
    words = {
        light: verdict(solve(design_from_text(text.format(light)), name="x")) for light in ("night", "shade")
    }
    assert "cannot be read" not in words["night"]
    assert words["shade"].endswith("But it cannot be read in the light asked for: shade.")
