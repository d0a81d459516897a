"""One digit: seven segments and its point, in the digit's own frame.

Frame: origin at the lower left of the digit box before the slant, y up, mm. The slant is a shear about
the baseline, ``x + y*tan(slant)``, so heights, horizontal lengths and areas stay.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit.errors import InputError, Problem, nearest
from segkit.geometry.corner import PullBacks, crossbar_pull_back, pull_backs
from segkit.geometry.polygon import Outline, Point, circle, distances, rotate, shear, translate
from segkit.geometry.segment import ENDS, LARGEST_SLANT_DEG, SHORTEST, segment_outline
from segkit.units import plain_number

#: Pairs of segments that face each other across a gap.
JOINTS = (("a", "b"), ("a", "f"), ("b", "g"), ("c", "g"), ("c", "d"), ("d", "e"), ("e", "g"), ("f", "g"))
#: Uprights with blunt ends face each other in the middle of the digit too.
BLUNT_JOINTS = (*JOINTS, ("b", "c"), ("e", "f"))
CROSSBARS = ("a", "d", "g")
SAME_PIECE_MM = 0.05
NEARLY_ONE_PIECE = 0.02  # of the width


@dataclass(frozen=True)
class DigitShape:
    """What a digit looks like; all lengths in mm.

    Attributes:
        height_mm, width_mm: outer size before the slant, over the outer edges of the strokes.
        stroke_mm: width of a segment.
        gap_mm: clear distance between facing edges of neighbouring segments, as measured after the slant.
        ends: ``pointed``, ``rounded``, or ``blunt``: square uprights of full height, crossbars between.
        slant_deg: lean to the right, 0 for upright.
        point_mm: diameter of a point or colon dot.
    """

    height_mm: float
    width_mm: float
    stroke_mm: float
    gap_mm: float
    ends: str
    slant_deg: float
    point_mm: float


Placed = tuple[Outline, tuple[Point, Point]]


def one_piece_width(*, height_mm: float, stroke_mm: float, gap_mm: float, ends: str) -> float:
    """Digit width [mm] at which all seven segments of an upright digit are the same piece.

    Pointed and rounded: ``W - T = (H - T)/2``, so ``W = (H + T)/2``. Blunt: the crossbar
    ``W - 2*T - 2*gap`` is as long as the upright ``(H - gap)/2``, so ``W = (H + 3*gap)/2 + 2*T``.
    Sources: arithmetic.

    Example:
        >>> [one_piece_width(height_mm=300, stroke_mm=42, gap_mm=5, ends=ends) for ends in ENDS]
        [171.0, 241.5, 171.0]
    """
    if ends == "blunt":
        return (height_mm + 3 * gap_mm) / 2 + 2 * stroke_mm
    return (height_mm + stroke_mm) / 2


def one_piece_width_of(shape: DigitShape) -> float:
    """``one_piece_width`` for the height, stroke, gap and ends of a shape."""
    return one_piece_width(
        height_mm=shape.height_mm, stroke_mm=shape.stroke_mm, gap_mm=shape.gap_mm, ends=shape.ends
    )


def digit_outlines(shape: DigitShape) -> dict[str, Placed]:
    """Outline and axis of segments a to g in the digit's frame, slanted.

    Args:
        shape: lengths above 0 mm, slant -30 to 30 deg.

    Returns:
        by segment letter: the outline, counter-clockwise, and its centre line from left to right or from
        bottom to top. Every joint measures the gap to 0.0001 mm, every other pair at least as much.

    Raises:
        InputError: the shape is impossible; names every fault.

    Sources: arithmetic.

    Example:
        >>> outline, axis = digit_outlines(DigitShape(300, 165, 42, 5, "blunt", 0, 42))["d"]
        >>> [round(x, 2) for x, _ in axis], axis[0][1]
        ([47.0, 118.0], 21.0)
    """
    problems = shape_problems(shape)
    if problems:
        raise InputError(problems)
    return _placed(shape, shape_pull_backs(shape))


def _placed(shape: DigitShape, backs: PullBacks) -> dict[str, Placed]:
    half, height, width = shape.stroke_mm / 2, shape.height_mm, shape.width_mm
    levels = {"d": half, "g": height / 2, "a": height - half}
    across, rise = bar_lengths(shape, backs)
    flat = segment_outline(length_mm=across, stroke_mm=shape.stroke_mm, ends=shape.ends)
    upright = rotate(
        segment_outline(length_mm=rise, stroke_mm=shape.stroke_mm, ends=shape.ends), angle_deg=90
    )
    middles = {name: (flat, (across / 2, 0.0), (width / 2, y)) for name, y in levels.items()}
    for name, x, below in (
        ("b", width - half, "g"),
        ("c", width - half, "d"),
        ("e", half, "d"),
        ("f", half, "g"),
    ):
        foot, _ = getattr(backs, name)
        middles[name] = (upright, (0.0, rise / 2), (x, levels[below] + foot + rise / 2))
    placed: dict[str, Placed] = {}
    for name in "abcdefg":
        outline, (dx, dy), (x, y) = middles[name]
        leant = shear(translate(outline, dx_mm=x, dy_mm=y), slant_deg=shape.slant_deg)
        one, other = shear(((x - dx, y - dy), (x + dx, y + dy)), slant_deg=shape.slant_deg)
        placed[name] = (leant, (one, other))
    return placed


def shape_pull_backs(shape: DigitShape) -> PullBacks:
    """The pull-backs of a shape, see ``corner.pull_backs``."""
    return pull_backs(
        stroke_mm=shape.stroke_mm, gap_mm=shape.gap_mm, ends=shape.ends, slant_deg=shape.slant_deg
    )


def bar_lengths(shape: DigitShape, backs: PullBacks) -> tuple[float, float]:
    """Length of a crossbar, and of an upright before the slant [mm]."""
    across = shape.width_mm - shape.stroke_mm - 2 * backs.crossbar_mm
    return across, (shape.height_mm - shape.stroke_mm) / 2 - sum(backs.e)


def is_one_piece(shape: DigitShape) -> bool:
    """Whether crossbars and uprights are the same piece: no slant, and lengths equal to 0.05 mm."""
    return shape.slant_deg == 0 and abs(shape.width_mm - one_piece_width_of(shape)) <= SAME_PIECE_MM


def joints_of(ends: str) -> tuple[tuple[str, str], ...]:
    """Pairs of segments that are one gap apart: eight, with blunt ends ten."""
    return BLUNT_JOINTS if ends == "blunt" else JOINTS


def joint_gaps(placed: Mapping[str, Placed], *, ends: str) -> dict[str, float]:
    """Measured clear distance [mm] in each joint, such as ``ab`` between a and b."""
    joints = joints_of(ends)
    widths = distances([(placed[one][0], placed[other][0]) for one, other in joints])
    return {one + other: width for (one, other), width in zip(joints, widths, strict=True)}


def point_centre(shape: DigitShape) -> Point:
    """Centre of the point, to the lower right of the digit.

    It stands on the baseline, its edge one gap away from the digit box, measured square to the slanted
    side; so it is at least one gap from c and d.

    Example:
        >>> point_centre(DigitShape(300, 165, 42, 5, "pointed", 0, 40))
        (190.0, 20.0)
    """
    radius = shape.point_mm / 2
    slant = math.radians(shape.slant_deg)
    return shape.width_mm + (shape.gap_mm + radius) / math.cos(slant) + radius * math.tan(slant), radius


def colon_heights(shape: DigitShape) -> tuple[float, float]:
    """Heights of the two colon dots: the middles of the lower and the upper opening of the digit.

    ``(H + T)/4`` and ``(3*H - T)/4``, between a quarter and a third from either end for a usual stroke.

    Example:
        >>> colon_heights(DigitShape(300, 165, 42, 5, "pointed", 0, 40))
        (85.5, 214.5)
    """
    return (shape.height_mm + shape.stroke_mm) / 4, (3 * shape.height_mm - shape.stroke_mm) / 4


def dot(shape: DigitShape, centre: Point) -> Placed:
    """Outline and axis of a point or colon dot; it stays round whatever the slant."""
    return circle(centre, diameter_mm=shape.point_mm), (centre, centre)


def small_shape_of(shape: DigitShape, *, ratio: float) -> DigitShape:
    """The shape of a small digit: all lengths times the ratio, but the gap kept.

    The gap is the web of board between two openings, which must survive the cutting at any size.
    """
    return replace(
        shape,
        height_mm=shape.height_mm * ratio,
        width_mm=shape.width_mm * ratio,
        stroke_mm=shape.stroke_mm * ratio,
        point_mm=shape.point_mm * ratio,
    )


def shape_problems(shape: DigitShape) -> tuple[Problem, ...]:
    """Everything that makes the shape impossible; empty for a shape that can be drawn."""
    return _single_problems(shape) or _room_problems(shape)


def _single_problems(shape: DigitShape) -> tuple[Problem, ...]:
    problems = []
    for name in ("height", "width", "stroke", "gap", "point"):
        value = getattr(shape, f"{name}_mm")
        if not 0 < value < math.inf:
            text = f"the {name} must be above 0."
            problems.append(Problem(text, key=f"digit.{name}", value=_mm(value), remedy="Give a real size."))
    if not abs(shape.slant_deg) <= LARGEST_SLANT_DEG:
        text = "more lean than a digit can be read with."
        limit = f"-{LARGEST_SLANT_DEG:g} deg to {LARGEST_SLANT_DEG:g} deg"
        value = f"{plain_number(shape.slant_deg)} deg"
        remedy = "8 to 12 deg is the usual lean."
        problems.append(Problem(text, key="digit.slant", value=value, limit=limit, remedy=remedy))
    if shape.ends not in ENDS:
        value, limit = f'"{shape.ends}"', ", ".join(ENDS)
        remedy = nearest(shape.ends, ENDS)
        problems.append(Problem("no such ends.", key="digit.ends", value=value, limit=limit, remedy=remedy))
    return tuple(problems)


def _room_problems(shape: DigitShape) -> tuple[Problem, ...]:
    backs = shape_pull_backs(shape)
    across, rise = bar_lengths(shape, backs)
    bare = 2 * crossbar_pull_back(stroke_mm=shape.stroke_mm, gap_mm=0.0, ends=shape.ends, slant_deg=0.0)
    bare_upright = -shape.stroke_mm / 2 if shape.ends == "blunt" else bare
    problems = [
        *_bar_problems(
            shape, "width", length_mm=across, without_gap_mm=across + 2 * backs.crossbar_mm - bare
        ),
        *_bar_problems(shape, "height", length_mm=rise, without_gap_mm=rise + sum(backs.e) - bare_upright),
        *_wide_gap_problems(shape),
    ]
    low, high = colon_heights(shape)
    if high - low < shape.point_mm + shape.gap_mm:
        text = f"two dots of {_mm(shape.point_mm)} do not fit above each other as a colon."
        limit = f"up to {_mm(max(0.0, high - low - shape.gap_mm))}"
        remedy = "Use a dot about as large as the stroke."
        problems.append(
            Problem(text, key="digit.point", value=_mm(shape.point_mm), limit=limit, remedy=remedy)
        )
    return tuple(problems)


def _wide_gap_problems(shape: DigitShape) -> list[Problem]:
    """Whether the middle crossbar with blunt ends still faces the uprights above and below their gap.

    Its end is ``T`` high, the gap between the uprights ``gap``, and a slant shifts the one against the
    other by ``gap*sin(slant)`` on either side.
    """
    widest = shape.stroke_mm / (1 + 2 * math.sin(math.radians(abs(shape.slant_deg))))
    if shape.ends != "blunt" or shape.gap_mm <= widest:
        return []
    text = "with blunt ends the middle crossbar would stand in the gap between the uprights."
    limit, remedy = f"up to {_mm(widest)}", "Make the gap narrower or the stroke wider."
    return [Problem(text, key="digit.gap", value=_mm(shape.gap_mm), limit=limit, remedy=remedy)]


def _bar_problems(shape: DigitShape, size: str, *, length_mm: float, without_gap_mm: float) -> list[Problem]:
    """Whether the stroke alone, or the gap, leaves the bars along that size shorter than their ends."""
    shortest = SHORTEST[shape.ends] * shape.stroke_mm
    if length_mm > shortest:
        return []
    bars, outer = {"width": ("crossbars", shape.width_mm), "height": ("uprights", shape.height_mm)}[size]
    if without_gap_mm <= shortest:
        text = (
            f"at a stroke of {_mm(shape.stroke_mm)} the {bars} of a digit with {size} {_mm(outer)} "
            f"would be {_mm(max(0.0, without_gap_mm))} long before any gap; {shape.ends} ends need more than "
            f"{_mm(shortest)}."
        )
        remedy = f"Make the stroke narrower or the {size} larger; 1/6 to 1/12 of the height reads well."
        return [Problem(text, key="digit.stroke", value=_mm(shape.stroke_mm), remedy=remedy)]
    text = (
        f"the gap shortens the {bars} from {_mm(without_gap_mm)} to {_mm(max(0.0, length_mm))}; "
        f"{shape.ends} ends need more than {_mm(shortest)}."
    )
    remedy = f"Make the gap narrower, or the {size} larger."
    return [Problem(text, key="digit.gap", value=_mm(shape.gap_mm), remedy=remedy)]


def _mm(value: float) -> str:
    return f"{plain_number(value, 4)} mm"
