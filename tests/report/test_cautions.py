"""Each danger of a design brings its caution, and only that."""

import pytest

from segkit.report.cautions import ALWAYS, cautions


@pytest.mark.parametrize(
    ("wavelength_nm", "shown"),
    [(0, False), (395, True), (419, True), (420, False), (470, False), (625, False)],
)
def test_near_ultraviolet_caution_below_420_nm(wavelength_nm: float, shown: bool) -> None:
    # blue-light and UV-A weights rise below 420 nm: IEC 62471, as cited in sources.toml
    titles = [c.title for c in cautions(tool="knife", source="cells", wavelength_nm=wavelength_nm)]
    assert ("Near-ultraviolet light" in titles) is shown


def test_mains_or_battery_never_both() -> None:
    mains = " ".join(c.title for c in cautions(tool="laser", source="mains-adapter", wavelength_nm=0))
    battery = " ".join(c.title for c in cautions(tool="laser", source="lead-acid", wavelength_nm=0))
    assert "Mains" in mains
    assert "Battery" not in mains
    assert "Battery" in battery
    assert "Mains" not in battery


@pytest.mark.parametrize("tool", ["knife", "laser", "router"])
def test_every_design_defers_to_codes_and_names_its_tool(tool: str) -> None:
    found = cautions(tool=tool, source="cells", wavelength_nm=0)
    assert found[0] == ALWAYS
    assert "licensed" in found[0].text
    assert tool.capitalize() in [c.title for c in found]


def test_laser_caution_names_the_two_plastics() -> None:
    text = " ".join(c.text for c in cautions(tool="laser", source="cells", wavelength_nm=0))
    assert "PVC" in text
    assert "polycarbonate" in text
