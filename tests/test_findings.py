"""Verdicts: their order, their keys, and what they may hold back."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, fields
from typing import Any, cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.findings import CUT_PARTS, LEVELS, Finding, Level, in_order, stops


def finding(level: Level, code: str = "thin-headroom", **more: Any) -> Finding:
    return Finding(level, code, "upright segments", "0.5 V are left, 2 V are needed.", **more)


LISTS = st.lists(st.builds(finding, st.sampled_from(LEVELS), st.sampled_from(["a", "b", "c"])), max_size=12)


@given(LISTS)
def test_order_is_by_level_and_stable_without_doubles(found: list[Finding]) -> None:
    ordered = in_order(found)
    assert len(set(ordered)) == len(ordered) == len(set(found))
    ranks = [LEVELS.index(each.level) for each in ordered]
    assert ranks == sorted(ranks)
    for level in LEVELS:
        assert [f for f in ordered if f.level == level] == [
            f for f in dict.fromkeys(found) if f.level == level
        ]


@given(LISTS)
def test_stops(found: list[Finding]) -> None:
    assert stops(found) is any(each.level == "stop" for each in found)


def test_keys_that_programs_rely_on() -> None:
    found = finding("stop", value=0.5, limit=2.0, unit="V", remedy="Use four.", holds=("face",))
    data = found.as_dict()
    assert list(data) == [field.name for field in fields(Finding)]
    assert data["holds"] == ["face"]
    assert (data["value"], data["limit"], data["unit"], data["source"]) == (0.5, 2.0, "V", "common-practice")


def test_only_a_stop_holds_back_and_only_parts_that_are_cut() -> None:
    assert finding("stop", holds=CUT_PARTS).holds == CUT_PARTS
    with pytest.raises(ValueError, match="only a stop"):
        finding("caution", holds=("face",))
    with pytest.raises(ValueError, match="back_board, light_grid, diffuser, face"):
        finding("stop", holds=("lid",))
    with pytest.raises(ValueError, match="unknown level"):
        finding(cast(Level, "warning"))


def test_a_finding_cannot_be_changed() -> None:
    with pytest.raises(FrozenInstanceError):
        finding("note").level = "stop"  # type: ignore[misc]
