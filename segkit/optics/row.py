"""The LEDs of one outline: how many, at which places, and what is to be said against them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from segkit.catalog.part import Led
from segkit.findings import Finding
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.optics import remedies
from segkit.optics.own_places import own_pattern, place_findings
from segkit.optics.patterns import Pattern, crowded, room_for
from segkit.optics.photometry import lobe_exponent
from segkit.optics.pocket import Pocket
from segkit.optics.search import MOST_LEDS, best_layout, rows_allowed
from segkit.optics.stations import ROOM_AROUND_MM, Bay, bay_of

#: LEDs that small builders start with; stands in where a pocket is too shallow to work the count out.
USUAL_COUNT = 3

#: A map that misses the evenness asked by no more than this is even enough: it is not known better.
_SURE = 0.005

_NOT_MODELLED = "LED bodies and holes, side lobes and spread in the sheet are not modelled."


@dataclass(frozen=True)
class Asked:
    """What the builder asks of the LEDs of one kind.

    Attributes:
        evenness: darkest over mean light.
        count: LEDs in an outline, or None to work it out.
        rows: 1 to 4, or None to work it out.
        places: own places, or None.
        least: LEDs in an outline that other kinds' brightness asks for.
        layer_mm: thickness of a layer of the light grid, or None.
    """

    evenness: float
    count: int | None = None
    rows: int | None = None
    places: tuple[Point, ...] | None = None
    least: int = 1
    layer_mm: float | None = None


@dataclass(frozen=True)
class Row:
    """The LEDs of one outline.

    Attributes:
        kind: ``Segment.kind``.
        bay: the outline in its own frame.
        stroke_mm: width across the axis.
        led: the part.
        pocket: depth and materials, in the light of the LED.
        exponent: m of the lobe.
        asked: by the builder.
        most: bodies that go in.
        pattern: where the LEDs stand.
        bound: the most even that any LEDs on such rows could make it; None where not asked for.
        needed: LEDs for even light alone.
    """

    kind: str
    bay: Bay
    stroke_mm: float
    led: Led
    pocket: Pocket
    exponent: float
    asked: Asked
    most: int
    pattern: Pattern
    bound: float | None
    needed: int

    @property
    def gap_mm(self) -> float:
        """Clear height above the tips."""
        return self.pocket.gap_mm

    @property
    def count(self) -> int:
        """LEDs in one outline."""
        return len(self.pattern.places)

    @property
    def most_rows(self) -> int:
        """Rows that were tried at most."""
        return rows_allowed(self.bay, rows=self.asked.rows, body_mm=self.led.body_mm)[-1]

    @property
    def chosen_by(self) -> Literal["search", "count", "places"]:
        """Who chose: the toolkit, or the builder by a count or by places."""
        if self.asked.places is not None:
            return "places"
        return "search" if self.asked.count is None else "count"

    @property
    def share_mm(self) -> float:
        """Length of segment to one LED of a row."""
        return self.bay.length_mm * self.pattern.rows / self.count

    @property
    def subject(self) -> str:
        """What findings call it."""
        return f"{self.kind} segments"


def lay_row(segment: Segment, *, led: Led, pocket: Pocket, asked: Asked) -> Row:
    """The LEDs in each outline of a segment: the fewest for the evenness asked, or as the builder says.

    Args:
        segment: from the board.
        led: catalogue row.
        pocket: the segment's outline in its own frame, with depth and materials.
        asked: count, rows, places, evenness.

    Raises:
        InputError: beam angle out of range, or a pocket that cannot be solved.

    Sources: pocket-study.
    """
    exponent, bay = lobe_exponent(led.full_angle_deg), bay_of(segment)
    allowed = rows_allowed(bay, rows=asked.rows, body_mm=led.body_mm)
    most = max(room_for(bay, rows=rows, body_mm=led.body_mm) for rows in allowed)
    pattern, bound, needed = _pattern(bay, pocket, exponent, led=led, asked=asked)
    return Row(
        kind=segment.kind,
        bay=bay,
        stroke_mm=segment.stroke_mm,
        led=led,
        pocket=pocket,
        exponent=exponent,
        asked=asked,
        most=most,
        pattern=pattern,
        bound=bound,
        needed=needed,
    )


def _pattern(
    bay: Bay, pocket: Pocket, exponent: float, *, led: Led, asked: Asked
) -> tuple[Pattern, float | None, int]:
    """Places, bound, and the LEDs that even light alone asks for."""
    if asked.places is not None:
        return own_pattern(asked.places), None, len(asked.places)
    if pocket.gap_mm <= 0:
        count = asked.count or (1 if bay.dot else USUAL_COUNT)
        return crowded(bay, total=count, body_mm=led.body_mm), None, count
    least, most = (asked.count, asked.count) if asked.count else (1, None)
    layout = best_layout(
        bay, pocket, exponent, body_mm=led.body_mm, evenness=asked.evenness, rows=asked.rows,
        least=least or 1, most=most,
    )  # fmt: skip
    needed = len(layout.pattern.places)
    if asked.count is None and asked.least > needed:
        layout = best_layout(
            bay, pocket, exponent, body_mm=led.body_mm, evenness=asked.evenness, rows=asked.rows,
            least=asked.least, most=asked.least,
        )  # fmt: skip
    return layout.pattern, layout.bound, needed


def row_findings(row: Row, *, evenness: float | None) -> tuple[Finding, ...]:
    """What is to be said against the LEDs: stops first.

    Args:
        row: the LEDs.
        evenness: of the solved map, darkest over mean; None where the diffuser does not go on.
    """
    found = [_too_shallow(row), _too_wide(row)]
    if row.chosen_by == "places":
        found += place_findings(
            row.pattern.places, subject=row.subject, bay=row.bay, stroke_mm=row.stroke_mm, led=row.led
        )
    else:
        found += [_too_many(row), _too_many_rows(row)]
    if evenness is not None and not any(one and one.level == "stop" for one in found):
        found.append(_uneven(row, evenness))  # what cannot be built is mended first
    return tuple(finding for finding in found if finding)


def _too_shallow(row: Row) -> Finding | None:
    if row.gap_mm > 0:
        return None
    return Finding(
        level="stop",
        code="led-above-diffuser",
        subject=row.subject,
        text=f"The LED's tip stands {row.led.tip_mm:g} mm above the back and the pocket is "
        f"{row.pocket.depth_mm:g} mm deep: the diffuser does not go on.",
        value=row.pocket.depth_mm,
        limit=row.led.tip_mm,
        unit="mm",
        source="arithmetic",
        remedy=f"Make the pocket deeper than {row.led.tip_mm:g} mm, by 10 mm or more: then its evenness can "
        "be worked out, and what would improve it.",
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
        f"needs {needed:g} mm; the {'dot' if row.bay.dot else 'stroke'} is {row.stroke_mm:.3g} mm wide.",
        value=row.stroke_mm,
        limit=needed,
        unit="mm",
        source="common-practice",
        remedy=f"Take a smaller LED, or {'larger dots (digit.point)' if row.bay.dot else 'a stroke'} of at "
        f"least {needed:g} mm.",
        holds=("back_board",),
    )


def _too_many(row: Row) -> Finding | None:
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


def _too_many_rows(row: Row) -> Finding | None:
    """Rows that were asked for and do not go in; the LEDs stand in fewer."""
    asked = row.asked.rows
    if asked is None or row.bay.dot or row.most_rows >= asked:
        return None
    fewer = f"{row.most_rows} row{'s' if row.most_rows > 1 else ''}"
    return Finding(
        level="caution",
        code="rows-do-not-fit",
        subject=row.subject,
        text=f"{asked} rows of LEDs of {row.led.body_mm:g} mm do not go side by side into a stroke of "
        f"{row.stroke_mm:.3g} mm; they were placed in {fewer}.",
        value=asked,
        limit=row.most_rows,
        source="arithmetic",
        remedy=f"Ask for {fewer}, or take smaller LEDs or a wider stroke.",
    )


def _uneven(row: Row, evenness: float) -> Finding | None:
    asked = row.asked.evenness
    if evenness >= asked - _SURE:
        return None
    would = remedies.remedies(
        remedies.Uneven(
            bay=row.bay, pocket=row.pocket, pattern=row.pattern, full_angle_deg=row.led.full_angle_deg,
            body_mm=row.led.body_mm, evenness=asked, rows=row.asked.rows, count=row.asked.count,
            own=row.chosen_by == "places", layer_mm=row.asked.layer_mm,
        )
    )  # fmt: skip
    return Finding(
        level="caution",
        code="uneven-light",
        subject=row.subject,
        text=f"{row.pattern.words[0].upper()}{row.pattern.words[1:]}; beam {row.led.full_angle_deg:g} deg, "
        f"pocket {row.pocket.depth_mm:g} mm deep: the darkest spot has {evenness:.2f} of the mean light, "
        f"{asked:g} is asked for. {_what_was_tried(row)}{_NOT_MODELLED}",
        value=evenness,
        limit=asked,
        source="pocket-study",
        remedy=would.sentence,
    )


def _what_was_tried(row: Row) -> str:
    """The bound where it lies below what is asked; otherwise how many LEDs were tried in vain."""
    if row.bound is None:
        return ""
    number = row.most_rows
    upto = "up to " if number > 1 and row.asked.rows is None else ""
    rows = "one row" if number == 1 else f"{upto}{number} rows"
    if row.bound < row.asked.evenness:
        return f"With {rows} of these LEDs, however many, no more than {row.bound:.2f} can be had here. "
    if row.asked.count:
        return f"Other places in {rows} were tried for the {row.asked.count} LEDs asked for: none does it. "
    return f"1 to {min(MOST_LEDS, row.most)} LEDs in {rows} were tried: none does it. "
