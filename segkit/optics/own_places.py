"""LED places that the builder sets himself: refused outside the pocket, judged inside it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from itertools import combinations

from segkit.catalog.part import Led
from segkit.errors import Problem
from segkit.findings import Finding
from segkit.geometry.board import Segment
from segkit.geometry.polygon import Point
from segkit.optics import view_factor
from segkit.optics.patterns import Pattern
from segkit.optics.stations import BETWEEN_BODIES_MM, ROOM_AROUND_MM, Bay, bay_of

#: LEDs nearer to a wall than this share of the stroke are solved less surely.
UNSURE_SHARE = 0.25

OwnPlaces = Mapping[str, tuple[Point, ...]]


def own_pattern(places: tuple[Point, ...]) -> Pattern:
    """The builder's own places as a pattern; its pitch is the least distance between two LEDs.

    Args:
        places: (along, across) from the middle of the axis, mm; at least one.

    Example:
        >>> own_pattern(((-20.0, -4.0), (20.0, -4.0), (0.0, 4.0))).words
        '3 LEDs at places of your own'
    """
    rows = len({round(across, 2) for _, across in places})
    pitch = min((math.dist(a, b) for a, b in combinations(places, 2)), default=0.0)
    some = "1 LED at a place" if len(places) == 1 else f"{len(places)} LEDs at places"
    return Pattern(places, rows, pitch, f"{some} of your own")


def place_problems(kinds: Mapping[str, Segment], places: OwnPlaces) -> list[Problem]:
    """Kinds that are not on the board, kinds without a place, and places outside their pocket.

    Args:
        kinds: a segment of each kind on the board.
        places: by kind, as ``Segment.kind`` writes it.
    """
    problems = []
    for kind, own in places.items():
        key = f"pocket.places.{kind.replace(' ', '-')}"
        if kind not in kinds:
            problems.append(
                Problem("no such kind of segment on this board.", key=key, limit=", ".join(kinds))
            )
        elif not own:
            problems.append(Problem("a segment needs one LED at least.", key=key))
        else:
            problems += _outside(key, bay_of(kinds[kind]), own)
    return problems


def _outside(key: str, bay: Bay, own: tuple[Point, ...]) -> Iterator[Problem]:
    along = max(x for x, _ in bay.outline)
    across = max(y for _, y in bay.outline)
    for number, place in enumerate(own, start=1):
        beyond = -view_factor.clearance(bay.outline, place)
        if beyond > -1e-6:
            yield Problem(
                f"LED {number} stands {max(0.0, beyond):.1f} mm outside the pocket.",
                key=key,
                value=f"{place[0]:g} mm, {place[1]:g} mm",
                limit=f"within {along:.1f} mm along and {across:.1f} mm across from the middle",
                remedy="Places count from the middle of the segment: along its axis, then across it.",
            )


def place_findings(
    places: tuple[Point, ...], *, subject: str, bay: Bay, stroke_mm: float, led: Led
) -> tuple[Finding, ...]:
    """What is to be said about own places: bodies in each other or in a wall, and how sure the light is.

    Args:
        places: inside the pocket.
        subject: what findings call the segments.
        bay: outline in its own frame.
        stroke_mm: width across the axis.
        led: its body counts.
    """
    found = (
        _too_close(places, subject=subject, led=led),
        *_at_wall(places, subject=subject, bay=bay, stroke_mm=stroke_mm, led=led),
    )
    return tuple(finding for finding in found if finding)


def _too_close(places: tuple[Point, ...], *, subject: str, led: Led) -> Finding | None:
    nearest = min((math.dist(a, b) for a, b in combinations(places, 2)), default=math.inf)
    needed = led.body_mm + BETWEEN_BODIES_MM
    if nearest >= needed - 1e-6:
        return None
    clash = nearest < led.body_mm
    return Finding(
        level="stop" if clash else "caution",
        code="leds-too-close",
        subject=subject,
        text=f"Two of the places are {nearest:.1f} mm apart; LEDs of {led.body_mm:g} mm need {needed:g} mm "
        f"with {BETWEEN_BODIES_MM:g} mm of board between their holes.",
        value=round(nearest, 3),
        limit=needed,
        unit="mm",
        source="common-practice",
        remedy=f"Set them {needed:g} mm apart at least, or take smaller LEDs.",
        holds=("back_board",) if clash else (),
    )


def _at_wall(
    places: tuple[Point, ...], *, subject: str, bay: Bay, stroke_mm: float, led: Led
) -> Iterator[Finding]:
    nearest = min(view_factor.clearance(bay.outline, place) for place in places)
    body, needed = led.body_mm / 2, led.body_mm / 2 + ROOM_AROUND_MM
    if nearest < needed - 1e-6:
        clash = nearest < body
        yield Finding(
            level="stop" if clash else "caution",
            code="led-at-wall",
            subject=subject,
            text=f"An LED stands {nearest:.1f} mm from a wall of its pocket; its body reaches {body:g} mm "
            f"and wants {ROOM_AROUND_MM:g} mm of board around it.",
            value=round(nearest, 3),
            limit=needed,
            unit="mm",
            source="common-practice",
            remedy=f"Move it {needed - nearest:.1f} mm away from the wall at least.",
            holds=("back_board", "light_grid") if clash else (),
        )
    unsure = stroke_mm * UNSURE_SHARE
    if nearest < unsure:
        yield Finding(
            level="note",
            code="light-near-wall",
            subject=subject,
            text=f"An LED stands {nearest:.1f} mm from a wall, nearer than a quarter of the stroke: the "
            "light right beside it is solved to some 30 %, the mean still to a fraction of one percent.",
            value=round(nearest, 3),
            limit=round(unsure, 3),
            unit="mm",
            source="pocket-study",
            remedy="Trust the mean; look at the corner beside that LED on a trial piece.",
        )
