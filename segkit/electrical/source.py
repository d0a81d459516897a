"""The supply or battery behind the board, swinging as its kind does."""

from __future__ import annotations

from dataclasses import replace

from segkit.catalog import reader
from segkit.catalog.part import Supply
from segkit.units import plain_number

#: Kinds of supply in words.
_SOURCES = {
    "mains-adapter": "mains adapter",
    "lead-acid": "lead-acid battery",
    "lithium": "lithium battery",
    "cells": "set of cells",
}


def supply_like(
    source: str, *, volts: float, current_a: float | None = None, capacity_ah: float | None = None
) -> Supply:
    """A supply of a kind, swinging as the catalogue's rows of that kind do, in proportion to their voltage.

    Args:
        source: ``mains-adapter``, ``lead-acid``, ``lithium`` or ``cells``.
        volts: named voltage, V, above 0.
        current_a: what it can give, A; not known if left out.
        capacity_ah: of a battery, Ah; that of the row nearest in voltage if left out.

    Source: supply-adapters, supply-batteries.

    Example:
        >>> supply_like("lead-acid", volts=24.0).max_v
        27.6
    """
    rows = [row for row in reader.supplies().values() if row.type == source]
    like = min(rows, key=lambda row: abs(row.nominal_v - volts))
    scale = volts / like.nominal_v
    battery = source != "mains-adapter"
    return replace(
        like,
        id=source,
        name=f"{plain_number(volts)} V {_SOURCES[source]}",
        nominal_v=volts,
        min_v=min(like.min_v * scale, volts),
        max_v=max(like.max_v * scale, volts),
        max_current_a=current_a or 0.0,
        capacity_ah=(capacity_ah or like.capacity_ah) if battery else 0.0,
    )
