"""One row of LEDs along a segment: how many, at which pitch, and what is to be said against it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Led
from segkit.findings import Finding
from segkit.geometry.board import Segment
from segkit.optics import spacing
from segkit.optics.built import named
from segkit.optics.photometry import lobe_exponent
from segkit.optics.stations import ROOM_AROUND_MM, Bay, bay_of, end_inset, most_leds, stations
from segkit.working import Given, Line

#: LEDs that small builders start with; stands in where a pocket is too shallow to work the count out.
USUAL_COUNT = 3

_ROW_NOTE = "estimate: endless row under a flat sheet; walls, ends and LED bodies are not modelled"


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
    lowest_fall, lowest_best = spacing.ONE_ROW_BEST[0]
    best = (
        f"at most about {spacing.one_row_best(fall):.2f}"
        if fall >= lowest_fall
        else f"less than {lowest_best}"
    )
    depth = math.ceil(row.led.tip_mm + row.gap_mm * row.stroke_mm / widest)
    return Finding(
        level="caution",
        code="wide-stroke",
        subject=row.subject,
        text=f"The stroke of {row.stroke_mm:.3g} mm is {row.stroke_mm / row.gap_mm:.2f} times the gap above "
        f"the tips. One row of {row.led.full_angle_deg:g} deg LEDs lights {widest / row.gap_mm:.2f} times the "
        f"gap to evenness {row.evenness:g}; here it reaches {best} between white walls, however many LEDs it "
        "has: the edges stay dark.",
        value=row.stroke_mm / row.gap_mm,
        limit=widest / row.gap_mm,
        source="pocket-study",
        remedy=f"Take LEDs with a wider beam, make the pocket {depth} mm deep, or set two rows (not worked out "
        "here).",
    )


def row_lines(row: Row, *, outlines: int) -> tuple[Line, ...]:
    """Working of count and pitch.

    Args:
        row: with a clear height above 0.
        outlines: outlines in a segment: 1, or 2 for a colon.
    """
    share = Given("p", row.share_mm, "mm", "length of segment to one LED")
    gap = Given("g", row.gap_mm, "mm", "clear height above the tips")
    low, mean = spacing.line_levels(pitch_over_gap=row.share_mm / row.gap_mm, exponent=row.exponent)
    depth, tip = (
        Given("D", row.depth_mm, "mm", "depth"),
        Given("h", row.led.tip_mm, "mm", "height of the tip"),
    )
    lines = [
        Line(
            named("gap", row.kind), "clear height from tip to diffuser", "g", row.gap_mm, "mm", "D - h",
            (depth, tip), "arithmetic",
        ),
        _limit_line(row, gap),
        _count_line(row, gap, outlines=outlines),
        Line(
            named("evenness", row.kind), "lowest over mean light along the row", "U",
            min(1.0, low / mean), "",
            "min(1, E_low/E_mean)",
            (
                Given("E_low", low, "", "half way between two LEDs, one LED's own = 1"),
                Given("E_mean", mean, "", "mean along the row"),
            ),
            "moreno-2006", _ROW_NOTE,
        ),
        Line(
            named("flat_pitch", row.kind), "published flat-spot pitch, to compare with", "p_flat",
            spacing.flat_line_spacing(row.exponent) * row.gap_mm, "mm", "g*sqrt(3.2773/(m + 5.2539))",
            (gap, Given("m", row.exponent, "", "exponent of the lobe")), "moreno-2006",
            "not used for the count: it asks for evenness of 0.99 and more",
        ),
        Line(
            named("pitch_over_depth", row.kind), "pitch over depth, the light-box rule", "r",
            row.share_mm / row.depth_mm, "", "p/D", (share, depth), "light-box-practice",
            "common practice is 1 to 1.5 for 120 degree modules; narrow beams need less",
        ),
    ]  # fmt: skip
    if row.count > 1:
        lines.insert(3, _pitch_line(row))
    return tuple(lines)


def _limit_line(row: Row, gap: Given) -> Line:
    return Line(
        name=named("pitch_limit", row.kind),
        title=f"largest pitch for evenness {row.evenness:g}",
        symbol="p_max",
        value=row.limit * row.gap_mm,
        unit="mm",
        formula="k*g",
        inputs=(Given("k", row.limit, "", "pitch over gap at which an endless row is that even"), gap),
        source="moreno-2006",
        note=_ROW_NOTE,
    )


def _count_line(row: Row, gap: Given, *, outlines: int) -> Line:
    many = Given("N", outlines, "", "outlines in a segment")
    if row.given:
        formula, source = "N*n", "design-choice"
        inputs: tuple[Given, ...] = (many, Given("n", row.count, "", "LEDs in one outline, as asked"))
    else:
        formula, source = "N*max(1, min(ceil(L/(k*g)), n_max))", "moreno-2006"
        inputs = (
            many,
            Given("L", row.bay.length_mm, "mm", "length of the axis"),
            Given("k", row.limit, "", "largest pitch over gap"),
            gap,
            Given("n_max", row.most, "", "bodies that go into one row"),
        )
    return Line(
        name=named("leds", row.kind),
        title="LEDs in one segment",
        symbol="n",
        value=outlines * row.count,
        unit="",
        formula=formula,
        inputs=inputs,
        source=source,
        note="" if row.given else _ROW_NOTE,
    )


def _pitch_line(row: Row) -> Line:
    return Line(
        name=named("pitch", row.kind),
        title="distance between neighbours",
        symbol="p",
        value=row.pitch_mm,
        unit="mm",
        formula="(L - 2*max(L/(2*n), s))/(n - 1)",
        inputs=(
            Given("L", row.bay.length_mm, "mm", "length of the axis"),
            Given("n", row.count, "", "LEDs in one outline"),
            Given("s", row.inset_mm, "mm", "least distance from the end that leaves room for the body"),
        ),
        source="arithmetic",
    )
