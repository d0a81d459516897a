"""Bytes against published code tables; orders and polarities there and back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.errors import InputError
from segkit.glyphs.bitmask import mask, parse_active, parse_order, reorder, segments_from
from segkit.glyphs.characters import Style, in_order, segments_of
from segkit.glyphs.segments import ALL

Published = Callable[[str], list[dict[str, str]]]
orders = st.permutations(ALL).map(tuple)
lit_sets = st.sets(st.sampled_from(ALL))
actives = st.sampled_from(("high", "low"))


def test_published_masks(published: Published) -> None:
    rows = [row for row in published("glyphs") if "mask " in row["what"]]
    assert len(rows) == 36
    for row in rows:
        style = Style(six="plain", nine="plain") if row["what"].startswith("plain") else Style()
        order = parse_order(row["what"].partition("mask ")[2])
        assert mask(segments_of(row["inputs"], style), order) == int(row["published"], 16), row


def test_inverted_byte(published: Published) -> None:
    values = {
        row["what"]: row["published"] for row in published("glyphs") if row["what"].startswith("inverted")
    }
    order = parse_order("dp g f e d c b a")
    sent = mask(segments_of("1"), order, "low")
    assert f"{sent:02X}" == values["inverted twice, byte"]
    assert " ".join(segments_from(sent, order, "high")) == values["inverted twice, lights"]


@given(orders, lit_sets, actives)
def test_there_and_back(order: tuple[str, ...], lit: set[str], active: str) -> None:
    value = mask(lit, order, active)  # type: ignore[arg-type]
    assert 0 <= value <= 255
    assert segments_from(value, order, active) == in_order(lit)  # type: ignore[arg-type]


@given(orders, lit_sets)
def test_polarities_are_complements(order: tuple[str, ...], lit: set[str]) -> None:
    assert mask(lit, order, "high") + mask(lit, order, "low") == 255


@given(orders, orders, lit_sets)
def test_reorder_keeps_what_is_lit(one: tuple[str, ...], other: tuple[str, ...], lit: set[str]) -> None:
    assert reorder(mask(lit, one), written=one, wanted=other) == mask(lit, other)


@given(orders, st.sampled_from((" ", ", ", ",", "", "  ")))
def test_every_order_reads_back(order: tuple[str, ...], between: str) -> None:
    assert parse_order(between.join(order)) == order
    assert parse_order(between.join(order).upper()) == order


def test_first_name_is_bit_seven() -> None:
    order = parse_order("dp g f e d c b a")
    assert [mask((name,), order) for name in order] == [128, 64, 32, 16, 8, 4, 2, 1]


def test_all_faults_of_an_order_at_once() -> None:
    with pytest.raises(InputError) as caught:
        parse_order("dp g g h c b a")
    texts = [problem.text for problem in caught.value.problems]
    assert texts == ["missing: d, e, f.", "named more than once: g.", "not a segment: h."]
    assert all('"dp g f e d c b a"' in problem.remedy for problem in caught.value.problems)


@pytest.mark.parametrize(
    "text", ["", "gfedcba", "dp g f e d c b a a", "76543210", "a-g dp", "p g f e d c b a"]
)
def test_refused_orders(text: str) -> None:
    with pytest.raises(InputError):
        parse_order(text)


def test_polarity_words() -> None:
    assert (parse_active(" High "), parse_active("low")) == ("high", "low")
    with pytest.raises(InputError, match="bit 0 = lit"):
        parse_active("inverted")


def test_what_has_no_bit_and_what_is_no_byte() -> None:
    order = parse_order("dp g f e d c b a")
    with pytest.raises(InputError, match="colon"):
        mask(("a", "colon"), order)
    for value in (-1, 256):
        with pytest.raises(InputError, match="0 to 255"):
            segments_from(value, order)
