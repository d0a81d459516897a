"""Brightness in steps that look equal: from steps of lightness to counts of the output-enable pulse."""

from __future__ import annotations

from segkit.errors import InputError, Problem

#: Counts of one period of the pulse: ten bits leave steps enough for a dark night.
PERIOD = 1024
_FEWEST, _MOST = 2, 64


def luminance_share(lightness: float) -> float:
    """Share of full luminance that looks this light, 0 to 1.

    Formula: Y = ((L + 16)/116)^3 above L = 8, Y = L/903.3 below.

    Args:
        lightness: CIE 1976 L*, 0 (dark) to 100 (full).

    Source keys: ``cie-lightness-1976``.

    Example:
        >>> round(luminance_share(50.0), 4), luminance_share(100.0)
        (0.1842, 1.0)
    """
    return float(((lightness + 16) / 116) ** 3) if lightness > 8 else lightness / 903.3


def pulse_counts(steps: int) -> tuple[int, ...]:
    """How many of 1024 counts the board is lit at each brightness, from dark to full.

    Formula: n = 1024*Y(100*k/(steps - 1)) for k = 0 to steps - 1, rounded, at least 1 above dark.

    Args:
        steps: levels, dark and full included, 2 to 64.

    Raises:
        InputError: another number of steps.

    Source keys: ``cie-lightness-1976``.

    Example:
        >>> pulse_counts(6)
        (0, 31, 115, 290, 589, 1024)
    """
    if not _FEWEST <= steps <= _MOST:
        raise InputError(
            Problem("this many steps cannot be told apart or set.", value=str(steps), limit="2 to 64")
        )
    shares = [luminance_share(100 * k / (steps - 1)) for k in range(steps)]
    return (0, *(max(1, round(PERIOD * share)) for share in shares[1:]))
