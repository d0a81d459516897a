"""Verdicts on kinds of segment that were to be equally bright."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from segkit.findings import Finding

#: Numbers closer than this share are equal.
_SAME = 1e-9


def ratio_findings(
    light: Mapping[str, float], *, limit: float, series: str, values: str = ""
) -> tuple[Finding, ...]:
    """A caution where the kinds differ by more than the series allows.

    Args:
        light: of each kind that can be made equal, in any unit, above 0.
        limit: brightest over darkest that the steps of the series allow, 1 or more.
        series: of preferred numbers.
        values: the values that would do, as a sentence, where the builder gave some.

    Source: iec-60063.

    Example:
        >>> ratio_findings({"upright": 1.0, "crossbar": 1.02}, limit=1.05, series="E24")
        ()
    """
    bright, dark = max(light, key=light.__getitem__), min(light, key=light.__getitem__)
    ratio = light[bright] / light[dark]
    if ratio <= limit * (1 + 1e-6):
        return ()
    return (
        Finding(
            level="caution",
            code="unequal-light",
            subject=f"{bright} and {dark}",
            text=f"with {'the resistors given' if values else f'values of {series}'} the {bright} still "
            f"comes out {ratio:.2f} times as bright as the {dark}; the steps of {series} allow "
            f"{limit:.2f}.",
            value=round(ratio, 4),
            limit=round(limit, 4),
            unit="times",
            source="iec-60063",
            remedy=values or "Buy from a finer series, or leave more voltage for the resistors.",
        ),
    )


def behind_findings(
    light: Mapping[str, float], alike: Collection[str], *, limit: float
) -> tuple[Finding, ...]:
    """A note on each kind that stays darker because it must not hold the others back.

    Args:
        light: of each kind, in any unit, 0 or more.
        alike: the kinds that were made equal.
        limit: as for ``ratio_findings``.

    Source: arithmetic.

    Example:
        >>> [note.subject for note in behind_findings({"bar": 2.0, "colon": 1.0}, ["bar"], limit=1.05)]
        ['colon']
    """
    brightest = max(light.values())
    if brightest <= 0:
        return ()
    shares = {kind: one / brightest for kind, one in light.items() if kind not in alike}
    return tuple(
        Finding(
            level="note",
            code="kind-left-behind",
            subject=kind,
            text=f"it has {share:.0%} of the light of the brightest kind, although its LEDs are aimed at as "
            "much current as any; the others are not dimmed for its sake.",
            value=round(share, 3),
            limit=round(1 / limit, 3),
            source="arithmetic",
            remedy="Give it one LED more, or accept that it is darker.",
        )
        for kind, share in shares.items()
        if share * limit < 1 - _SAME
    )
