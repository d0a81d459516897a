"""What all pockets of a board share: LED, current, sheets and wishes; refused where they cannot be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from segkit.catalog.part import Led, Sheet
from segkit.errors import InputError, Problem
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.optics import diffuser as sheets
from segkit.optics import spacing
from segkit.optics.built import Built, pocket_of
from segkit.optics.glow import pockets_in_led_light
from segkit.optics.patterns import MOST_ROWS
from segkit.optics.photometry import led_flux, led_radiant_power, lobe_exponent, refuse_beam
from segkit.optics.pocket import Pocket
from segkit.optics.stations import bay_of


@dataclass(frozen=True)
class Fittings:
    """What all pockets of a board share.

    Attributes:
        led, current_a: part and current through one LED.
        depth_mm: from the back to the diffuser.
        walls, diffuser, front, reflector: sheets; no reflector: the back is like the walls.
        per_segment: LEDs in an outline, or None.
        rows: rows of LEDs, or None.
        evenness: darkest over mean, asked for.
        layer_mm: thickness of a layer of the light grid, or None.
    """

    led: Led
    current_a: float
    depth_mm: float
    walls: Sheet
    diffuser: Sheet
    front: Sheet | None
    reflector: Sheet | None
    per_segment: int | None
    rows: int | None
    evenness: float
    layer_mm: float | None

    def built(self, segment: Segment, places: tuple[Point, ...]) -> Built:
        """The pocket of a segment, with LEDs at places of its own frame."""
        return Built(
            kind=segment.kind,
            outline=bay_of(segment).outline,
            places=places,
            depth_mm=self.depth_mm,
            led=self.led,
            current_a=self.current_a,
            walls=self.walls,
            diffuser=self.diffuser,
            front=self.front,
            reflector=self.reflector,
        )

    def pocket(self, segment: Segment) -> Pocket:
        """The pocket of a segment in the light that its brightness follows: of the LEDs themselves."""
        built = self.built(segment, ())
        if sheets.excites(self.led, self.diffuser):
            return pockets_in_led_light(built)[1]
        return pocket_of(built)

    @property
    def front_unit(self) -> str:
        """Unit of the light on the back of the diffuser."""
        return "W/m2" if self._in_watts else "lx"

    @property
    def _in_watts(self) -> bool:
        return sheets.near_ultraviolet(self.led) or sheets.excites(self.led, self.diffuser)

    @property
    def light_of_one(self) -> float:
        """Light of one LED: lm, or W where it excites a sheet or cannot be seen."""
        per_led = led_radiant_power if self._in_watts else led_flux
        return per_led(self.led, current_a=self.current_a)


def refuse(fittings: Fittings) -> None:
    """Raise one InputError with all that cannot be about the fittings.

    Args:
        fittings: of the board.

    Raises:
        InputError: a value or sheet that cannot be, all faults at once.
    """
    problems: list[Problem] = []
    checks: tuple[Callable[[], object], ...] = (
        lambda: fittings.light_of_one,
        lambda: refuse_beam(lobe_exponent(fittings.led.full_angle_deg)),
        lambda: sheets.refuse_sheets(walls=fittings.walls, diffuser=fittings.diffuser, front=fittings.front),
        lambda: spacing.refuse_evenness(fittings.evenness),
    )
    for check in checks:
        try:
            check()
        except InputError as error:
            problems += [problem for problem in error.problems if problem not in problems]
    problems += _number_problems(fittings)
    if problems:
        raise InputError(problems)


def _number_problems(fittings: Fittings) -> list[Problem]:
    depth, count, rows = fittings.depth_mm, fittings.per_segment, fittings.rows
    problems = []
    if not 0 < depth <= 1000:
        limit = "above 0, up to 1000 mm"
        problems.append(Problem("no depth of a pocket.", key="depth", value=f"{depth:g} mm", limit=limit))
    if count is not None and not 1 <= count <= 500:
        limit = '1 to 500, or "auto"'
        problems.append(Problem("no number of LEDs.", key="per_segment", value=f"{count}", limit=limit))
    if rows is not None and not 1 <= rows <= MOST_ROWS:
        limit = f'1 to {MOST_ROWS}, or "auto"'
        problems.append(Problem("no number of rows.", key="rows", value=f"{rows}", limit=limit))
    back = fittings.reflector
    if back is not None and not 0 <= back.reflectance < 1:
        problems.append(
            Problem("no reflectance.", key="reflector", value=f"{back.reflectance:g}", limit="0 to below 1")
        )
    return problems
