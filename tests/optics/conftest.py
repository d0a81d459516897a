"""Parts and segments of our own for the optics tests, and the published rows by what they are about."""

from __future__ import annotations

import csv
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from segkit.catalog.part import Led, Sheet
from segkit.geometry.board import Board, Segment
from segkit.geometry.digit import DigitShape
from segkit.geometry.polygon import Outline

Row = tuple[dict[str, float], dict[str, str]]
TABLE = Path(__file__).parents[2] / "fixtures" / "check_values" / "optics.csv"


@pytest.fixture(scope="session")
def rows() -> Callable[..., list[Row]]:
    """Published rows of the given kinds, each as (inputs by name, row)."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))

    def find(*kinds: str) -> list[Row]:
        found = []
        for row in table:
            if row["what"] in kinds:
                pairs = (part.split("=") for part in row["inputs"].split(";"))
                found.append(({name.strip(): float(value) for name, value in pairs}, row))
        assert found, f"no published rows for {kinds}"
        return found

    return find


@pytest.fixture(scope="session")
def agree() -> Callable[[dict[str, str], float], None]:
    """Hold our value against a published row; the message has both and the reason for a gap."""

    def check(row: dict[str, str], ours: float) -> None:
        gap = ours - float(row["published"])
        assert abs(gap) <= float(row["tolerance"]), (
            f"{row['what']} ({row['inputs']}): printed {row['published']}, ours {ours:.6g}, "
            f"allowed ±{row['tolerance']}; {row['source']}, {row['place']}; {row['remark']}"
        )

    return check


def _led(**changes: object) -> Led:
    base = Led(
        id="red-test", name="red test LED", source="arithmetic", knowledge="from memory", colour="red",
        wavelength_nm=625, vf_v=2.0, vf_min_v=1.8, vf_max_v=2.6, test_current_a=0.02, slope_ohm=6,
        vf_temperature_v_per_k=-0.002, intensity_cd=0.5, intensity_min_cd=0.25, intensity_current_a=0.02,
        radiant_power_w=0, full_angle_deg=60, max_current_a=0.03, body_mm=5, tip_mm=6,
    )  # fmt: skip
    return replace(base, **changes)


def _sheet(**changes: object) -> Sheet:
    base = Sheet(
        id="white-test", name="white test board", source="arithmetic", knowledge="from memory", role="board",
        material="board", thickness_mm=5, width_mm=700, height_mm=1000, reflectance=0.85, transmittance=0,
        min_web_mm=5, opaque=True, tools=("knife",), density_kg_m3=100, expansion_per_k=3e-5, emission_nm=0,
        caution="",
    )  # fmt: skip
    return replace(base, **changes)


@pytest.fixture(scope="session")
def make_led() -> Callable[..., Led]:
    """An LED of our own: 60 degrees, 500 mcd at 20 mA, with changes."""
    return _led


@pytest.fixture(scope="session")
def make_sheet() -> Callable[..., Sheet]:
    """A sheet of our own: white opaque board, with changes."""
    return _sheet


@pytest.fixture(scope="session")
def red() -> Led:
    """A red LED of 60 degrees."""
    return _led()


@pytest.fixture(scope="session")
def violet() -> Led:
    """A near-ultraviolet LED: 12 mW at 20 mA and 400 nm."""
    return _led(
        id="uv-test", name="violet test LED", colour="near-ultraviolet", wavelength_nm=400, intensity_cd=0,
        intensity_min_cd=0, radiant_power_w=0.012, full_angle_deg=30,
    )  # fmt: skip


@pytest.fixture(scope="session")
def white() -> Sheet:
    """White opaque walls."""
    return _sheet()


@pytest.fixture(scope="session")
def opal() -> Sheet:
    """An opal diffuser: reflects 0.4, passes 0.5."""
    return _sheet(id="opal-test", name="opal test sheet", role="diffuser", reflectance=0.4, transmittance=0.5)


@pytest.fixture(scope="session")
def glowing() -> Sheet:
    """A green fluorescent sheet."""
    return _sheet(
        id="green-glow-test", name="green fluorescent test sheet", role="fluorescent", reflectance=0.1,
        transmittance=0.7, emission_nm=525,
    )  # fmt: skip


HEXAGON: Outline = ((-60, 0), (-50, -10), (50, -10), (60, 0), (50, 10), (-50, 10))


@pytest.fixture(scope="session")
def hexagon() -> Outline:
    """The reference bar: 120 x 20 mm with 45 degree tips."""
    return HEXAGON


def _bar(length_mm: float = 120, stroke_mm: float = 20, kind: str = "crossbar", name: str = "g") -> Segment:
    half, side = length_mm / 2, stroke_mm / 2
    outline = (
        (-half, 0), (side - half, -side), (half - side, -side), (half, 0), (half - side, side), (side - half, side),
    )  # fmt: skip
    return Segment(1, name, kind, (outline,), (((-half, 0), (half, 0)),), length_mm, stroke_mm)


@pytest.fixture(scope="session")
def make_bar() -> Callable[..., Segment]:
    """A pointed bar along x."""
    return _bar


def _circle(x: float, y: float, diameter_mm: float) -> Outline:
    steps = [2 * math.pi * index / 24 for index in range(24)]
    return tuple((x + diameter_mm / 2 * math.cos(t), y + diameter_mm / 2 * math.sin(t)) for t in steps)


def _dots(diameter_mm: float = 20, count: int = 2, kind: str = "colon") -> Segment:
    centres = [(200.0, 40.0 * index) for index in range(count)]
    return Segment(
        digit=1,
        name="dp" if kind == "point" else "colon",
        kind=kind,
        outlines=tuple(_circle(x, y, diameter_mm) for x, y in centres),
        axes=tuple((centre, centre) for centre in centres),
        length_mm=diameter_mm,
        stroke_mm=diameter_mm,
    )


@pytest.fixture(scope="session")
def make_dots() -> Callable[..., Segment]:
    """One dot or a colon."""
    return _dots


@pytest.fixture(scope="session")
def board() -> Board:
    """Two crossbars, an upright leaning one and a colon: enough of a board for the lighting."""
    upright = Segment(
        digit=2, name="b", kind="upright",
        outlines=(((290, 0), (310, 0), (330, 100), (310, 100)),), axes=(((300, 0), (320, 100)),),
        length_mm=math.hypot(20, 100), stroke_mm=19.6,
    )  # fmt: skip
    shape = DigitShape(
        height_mm=240, width_mm=140, stroke_mm=20, gap_mm=4, ends="pointed", slant_deg=0, point_mm=20
    )
    return Board(
        layout="8:8", width_mm=400, height_mm=300, margin_mm=20, shape=shape, small_shape=None,
        segments=(_bar(name="a"), _bar(name="g"), _dots(), upright), fixings=(), fixing_hole_mm=4,
        lines=(), findings=(),
    )  # fmt: skip
