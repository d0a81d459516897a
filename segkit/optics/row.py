"""One row of LEDs along a segment: how many, at which pitch, and what is to be said against it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Led
from segkit.findings import Finding
from segkit.geometry.board import Segment
from segkit.optics import spacing
from segkit.optics.photometry import lobe_exponent
from segkit.optics.stations import ROOM_AROUND_MM, Bay, bay_of, end_inset, most_leds, stations

#: LEDs that small builders start with; stands in where a pocket is too shallow to work the count out.
USUAL_COUNT = 3


@dataclass(frozen=True)
class Row:
    """The LEDs of one outline.

    Attributes:
        kind: ``Segment.kind``.
        bay: the outline in its own frame.
        stroke_mm: width across the row.
        led: the part.
        depth_mm, gap_mm: pocket depth; clear height above the tips.
        exponent: m of the lobe.
        evenness: asked for.
        limit: largest pitch over gap for it; 0 without a gap.
        inset_mm, most: room for the bodies: from the ends; in number.
        wanted: count that the pitch limit asks for.
        count: LEDs in one outline.
        given: whether the builder chose the count.
        stations_mm, pitch_mm: where they stand; the pitch is 0 for one LED.
    """

    kind: str
    bay: Bay
    stroke_mm: float
    led: Led
    depth_mm: float
    gap_mm: float
    exponent: float
    evenness: float
    limit: float
    inset_mm: float
    most: int
    wanted: int
    count: int
    given: bool
    stations_mm: tuple[float, ...]
    pitch_mm: float

    @property
    def share_mm(self) -> float:
        """Length of segment to one LED."""
        return self.bay.length_mm / self.count

    @property
    def subject(self) -> str:
        """What findings call it."""
        return f"{self.kind} segments"


def lay_row(segment: Segment, *, led: Led, depth_mm: float, per_segment: int | None, evenness: float) -> Row:
    """The row of LEDs in each outline of a segment.

    Formula of the count: ``ceil(length / (limit * gap))``, at most what the bodies leave room for.

    Args:
        segment: from the board.
        led: catalogue row.
        depth_mm: from the back to the diffuser, mm.
        per_segment: LEDs in one outline, or None to work it out.
        evenness: lowest over mean along the row, 0.3 to 0.95.

    Raises:
        InputError: beam angle or evenness out of range.
    """
    exponent = lobe_exponent(led.full_angle_deg)
    limit = spacing.pitch_limit(evenness=evenness, exponent=exponent)
    bay, gap = bay_of(segment), depth_mm - led.tip_mm
    inset = end_inset(bay, body_mm=led.body_mm)
    most = most_leds(bay, inset_mm=inset, body_mm=led.body_mm)
    blind = 1 if bay.dot else USUAL_COUNT
    wanted = math.ceil(bay.length_mm / (limit * gap)) if gap > 0 else blind
    count = per_segment if per_segment is not None else max(1, min(wanted, most))
    at = stations(bay, count=count, inset_mm=inset)
    return Row(
        kind=segment.kind,
        bay=bay,
        stroke_mm=segment.stroke_mm,
        led=led,
        depth_mm=depth_mm,
        gap_mm=gap,
        exponent=exponent,
        evenness=evenness,
        limit=limit,
        inset_mm=inset,
        most=most,
        wanted=wanted,
        count=count,
        given=per_segment is not None,
        stations_mm=at,
        pitch_mm=at[1] - at[0] if count > 1 else 0.0,
    )


def row_findings(row: Row) -> tuple[Finding, ...]:
    """What is to be said against the row: stops first."""
    found = [_too_shallow(row), _too_wide(row), _too_close(row)]
    if row.gap_mm > 0:
        found += [_uneven(row), _wide_stroke(row)]
    return tuple(finding for finding in found if finding)


def _too_shallow(row: Row) -> Finding | None:
    if row.gap_mm > 0:
        return None
    return Finding(
        level="stop",
        code="led-above-diffuser",
        subject=row.subject,
        text=f"The LED's tip stands {row.led.tip_mm:g} mm above the back and the pocket is {row.depth_mm:g} "
        "mm deep: the diffuser does not go on.",
        value=row.depth_mm,
        limit=row.led.tip_mm,
        unit="mm",
        source="arithmetic",
        remedy=f"Make the pocket deeper than {row.led.tip_mm:g} mm; 20 to 30 mm give even light.",
        holds=("back_board", "light_grid"),
    )


def _too_wide(row: Row) -> Finding | None:
    needed = row.led.body_mm + 2 * ROOM_AROUND_MM
    if row.stroke_mm >= needed:
        return None
    return Finding(
        level="stop",
        code="led-too-wide",
        subject=row.subject,
        text=f"The LED's body of {row.led.body_mm:g} mm with {ROOM_AROUND_MM:g} mm of board on each side "
        f"needs {needed:g} mm; the stroke is {row.stroke_mm:.3g} mm wide.",
        value=row.stroke_mm,
        limit=needed,
        unit="mm",
        source="common-practice",
        remedy=f"Take a smaller LED, or a stroke of at least {needed:g} mm.",
        holds=("back_board",),
    )


def _too_close(row: Row) -> Finding | None:
    if row.count <= row.most:
        return None
    return Finding(
        level="stop",
        code="leds-too-close",
        subject=row.subject,
        text=f"{row.count} LEDs of {row.led.body_mm:g} mm do not go side by side into "
        f"{row.bay.length_mm:.0f} mm; there is room for {row.most}.",
        value=row.count,
        limit=row.most,
        source="arithmetic",
        remedy=f"Take at most {row.most}, or smaller LEDs.",
        holds=("back_board",),
    )


def _uneven(row: Row) -> Finding | None:
    if row.count >= row.wanted:
        return None
    reached = spacing.line_evenness(pitch_over_gap=row.share_mm / row.gap_mm, exponent=row.exponent)
    depth = math.ceil(row.led.tip_mm + row.share_mm / row.limit)
    more = f"Take {row.wanted} LEDs, or make" if row.wanted <= row.most else "Make"
    return Finding(
        level="caution",
        code="uneven-light",
        subject=row.subject,
        text=f"With {row.count} LED{'s' if row.count > 1 else ''} there is one every {row.share_mm:.0f} mm, "
        f"{row.share_mm / row.gap_mm:.2f} times the {row.gap_mm:.0f} mm from tip to diffuser; for evenness "
        f"{row.evenness:g} with {row.led.full_angle_deg:g} deg LEDs it may be {row.limit:.2f} times. "
        f"Without walls it comes to about {reached:.2f}; white walls lift that somewhat (estimate).",
        value=row.share_mm / row.gap_mm,
        limit=row.limit,
        source="moreno-2006",
        remedy=f"{more} the pocket {depth} mm deep, or take LEDs with a wider beam.",
    )


def _wide_stroke(row: Row) -> Finding | None:
    widest = spacing.widest_stroke(evenness=row.evenness, gap_mm=row.gap_mm, exponent=row.exponent)
    if row.bay.dot or row.stroke_mm <= widest:
        return None
    fall = spacing.across_fall(stroke_mm=row.stroke_mm, gap_mm=row.gap_mm, exponent=row.exponent)
    limit = widest / row.gap_mm
    best = f"at most about {spacing.one_row_best(fall):.2f}"
    depth = math.ceil(row.led.tip_mm + row.gap_mm * row.stroke_mm / widest)
    return Finding(
        level="caution",
        code="wide-stroke",
        subject=row.subject,
        text=f"The stroke of {row.stroke_mm:.3g} mm is {row.stroke_mm / row.gap_mm:.2f} times the gap above "
        f"the tips. One row of {row.led.full_angle_deg:g} deg LEDs lights {limit:.2f} times the gap to "
        f"evenness {row.evenness:g}; here it reaches {best} between white walls, however many LEDs it has: "
        "the edges stay dark.",
        value=row.stroke_mm / row.gap_mm,
        limit=limit,
        source="pocket-study",
        remedy=f"Take LEDs with a wider beam, make the pocket {depth} mm deep, or set two rows (not "
        "worked out here).",
    )
