"""Screws through the whole stack: the next standard length that takes a nut, or wood behind the board."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.units import plain_number
from segkit.working import Given, Line

#: Nominal lengths of machine screws; source screw-lengths.
LENGTHS_MM = (
    6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120,
)  # fmt: skip
#: Lengths of wood screws in the shops; source common-practice.
WOOD_LENGTHS_MM = (16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 140, 160)
NUT_PER_MM = 1.8  # nut, two washers and two turns beyond, in diameters of the thread; source common-practice
BITE_PER_MM = 7.0  # of a wood screw in softwood, in diameters; source common-practice
LONGEST_PER_MM = 20  # longer screws than that, in diameters, are seldom in stock; source common-practice


@dataclass(frozen=True)
class Screw:
    """What goes through a fixing hole.

    Attributes:
        thread_mm: nominal diameter, the largest whole one that the hole lets pass.
        least_mm: shortest length that takes two washers and a nut.
        length_mm: the next standard length; of a rod, what to saw off.
        rod: whether no screw of that length is in the shops, so a threaded rod with a nut at each end is.
        wood_mm: the next standard length of a wood screw through the stack into a batten; 0 if none is sold.
    """

    thread_mm: int
    least_mm: float
    length_mm: int
    rod: bool
    wood_mm: int

    @property
    def name(self) -> str:
        """As asked for in a shop."""
        size = f"M{self.thread_mm} x {self.length_mm} mm"
        if self.rod:
            return f"Threaded rod {size}, stainless, with two nuts and two washers"
        return f"Machine screw {size}, stainless, with nut and two washers"


def screw_through(*, stack_mm: float, hole_mm: float) -> Screw:
    """The screw for a stack of sheets: at least ``s + 1.8*d``, then the next standard length.

    Args:
        stack_mm: thickness of all sheets together, 0 or more.
        hole_mm: diameter of the fixing holes, 1 or more.

    A rod has a nut at both ends and is cut to a whole millimetre.
    Sources: screw-lengths, common-practice.

    Example:
        >>> screw_through(stack_mm=56, hole_mm=4).name
        'Machine screw M4 x 65 mm, stainless, with nut and two washers'
    """
    thread = math.floor(hole_mm)
    least = stack_mm + NUT_PER_MM * thread
    longest = LONGEST_PER_MM * thread
    length = next((size for size in LENGTHS_MM if least <= size <= longest), 0)
    wood = next((size for size in WOOD_LENGTHS_MM if size >= stack_mm + BITE_PER_MM * thread), 0)
    sawn = math.ceil(stack_mm + 2 * NUT_PER_MM * thread)
    return Screw(thread, least, length or sawn, not length, wood)


def screw_line(screw: Screw, *, stack_mm: float) -> Line:
    """The shortest screw that takes a nut behind the stack.

    Args:
        screw: of ``screw_through``.
        stack_mm: thickness of all sheets together.

    Sources: screw-lengths, common-practice.
    """
    bought = plain_number(screw.length_mm)
    note = "nut, two washers and two turns beyond the nut take n diameters; " + (
        f"no screw is sold that long: saw a rod to {bought} mm"
        if screw.rod
        else f"next standard length {bought} mm"
    )
    return Line(
        "fabrication.screw", "shortest screw through the stack", "l", screw.least_mm, "mm", "s + n*d",
        (
            Given("s", stack_mm, "mm", "thickness of the stack"),
            Given("n", NUT_PER_MM, "", "nut and washers over the diameter"),
            Given("d", screw.thread_mm, "mm", "thread"),
        ),
        "screw-lengths", note,
    )  # fmt: skip
