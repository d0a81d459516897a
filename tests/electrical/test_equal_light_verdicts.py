"""Verdicts on kinds of segment, on both sides of their limits."""

import pytest

from segkit.electrical.equal_light_verdicts import behind_findings, ratio_findings


@pytest.mark.parametrize(("dark", "said"), [(1 / 1.06, False), (1 / 1.08, True)])
def test_kinds_may_differ_by_what_the_series_allows(dark: float, said: bool) -> None:
    found = ratio_findings({"upright": 1.0, "crossbar": dark}, limit=1.07, series="E24")
    assert bool(found) == said
    if said:
        assert found[0].subject == "upright and crossbar"
        assert found[0].value == pytest.approx(1.08)
        assert "values of E24" in found[0].text


def test_given_resistors_are_answered_with_values_that_would_do() -> None:
    values = "Values of E24 that would do: crossbar 510 ohm."
    (found,) = ratio_findings({"a": 2.0, "b": 1.0}, limit=1.07, series="E24", values=values)
    assert found.remedy == values
    assert "the resistors given" in found.text


@pytest.mark.parametrize(("colon", "said"), [(0.97, False), (0.9, True)])
def test_a_kind_that_stays_behind_is_named_where_it_shows(colon: float, said: bool) -> None:
    light = {"bar": 1.0, "colon": colon}
    assert bool(behind_findings(light, ["bar"], limit=1.05)) == said
    assert behind_findings(light, ["bar", "colon"], limit=1.05) == ()


def test_a_board_that_is_dark_has_none_left_behind() -> None:
    assert behind_findings({"bar": 0.0, "colon": 0.0}, ["bar"], limit=1.05) == ()
