"""What the reader sees, on whole designs."""

import pytest

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.sight import height_asked


def project(text: str) -> Project:
    return solve(design_from_text(text), name="yard")


def test_height_follows_distance_and_eyesight() -> None:
    near = height_asked(design_from_text('[reading]\ndistance = "10 m"'))
    far = height_asked(design_from_text('[reading]\ndistance = "20 m"'))
    sharp = height_asked(design_from_text('[reading]\ndistance = "10 m"\neyesight = "20/20"'))
    assert far.height_mm == pytest.approx(2 * near.height_mm, rel=1e-6)
    assert near.height_mm == pytest.approx(2 * sharp.height_mm, rel=1e-4)


def test_light_is_judged_at_the_current_that_flows() -> None:
    made = project('[pocket]\ncurrent = "16 mA"\n[power]\nvalues = "E12"\n')
    kind, circuit = next(iter(made.circuits.items()))
    flowing = circuit.strings[0].current_a
    assert flowing < 0.97 * 0.016  # rounded up to the next value of the series
    expected = made.lightings[kind].luminance_cd_m2[1] * flowing / 0.016
    assert made.luminance[kind][1] == pytest.approx(expected)
    judged = next(line for line in made.lines if line.name == "viewing.contrast_unlit")
    dimmest = min(luminance[1] for luminance in made.luminance.values())
    assert judged.inputs[0].value == pytest.approx(dimmest)


def test_the_night_limit_is_held_against_the_brightest_kind() -> None:
    made = project(
        '[display]\nlayout = "8o"\n[digit]\nheight = "500 mm"\nsmall = 0.4\n'
        '[pocket]\nled = "white-5mm-wide"\nper_segment = 8\n'
        '[power]\ndriver = "constant-current-sink-8"\n'  # no resistor that makes the kinds equal
    )
    brightest = max(luminance[1] for luminance in made.luminance.values())
    dimmest = min(luminance[1] for luminance in made.luminance.values())
    assert brightest > 1.5 * dimmest
    (note,) = (f for f in made.findings if f.code == "dim-at-night")
    assert note.value == pytest.approx(brightest, abs=0.01)
    (line,) = (line for line in made.lines if line.name == "viewing.night_share")
    assert line.value == pytest.approx(400 / brightest)  # zone E2, up to 10 m2


def test_a_stated_illuminance_may_be_indoors_where_no_night_limit_holds() -> None:
    names = {line.name for line in project('[reading]\nlight = "300 lx"').lines}
    assert "viewing.night_share" not in names
    assert "viewing.contrast_unlit" in names
    assert "viewing.night_share" in {line.name for line in project('[reading]\nlight = "Dusk"').lines}


def test_light_that_crosses_one_sheet_is_told_and_single_pieces_stop_it() -> None:
    asked = '[digit]\ngap = "{gap}"\n[make]\nfit = "{fit}"\n'
    for gap, level in (("6 mm", "note"), ("3 mm", "caution")):
        made = project(asked.format(gap=gap, fit="sheet"))
        (found,) = (one for one in made.findings if one.code == "light-crosses-sheet")
        (line,) = (one for one in made.lines if one.name == "optics.sheet_leak")
        assert found.level == level
        assert found.value == pytest.approx(1 / line.value, rel=1e-3)
    for fit in ("lip", "let-in"):
        made = project(asked.format(gap="6 mm", fit=fit))
        assert not [one for one in made.findings if one.code == "light-crosses-sheet"]
