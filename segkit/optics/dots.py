"""Bare lamps in a row: what they send towards a reader, and how that makes a luminance."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Led, Sheet
from segkit.errors import InputError, Problem
from segkit.optics.diffuser import through_front
from segkit.optics.photometry import intensity, led_flux, lobe_exponent


@dataclass(frozen=True)
class Bulbs:
    """What all segments of a board of push-in bulbs share.

    Attributes:
        led, current_a: the bulb and the current through one, A.
        pitch_mm: distance between neighbours that is aimed at.
        face: sheet that they stand in.
        front: tint over the whole face, or None.
        angle_deg, vertical_angle_deg: direction of the reader off the board's axis, 0 to 75.

    Raises:
        InputError: a bulb without light, a current or a pitch that cannot be.
    """

    led: Led
    current_a: float
    pitch_mm: float
    face: Sheet
    front: Sheet | None = None
    angle_deg: float = 0.0
    vertical_angle_deg: float = 0.0

    def __post_init__(self) -> None:
        if not self.pitch_mm > 0:
            text, given = "no pitch of bulbs.", f"{self.pitch_mm:g} mm"
            raise InputError(Problem(text, key="make.bulb_pitch", value=given, limit="above 0 mm"))
        led_flux(self.led, current_a=self.current_a)

    @property
    def exponent(self) -> float:
        """m of the lobe."""
        return lobe_exponent(self.led.full_angle_deg)

    @property
    def off_axis_deg(self) -> float:
        """Angle between the axis and the reader: ``acos(cos(h)*cos(v))``."""
        across, up = (math.cos(math.radians(a)) for a in (self.angle_deg, self.vertical_angle_deg))
        return math.degrees(math.acos(min(1.0, across * up)))

    @property
    def axis_cd(self) -> float:
        """Intensity of one on its axis: ``Phi*(m + 1)/(2*pi)``, the figure of the row scaled by current."""
        return led_flux(self.led, current_a=self.current_a) * (self.exponent + 1) / (2 * math.pi)

    @property
    def towards_cd(self) -> float:
        """Intensity of one towards the reader."""
        return intensity(axis_cd=self.axis_cd, angle_deg=self.off_axis_deg, exponent=self.exponent)

    @property
    def signal(self) -> float:
        """Share of the light that passes the front, 1 for none."""
        return through_front(self.front)[0]

    @property
    def unlit_reflectance(self) -> float:
        """Of an unlit segment, which is that of the face, through the front."""
        return through_front(self.front)[1] * self.face.reflectance


@dataclass(frozen=True)
class Dots:
    """A segment that is a row of bare lamps.

    Attributes:
        bulb_mm: diameter of a lamp's body.
        exponent: m of its lobe.
        off_axis_deg: direction that the luminance of the segment holds for.
        area_mm2: of the segment, all outlines together.
    """

    bulb_mm: float
    exponent: float
    off_axis_deg: float
    area_mm2: float

    def share_at(self, angle_deg: float) -> float:
        """Luminance in another direction over that in its own: ``(cos(a)/cos(a0))**(m - 1)``.

        The lobe takes away cos^m, the area that is seen shrinks by cos.

        Args:
            angle_deg: off the axis, 0 to below 90.

        Example:
            >>> round(Dots(5.0, 3.0, 0.0, 1000.0).share_at(60.0), 6)
            0.25
        """
        ratio = math.cos(math.radians(angle_deg)) / math.cos(math.radians(self.off_axis_deg))
        return float(ratio ** (self.exponent - 1))


def dots_luminance(*, intensity_cd: float, count: int, area_mm2: float, off_axis_deg: float) -> float:
    """Mean luminance [cd/m2] of a row of lamps, from where they run together: ``N*I/(A*cos(a))``.

    Args:
        intensity_cd: of one lamp towards the reader, cd.
        count: lamps.
        area_mm2: of the segment, mm2, above 0.
        off_axis_deg: direction of the reader, 0 to below 90.

    Sources: luminance-definition.

    Example:
        >>> dots_luminance(intensity_cd=0.25, count=4, area_mm2=5000.0, off_axis_deg=0.0)
        200.0
    """
    return count * intensity_cd / (area_mm2 * 1e-6 * math.cos(math.radians(off_axis_deg)))
