"""How many LEDs a segment gets, where they stand, and the light that comes of it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from segkit.catalog.part import Led, Sheet
from segkit.errors import InputError, Problem
from segkit.findings import Finding, in_order
from segkit.geometry.board import Board, Segment
from segkit.geometry.polygon import Point
from segkit.optics import diffuser as sheets
from segkit.optics.balance import balanced, unequal
from segkit.optics.brightness import Brightness, brightness
from segkit.optics.dots import Dots
from segkit.optics.fittings import Fittings, refuse
from segkit.optics.front_map import FrontMap
from segkit.optics.lamp import led_lines
from segkit.optics.own_places import OwnPlaces, place_problems
from segkit.optics.photometry import angle_note
from segkit.optics.row import Asked, Row, lay_row, row_findings
from segkit.optics.row_lines import row_lines
from segkit.optics.spread import Spread, spread, spread_lines
from segkit.optics.stations import axis_frame
from segkit.working import Line


@dataclass(frozen=True)
class Lighting:
    """The light of one kind of segment.

    Attributes:
        kind: ``Segment.kind``.
        led: catalogue id.
        count: LEDs in one segment (both dots together for a colon).
        places_mm: for each outline of the segment, where its LEDs stand: (along, across) the axis from its
            middle, positive towards the second end of the axis and to the left of that way; in the order in
            which the wire runs.
        rows: rows of LEDs in an outline; 1 for a ring in a dot.
        pitch_mm: distance between neighbours in a row; 0 for one LED an outline.
        gap_mm: clear height from the LED's tip to the diffuser; None without a pocket.
        luminance_cd_m2: mean luminance of the lit segment: low, expected, high.
        evenness: darkest over mean light on the diffuser; 0 when the diffuser does not go on, None without.
        low_share: level that the darkest twentieth stays below, over the mean; None without a diffuser.
        front: the light on the diffuser, point by point; None when the diffuser does not go on, or without.
        efficiency: share of the LEDs' light that the diffuser gives on, or takes up where it glows by it;
            None without a diffuser.
        unlit_reflectance: of the segment as seen from outside when it is off.
        lines, findings: working and verdicts.
        spread: as built, with LEDs and holes as they come; None when the diffuser does not go on.
        dots: the bare lamps of a segment without pocket and diffuser; None for a pocket.
    """

    kind: str
    led: str
    count: int
    places_mm: tuple[tuple[Point, ...], ...]
    rows: int
    pitch_mm: float
    gap_mm: float | None
    luminance_cd_m2: tuple[float, float, float]
    evenness: float | None
    low_share: float | None
    front: FrontMap | None
    efficiency: float | None
    unlit_reflectance: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]
    spread: Spread | None = None
    dots: Dots | None = None


@dataclass(frozen=True)
class LedPlace:
    """One LED on the board, as seen from the front.

    Attributes:
        digit, segment, number: where it belongs.
        at: middle of its hole [mm].
        turned: its plus points down or to the left, as its string runs back there.
    """

    digit: int
    segment: str
    number: int
    at: Point
    turned: bool = False


#: Segments held against each other where one alone is asked for: those of a digit.
OF_A_DIGIT = 7

LightingByKind = Mapping[str, Lighting]


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
    rows: int | None = None,
    places: tuple[Point, ...] | None = None,
    reflector: Sheet | None = None,
    layer_mm: float | None = None,
) -> Lighting:
    """LEDs of one segment, where they stand, and the light that comes of it, solved.

    The fewest LEDs whose map is as even as asked (``search.best_layout``), or the builder's count or places,
    judged.

    Args:
        segment: one of the kind; a dot has an axis of no length.
        led: catalogue row.
        current_a: current through one LED, A, above 0.
        depth_mm: from the back to the diffuser, mm, above 0.
        walls: sheet or lining of the walls, and of the back if there is no reflector.
        diffuser: sheet over the pocket.
        front: tint over the whole face, or None.
        per_segment: LEDs in one outline, at least 1, or None to work it out.
        evenness: darkest over mean light, 0.3 to 0.95.
        rows: 1 to 4 rows along a bar, or None for as few as do it.
        places: the builder's own, (along, across) from the middle of the axis, mm, or None.
        reflector: sheet of the back inside the pocket, or None.
        layer_mm: thickness of a layer of the light grid, for a depth that can be built, or None.

    Raises:
        InputError: a value or sheet that cannot be, all faults at once.

    Sources: moreno-2006, view-factor-handbook, pocket-study, light-box-practice, fluorescence-model.

    Example:
        >>> from segkit.catalog.reader import led, sheet
        >>> corners = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))
        >>> bar = Segment(1, "g", "crossbar", (corners,), (((-60, 0), (60, 0)),), 120, 20)
        >>> lit = light_segment(bar, led=led("red-5mm-diffused"), current_a=0.015, depth_mm=35,
        ...     walls=sheet("foam-board-5mm"), diffuser=sheet("opal-acrylic-3mm"), front=None,
        ...     per_segment=None)
        >>> lit.count, lit.rows, lit.evenness > 0.7
        (4, 1, True)
    """
    fittings = Fittings(
        led=led, current_a=current_a, depth_mm=depth_mm, walls=walls, diffuser=diffuser, front=front,
        reflector=reflector, per_segment=per_segment, rows=rows, evenness=evenness, layer_mm=layer_mm,
    )  # fmt: skip
    refuse(fittings)
    own = {segment.kind: places} if places is not None else {}
    _refuse_places({segment.kind: segment}, own)
    asked = replace(_asked(fittings, segment, own), count=per_segment)
    return _lit(fittings, segment, _laid(fittings, segment, asked=asked), segments=OF_A_DIGIT)


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
    rows: int | None = None,
    places: OwnPlaces | None = None,
    reflector: Sheet | None = None,
    layer_mm: float | None = None,
) -> dict[str, Lighting]:
    """The lighting of every kind of segment on a board, about equally bright where the counts are free.

    The lines of the LED alone stand with the first kind only; kinds that stay far apart in brightness get a
    finding.

    Args:
        board: from the geometry.
        led, current_a, depth_mm, walls, diffuser, front, evenness, rows, reflector, layer_mm: as in
            ``light_segment``.
        per_segment: LEDs in a bar, or None; points and colons get as many as their light asks for.
        places: own places by kind, for each outline of it, or None.

    Returns:
        kind to lighting, in order of first appearance.

    Raises:
        InputError: as ``light_segment``.
    """
    fittings = Fittings(
        led=led, current_a=current_a, depth_mm=depth_mm, walls=walls, diffuser=diffuser, front=front,
        reflector=reflector, per_segment=per_segment, rows=rows, evenness=evenness, layer_mm=layer_mm,
    )  # fmt: skip
    refuse(fittings)
    kinds, own = board.kinds(), dict(places or {})
    first = {kind: members[0] for kind, members in kinds.items()}
    _refuse_places(first, own)
    wishes = {kind: _asked(fittings, segment, own) for kind, segment in first.items()}
    laid = {kind: _laid(fittings, segment, asked=wishes[kind]) for kind, segment in first.items()}
    if all(row.gap_mm > 0 for row in laid.values()):
        outlines = {
            kind: sum(len(segment.outlines) for segment in members) for kind, members in kinds.items()
        }
        for kind, count in balanced(laid, outlines=outlines).items():
            if count > laid[kind].count:
                asked = replace(wishes[kind], least=count)
                laid[kind] = _laid(fittings, first[kind], asked=asked)
    lighted = {
        kind: _lit(fittings, first[kind], row, segments=len(kinds[kind])) for kind, row in laid.items()
    }
    return compared(_worst_leak(_led_once(fittings, lighted)))


def led_places(board: Board, lightings: LightingByKind) -> tuple[LedPlace, ...]:
    """Every LED on the board frame (front view), in order of digit, segment and number.

    The number counts from 1 within a segment: along its axis, a second row backwards, the second dot of a
    colon after the first.

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
        for axis, own in zip(segment.axes, lightings[segment.kind].places_mm, strict=True):
            (mx, my), (ux, uy) = axis_frame(axis)
            for along, across in own:
                number += 1
                at = (mx + along * ux - across * uy, my + along * uy + across * ux)
                places.append(LedPlace(segment.digit, segment.name, number, at))
    return tuple(places)


def _refuse_places(kinds: Mapping[str, Segment], own: OwnPlaces) -> None:
    problems = place_problems(kinds, own)
    if problems:
        raise InputError(problems)


def _asked(fittings: Fittings, segment: Segment, own: OwnPlaces) -> Asked:
    """The builder's wishes for a kind: a count is for bars, rows too."""
    bar = math.dist(*segment.axes[0]) > 1e-9
    return Asked(
        evenness=fittings.evenness,
        count=fittings.per_segment if bar else None,
        rows=fittings.rows if bar else None,
        places=own.get(segment.kind),
        layer_mm=fittings.layer_mm,
    )


def _laid(fittings: Fittings, segment: Segment, *, asked: Asked) -> Row:
    pocket = fittings.pocket(segment)
    return lay_row(segment, led=fittings.led, pocket=pocket, asked=asked)


def _lit(fittings: Fittings, segment: Segment, row: Row, *, segments: int) -> Lighting:
    seen = _seen(fittings, segment, row)
    front = seen.light.map if seen else None
    drawn = _spread(segment, row, segments=segments) if seen else None
    lines = led_lines(fittings.led, current_a=fittings.current_a)
    if front:
        lines += row_lines(
            row,
            outlines=len(segment.outlines),
            front=front,
            front_unit=fittings.front_unit,
            per_value=row.count * fittings.light_of_one / row.pocket.front_area_mm2 * 1e6,
        )
    note = angle_note(fittings.led)
    findings = (
        *row_findings(row, evenness=front.evenness if front else None),
        *sheets.sheet_findings(
            fittings.led, walls=fittings.walls, diffuser=fittings.diffuser, front=fittings.front
        ),
        *((note,) if note else ()),
        *(seen.findings if seen else ()),
    )
    return Lighting(
        kind=segment.kind,
        led=fittings.led.id,
        count=row.count * len(segment.outlines),
        places_mm=(row.pattern.places,) * len(segment.outlines),
        rows=row.pattern.rows,
        pitch_mm=row.pattern.pitch_mm,
        gap_mm=row.gap_mm,
        luminance_cd_m2=seen.luminance_cd_m2 if seen else (0.0, 0.0, 0.0),
        evenness=front.evenness if front else 0.0,
        low_share=front.low_share if front else 0.0,
        front=front,
        efficiency=seen.efficiency if seen else 0.0,
        unlit_reflectance=seen.unlit_reflectance if seen else _bare_reflectance(fittings),
        lines=(*lines, *(spread_lines(row.kind, drawn) if drawn else ()), *(seen.lines if seen else ())),
        findings=in_order(findings),
        spread=drawn,
    )


def _seen(fittings: Fittings, segment: Segment, row: Row) -> Brightness | None:
    """Brightness of the pocket; None, with a stop elsewhere, when the diffuser does not go on."""
    return brightness(fittings.built(segment, row.pattern.places)) if row.gap_mm > 0 else None


def _spread(segment: Segment, row: Row, *, segments: int) -> Spread:
    return spread(
        row.pocket, places=row.pattern.places, exponent=row.exponent, outlines=len(segment.outlines),
        segments=segments,
    )  # fmt: skip


def _bare_reflectance(fittings: Fittings) -> float:
    """Of the diffuser alone, through the front."""
    _, twice = sheets.through_front(fittings.front)
    return twice * fittings.diffuser.reflectance


def _led_once(fittings: Fittings, lighted: dict[str, Lighting]) -> dict[str, Lighting]:
    """The lightings, the lines of the LED alone only with the first."""
    alone = {line.name for line in led_lines(fittings.led, current_a=fittings.current_a)}
    first = next(iter(lighted), None)
    return {
        kind: lighting
        if kind == first
        else replace(lighting, lines=tuple(line for line in lighting.lines if line.name not in alone))
        for kind, lighting in lighted.items()
    }


def _worst_leak(lighted: dict[str, Lighting]) -> dict[str, Lighting]:
    """The lightings, violet told of with the kind that leaks most only."""
    leaks = {
        kind: finding
        for kind, lighting in lighted.items()
        for finding in lighting.findings
        if finding.code == "violet-leak"
    }
    worst = max(leaks.values(), key=lambda finding: float(finding.value or 0), default=None)
    return {
        kind: replace(
            lighting,
            findings=tuple(
                finding for finding in lighting.findings if finding.code != "violet-leak" or finding == worst
            ),
        )
        for kind, lighting in lighted.items()
    }


def compared(lighted: dict[str, Lighting]) -> dict[str, Lighting]:
    """The lightings, with a finding at the darkest kind when the brightest is far brighter.

    Args:
        lighted: by kind.
    """
    told = unequal({kind: lighting.luminance_cd_m2[1] for kind, lighting in lighted.items()})
    if told is None:
        return lighted
    dark, finding = told
    found = in_order((*lighted[dark].findings, finding))
    return {**lighted, dark: replace(lighted[dark], findings=found)}
