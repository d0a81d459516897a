"""String currents against a general-purpose circuit simulator: one netlist, every string in it."""

from __future__ import annotations

import math
import re
import subprocess
from dataclasses import dataclass
from itertools import product

import pytest

from segkit.catalog.part import Led
from segkit.catalog.reader import leds, sinks
from segkit.electrical.corners import Conditions, highest_a, lowest_a, nominal_a
from segkit.electrical.driver import sink_drop
from segkit.electrical.led_curve import THERMAL_V, LedCurve, curve_of, string_current_a
from segkit.electrical.preferred import next_up
from tests.electrical.conftest import published_curve

#: The simulator raises a saturation current below 1e-28 A to that; such an LED gets e^-60 A (9e-27) and the
#: voltage that this takes from it is taken from the supply, which is the same circuit where I is far above.
_LEAST_LOG = -60.0
RESISTORS = {"E12": (0.0, 0.6), "E24": (0.3, 1.0), "E96": (0.15, 2.0)}  # series: share of the test current


@dataclass(frozen=True)
class Wired:
    """A string as it goes into the netlist, and the current worked out here."""

    curve: LedCurve
    leds: int
    drive_v: float
    ohm: float
    ours_a: float


def _strings() -> list[Wired]:
    """Every LED of the catalogue on 5 to 24 V behind a Darlington output, short and full strings."""
    darlington, found = sinks()["darlington-sink-8"], []
    for led, supply_v, (series, (fill, share)) in product(
        leds().values(), (5.0, 9.0, 12.0, 13.8, 24.0), RESISTORS.items()
    ):
        asked_a = share * led.test_current_a
        drop = sink_drop(darlington, current_a=asked_a)
        most = int((supply_v - drop.typical_v - 0.6) / led.vf_v)
        if most < 1:
            continue
        count = max(1, round(most * (1 - fill)))
        ohm = next_up((supply_v - drop.typical_v - count * led.vf_v) / asked_a, series)
        there = Conditions(supply_v, supply_v * 0.95, supply_v * 1.05, drop)
        ours_a = nominal_a(led, there, leds=count, resistance_ohm=ohm)
        found.append(Wired(curve_of(led), count, there.nominal_drive_v(), ohm, ours_a))
    return found


def _corners(led: Led) -> list[Wired]:
    """The dimmest and the brightest corner of a string, warm and cold."""
    drop = sink_drop(sinks()["darlington-sink-8"], current_a=0.02)
    there = Conditions(12, 11, 13.8, drop, coldest_c=-10, hottest_c=60)
    low_curve = curve_of(led, vf_v=led.vf_max_v, temperature_c=-10)
    high_curve = curve_of(led, vf_v=led.vf_min_v, temperature_c=60)
    return [
        Wired(low_curve, 3, 11 - drop.worst_v, 220 * 1.05, lowest_a(led, there, leds=3, resistance_ohm=220)),
        Wired(
            high_curve, 3, 13.8 - drop.low_v, 220 * 0.95, highest_a(led, there, leds=3, resistance_ohm=220)
        ),
    ]


def _published(rows) -> list[Wired]:
    """The diodes of published parameter sets, as they are."""
    found = []
    for row in rows("curve voltage"):
        given = row["given"]
        curve = published_curve(
            saturation_a=given["saturation_a"], emission=given["emission"], series_ohm=given["series_ohm"]
        )
        ours = string_current_a(curve, leds=2, drive_v=11.1, resistance_ohm=2.0 / given["current_a"])
        found.append(Wired(curve, 2, 11.1, 2.0 / given["current_a"], ours))
    return found


def _netlist(strings: list[Wired]) -> str:
    lines = [
        "series strings of light-emitting diodes",
        ".options reltol=1e-7 abstol=1e-15 gmin=1e-15 temp=27",
    ]
    for number, wired in enumerate(strings):
        emission = wired.curve.junction_v / THERMAL_V
        raised = max(0.0, _LEAST_LOG - wired.curve.log_saturation)
        saturation = math.exp(wired.curve.log_saturation + raised)
        drive_v = wired.drive_v - wired.leds * wired.curve.junction_v * raised
        lines += [
            f".model led{number} d(is={saturation:.12e} n={emission:.12f} rs={wired.curve.series_ohm:.12f})",
            f"v{number} top{number} 0 dc {drive_v!r}",
            f"r{number} top{number} n{number}_0 {wired.ohm!r}",
        ]
        for led in range(wired.leds):
            below = "0" if led == wired.leds - 1 else f"n{number}_{led + 1}"
            lines.append(f"d{number}_{led} n{number}_{led} {below} led{number}")
    prints = [f"print i(v{number})" for number in range(len(strings))]
    return "\n".join([*lines, ".control", "set numdgt=12", "op", *prints, "quit 0", ".endc", ".end", ""])


@pytest.mark.tool
def test_solved_currents_agree_with_a_circuit_simulator(tool, rows):
    strings = _strings() + _published(rows)
    for led in leds().values():
        if 3 * led.vf_v < 9:
            strings += _corners(led)
    assert len(strings) >= 50
    assert len({(wired.leds, wired.drive_v, wired.ohm) for wired in strings}) >= 50
    done = subprocess.run(
        [tool("ngspice"), "-b"],
        input=_netlist(strings),
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    pairs = re.findall(r"^i\(v(\d+)\) = (\S+)", done.stdout, re.MULTILINE)
    theirs = {int(number): -float(value) for number, value in pairs}
    assert len(theirs) == len(strings), done.stdout[-2000:] + done.stderr[-2000:]
    apart = {
        number: (wired, theirs[number])
        for number, wired in enumerate(strings)
        if abs(wired.ours_a / theirs[number] - 1) > 1e-4
    }
    assert not apart, f"{len(apart)} of {len(strings)} strings: {list(apart.items())[:3]}"
