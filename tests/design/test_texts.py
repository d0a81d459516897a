"""Texts that the digits cannot show are told together with every other fault of the file."""

import pytest

from segkit.design.reader import design_from_text
from segkit.design.texts import text_problems
from segkit.errors import InputError


def keys(text: str) -> list[str]:
    with pytest.raises(InputError) as caught:
        design_from_text(text, file="yard.toml")
    assert {problem.file for problem in caught.value.problems} == {"yard.toml"}
    return [problem.key for problem in caught.value.problems]


def test_every_fault_in_one_message() -> None:
    bad = '[display]\nlayout = "88:88"\nsample = "WK:99"\n[digit]\nstroke = 3\n[power.use]\ncontent = "tea time"\n'
    assert keys(bad) == ["digit.stroke", "display.sample", "power.use.content"]


def test_texts_alone_are_refused_too() -> None:
    assert keys('[display]\nlayout = "8"\nsample = "12"\n[power.use]\ncontent = "clock 24 h"\n') == [
        "display.sample",
        "power.use.content",
    ]


def test_a_fault_is_told_once() -> None:
    assert keys('[display]\nlayout = "88z"\nsample = "12345"\n') == ["display.layout"]
    assert keys("[display]\nsample = 12\n") == ["display.sample"]
    assert keys('[display]\nlayout = "8"\nsample = "ñ"\n[glyphs.custom]\n"ñ" = "c e q"\n') == [
        "glyphs.custom"
    ]


def test_characters_of_the_builders_own_may_stand_in_the_sample() -> None:
    assert not list(
        text_problems({"display": {"layout": "8", "sample": "ñ"}, "glyphs": {"custom": {"ñ": "c e, g"}}})
    )
    assert not list(text_problems({}))
