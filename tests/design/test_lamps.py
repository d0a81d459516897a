import pytest

from segkit.design.reader import design_from_text
from segkit.errors import InputError

DISPLAY = '[display]\nlayout = "8"\n'


def test_defaults_are_a_yard_through_the_year() -> None:
    design = design_from_text(DISPLAY)
    assert (design.drive.coldest_c, design.drive.hottest_c, design.drive.touch) == (-10.0, 60.0, "enclosed")
    assert (design.dimming.levels, design.dimming.frequency_hz, design.dimming.bits) == (8, 6000.0, 10)
    assert design.turns.digits == 1


def test_values_with_their_units() -> None:
    text = (
        '[dimming]\nfrequency = "2 kHz"\nexposure = "4 ms"\n'
        '[turns]\ndigits = 4\nrefresh = "300 Hz"\ndark = "80 us"\nswitch = "pnp"\n'
    )
    design = design_from_text(DISPLAY + text)
    assert design.dimming.film_s == pytest.approx(0.004)
    assert (design.turns.refresh_hz, design.turns.switch) == (300.0, "pnp")
    assert design.turns.dark_s == pytest.approx(80e-6)


def test_all_faults_at_once() -> None:
    text = (
        '[drive]\ncoldest_c = 50.0\nhottest_c = 20.0\n[dimming]\nlevels = 1\nfrequency = "1 MHz"\n'
        '[turns]\nswitch = "relay"\n'
    )
    with pytest.raises(InputError) as caught:
        design_from_text(DISPLAY + text)
    told = str(caught.value)
    assert "the coldest LED, 50 °C, is warmer than the hottest, 20 °C" in told
    for key in ("dimming.levels", "dimming.frequency", "turns.switch"):
        assert key in told
