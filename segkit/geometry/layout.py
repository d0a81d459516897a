"""The layout text read into marks, and the marks set in a row.

The row is measured along the baseline with the slant taken out (a point at height y stands ``y*tan(slant)``
further right), so that every digit is an upright box and every clear distance, asked for square to the
slanted sides, counts ``1/cos(slant)`` times.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.errors import Problem
from segkit.geometry.digit import DigitShape, colon_heights, point_centre

#: What a layout is made of: a digit, a small digit, a point after a digit, a colon, half a digit of space.
LAYOUT_MARKS = {"8": "digit", "o": "small digit", ".": "point", ":": "colon", " ": "space"}
MOST_DIGITS = 200
_DIGITS = "8o"


@dataclass(frozen=True)
class Place:
    """One mark in the row.

    Attributes:
        mark: ``8``, ``o``, ``.`` or ``:``.
        digit: number of the digit it belongs to, from 1.
        shape: shape of that digit.
        left_mm, right_mm: what it takes on the baseline, slant taken out.
    """

    mark: str
    digit: int
    shape: DigitShape
    left_mm: float
    right_mm: float


@dataclass(frozen=True)
class Row:
    """The marks in a row.

    Attributes:
        places: from left to right; blanks hold no place.
        boxes_mm: widths of all digit boxes together.
        blanks_mm: width of all blanks together.
        clear_mm: clear distances and dot diameters together, square to the slanted sides.
    """

    places: tuple[Place, ...]
    boxes_mm: float
    blanks_mm: float
    clear_mm: float

    @property
    def length_mm(self) -> float:
        """Length on the baseline, slant taken out."""
        return self.places[-1].right_mm


def layout_problems(layout: str) -> tuple[Problem, ...]:
    """Everything that is wrong with a layout text, each with its place; empty when it can be set.

    Example:
        >>> [str(problem) for problem in layout_problems("8..")]
        ['display.layout = "8..": a second point after digit 1 (mark 3). Write one point after a digit.']
    """
    faults: list[tuple[str, str]] = [*_unknown(layout), *_strays(layout)]
    digits = sum(_meant_as_digit(mark) for mark in layout)
    if digits == 0:
        faults.append(("there is no digit in it.", "Write an 8 for each digit, such as 88:88."))
    if digits > MOST_DIGITS:
        faults.append((f"{digits} digits are too many for one board.", f"Use up to {MOST_DIGITS}."))
    if digits and layout != layout.strip(" "):
        remedy = "Leave it out; the margin is set by digit.margin."
        faults.append(("a blank at the start or the end only widens the board.", remedy))
    value = f'"{_shown(layout if len(layout) <= 60 else layout[:57] + "...")}"'
    return tuple(Problem(text, key="display.layout", value=value, remedy=remedy) for text, remedy in faults)


def _shown(text: str) -> str:
    """The text with tabs, line ends and the like written out."""
    return text if text.isprintable() else text.encode("unicode_escape").decode("ascii")


def _meant_as_digit(mark: str) -> bool:
    """A numeral is no mark, but stands where a digit was meant; that fault is told once."""
    return mark in _DIGITS or mark.isdigit()


def _unknown(layout: str) -> list[tuple[str, str]]:
    unknown = list(dict.fromkeys(mark for mark in layout if mark not in LAYOUT_MARKS))
    if not unknown:
        return []
    marks = ", ".join(f'"{_shown(mark)}" (mark {layout.index(mark) + 1})' for mark in unknown[:5])
    more = f" and {len(unknown) - 5} more" if len(unknown) > 5 else ""
    if any(mark.isdigit() for mark in unknown):
        remedy = "Write an 8 for each digit: the layout holds places, not the number shown."
    elif set(unknown) & set("ODB"):
        remedy = "Write 8 for a digit, a small letter o for a small one."
    else:
        remedy = "Use 8 a digit, o a small digit, . a point after a digit, : a colon, a blank for space."
    return [(f"no such mark: {marks}{more}.", remedy)]


def _strays(layout: str) -> list[tuple[str, str]]:
    """Points and colons that no digit can carry."""
    faults: list[tuple[str, str]] = []
    digit, taken, before = 0, "", ""
    for number, mark in enumerate(layout, start=1):
        if _meant_as_digit(mark):
            digit, taken = digit + 1, ""
        elif mark in ".:":
            name = LAYOUT_MARKS[mark]
            if digit == 0:
                faults.append(
                    (f"the {name} (mark {number}) has no digit to its left.", "Start with a digit.")
                )
            elif mark in taken:
                text = f"a second {name} after digit {digit} (mark {number})."
                faults.append((text, f"Write one {name} after a digit."))
            elif mark == "." and not _meant_as_digit(before):
                text = f"the point (mark {number}) does not stand right after a digit."
                faults.append((text, f"Put it right after digit {digit}."))
            taken += mark
        before = mark
    return faults


def row_of(layout: str, *, shape: DigitShape, small: DigitShape, spacing_mm: float) -> Row:
    """The layout set from left to right.

    Args:
        layout: a text without ``layout_problems``.
        shape: of the digits written 8.
        small: of the digits written o.
        spacing_mm: clear distance between two digits, square to their slanted sides. A colon has
            half of it on either side (at least a gap), so that it adds its own diameter; a point
            stands one gap from its digit and at least one from the next; a blank adds half the
            width of the digit to its left.

    Sources: arithmetic.
    """
    cos = math.cos(math.radians(shape.slant_deg))
    places: list[Place] = []
    boxes = blanks = clear = blank = 0.0
    for mark in layout:
        if mark == " ":
            blank += places[-1].shape.width_mm / 2
            continue
        owner = {"8": shape, "o": small}.get(mark) or places[-1].shape
        if mark == ".":  # stands close to its digit, in front of any blank
            clearance, size = owner.gap_mm, owner.point_mm
        else:
            clearance = _clear_before(mark, places, spacing_mm) if places else 0.0
            size = owner.point_mm if mark == ":" else owner.width_mm * cos
        left = (places[-1].right_mm if places else 0.0) + clearance / cos + blank
        digit = (places[-1].digit if places else 0) + (mark in _DIGITS)
        places.append(Place(mark, digit, owner, left, left + size / cos))
        boxes += owner.width_mm if mark in _DIGITS else 0.0
        clear += clearance + (0.0 if mark in _DIGITS else owner.point_mm)
        blanks, blank = blanks + blank, 0.0
    return Row(tuple(places), boxes, blanks, clear)


def _clear_before(mark: str, places: list[Place], spacing_mm: float) -> float:
    """Clear distance from the last place to a digit or colon, square to the slanted sides."""
    last, gap = places[-1], places[-1].shape.gap_mm
    beside = max(gap, spacing_mm / 2)
    if last.mark == ":":
        return beside
    wanted = beside if mark == ":" else spacing_mm
    if last.mark == ".":  # the point may stand in the space there is between the digits
        return max(gap, wanted - gap - last.shape.point_mm)
    return wanted


def dot_centres(place: Place) -> tuple[tuple[float, float], ...]:
    """Centres of the point, or of the two dots of a colon, on the row with its slant."""
    lean = math.tan(math.radians(place.shape.slant_deg))
    middle = (place.left_mm + place.right_mm) / 2
    heights = (point_centre(place.shape)[1],) if place.mark == "." else colon_heights(place.shape)
    return tuple((middle + lean * y, y) for y in heights)


def reach(row: Row) -> tuple[float, float]:
    """Leftmost and rightmost x of all digit boxes and dots, with their slant [mm]."""
    lefts: list[float] = []
    rights: list[float] = []
    for place in row.places:
        lean = math.tan(math.radians(place.shape.slant_deg)) * place.shape.height_mm
        radius = place.shape.point_mm / 2
        if place.mark in _DIGITS:
            lefts.append(place.left_mm + min(0.0, lean))
            rights.append(place.right_mm + max(0.0, lean))
        else:
            lefts += [x - radius for x, _ in dot_centres(place)]
            rights += [x + radius for x, _ in dot_centres(place)]
    return min(lefts), max(rights)
