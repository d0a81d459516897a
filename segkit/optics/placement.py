"""How many LEDs a segment gets, and where."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sheet
from segkit.errors import InputError, Problem
from segkit.findings import Finding, in_order
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point, area
from segkit.optics import diffuser as sheets
from segkit.optics import spacing
from segkit.optics.brightness import Brightness, brightness
from segkit.optics.built import Built
from segkit.optics.lamp import led_lines
from segkit.optics.photometry import angle_note, led_flux, led_radiant_power, lobe_exponent
from segkit.optics.pocket import ESTIMATE
from segkit.optics.row import Row, lay_row, row_findings
from segkit.optics.row_lines import row_lines
from segkit.optics.stations import axis_frame
from segkit.working import Line


@dataclass(frozen=True)
class Lighting:
    """The light of one kind of segment.

    Attributes:
        kind: ``Segment.kind``.
        led: catalogue id.
        count: LEDs in one segment (both dots together for a colon).
        stations_mm: for each outline of the segment, positions along its axis from the middle
            (0 = the middle; positive towards the second end of the axis), rising.
        pitch_mm: distance between neighbours; 0 for one LED an outline.
        gap_mm: clear height from the LED's tip to the diffuser.
        luminance_cd_m2: mean luminance of the lit diffuser: low, expected, high.
        unlit_reflectance: of the segment as seen from outside when it is off.
        method: ``cavity estimate`` now; the pocket solver will say ``solved``.
        lines, findings: working and verdicts.
    """

    kind: str
    led: str
    count: int
    stations_mm: tuple[tuple[float, ...], ...]
    pitch_mm: float
    gap_mm: float
    luminance_cd_m2: tuple[float, float, float]
    unlit_reflectance: float
    method: str
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class LedPlace:
    """One LED on the board, as seen from the front."""

    digit: int
    segment: str
    number: int
    at: Point


LightingByKind = Mapping[str, Lighting]

#: Mean luminance of one kind over another above which the difference shows.
UNEQUAL_ABOVE = 1.3


def light_segment(
    segment: Segment,
    *,
    led: Led,
    current_a: float,
    depth_mm: float,
    walls: Sheet,
    diffuser: Sheet,
    front: Sheet | None,
    per_segment: int | None,
    evenness: float = 0.7,
) -> Lighting:
    """LEDs of one segment, where they stand, and the light that comes of it; an estimate.

    Count by the largest pitch for the evenness asked (``spacing.pitch_limit``), ends inset half a pitch,
    single row. Luminance ``T tau E / pi`` with E from ``pocket.cavity_estimate``.

    Args:
        segment: one of the kind; a dot has an axis of no length.
        led: catalogue row.
        current_a: current through one LED, A, above 0.
        depth_mm: from the back to the diffuser, mm, above 0.
        walls: sheet or lining of the walls and of the back between the LEDs.
        diffuser: sheet over the pocket.
        front: tint over the whole face, or None.
        per_segment: LEDs in one outline, at least 1, or None to work it out.
        evenness: lowest over mean along the row, 0.3 to 0.95.

    Raises:
        InputError: a value or sheet that cannot be, all faults at once.

    Sources: moreno-2006, view-factor-handbook, pocket-study, light-box-practice, fluorescence-model.

    Example:
        >>> from segkit.catalog.reader import led, sheet
        >>> corners = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
        >>> bar = Segment(1, "g", "crossbar", (corners,), (((-60, 0), (60, 0)),), 120, 20)
        >>> lit = light_segment(bar, led=led("red-5mm-diffused"), current_a=0.015, depth_mm=25,
        ...     walls=sheet("foam-board-5mm"), diffuser=sheet("opal-acrylic-3mm"), front=None,
        ...     per_segment=None)
        >>> lit.count, lit.pitch_mm
        (6, 20.0)
    """
    _refuse(
        led=led, current_a=current_a, depth_mm=depth_mm, sheets_used=(walls, diffuser, front),
        per_segment=per_segment, evenness=evenness,
    )  # fmt: skip
    row = lay_row(segment, led=led, depth_mm=depth_mm, per_segment=per_segment, evenness=evenness)
    seen = _seen(row, current_a=current_a, walls=walls, diffuser=diffuser, front=front)
    lines = led_lines(led, current_a=current_a)
    if row.gap_mm > 0:
        lines += row_lines(row, outlines=len(segment.outlines))
    note = angle_note(led)
    findings = (
        *row_findings(row),
        *sheets.sheet_findings(led, walls=walls, diffuser=diffuser, front=front),
        *((note,) if note else ()),
    )
    return Lighting(
        kind=segment.kind,
        led=led.id,
        count=row.count * len(segment.outlines),
        stations_mm=(row.stations_mm,) * len(segment.outlines),
        pitch_mm=row.pitch_mm,
        gap_mm=row.gap_mm,
        luminance_cd_m2=seen.luminance_cd_m2,
        unlit_reflectance=seen.unlit_reflectance,
        method=seen.method,
        lines=(*lines, *seen.lines),
        findings=in_order(findings),
    )


def light_board(
    board: Board,
    *,
    led: Led,
    current_a: float,
    depth_mm: float,
    walls: Sheet,
    diffuser: Sheet,
    front: Sheet | None,
    per_segment: int | None,
    evenness: float = 0.7,
) -> dict[str, Lighting]:
    """The lighting of every kind of segment on a board; kinds far apart in brightness get a finding.

    The lines of the LED alone stand with the first kind only.

    Args:
        board: from the geometry.
        led, current_a, depth_mm, walls, diffuser, front, evenness: as in ``light_segment``.
        per_segment: LEDs in a bar, or None; points and colons get what their diameter asks for, or as many
            for their area as the bars have, one at least.

    Returns:
        kind to lighting, in order of first appearance.

    Raises:
        InputError: as ``light_segment``.
    """
    lighted: dict[str, Lighting] = {}
    density = 0.0
    for kind, members in board.kinds().items():
        bar = math.dist(*members[0].axes[0]) > 1e-9
        asked = per_segment
        if not bar:
            asked = _dot_count(members[0], density=density, led=led, depth_mm=depth_mm, evenness=evenness)
        lighting = light_segment(
            members[0],
            led=led,
            current_a=current_a,
            depth_mm=depth_mm,
            walls=walls,
            diffuser=diffuser,
            front=front,
            per_segment=asked,
            evenness=evenness,
        )
        if lighted:
            alone = {line.name for line in led_lines(led, current_a=current_a)}
            lighting = replace(
                lighting, lines=tuple(line for line in lighting.lines if line.name not in alone)
            )
        density = density or lighting.count / sum(area(outline) for outline in members[0].outlines)
        lighted[kind] = lighting
    return _with_comparison(lighted)


def _dot_count(segment: Segment, *, density: float, led: Led, depth_mm: float, evenness: float) -> int | None:
    """LEDs of a dot: what its diameter asks for, or as many for its area as the bars have, if they fit."""
    row = lay_row(segment, led=led, depth_mm=depth_mm, per_segment=None, evenness=evenness)
    alike = round(density * area(segment.outlines[0]))
    return alike if row.count < alike <= row.most else None


def led_places(board: Board, lightings: LightingByKind) -> tuple[LedPlace, ...]:
    """Every LED on the board frame (front view), in order of digit, segment and number.

    The number counts from 1 within a segment: along its axis, the second dot of a colon after the first.

    Args:
        board: from the geometry.
        lightings: of ``light_board``, one for each kind on the board.

    Raises:
        InputError: a kind without lighting.
    """
    missing = [kind for kind in board.kinds() if kind not in lightings]
    if missing:
        raise InputError(
            Problem("no lighting for this kind of segment.", key="kind", value=", ".join(missing))
        )
    places: list[LedPlace] = []
    for segment in board.segments:
        number = 0
        for axis, row in zip(segment.axes, lightings[segment.kind].stations_mm, strict=True):
            (mx, my), (ux, uy) = axis_frame(axis)
            for station in row:
                number += 1
                at = (mx + station * ux, my + station * uy)
                places.append(LedPlace(segment.digit, segment.name, number, at))
    return tuple(places)


def _seen(row: Row, *, current_a: float, walls: Sheet, diffuser: Sheet, front: Sheet | None) -> Brightness:
    """Brightness of the row's pocket; dark, with a stop elsewhere, when the diffuser does not go on."""
    if row.gap_mm <= 0:
        _, twice = sheets.through_front(front)
        return Brightness((0.0, 0.0, 0.0), twice * diffuser.reflectance, ESTIMATE, ())
    return brightness(
        Built(
            kind=row.kind,
            outline=row.bay.outline,
            places=tuple((station, 0.0) for station in row.stations_mm),
            depth_mm=row.depth_mm,
            led=row.led,
            current_a=current_a,
            walls=walls,
            diffuser=diffuser,
            front=front,
        )
    )


def _with_comparison(lighted: dict[str, Lighting]) -> dict[str, Lighting]:
    """The lightings, with a finding at the darkest kind when the brightest is far brighter."""
    mean = {kind: lighting.luminance_cd_m2[1] for kind, lighting in lighted.items()}
    if not mean:
        return lighted
    bright, dark = max(mean, key=mean.__getitem__), min(mean, key=mean.__getitem__)
    if mean[dark] <= 0 or mean[bright] / mean[dark] <= UNEQUAL_ABOVE:
        return lighted
    ratio = mean[bright] / mean[dark]
    finding = Finding(
        level="caution",
        code="unequal-brightness",
        subject=f"{dark} segments",
        text=f"At the same current the {bright} ({mean[bright]:.0f} cd/m2) comes out {ratio:.1f} times as "
        f"bright as the {dark} ({mean[dark]:.0f} cd/m2), having more LEDs for its area (estimates).",
        value=ratio,
        limit=UNEQUAL_ABOVE,
        source="common-practice",
        remedy=f"Give the {bright} about {100 / ratio:.0f} % of the current with a larger resistor, or "
        "change the number of LEDs.",
    )
    found = in_order((*lighted[dark].findings, finding))
    return {**lighted, dark: replace(lighted[dark], findings=found)}


def _refuse(
    *,
    led: Led,
    current_a: float,
    depth_mm: float,
    sheets_used: tuple[Sheet, Sheet, Sheet | None],
    per_segment: int | None,
    evenness: float,
) -> None:
    """Raise one InputError with all faults of the input."""
    problems: list[Problem] = []
    walls, diffuser, front = sheets_used
    light_of_led = led_radiant_power if sheets.near_ultraviolet(led) else led_flux
    checks: tuple[Callable[[], object], ...] = (
        lambda: light_of_led(led, current_a=current_a),
        lambda: lobe_exponent(led.full_angle_deg),
        lambda: sheets.refuse_sheets(walls=walls, diffuser=diffuser, front=front),
        lambda: spacing.refuse_evenness(evenness),
    )
    for check in checks:
        try:
            check()
        except InputError as error:
            problems += [problem for problem in error.problems if problem not in problems]
    if not 0 < depth_mm <= 1000:
        problems.append(
            Problem(
                "no depth of a pocket.", key="depth", value=f"{depth_mm:g} mm", limit="above 0, up to 1000 mm"
            )
        )
    if per_segment is not None and not 1 <= per_segment <= 500:
        problems.append(
            Problem(
                "no number of LEDs.", key="per_segment", value=f"{per_segment}", limit='1 to 500, or "auto"'
            )
        )
    if problems:
        raise InputError(problems)
