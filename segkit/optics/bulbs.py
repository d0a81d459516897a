"""Push-in bulbs: where they stand along a segment, and the light of a row that no box and no sheet covers."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from segkit.findings import Finding, in_order
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point, area
from segkit.optics.built import lowest_of
from segkit.optics.bulb_lines import board_lines, kind_lines
from segkit.optics.diffuser import near_ultraviolet
from segkit.optics.dots import Bulbs, Dots, dots_luminance
from segkit.optics.photometry import angle_note
from segkit.optics.placement import Lighting, compared


def bulb_count(segment: Segment, *, pitch_mm: float) -> int:
    """Bulbs in a segment: ``max(2, 1 + floor((L - T)/p + 0.5))``, one in each dot.

    Args:
        segment: with its length L and stroke T; the row ends half a stroke from either end.
        pitch_mm: distance that is aimed at, above 0.

    Sources: arithmetic.
    """
    if is_dot(segment):
        return len(segment.outlines)
    return max(2, 1 + math.floor((segment.length_mm - segment.stroke_mm) / pitch_mm + 0.5))


def bulb_row(segment: Segment, *, pitch_mm: float) -> tuple[tuple[Point, ...], ...]:
    """For each outline, where its bulbs stand: (along, across) the axis from its middle, evenly.

    Args:
        segment: a bar, or a dot with an axis of no length.
        pitch_mm: distance that is aimed at, above 0; the even pitch nearest to it is taken.

    Sources: arithmetic.

    Example:
        >>> bar = Segment(1, "g", "crossbar", (), (((0, 0), (100, 0)),), 100, 20)
        >>> bulb_row(bar, pitch_mm=19)
        (((-40.0, 0.0), (-20.0, 0.0), (0.0, 0.0), (20.0, 0.0), (40.0, 0.0)),)
    """
    if is_dot(segment):
        return (((0.0, 0.0),),) * len(segment.outlines)
    count, span = bulb_count(segment, pitch_mm=pitch_mm), segment.length_mm - segment.stroke_mm
    return (tuple((span * (number / (count - 1) - 0.5), 0.0) for number in range(count)),)


def is_dot(segment: Segment) -> bool:
    """Whether a segment is a point or a colon, whose axes have no length."""
    return all(math.dist(*axis) < 1e-9 for axis in segment.axes)


def light_bulbs(board: Board, bulbs: Bulbs) -> dict[str, Lighting]:
    """The light of every kind of segment of a board of push-in bulbs: ``L = T*N*I(a)/(A*cos(a))``.

    It is the mean over the segment's area, seen from where the bulbs run together. Evenness, efficiency and
    the light of unlit neighbours are those of a box; there is none, so they are None.

    Args:
        board: from the geometry.
        bulbs: what they are, and where the reader stands.

    Returns:
        kind to lighting, in order of first appearance; what holds for all stands with the first.

    Sources: luminance-definition, moreno-2006, led-bins.
    """
    lighted = {kind: _lit(members[0], bulbs) for kind, members in board.kinds().items()}
    first = next(iter(lighted))
    whole = lighted[first]
    lighted[first] = replace(
        whole, lines=(*board_lines(bulbs), *whole.lines), findings=in_order(_findings(bulbs))
    )
    return compared(lighted)


def _lit(segment: Segment, bulbs: Bulbs) -> Lighting:
    row = bulb_row(segment, pitch_mm=bulbs.pitch_mm)
    count = sum(len(each) for each in row)
    size_mm2 = sum(area(outline) for outline in segment.outlines)
    dots = Dots(bulbs.led.body_mm, bulbs.exponent, bulbs.off_axis_deg, size_mm2)
    mean = bulbs.signal * dots_luminance(
        intensity_cd=bulbs.towards_cd, count=count, area_mm2=size_mm2, off_axis_deg=bulbs.off_axis_deg
    )
    return Lighting(
        kind=segment.kind, led=bulbs.led.id, count=count, places_mm=row, rows=1,
        pitch_mm=row[0][1][0] - row[0][0][0] if len(row[0]) > 1 else 0.0, gap_mm=None,
        luminance_cd_m2=(lowest_of(bulbs.led)[0] * mean, mean, mean), evenness=None, low_share=None,
        front=None, efficiency=None, unlit_reflectance=bulbs.unlit_reflectance,
        lines=kind_lines(segment, bulbs, count=count, area_mm2=size_mm2, mean_cd_m2=mean), findings=(),
        dots=dots,
    )  # fmt: skip


def _findings(bulbs: Bulbs) -> Iterator[Finding]:
    led, off_deg = bulbs.led, bulbs.off_axis_deg
    if note := angle_note(led):
        yield note
    half = led.full_angle_deg / 2
    if off_deg > half + 1e-9:
        share = 100 * bulbs.towards_cd / bulbs.axis_cd
        yield Finding(
            "caution", "outside-beam", "lit segments",
            f"The reader stands {off_deg:.0f} degrees off the axis of the bulbs, outside their beam of "
            f"±{half:g} degrees: {share:.2g} % of the light on the axis goes there.",
            value=round(off_deg, 1), limit=half, unit="deg", source="moreno-2006",
            remedy=f"Take bulbs with a full angle of {math.ceil(2 * off_deg - 1e-6)} degrees or more, or "
            "turn the board.",
        )  # fmt: skip
    if near_ultraviolet(led):
        yield Finding(
            "caution", "bare-violet", "lit segments",
            f"Bare bulbs of {led.wavelength_nm:g} nm shine into the reader's eyes: dim to look at, not "
            "harmless, and with no sheet that could turn their light into a visible one.",
            value=led.wavelength_nm, unit="nm", source="iec-62471",
            remedy="Take bulbs of a colour, or light pockets with a fluorescent diffuser.",
        )  # fmt: skip
