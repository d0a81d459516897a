"""Small boards for the wiring tests: LEDs in even rows, so that no light has to be solved."""

from __future__ import annotations

import math
from functools import cache

from hypothesis import settings
from hypothesis import strategies as st

from segkit.catalog.reader import led, networks, register, sink, wire, wires
from segkit.electrical.arrangement import segment_circuit
from segkit.electrical.network import NetworkPlan, Place, by_value, network_plans
from segkit.electrical.string import SegmentCircuit
from segkit.geometry.board import Board, Segment, board_of
from segkit.geometry.digit import DigitShape
from segkit.glyphs.text import lamps
from segkit.optics.placement import LedPlace
from segkit.optics.stations import axis_frame
from segkit.wiring.channel_map import FirstDigit, channel_map
from segkit.wiring.harness import Harness, harness
from segkit.wiring.led_strings import placed_strings
from segkit.wiring.plan import Carries, Plan

ORDER = ("dp", "g", "f", "e", "d", "c", "b", "a")
LAYOUTS = ("8", "8.8", "88:88", "88 88", "8.:8.", "8:o8.", "8.8.:8.8.")
#: Driver, the register that goes with it, LED supply in V.
DRIVES = {
    "darlington-sink-8": ("hc595", 12.0),
    "darlington-sink-7": ("hc595", 12.0),
    "logic-mosfet": ("hct595", 24.0),
    "power-register-8": ("power-register-8", 12.0),
    "constant-current-sink-8": ("constant-current-sink-8", 12.0),
    "register-direct-hc595": ("hc595", 5.0),
}
CABLES = ("cat5e", "alarm-8-core", "hook-up-0-75mm2", "ribbon-10-way")


def board(layout: str = "88:88", *, height_mm: float = 280.0, slant_deg: float = 0.0) -> Board:
    shape = DigitShape(
        height_mm=height_mm, width_mm=0.58 * height_mm, stroke_mm=0.13 * height_mm, gap_mm=5.0,
        ends="pointed", slant_deg=slant_deg, point_mm=0.13 * height_mm,
    )  # fmt: skip
    return board_of(layout=layout, shape=shape, spacing_mm=0.3 * height_mm, margin_mm=40.0)


def _spots(segment: Segment, count: int, rows: int) -> list[tuple[float, float]]:
    """In rows along the axis, every second one backwards, or on a ring in each dot; ``count`` in each outline."""
    found = []
    for axis in segment.axes:
        (mx, my), (ux, uy) = axis_frame(axis)
        if math.dist(*axis) < 1e-9:
            reach = 0.3 * segment.stroke_mm * (count > 1)
            angles = [math.tau * number / count for number in range(count)]
            found += [(mx + reach * math.cos(angle), my + reach * math.sin(angle)) for angle in angles]
            continue
        for row in range(rows):
            aside = (0.25 if rows < 3 else 0.36 / (rows - 1)) * segment.stroke_mm * (2 * row - rows + 1)
            inside = [segment.length_mm * ((n + 0.5) * rows / count - 0.5) for n in range(count // rows)]
            for along in inside[:: -1 if row % 2 else 1]:
                found.append((mx + along * ux - aside * uy, my + along * uy + aside * ux))
    return found


def places(on: Board, *, bar: int, dot: int, rows: int = 1) -> tuple[LedPlace, ...]:
    return tuple(
        LedPlace(segment.digit, segment.name, number, at)
        for segment in on.segments
        for number, at in enumerate(_spots(segment, dot if segment.name in ("dp", "colon") else bar, rows), 1)
    )


@cache
def _circuit(kind: str, leds: int, driver: str) -> SegmentCircuit:
    volts = DRIVES[driver][1]
    return segment_circuit(
        kind=kind, led=led("red-5mm-diffused"), leds=leds, sink=sink(driver), supply_v=volts,
        supply_min_v=0.95 * volts, supply_max_v=1.05 * volts, current_a=0.004,
    )  # fmt: skip


def _networks(on: Board, circuits: dict[str, SegmentCircuit]) -> dict[int, list[NetworkPlan]]:
    """The best network for each value of a digit, bussed in odd digits and isolated in even ones."""
    found: dict[int, list[NetworkPlan]] = {}
    for digit in {segment.digit for segment in on.segments}:
        kind = "bussed" if digit % 2 else "isolated"
        sold = [one for one in networks().values() if one.circuit == kind]
        places = [
            Place(f"{s.name}, string {n}", string.chosen_ohm, string.resistor_w)
            for s in on.segments if s.digit == digit
            for n, string in enumerate(circuits[s.kind].strings, 1)
        ]  # fmt: skip
        some = [same for ohm, same in by_value(places).items() if ohm and len(same) > 1]
        found[digit] = [network_plans(same, sold)[0] for same in some]
    return found


def plan(
    layout: str = "88:88", *, bar: int = 8, dot: int = 3, driver: str = "darlington-sink-8",
    carries: Carries = "supply", cable: str = "hook-up-0-75mm2", height_mm: float = 280.0,
    slant_deg: float = 0.0, first_digit: FirstDigit = "left",
    rows: int = 1, networked: bool = False,
) -> Plan:  # fmt: skip
    register_id, volts = DRIVES[driver]
    on = board(layout, height_mm=height_mm, slant_deg=slant_deg)
    spots = places(on, bar=bar, dot=dot, rows=rows)
    counts = {
        s.kind: len([p for p in spots if (p.digit, p.segment) == (s.digit, s.name)]) for s in on.segments
    }
    circuits = {kind: _circuit(kind, count, driver) for kind, count in counts.items()}
    channels = channel_map(
        lamps=lamps(layout), register=register(register_id), sink=sink(driver), order=ORDER,
        first_digit=first_digit,
    )  # fmt: skip
    return Plan(
        title="Boules court", stamp="test", board=on,
        strings=placed_strings(on, spots, circuits, _networks(on, circuits) if networked else {}),
        circuits=circuits, channels=channels, led=led("red-5mm-diffused"), register=register(register_id),
        sink=sink(driver), supply_v=volts, logic_v=5.0, cable=wire(cable), cable_m=3.0, carries=carries,
        fuse_a=2.0, setting_ohm=4700.0,
        stock=tuple(w for w in wires().values() if w.id.startswith("hook-up-") and w.id.endswith("mm2")),
    )  # fmt: skip


@cache
def wired(
    layout: str = "88:88", bar: int = 8, dot: int = 3, driver: str = "darlington-sink-8",
    carries: Carries = "supply", slant_deg: float = 0.0, first_digit: FirstDigit = "left", rows: int = 1,
    networked: bool = False,
) -> Harness:  # fmt: skip
    """The same wiring is made once for all tests."""
    return harness(
        plan(
            layout, bar=bar, dot=dot, driver=driver, carries=carries, slant_deg=slant_deg,
            first_digit=first_digit, rows=rows, networked=networked,
        )
    )  # fmt: skip


#: Any of the boards above.
anything = st.builds(
    wired,
    st.sampled_from(LAYOUTS), st.sampled_from((1, 2, 5, 8, 12)), st.integers(1, 5), st.sampled_from(tuple(DRIVES)),
    st.sampled_from(("supply", "segments")), st.sampled_from((0.0, 9.0)), st.sampled_from(("left", "right")),
    networked=st.booleans(),
)  # fmt: skip

#: Enough to meet every layout, driver and side; a sheet takes longer to draw than a board to wire.
some_boards, some_sheets = settings(max_examples=24), settings(max_examples=8)
