import pytest

from segkit.cli import ask
from segkit.errors import InputError, Problem
from segkit.units import LENGTH, PERCENT


def test_a_quantity_is_held_to_its_range():
    read = ask.within(LENGTH, low=10, high=1000)
    assert read("2 cm") == 20
    with pytest.raises(InputError, match="10 to 1000 mm"):
        read("2 m")
    with pytest.raises(InputError, match="1 % to 50 %"):
        ask.within(PERCENT, low=0.01, high=0.5)("80 %")


def test_counts_temperatures_and_words():
    assert ask.whole(8)("7") == 7
    assert [ask.temperature(low_c=-40, high_c=105)(text) for text in ("50", "50 °C", "-5C")] == [50, 50, -5]
    assert ask.one_of("linear", "step-down")(" Linear ") == "linear"
    for reader, text in (
        (ask.whole(8), "9"),
        (ask.whole(8), "two"),
        (ask.temperature(low_c=0, high_c=50), "60"),
        (ask.one_of("a"), "b"),
    ):
        with pytest.raises(InputError):
            reader(text)


def test_all_faults_come_in_one_error():
    readers = {"run": ask.within(LENGTH, low=10, high=1000), "count": ask.whole(3)}

    def more(values):
        assert values == {"run": None, "count": None}
        return [Problem("and this.")]

    with pytest.raises(InputError) as caught:
        ask.read_all({"run": "2 m", "count": None}, readers, needed={"count": "2"}, more=more)
    assert [problem.key for problem in caught.value.problems] == ["--run", "--count", ""]
