"""Sizes that shops keep: E-series of IEC 60063, resistor ratings, supplies, fuses; rounding to them."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from itertools import pairwise

from segkit.errors import InputError, Problem
from segkit.errors import nearest as nearest_word
from segkit.working import FUNCTIONS

_E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91)
_TABLED = {"E3": _E24[::8], "E6": _E24[::4], "E12": _E24[::2], "E24": _E24}
_COUNTED = {"E48": 48, "E96": 96, "E192": 192}
_E192_EXCEPTION = (185, 920)  # the rule gives 919; the table of the standard has 920
_SAME = 1e-9  # relative: closer than this is the same value (rounding of binary numbers)

#: Names of the series, coarse to fine.
SERIES: tuple[str, ...] = (*_TABLED, *_COUNTED)

#: Usual ratings of leaded resistors, W.
RATINGS_W = (0.125, 0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0)
#: Usual output currents of supplies, A.
SUPPLIES_A = (0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.5, 15.0, 20.0, 30.0, 40.0)
#: Usual fuse ratings, A.
FUSES_A = (0.1, 0.125, 0.16, 0.2, 0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0,
           6.3, 8.0, 10.0, 12.5, 16.0, 20.0, 25.0, 30.0)  # fmt: skip


@cache
def series_values(series: str) -> tuple[int, ...]:
    """The significant digits of one decade of a series, rising.

    Args:
        series: ``E3``, ``E6``, ``E12``, ``E24`` (two digits) or ``E48``, ``E96``, ``E192`` (three digits);
            small letters will do.

    Returns:
        as many whole numbers as the name says. E48 and finer follow ``round(100*10**(i/n))`` but for one
        value (920, not 919); E24 and coarser do not follow it at eight places and stand here as a list.

    Raises:
        InputError: no such series.

    Source: iec-60063.

    Example:
        >>> series_values("E6")
        (10, 15, 22, 33, 47, 68)
    """
    name = series.strip().upper()
    if name in _TABLED:
        return _TABLED[name]
    if name not in _COUNTED:
        remedy = nearest_word(name, SERIES)
        raise InputError(Problem("no such series of preferred values.", value=f'"{series}"', remedy=remedy))
    count, (place, value) = _COUNTED[name], _E192_EXCEPTION
    found = [round(100 * 10 ** (i / count)) for i in range(count)]
    if name == "E192":
        found[place] = value
    return tuple(found)


def next_up(value_ohm: float, series: str = "E24") -> float:
    """The smallest value of a series that is not below ``value_ohm``.

    Args:
        value_ohm: any positive number, Ω; a value within 1e-9 of a member is that member.
        series: name of the series.

    Returns:
        the preferred value, Ω.

    Raises:
        InputError: the value is not positive or not finite, or there is no such series.

    Source: iec-60063.

    Example:
        >>> next_up(145), next_up(150), next_up(0.95, "E12")
        (150.0, 150.0, 1.0)
    """
    return _ladder(value_ohm, series, _first_not_below)


def next_down(value_ohm: float, series: str = "E24") -> float:
    """The largest value of a series that is not above ``value_ohm``; see ``next_up``.

    Example:
        >>> next_down(145), next_down(9.5)
        (130.0, 9.1)
    """
    return _ladder(value_ohm, series, _last_not_above)


def nearest(value_ohm: float, series: str = "E24") -> float:
    """The member of a series with the smallest difference to ``value_ohm``; the upper one of two equal.

    Raises:
        InputError: see ``next_up``.

    Example:
        >>> nearest(145), nearest(140)
        (150.0, 150.0)
    """
    below, above = next_down(value_ohm, series), next_up(value_ohm, series)
    return below if value_ohm - below < above - value_ohm else above


def in_series(value_ohm: float, series: str = "E24") -> bool:
    """Whether a value is a member of the series.

    Example:
        >>> in_series(470), in_series(340), in_series(470, "E96")
        (True, False, False)
    """
    return math.isclose(next_up(value_ohm, series), value_ohm, rel_tol=_SAME)


def next_size(value: float, sizes: Sequence[float]) -> float:
    """The smallest size that is not below ``value``; ``inf`` where none is large enough.

    Args:
        value: what is needed, in the unit of the sizes; 0 or more.
        sizes: rising sizes, such as ``RATINGS_W``.

    Source: common-practice (which sizes are usual).

    Example:
        >>> next_size(0.33, RATINGS_W), next_size(2.1, SUPPLIES_A)
        (0.5, 2.5)
    """
    return next((size for size in sizes if size >= value * (1 - _SAME)), math.inf)


def _ladder(value_ohm: float, series: str, pick: Callable[[float, Sequence[float]], float]) -> float:
    digits = series_values(series)
    if not (math.isfinite(value_ohm) and value_ohm > 0):
        raise InputError(
            Problem(
                "a resistor needs a positive value.",
                value=f"{value_ohm} ohm",
                limit="above 0 ohm",
                remedy="Leave some voltage for the resistor: fewer LEDs in series or a higher supply.",
            )
        )
    decade = math.floor(math.log10(value_ohm)) - len(str(digits[0])) + 1
    return pick(value_ohm, _steps(digits, decade))


@cache
def _steps(digits: tuple[int, ...], decade: int) -> tuple[float, ...]:
    """The values of a series in the decade of interest and both beside it."""
    return tuple(scaled(digit, power) for power in (decade - 1, decade, decade + 1) for digit in digits)


def scaled(digits: int, power: int) -> float:
    """``digits * 10**power``, rounded once, so that 47 and -1 give exactly 4.7.

    Example:
        >>> scaled(47, -1), scaled(47, 2)
        (4.7, 4700.0)
    """
    return float(digits * 10**power) if power >= 0 else digits / 10**-power


def _first_not_below(value: float, steps: Sequence[float]) -> float:
    return next(step for step in steps if step >= value * (1 - _SAME))


def _last_not_above(value: float, steps: Sequence[float]) -> float:
    return next(step for step in reversed(steps) if step <= value * (1 + _SAME))


def _nearest(series: str) -> Callable[[float], float]:
    return lambda value: nearest(value, series)


def widest_step(series: str = "E24") -> float:
    """The largest ratio between neighbours of a series: what rounding to the nearest value can cost.

    Example:
        >>> round(widest_step("E24"), 3), round(widest_step("E96"), 3)
        (1.154, 1.03)
    """
    digits = (*series_values(series), 10 * series_values(series)[0])
    return max(above / below for below, above in pairwise(digits))


def _up(series: str) -> Callable[[float], float]:
    return lambda value: next_up(value, series)


#: Functions that the formulas of this stage may use: those of ``working`` and the roundings of this module.
WORKSHEET_FUNCTIONS: Mapping[str, Callable[..., float]] = {
    **FUNCTIONS,
    **{f"next_up_{name.lower()}": _up(name) for name in SERIES},
    **{f"nearest_{name.lower()}": _nearest(name) for name in SERIES},
    "next_rating": lambda value: next_size(value, RATINGS_W),
    "next_supply": lambda value: next_size(value, SUPPLIES_A),
    "next_fuse": lambda value: next_size(value, FUSES_A),
}
