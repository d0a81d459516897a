import pytest

from segkit.design.feed import Converter, step_problem
from segkit.design.reader import design_from_text
from segkit.errors import InputError

WHOLE = """
[power]
supply = "12 V"
source = "lead-acid"
battery = "18 Ah"
[power.cable]
kind = "8 x 0.22 mm2"
length = "20 m"
carries = "segments"
return = "1.5 mm2"
along = "20 AWG"
feed = "middle"
temperature_c = 60
[power.common]
resistor = "1 kohm"
drop = "0.4 V to 0.7 V"
drop_in = "board"
[power.signals]
length = "4 m"
clock = "100 kHz"
[power.regulator]
kind = "linear"
current = "60 mA"
air_k_per_w = 45
air_c = 35
[power.converter]
from = "24 V"
efficiency = 0.9
[power.use]
content = "clock 24 h"
level = 0.5
lasts = "8 h"
usable = 0.6
peukert = 1.15
rated = "10 h"
"""


def test_every_key_reaches_its_place():
    power = design_from_text(WHOLE).power
    assert (power.cable.kind, power.cable.returns, power.cable.along) == ("8 x 0.22 mm2", "1.5 mm2", "20 AWG")
    assert (power.cable.feed, power.cable.temperature_c) == ("middle", 60)
    assert (power.common.resistor_ohm, power.common.only) == (1000, False)
    assert (power.common.drop, power.common.drop_in) == ("0.4 V to 0.7 V", "board")
    assert (power.signals.length_mm, power.signals.clock_hz) == (4000, 1e5)
    assert (power.regulator.kind, power.regulator.current_a, power.regulator.air_k_per_w) == (
        "linear",
        0.06,
        45,
    )
    assert (power.converter.source_v, power.converter.efficiency) == (24, 0.9)
    assert (power.use.content, power.use.level, power.use.lasts_s / 3600) == ("clock 24 h", 0.5, 8)
    assert (power.use.usable, power.use.peukert, power.use.rated_s / 3600) == (0.6, 1.15, 10)


def test_a_converter_cannot_raise_the_voltage():
    assert step_problem(Converter(), supply_v=12) is None
    with pytest.raises(InputError, match="cannot raise the voltage"):
        design_from_text('[power]\nsupply = "12 V"\n[power.converter]\nfrom = "9 V"\n')


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('[power.cable]\nkind = "cat5"', 'Did you mean "cat5e"'),
        ('[power.cable]\nreturn = "0 cores"', "1 core to 20 cores"),
        ('[power.signals]\nlength = "4"', "Say the unit"),
        ("[power.use]\nlevel = 2.0", "full brightness"),
        ('[power.common]\ndrop = "13 V"', "12 V at most"),
        ("[power.common]\ndrop = 1.3", "text is expected"),
        ('[power.use]\nhours = "8 h"', "no such key"),
    ],
)
def test_faults_are_said_with_their_key(text, says):
    with pytest.raises(InputError, match=says) as caught:
        design_from_text(text)
    key = text.split("\n")[1].split(" =")[0]
    assert key in caught.value.problems[0].key


def test_the_exponent_of_a_battery_comes_from_two_ratings():
    use = "[power.use]\npeukert = {}\n"
    assert design_from_text(use.format('"5 A for 20 h, 20 A for 3 h"')).power.use.peukert == pytest.approx(
        1.3685, abs=1e-4
    )
    for written, says in (
        ('"5 A for 20 h, 20 A for 1 h"', "no lead-acid battery has"),
        ('"5 A for 20 h"', "two ratings"),
        ("1.5", "1.0 to 1.4"),
    ):
        with pytest.raises(InputError, match=says) as caught:
            design_from_text(use.format(written))
        assert caught.value.problems[0].key == "power.use.peukert"
