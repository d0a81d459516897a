import pytest

from segkit.cli.resistor_question import USUAL_LIMIT_A, read
from segkit.errors import InputError

PLAIN = {"supply": "12V", "vf": "2.0V", "series": "4", "current": "20mA"}


def test_defaults():
    question = read(PLAIN)
    assert (question.supply_min_v, question.supply_v, question.supply_max_v) == (12, 12, 12)
    assert (question.series, question.tolerance, question.parallel) == ("E24", 0.05, 1)
    assert question.led.max_current_a == USUAL_LIMIT_A
    assert question.limit_assumed
    assert not question.known_sink
    assert not question.has_range


def test_limit_follows_a_larger_current():
    assert read({**PLAIN, "current": "350mA"}).led.max_current_a == pytest.approx(0.525)
    assert not read({**PLAIN, "max_current": "50mA"}).limit_assumed


def test_bare_number_of_ohms_and_written_ones():
    given = {name: text for name, text in PLAIN.items() if name != "current"}
    for text in ("4700", "4.7 kohm", "4k7", "4700 ohm"):
        assert read({**given, "ohm": text}).given_ohm == 4700
    with pytest.raises(InputError, match="is no unit"):
        read({**given, "ohm": "100 V"})


def test_register_stands_for_its_outputs_alone():
    assert read({**PLAIN, "driver": "hc595"}).sink.id == "register-direct-hc595"
    assert read({**PLAIN, "driver": "hct595"}).sink.id == "register-direct-hct595"
    assert read({**PLAIN, "driver": "power-register-8"}).sink.type == "power-register"


def test_constant_current_sink_takes_no_resistor():
    with pytest.raises(InputError, match="needs no resistor"):
        read({**PLAIN, "driver": "constant-current-sink-8", "ohm": "100"})


@pytest.mark.parametrize(
    ("name", "text"), [("series", "4.5"), ("series", "400"), ("drop", "20V"), ("vf", "0V"), ("current", "9A")]
)
def test_out_of_range(name, text):
    with pytest.raises(InputError) as caught:
        read({**PLAIN, name: text})
    assert [problem.key for problem in caught.value.problems] == [f"--{name}"]
    assert caught.value.problems[0].limit
