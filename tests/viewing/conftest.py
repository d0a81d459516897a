"""Published values held against the code, with value, printed value and the reason for the gap side by side."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

import pytest

from segkit.sources import source
from segkit.working import Line, evaluate

#: Kind of row to the test file that reads it: a row of any other kind would go unread.
READ_IN = {
    "angle_height_mm": "test_criteria", "iso_mm": "test_criteria", "rule_ratio": "test_criteria",
    "rule_arcmin": "test_criteria", "code_in": "test_criteria", "jis_pt": "test_criteria",
    "eye_stroke_mm": "test_legibility", "comfort_arcmin": "test_legibility",
    "flicker_low": "test_flicker", "flicker_no": "test_flicker", "bands": "test_flicker", "cycles": "test_flicker",
    "contrast": "test_contrast", "night_cd_m2": "test_night", "asked_cd_m2": "test_luminance",
    "light_lx_low": "test_luminance", "light_lx_high": "test_luminance",
}  # fmt: skip


def _value(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text


@pytest.fixture
def each_published(published) -> Callable[..., list[tuple[float, float, float, str]]]:
    """Rows of one kind as (ours, printed, tolerance, label), ours computed by a function of the inputs."""

    def rows(what: str, function: Callable[..., float]) -> list[tuple[float, float, float, str]]:
        table = published("viewing")
        assert {row["what"] for row in table} == set(READ_IN)
        made = []
        for row in (row for row in table if row["what"] == what):
            given = {
                name: _value(value) for name, value in re.findall(r"(\w+)=(.*?)(?= \w+=|$)", row["inputs"])
            }
            ours, printed = function(**given), float(row["published"])
            label = (
                f"{what}({row['inputs']}): ours {ours:.6g}, printed {printed:g} in {source(row['source']).title}, "
                f"{row['place']}; gap: {row['remark'] or 'none expected'}"
            )
            made.append((ours, printed, float(row["tolerance"]), label))
        assert made
        return made

    return rows


@pytest.fixture
def agree(each_published) -> Callable[[str, Callable[..., float]], None]:
    """Assert that every row of one kind is met within its tolerance."""

    def check(what: str, function: Callable[..., float]) -> None:
        for ours, printed, tolerance, label in each_published(what, function):
            assert abs(ours - printed) <= tolerance + 1e-12, label

    return check


@pytest.fixture
def lines_hold() -> Callable[[Iterable[Line]], None]:
    """Assert that each formula gives its value on its printed inputs, and that its source exists."""

    def check(lines: Iterable[Line]) -> None:
        for line in lines:
            again = evaluate(line.formula, {given.symbol: given.value for given in line.inputs})
            assert again == pytest.approx(line.value, rel=1e-9, abs=1e-12), line
            assert line.name.startswith("viewing.")
            assert source(line.source)

    return check
