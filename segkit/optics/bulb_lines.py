"""The working of a board of push-in bulbs: intensity towards the reader, count, pitch, luminance."""

from __future__ import annotations

from segkit.geometry.board import Segment
from segkit.optics.built import lowest_of, named
from segkit.optics.dots import Bulbs
from segkit.optics.lamp import led_lines
from segkit.optics.photometry import led_flux
from segkit.working import Given, Line

_TOWARDS = "intensity of one bulb towards the reader"
_COSINES = "cos(radians(h))*cos(radians(v))"


def board_lines(bulbs: Bulbs) -> tuple[Line, ...]:
    """Working that all segments share: the lobe, the intensity on the axis and towards the reader, the face.

    Args:
        bulbs: of the board.
    """
    lobe = led_lines(bulbs.led, current_a=bulbs.current_a)[0]
    towards = Line(
        "optics.intensity", _TOWARDS, "I", bulbs.towards_cd, "cd", f"Ia*({_COSINES})**m",
        (
            Given("Ia", bulbs.axis_cd, "cd", "on the axis"),
            Given("m", bulbs.exponent, "", "exponent of the lobe"),
            *_direction(bulbs),
        ),
        "moreno-2006", "side lobes of domed bulbs are not modelled",
    )  # fmt: skip
    unlit = Line(
        "optics.unlit_reflectance", "reflectance of an unlit segment: that of the face", "R_off",
        bulbs.unlit_reflectance, "", "T**2*rho",
        (
            Given("T", bulbs.signal, "", "transmission of the front, 1 for none"),
            Given("rho", bulbs.face.reflectance, "", f"reflectance of {bulbs.face.name}"),
        ),
        bulbs.face.source, "the bodies of the bulbs are small beside it and left out",
    )  # fmt: skip
    return lobe, _axis_line(bulbs), towards, unlit


def _direction(bulbs: Bulbs) -> tuple[Given, ...]:
    return (
        Given("h", bulbs.angle_deg, "deg", "of the reader to the side"),
        Given("v", bulbs.vertical_angle_deg, "deg", "of the reader above or below"),
    )


def _axis_line(bulbs: Bulbs) -> Line:
    led, current_a = bulbs.led, bulbs.current_a
    given: tuple[Given, ...]
    if led.intensity_cd > 0 and led.intensity_current_a > 0:
        formula, source = "I0*J/Jt", led.source
        given = (
            Given("I0", led.intensity_cd, "cd", "at the current of the figure"),
            Given("J", current_a, "A", "current"),
            Given("Jt", led.intensity_current_a, "A", "current of the intensity figure"),
        )
    else:
        formula, source = "Phi*(m + 1)/(2*pi)", "cie-v-lambda"
        flux_lm = led_flux(led, current_a=current_a)
        given = (
            Given("Phi", flux_lm, "lm", "light of one, from its radiant power at this current"),
            Given("m", bulbs.exponent, "", "exponent of the lobe"),
        )
    return Line(
        "optics.axis_intensity", "intensity of one bulb on its axis", "Ia", bulbs.axis_cd, "cd", formula,
        given, source, "estimate: in proportion to the current; heat takes some of it at high current",
    )  # fmt: skip


def kind_lines(
    segment: Segment, bulbs: Bulbs, *, count: int, area_mm2: float, mean_cd_m2: float
) -> tuple[Line, ...]:
    """Working of one kind of segment: count, pitch, luminance and its low end.

    Args:
        segment: one of the kind.
        bulbs: of the board.
        count: bulbs in the segment.
        area_mm2: of its outlines together.
        mean_cd_m2: its mean luminance.
    """
    lowest, source = lowest_of(bulbs.led)
    luminance = Line(
        named("luminance", segment.kind), "mean luminance of the lit segment", "L", mean_cd_m2, "cd/m2",
        f"T*n*I/(A*{_COSINES})*1000000",
        (
            Given("T", bulbs.signal, "", "transmission of the front, 1 for none"),
            Given("n", count, "", "bulbs in a segment"),
            Given("I", bulbs.towards_cd, "cd", _TOWARDS),
            Given("A", area_mm2, "mm2", "area of the segment"),
            *_direction(bulbs),
        ),
        "luminance-definition", "spread over the area of the segment: seen from where the bulbs run together",
    )  # fmt: skip
    low = Line(
        named("luminance_low", segment.kind), "low end of the mean luminance", "L_low",
        lowest * mean_cd_m2, "cd/m2", "L*b",
        (
            Given("L", mean_cd_m2, "cd/m2", "expected mean luminance"),
            Given("b", lowest, "", "intensity of the dimmest bulbs against the typical one"),
        ),
        source,
    )  # fmt: skip
    return (*_row_lines(segment, count=count, pitch_mm=bulbs.pitch_mm), luminance, low)


def _row_lines(segment: Segment, *, count: int, pitch_mm: float) -> tuple[Line, ...]:
    name, title = named("leds", segment.kind), "bulbs in one segment"
    if count == len(segment.outlines):
        dots = Given("N", count, "", "dots, one bulb in each")
        return (Line(name, title, "n", count, "", "N", (dots,), "arithmetic"),)
    given = (
        Given("L", segment.length_mm, "mm", "length of the segment"),
        Given("T", segment.stroke_mm, "mm", "stroke: half of it is left free at either end"),
    )
    aimed, built = Given("p", pitch_mm, "mm", "pitch asked for"), Given("n", count, "", "bulbs")
    pitch = (segment.length_mm - segment.stroke_mm) / (count - 1)
    formula = "max(2, 1 + floor((L - T)/p + 0.5))"
    return (
        Line(name, title, "n", count, "", formula, (*given, aimed), "arithmetic"),
        Line(
            named("pitch", segment.kind), "distance between neighbours", "p", pitch, "mm",
            "(L - T)/(n - 1)", (*given, built), "arithmetic", f"{pitch_mm:g} mm was asked for",
        ),
    )  # fmt: skip
