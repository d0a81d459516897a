"""Digit statistics against figures counted outside this project."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from segkit.glyphs.characters import Style
from segkit.glyphs.counts import changes, distance_histogram, lines, lit_mean, lit_per_digit, uses
from segkit.glyphs.text import fit
from segkit.working import evaluate

Published = Callable[[str], list[dict[str, str]]]
STYLES = {
    "tail tail plain": Style(),
    "plain plain plain": Style(six="plain", nine="plain"),
    "tail tail tail": Style(seven="tail"),
}


def numbers(text: str) -> tuple[int, ...]:
    return tuple(int(word) for word in text.split())


@pytest.mark.parametrize("name", STYLES)
def test_published_statistics(published: Published, name: str) -> None:
    values = {row["what"]: row["published"] for row in published("glyphs") if row["inputs"] == name}
    style = STYLES[name]
    assert lit_per_digit(style) == numbers(values["lit per digit"])
    assert sum(lit_per_digit(style)) == int(values["lit total"])
    assert lit_mean(style) == int(values["lit total"]) / 10
    assert tuple(uses(style).values()) == numbers(values["uses of a to g"])
    assert changes(style) == numbers(values["changes to the next digit"])


def test_published_distances(published: Published) -> None:
    row = next(row for row in published("glyphs") if row["what"] == "distance histogram")
    assert distance_histogram() == (*numbers(row["published"]), 0)
    assert sum(distance_histogram()) == 45


@pytest.mark.parametrize("name", STYLES)
def test_a_day_on_a_clock(published: Published, name: str) -> None:
    """Lit segments summed over all minutes, colon left out: checks the fitting of times as well."""
    values = {
        row["what"]: int(row["published"])
        for row in published("glyphs")
        if row["what"].startswith("clock") and row["inputs"] == name
    }
    style = STYLES[name]

    def lit(text: str) -> int:
        return sum(segment != "colon" for _, segment in fit(text, layout="88:88", style=style).lit)

    day = [(hour, minute) for hour in range(24) for minute in range(60)]
    half = [(hour, minute) for hour in range(1, 13) for minute in range(60)]
    assert sum(lit(f"{h:02}:{m:02}") for h, m in day) == values["clock 24 h, leading zero"]
    assert sum(lit(f"{h}:{m:02}") for h, m in day) == values["clock 24 h, blanked"]
    assert sum(lit(f"{h}:{m:02}") for h, m in half) == values["clock 12 h, blanked"]
    assert sum(lit(f"{h:02}:{m:02}") for h, m in half) == values["clock 12 h, leading zero"]


@pytest.mark.parametrize("name", STYLES)
def test_working_evaluates(name: str) -> None:
    for line in lines(STYLES[name]):
        inputs = {given.symbol: given.value for given in line.inputs}
        assert evaluate(line.formula, inputs) == pytest.approx(line.value, rel=1e-6)
