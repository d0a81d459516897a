import json
import math
from dataclasses import replace

import pytest

from segkit.cli.resistor_answer import answer
from segkit.cli.resistor_print import as_dict, headline, print_answer, rating_text
from segkit.cli.resistor_question import read

PLAIN = {"supply": "12V", "vf": "2.0V", "series": "4", "current": "20mA", "drop": "1.1V"}


def shown(texts, capsys):
    question = read(texts)
    print_answer(question, answer(question))
    return " ".join(capsys.readouterr().out.split())


def test_headlines():
    def head(**changes):
        question = read({name: text for name, text in {**PLAIN, **changes}.items() if text})
        return headline(question, answer(question))

    assert head(parallel="2").startswith(
        "Buy 2 × 150 ohm, E24, 1/8 W: 19.3 mA through each of 2 strings of 4 LEDs"
    )
    assert head(current="15mA").endswith("From an E12 kit: 220 ohm, 13.2 mA.")
    assert head(ohm="150").startswith("150 ohm works: 19.3 mA")
    dim = head(ohm="330")
    assert dim.startswith("330 ohm works, dimly: 8.79 mA")
    assert "44% of the 20 mA asked for" in dim
    assert head(series="6").startswith("Do not build this: the supply is 1.1 V short")
    uneven = head(series=None, leds="5", vf="3V", drop=None)
    assert uneven.startswith("Buy 2 × ") or "strings" in uneven


def test_table_says_how(capsys):
    text = shown(PLAIN, capsys)
    for words in ("(12 − 1.1 − 4·2)/0.02", "next value up in E24", "2.9 V", "56.1 mW", "30 mA (assumed)"):
        assert words in text
    assert "not counted on" in shown(
        {**PLAIN, "driver": "hc595", "supply": "5V", "series": "1", "drop": None}, capsys
    )
    assert "set resistor 937.5 ohm" in shown(
        {**PLAIN, "driver": "constant-current-sink-8", "drop": None}, capsys
    )
    assert "packages 3" in shown({**PLAIN, "driver": "darlington-sink-8", "outputs": "20"}, capsys)
    assert "11 V to 13.8 V" in shown({**PLAIN, "supply_range": "11V to 13.8V"}, capsys)
    assert "no switch counted" in shown({**PLAIN, "drop": None}, capsys)


def test_list_marks_the_chosen_arrangement(capsys):
    text = shown({"supply": "12V", "vf": "3V", "leds": "8", "current": "20mA"}, capsys)
    assert "→ 4×2 300 330 20 mA 80 mA 50% within ×1.11" in text
    assert "1×8 – – – – – no-headroom" in text


@pytest.mark.parametrize("series", ["4", "6"])
def test_json_holds_no_infinity(series):
    question = read({**PLAIN, "series": series})
    text = json.dumps(as_dict(question, answer(question)), allow_nan=False)
    assert json.loads(text)["headroom_v"] == pytest.approx(10.9 - 2 * int(series))


def test_rating_beyond_the_shop():
    string = answer(read(PLAIN)).string
    assert rating_text(replace(string, rating_w=math.inf)) == "more than 10 W"


def test_long_list_is_cut_short_and_says_so(capsys):
    text = shown({"supply": "12V", "vf": "2V", "leds": "20", "current": "20mA"}, capsys)
    assert "6×3 + 1×2" in text
    assert "more, all of them worse, are listed by --json" in text
