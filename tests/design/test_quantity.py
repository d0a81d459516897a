"""Schema types on their own: limits are inclusive, refusals carry the written limits."""

import pytest
from pydantic_core import PydanticCustomError

from segkit import units
from segkit.design.quantity import Checked, Quantity, Share
from segkit.errors import InputError

LENGTH = Quantity(units.LENGTH, "20 mm", "3 m")


@pytest.mark.parametrize(("text", "mm"), [("20 mm", 20), ("3 m", 3000), ("1 ft", 304.8)])
def test_limits_are_inclusive(text: str, mm: float) -> None:
    assert LENGTH.read(text) == pytest.approx(mm)


@pytest.mark.parametrize("value", ["19.9 mm", "3001 mm", "-50 mm", 300, 3.5, True, None, ["1 m"], "300", "x"])
def test_refusals_say_what_is_wrong(value: object) -> None:
    with pytest.raises(PydanticCustomError) as caught:
        LENGTH.read(value)
    problem = caught.value.context["problem"]
    assert problem.text
    assert problem.remedy


@pytest.mark.parametrize("value", [0.04, 0.31, "0.1", True, None])
def test_share_refusals(value: object) -> None:
    with pytest.raises(PydanticCustomError):
        Share(0.05, 0.3, "the height").read(value)
    assert Share(0.05, 0.3, "the height").read(0.05) == 0.05


def test_checked_keeps_the_text_as_written() -> None:
    def check(text: str) -> None:
        if text != "good":
            raise InputError("not good")

    assert Checked(check, "a word").read("good") == "good"
    for value in ("bad", 3):
        with pytest.raises(PydanticCustomError):
            Checked(check, "a word").read(value)
