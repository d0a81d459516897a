"""What a reader at the side sees: narrowed digits, and segments hidden behind the face's own edge."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.findings import Finding
from segkit.units import length, plain_number
from segkit.viewing import limits
from segkit.working import Given, Line

NARROWEST, WIDEST = 0.5, 1.0  # apparent width to height, iso-9241-3
MUCH_HIDDEN, SOME_HIDDEN = 0.3, 0.1  # share of the diffuser, common practice


@dataclass(frozen=True)
class OffAxis:
    """Proportions as seen from the side.

    Attributes:
        ratio: apparent width to apparent height.
        lines: the worksheet lines.
        findings: verdicts.
    """

    ratio: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class Hidden:
    """What the face hides of the lit surface behind it.

    Attributes:
        share: hidden share of the opening's width, 0 to 1.
        lines: the worksheet lines.
        findings: verdicts.
    """

    share: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def off_axis(
    *, width_mm: float, height_mm: float, angle_deg: float = 0.0, vertical_angle_deg: float = 0.0
) -> OffAxis:
    """Width to height of a digit as a reader off the board's axis sees it.

        ratio = W cos(angle) / (H cos(vertical angle))

    Args:
        width_mm, height_mm: the digit, mm.
        angle_deg: horizontal angle off the board's axis, 0 to below 90 degrees.
        vertical_angle_deg: the same up or down.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: iso-9241-3 for the limits 0.5 and 1.0.

    Example:
        >>> round(off_axis(width_mm=150.0, height_mm=250.0, angle_deg=30.0).ratio, 3)
        0.52
    """
    limits.check(
        width_mm=width_mm, height_mm=height_mm, angle_deg=angle_deg, vertical_angle_deg=vertical_angle_deg
    )
    shrink = math.cos(math.radians(angle_deg)) / math.cos(math.radians(vertical_angle_deg))
    ratio = width_mm / height_mm * shrink
    line = Line(
        "viewing.apparent_ratio", "Width to height as seen from the side", "q", ratio, "",
        "W*cos(radians(a))/(H*cos(radians(v)))",
        (
            Given("W", width_mm, "mm", "digit width"), Given("H", height_mm, "mm", "digit height"),
            Given("a", angle_deg, "deg", "horizontal angle off axis"),
            Given("v", vertical_angle_deg, "deg", "vertical angle off axis"),
        ),
        "arithmetic",
    )  # fmt: skip
    return OffAxis(ratio, (line,), _judge_ratio(ratio, shrink, height_mm, angle_deg, vertical_angle_deg))


def _judge_ratio(
    ratio: float, shrink: float, height_mm: float, angle_deg: float, vertical_angle_deg: float
) -> tuple[Finding, ...]:
    if NARROWEST * (1 - 1e-9) <= ratio <= WIDEST * (1 + 1e-9):
        return ()
    narrow = ratio < NARROWEST
    limit = NARROWEST if narrow else WIDEST
    where = " and ".join(
        f"{plain_number(angle, 3)} deg {side}"
        for angle, side in ((angle_deg, "to the side"), (vertical_angle_deg, "above or below"))
        if angle > 0
    )
    seen = f"Seen from {where}" if where else "Seen straight on"
    text = (
        f"{seen} the digit is {plain_number(ratio, 3)} times as wide as high; it reads well between "
        f"{plain_number(NARROWEST)} and {plain_number(WIDEST)}."
    )
    needed = limit / shrink
    remedy = f"Make it {'at least' if narrow else 'at most'} {length(needed * height_mm)} wide"
    remedy += f" ({plain_number(needed, 2)} of the height)."
    if needed > WIDEST:
        remedy = (
            "No usual digit is that wide: turn the board towards these readers, or give them a second one."
        )
    code = "narrow-from-side" if narrow else "wide-from-side"
    return (
        Finding("caution", code, "digit", text, round(ratio, 4), limit, "", "iso-9241-3", remedy),
    )  # fmt: skip


def hidden_share(
    *, recess_mm: float, opening_mm: float, angle_deg: float, vertical_angle_deg: float = 0.0
) -> Hidden:
    """Share of a segment that the face in front of it hides from a reader off the board's axis.

        share = min(1, recess tan(larger angle) / opening)

    Uprights lose to the side, horizontals to a reader above or below; both are one stroke across.

    Args:
        recess_mm: depth of the lit surface behind the front of the face, mm.
        opening_mm: width of the opening across the direction of view, mm: the stroke.
        angle_deg: horizontal angle off the board's axis, 0 to below 90 degrees.
        vertical_angle_deg: the same up or down.

    Raises:
        InputError: a value out of its range; all of them together.

    Sources: arithmetic; common-practice for the levels of the findings.

    Example:
        >>> round(hidden_share(recess_mm=5.0, opening_mm=35.0, angle_deg=45.0).share, 3)
        0.143
    """
    limits.check(
        recess_mm=recess_mm, opening_mm=opening_mm, angle_deg=angle_deg, vertical_angle_deg=vertical_angle_deg
    )
    worst_deg = max(angle_deg, vertical_angle_deg)
    side = "to the side" if angle_deg >= vertical_angle_deg else "above or below"
    share = min(1.0, recess_mm * math.tan(math.radians(worst_deg)) / opening_mm)
    line = Line(
        "viewing.hidden_share", "Share of a segment hidden by the face", "h", share, "",
        "min(1, r*tan(radians(a))/w)",
        (
            Given("r", recess_mm, "mm", "depth behind the front of the face"),
            Given("w", opening_mm, "mm", "width of the opening"),
            Given("a", worst_deg, "deg", "larger angle off axis"),
        ),
        "arithmetic",
    )  # fmt: skip
    return Hidden(share, (line,), _judge_hidden(share, recess_mm, opening_mm, worst_deg, side))


def _judge_hidden(
    share: float, recess_mm: float, opening_mm: float, angle_deg: float, side: str
) -> tuple[Finding, ...]:
    if share <= SOME_HIDDEN * (1 + 1e-9):
        return ()
    limit = MUCH_HIDDEN if share > MUCH_HIDDEN else SOME_HIDDEN
    shallow = limit * opening_mm / math.tan(math.radians(angle_deg))
    whole = share > 1 - 1e-9
    text = (
        f"From {plain_number(angle_deg, 3)} deg {side} the face hides "
        f"{'all' if whole else f'{100 * share:.0f} %'} of a {plain_number(opening_mm, 3)} mm segment that "
        f"lies {plain_number(recess_mm, 3)} mm behind its front."
    )
    return (
        Finding(
            "stop" if whole else "caution" if share > MUCH_HIDDEN else "note",
            "hidden-from-side", "face", text, round(share, 4), limit, "", "common-practice",
            f"Bring the diffuser to within {plain_number(shallow, 2)} mm of the front of the face, thin the "
            "face, or bevel the opening.",
            ("face",) if whole else (),
        ),
    )  # fmt: skip
