"""Key numbers and the verdict."""

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.glance import glance, verdict


def values(project: Project) -> dict[str, str]:
    return {row.name: row.value for row in glance(project)}


def test_key_numbers_are_those_of_the_stages(boules: Project, barrel: Project) -> None:
    assert values(boules)["digit height"] == "280 mm (11 in)"
    assert values(boules)["LEDs"] == "224"
    assert "battery lasts" not in values(boules)
    assert values(barrel)["battery lasts"].startswith(f"{barrel.budget.runtime_h:.0f} h")


def test_verdicts(boules: Project) -> None:
    cautions = sum(1 for finding in boules.findings if finding.level == "caution")
    assert verdict(boules) == f"This can be built; {cautions} cautions to read first."
    stopped = solve(design_from_text('[digit]\ngap = "1 mm"\n'), name="x")
    assert verdict(stopped).startswith("Do not build this yet: ")
    assert "No cut file for: light grid, face board" in verdict(stopped)
