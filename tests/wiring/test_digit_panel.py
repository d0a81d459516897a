"""Tables beside the drawing of a digit."""

from segkit.units import engineering
from segkit.wiring.digit_panel import panel, poles
from segkit.wiring.page import sheet
from tests.wiring import boards
from tests.wiring.drawn import words


def said(whole, digits=(1,)) -> list[str]:
    pen = sheet("t", "w", "s")
    panel(pen, whole, digits)
    return words(pen.drawing())


def test_poles_name_only_what_the_digit_has() -> None:
    assert poles(boards.wired("8").plan, 1)[1] == ("+", "RD")
    assert sorted(poles(boards.wired("8").plan, 1)) == [1, 2, 3, 4, 5, 6, 7, 8]
    assert poles(boards.wired("88:88").plan, 2)[10] == ("colon", "GYPK")


def test_outputs_and_pins_stand_beside_the_poles() -> None:
    """74HC595: QA on pin 15; ULN2803A: output 1 on pin 18."""
    found = said(boards.wired("8"))
    row = found[found.index("WH white") - 2 :][:6]
    assert row == ["2", "a", "WH white", "QA", "15", "18"]


def test_every_resistor_value_is_named() -> None:
    whole = boards.wired("8.8")
    found = " ".join(said(whole))
    for string in whole.plan.strings_of(1):
        first, last = string.leds[0].number, string.leds[-1].number
        count = f"{first} to {last}" if last > first else str(first)
        assert f"{string.number} {count} {engineering(string.ohm, 'Ω')}" in found


def test_it_says_which_side_of_the_led_is_which() -> None:
    found = said(boards.wired("8"))
    assert "A: anode, plus, the long lead" in found
    assert "K: cathode, the short lead, flat on the rim" in found


def test_where_the_card_is_depends_on_the_cable() -> None:
    assert "card of the digit sits behind" in " ".join(said(boards.wired("8")))
    assert "cable ends at this connector" in " ".join(said(boards.wired("8", carries="segments")))
