"""Cables against a general-purpose circuit simulator: whole digits with real LED curves at the end of wires."""

from __future__ import annotations

import math
import re
import subprocess
from collections.abc import Callable, Mapping, Sequence

import pytest

from segkit.catalog import reader
from segkit.electrical.bus import supply_bus, unequal_cables
from segkit.electrical.cable import supply_run
from segkit.electrical.led_curve import THERMAL_V, curve_of, string_current_a
from segkit.electrical.segment_cable import OnCable, cable_run

RED, SERIES, SUPPLY_V, OHM = reader.led("red-5mm-diffused"), 4, 12.0, 270.0
WIRE = reader.wire("cat5e")
ALONE_A = string_current_a(curve_of(RED), leds=SERIES, drive_v=SUPPLY_V, resistance_ohm=OHM)
HEADROOM_V = ALONE_A * OHM

Simulate = Callable[[Sequence[str], int], Mapping[int, float]]


@pytest.fixture
def simulate(tool) -> Simulate:
    """Currents of the sources vm0, vm1, ... of a circuit, A."""

    def run(body: Sequence[str], count: int) -> Mapping[int, float]:
        curve = curve_of(RED)
        emission, saturation = curve.junction_v / THERMAL_V, math.exp(curve.log_saturation)
        head = [
            "digits at the end of wires",
            ".options reltol=1e-7 abstol=1e-15 gmin=1e-15 temp=27",
            f".model led d(is={saturation:.12e} n={emission:.12f} rs={curve.series_ohm:.12f})",
            f"vs top 0 dc {SUPPLY_V!r}",
        ]
        prints = [f"print i(vm{n})" for n in range(count)]
        netlist = [*head, *body, ".control", "set numdgt=12", "op", *prints, "quit 0", ".endc", ".end", ""]
        done = subprocess.run(
            [tool("ngspice"), "-b"], input="\n".join(netlist), capture_output=True, text=True, timeout=60,
            check=False,
        )  # fmt: skip
        found = {int(n): float(value) for n, value in re.findall(r"^i\(vm(\d+)\) = (\S+)", done.stdout, re.M)}
        assert len(found) == count, done.stdout[-1500:] + done.stderr[-500:]
        return found

    return run


def segment(name: str, top: str, bottom: str, meter: int) -> list[str]:
    """A string with its resistor between two nodes, with an ammeter on top."""
    lines = [f"vm{meter} {top} {name}_0 dc 0", f"r{name} {name}_0 {name}_1 {OHM!r}"]
    for n in range(1, SERIES + 1):
        below = bottom if n == SERIES else f"{name}_{n + 1}"
        lines.append(f"d{name}{n} {name}_{n} {below} led")
    return lines


def digit_on_cable(
    lit: int, *, core_ohm: float, common_ohm: float, first: int = 0, tag: str = ""
) -> list[str]:
    """Segments on cores of their own, the common shared."""
    lines = [f"rc{tag} top common{tag} {common_ohm!r}"]
    for n in range(lit):
        lines += segment(f"s{tag}{n}", f"common{tag}", f"core{tag}{n}", first + n)
        lines.append(f"rw{tag}{n} core{tag}{n} 0 {core_ohm!r}")
    return lines


@pytest.mark.tool
@pytest.mark.parametrize("length_m", [5.0, 20.0, 60.0])
def test_a_one_against_an_eight_on_a_segment_cable(simulate: Simulate, length_m: float) -> None:
    core_ohm = WIRE.resistance_ohm_per_m * length_m
    body = [
        *digit_on_cable(7, core_ohm=core_ohm, common_ohm=core_ohm, tag="e"),
        *digit_on_cable(2, core_ohm=core_ohm, common_ohm=core_ohm, first=7, tag="o"),
    ]
    theirs = simulate(body, 9)
    solved = theirs[0] / theirs[7]
    digit = (OnCable("bar", 7, ALONE_A, in_one=2),)
    ours = cable_run(WIRE, digit, length_m=length_m, headroom_v=HEADROOM_V).evenness
    assert ours <= solved + 1e-9  # the LED's slope evens it out a little; ours is on the careful side
    assert ours == pytest.approx(solved, abs=0.02)


@pytest.mark.tool
def test_two_supply_wires_for_the_whole_board(simulate: Simulate) -> None:
    loop_ohm = 2 * WIRE.resistance_ohm_per_m * 15
    body = [f"ra top a {loop_ohm!r}", f"rb top b {loop_ohm!r}"]
    for n in range(14):
        body += segment(f"f{n}", "a", "0", n)
    for n in range(2):
        body += segment(f"l{n}", "b", "0", 14 + n)
    theirs = simulate(body, 16)
    solved = theirs[0] / theirs[14]
    ours = supply_run(WIRE, length_m=15, total_a=14 * ALONE_A, fewest_a=2 * ALONE_A, headroom_v=HEADROOM_V)
    assert ours.evenness <= solved + 1e-9
    assert ours.evenness == pytest.approx(solved, abs=0.02)


@pytest.mark.tool
@pytest.mark.parametrize("feed", ["left", "middle"])
def test_the_far_digit_on_two_wires_along_the_board(simulate: Simulate, feed: str) -> None:
    wire, count, pitch_m = reader.wire("hook-up-awg-26"), 5, 0.6
    hop_ohm, entry = 2 * wire.resistance_ohm_per_m * pitch_m, 0 if feed == "left" else 2
    body = [f"rin top n{entry} 1e-6"]
    body += [f"rh{n} n{n} n{n + 1} {hop_ohm!r}" for n in range(count - 1)]
    for place in range(count):
        for n in range(7):
            body += segment(f"p{place}s{n}", f"n{place}", "0", 7 * place + n)
    theirs = simulate(body, 7 * count)
    solved = theirs[7 * (count - 1)] / theirs[7 * entry]
    ours = supply_bus(
        wire, places_m=[n * pitch_m for n in range(count)], digits_a=[7 * ALONE_A] * count,
        headroom_v=HEADROOM_V, feed=feed,
    )  # fmt: skip
    assert ours.share <= solved + 1e-9
    assert ours.share == pytest.approx(solved, abs=0.02)


@pytest.mark.tool
def test_digits_on_cables_of_unequal_length(simulate: Simulate) -> None:
    near, far = (WIRE.resistance_ohm_per_m * metres for metres in (10, 25))
    body = [
        *digit_on_cable(7, core_ohm=near, common_ohm=near, tag="n"),
        *digit_on_cable(7, core_ohm=far, common_ohm=far, first=7, tag="f"),
    ]
    theirs = simulate(body, 14)
    solved = theirs[7] / theirs[0]
    ours = unequal_cables(
        WIRE, near_m=10, far_m=25, segment_a=ALONE_A, digit_a=7 * ALONE_A, headroom_v=HEADROOM_V
    ).share
    assert ours <= solved + 1e-9
    assert ours == pytest.approx(solved, abs=0.02)
