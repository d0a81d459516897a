"""Kinds held against each other."""

import pytest

from segkit.optics.balance import balanced, per_led, unequal
from segkit.optics.fittings import Fittings
from segkit.optics.row import Asked, lay_row


@pytest.fixture
def laid(red, white, opal):
    def lay(segment, **asked):
        fittings = Fittings(red, 0.015, 30, white, opal, None, None, None, None, 0.7, None)
        pocket = fittings.pocket(segment)
        return lay_row(segment, led=red, pocket=pocket, asked=Asked(evenness=0.7, **asked))

    return lay


def test_counts_level_the_kinds(laid, make_bar, make_dots):
    rows = {"crossbar": laid(make_bar()), "point": laid(make_dots(20, count=1, kind="point"))}
    counts = balanced(rows, outlines={"crossbar": 28, "point": 4})
    lights = {kind: counts[kind] * per_led(row) for kind, row in rows.items()}
    assert all(counts[kind] >= row.count for kind, row in rows.items())
    assert max(lights.values()) / min(lights.values()) <= 1.15


def test_the_builders_counts_stay(laid, make_bar, make_dots):
    rows = {"crossbar": laid(make_bar(), count=2), "point": laid(make_dots(20, count=1, kind="point"))}
    assert balanced(rows, outlines={"crossbar": 28, "point": 4})["crossbar"] == 2


def test_what_remains_is_told():
    assert unequal({}) is None
    assert unequal({"upright": 100.0, "point": 125.0}) is None
    assert unequal({"upright": 0.0, "point": 125.0}) is None
    kind, finding = unequal({"upright": 100.0, "point": 150.0})
    assert kind == "upright"
    assert finding.value == pytest.approx(1.5)
    assert "67 % of the current" in finding.remedy
