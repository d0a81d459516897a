"""The working of the LEDs of one outline: count, pitch, evenness, and the rules they are compared with."""

from __future__ import annotations

import math

from segkit.optics import spacing
from segkit.optics.built import SOLVED_NOTE, named
from segkit.optics.front_map import FrontMap
from segkit.optics.photometry import beam_width
from segkit.optics.row import Row
from segkit.working import Given, Line

_BESIDE_A_WALL = "less sure beside an LED that is nearer than a quarter of the stroke to a wall"

_ROW_NOTE = "a rule to compare with, not used: endless row under a flat sheet, without walls and ends"


def row_lines(
    row: Row, *, outlines: int, front: FrontMap, front_unit: str, per_value: float
) -> tuple[Line, ...]:
    """Working of count, pitch and evenness.

    Args:
        row: with a clear height above 0.
        outlines: outlines in a segment: 1, or 2 for a colon.
        front: the solved map.
        front_unit: ``lx``, or ``W/m2`` for LEDs outside the visible.
        per_value: light on the diffuser, in that unit, for a map value of 1.
    """
    gap = Given("g", row.gap_mm, "mm", "clear height above the tips")
    depth = Given("D", row.pocket.depth_mm, "mm", "depth")
    tip = Given("h", row.led.tip_mm, "mm", "height of the tip")
    limit = spacing.pitch_limit(evenness=row.asked.evenness, exponent=row.exponent)
    return (
        Line(
            named("gap", row.kind), "clear height from tip to diffuser", "g", row.gap_mm, "mm", "D - h",
            (depth, tip), "arithmetic",
        ),
        _count_line(row, outlines=outlines),
        *_pitch_lines(row),
        *_evenness_lines(row, front, unit=front_unit, per_value=per_value),
        Line(
            named("pitch_limit", row.kind),
            f"largest pitch for evenness {row.asked.evenness:g} in an endless row",
            "p_max", limit * row.gap_mm, "mm", "k*g",
            (Given("k", limit, "", "pitch over gap at which an endless row is that even"), gap),
            "moreno-2006", _ROW_NOTE,
        ),
        Line(
            named("flat_pitch", row.kind), "published flat-spot pitch, to compare with", "p_flat",
            spacing.flat_line_spacing(row.exponent) * row.gap_mm, "mm", "g*sqrt(3.2773/(m + 5.2539))",
            (gap, Given("m", row.exponent, "", "exponent of the lobe")), "moreno-2006",
            "not used for the count: it asks for evenness of 0.99 and more",
        ),
        *_box_lines(row, gap=gap, depth=depth),
    )  # fmt: skip


def _box_lines(row: Row, *, gap: Given, depth: Given) -> tuple[Line, ...]:
    """The rules of light boxes, beside the solved map."""
    full = row.led.full_angle_deg
    share = Given("p", row.share_mm, "mm", "length of segment to one LED of a row")
    flattest, deepest = spacing.depth_range(row.share_mm)
    return (
        Line(
            named("pitch_over_depth", row.kind), "pitch over depth, the light-box rule", "r",
            row.share_mm / row.pocket.depth_mm, "", "p/D", (share, depth), "light-box-practice",
            "common practice is 1 to 1.5 for 120 degree modules, which asks for "
            f"{flattest:.3g} to {deepest:.3g} mm deep at this pitch; narrow beams need a smaller pitch",
        ),
        Line(
            named("spot", row.kind), "width of one LED's half-intensity cone on the diffuser", "s",
            beam_width(gap_mm=row.gap_mm, full_angle_deg=full), "mm", "2*g*tan(radians(a/2))",
            (gap, Given("a", full, "deg", "full angle at half intensity")), "arithmetic",
            f"{beam_width(gap_mm=row.gap_mm, full_angle_deg=full) / row.share_mm:.2g} pitches wide: cones "
            "that overlap blend",
        ),
    )  # fmt: skip


def _count_line(row: Row, *, outlines: int) -> Line:
    many = Given("N", outlines, "", "outlines in a segment")
    inputs: tuple[Given, ...]
    if row.chosen_by == "search":
        formula, source, note = (
            "N*max(n_even, n_equal)",
            "pocket-study",
            f"{row.pattern.words}; {SOLVED_NOTE}",
        )
        even = f"fewest whose solved map reaches evenness {row.asked.evenness:g}, or comes nearest to it"
        inputs = (
            many,
            Given("n_even", row.needed, "", even),
            Given("n_equal", row.asked.least, "", "fewest for which all kinds are about equally bright"),
        )
    else:
        formula, source, note = "N*n", "design-choice", row.pattern.words
        inputs = (many, Given("n", row.count, "", "LEDs in one outline, as asked"))
    return Line(
        named("leds", row.kind), "LEDs in one segment", "n", outlines * row.count, "", formula, inputs,
        source, note,
    )  # fmt: skip


def _pitch_lines(row: Row) -> tuple[Line, ...]:
    """The pitch in the longest row or around the ring; nothing for one LED or for own places."""
    if row.chosen_by == "places" or not row.pattern.pitch_mm:
        return ()
    places = row.pattern.places
    if row.bay.dot:
        radius = (places[0][0] ** 2 + places[0][1] ** 2) ** 0.5
        around = sum(1 for x, y in places if x or y)
        formula, reach = "2*a*sin(pi/n)", Given("a", radius, "mm", "radius of the ring")
        count = Given("n", around, "", "LEDs around the ring")
        value = 2 * radius * math.sin(math.pi / around)
    else:
        longest = max(
            (sorted(x for x, y in places if y == row_y) for row_y in {y for _, y in places}), key=len
        )
        formula, reach = "s/(n - 1)", Given("s", longest[-1] - longest[0], "mm", "first to last LED of a row")
        count = Given("n", len(longest), "", "LEDs in the longest row")
        value = reach.value / (count.value - 1)
    return (
        Line(
            named("pitch", row.kind), "distance between neighbours", "p", value, "mm", formula,
            (reach, count), "arithmetic", f"{row.pattern.words}; searched for the most even light",
        ),
    )  # fmt: skip


def _evenness_lines(row: Row, front: FrontMap, *, unit: str, per_value: float) -> tuple[Line, ...]:
    mean = front.mean * per_value
    middle = Given("E_mean", mean, unit, "mean over the cells of the map, its rim left out")
    edge = f"cells of {front.pitch_mm:g} mm, {front.inset_mm:g} mm or more from the edge"
    return (
        Line(
            named("evenness", row.kind), "darkest over mean light on the diffuser", "U", front.evenness, "",
            "E_min/E_mean", (Given("E_min", front.evenness * mean, unit, "darkest spot"), middle),
            "pocket-study", f"{edge}; {SOLVED_NOTE}; {_BESIDE_A_WALL}",
        ),
        Line(
            named("low_share", row.kind), "level that the darkest twentieth stays below, over the mean",
            "U_5", front.low_share, "", "E_5/E_mean",
            (Given("E_5", front.low_share * mean, unit, "light that 5 % do not reach"), middle),
            "pocket-study", edge,
        ),
    )  # fmt: skip
