"""The SPICE netlist of a digit, read back here and solved by a circuit simulator."""

from __future__ import annotations

import math
import re
import subprocess
from collections.abc import Callable
from dataclasses import replace

import pytest

from segkit.catalog.reader import leds
from segkit.electrical.driver import sink_drop
from segkit.electrical.led_curve import THERMAL_V, curve_of, string_current_a
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.spice import led_model, spice_netlist
from tests.wiring import boards

Tool = Callable[[str], str]


def solved(ngspice: str, netlist: str, names: list[str]) -> dict[str, float]:
    """Currents of resistors at the operating point."""
    asked = "\n".join(f"print @{name.lower()}[i]" for name in names)
    deck = netlist.replace(".op\n.end\n", f".control\nop\n{asked}\nquit 0\n.endc\n.end\n")
    out = subprocess.run([ngspice, "-b"], input=deck, capture_output=True, text=True, check=False).stdout
    found = {name: float(value) for name, value in re.findall(r"@(\w+)\[i\] = (\S+)", out)}
    return {name: found[name.lower()] for name in names}


@pytest.mark.tool
@pytest.mark.parametrize(
    ("layout", "driver", "bar", "networked"),
    [
        ("8.8", "darlington-sink-8", 8, False), ("88:88", "logic-mosfet", 12, False),
        ("8", "power-register-8", 5, False), ("8.8", "darlington-sink-8", 8, True),
    ],
)  # fmt: skip
def test_the_simulator_finds_the_current_of_every_string(
    tool: Tool, layout: str, driver: str, bar: int, networked: bool
) -> None:
    whole = boards.wired(layout, bar=bar, driver=driver, networked=networked)
    for digit in whole.plan.digits[:2]:
        strings = [s for s in whole.plan.strings_of(digit) if s.resistor]
        ours = {element(s): whole.plan.circuits[s.kind].strings[s.number - 1].current_a for s in strings}
        found = solved(tool("ngspice"), spice_netlist(whole.plan, whole.circuit, digit), list(ours))
        assert strings
        assert found == pytest.approx(ours, rel=1e-3)


@pytest.mark.tool
def test_the_simulator_takes_the_drop_in_the_common_lead_from_every_string(tool: Tool) -> None:
    whole = boards.wired("8")
    plan = replace(whole.plan, lost_v=0.7)
    names = [string.resistor for string in plan.strings_of(1)]
    netlist = spice_netlist(plan, whole.circuit, 1)
    assert nodes(netlist)["Vcommon"] == (
        nodes(netlist)["Vsupply"][0],
        nodes(spice_netlist(whole.plan, whole.circuit, 1))["Vsupply"][0],
    )
    found = solved(tool("ngspice"), netlist, names)
    for string in plan.strings_of(1):
        drop_v = sink_drop(plan.sink, current_a=plan.circuits[string.kind].current_a).typical_v
        ours = string_current_a(
            curve_of(plan.led), leds=len(string.leds), drive_v=plan.supply_v - 0.7 - drop_v,
            resistance_ohm=string.ohm,
        )  # fmt: skip
        assert found[string.resistor] == pytest.approx(ours, rel=1e-3)
        assert ours < plan.circuits[string.kind].strings[string.number - 1].current_a


@pytest.mark.tool
def test_a_turned_led_in_the_netlist_would_show(tool: Tool) -> None:
    """The check above can fail: with one LED the wrong way round its string carries nothing."""
    whole = boards.wired("8")
    string = whole.plan.strings_of(1)[0]
    ref = string.leds[0].ref
    netlist = spice_netlist(whole.plan, whole.circuit, 1)
    turned = re.sub(rf"^X{ref} (\S+) (\S+) LED$", rf"X{ref} \2 \1 LED", netlist, flags=re.MULTILINE)
    assert turned != netlist
    assert abs(solved(tool("ngspice"), turned, [string.resistor])[string.resistor]) < 1e-6


def element(string: PlacedString) -> str:
    """A string's resistor in the netlist: each one of a network by its own pin."""
    return f"{string.resistor}_{string.own_pin}" if string.network else string.resistor


def nodes(netlist: str) -> dict[str, tuple[str, str]]:
    """Element to its two nodes, models and subcircuits left out."""
    body = netlist.split(".subckt")[0]
    found = re.findall(r"^([RXVI]\S+) (\S+) (\S+) ", body, flags=re.MULTILINE)
    return {name: (one, other) for name, one, other in found}


def same(whole: Harness, netlist: str, digit: int) -> None:
    """Every LED and resistor of the digit with the nets of the wire list, nothing else of the board."""
    net = {pin: wire.run.net for wire in whole.wires for pin in (wire.run.start, wire.run.end)}
    found = nodes(netlist)
    for string in whole.plan.strings_of(digit):
        if string.resistor:
            ends = net[string.resistor, string.feed_pin], net[string.resistor, string.own_pin]
            assert found.pop(element(string)) == ends
        for led in string.leds:
            assert found.pop(f"X{led.ref}") == (net[led.ref, "A"], net[led.ref, "K"])
    assert all(name.startswith(("Vsupply", "Vsink_", "Isink_")) for name in found)


@pytest.mark.parametrize("networked", [False, True])
@pytest.mark.parametrize("carries", ["supply", "segments"])
def test_nodes_are_the_nets_of_the_wire_list(carries, networked) -> None:
    whole = boards.wired("88:88", carries=carries, networked=networked)
    for digit in whole.plan.digits:
        same(whole, spice_netlist(whole.plan, whole.circuit, digit), digit)


def test_a_sink_that_holds_the_current_is_a_current_source() -> None:
    whole = boards.wired("8", driver="constant-current-sink-8")
    found = nodes(spice_netlist(whole.plan, whole.circuit, 1))
    assert sum(name.startswith("Isink_") for name in found) == 7


@pytest.mark.parametrize("led", leds().values(), ids=lambda led: led.id)
def test_the_model_has_the_voltage_of_the_curve(led) -> None:
    """Diode equation with the printed parameters: V = N*Vt*ln(I/Is + 1) + I*Rs, and the voltage in series."""
    text = "\n".join(led_model(led))
    values = {key: float(value) for key, value in re.findall(r"(IS|N|RS)=(\S+?)[ )]", text)}
    offset = float(re.search(r"Voffset mid K DC (\S+)", text).group(1))
    for amps in (0.001, led.test_current_a):
        volts = values["N"] * THERMAL_V * math.log(amps / values["IS"] + 1) + amps * values["RS"] + offset
        assert volts == pytest.approx(curve_of(led).voltage_v(amps), rel=1e-6)
    assert values["IS"] > 1e-28  # simulators raise a smaller one


def test_an_led_of_one_voltage_is_that_voltage() -> None:
    fixed = replace(leds()["red-5mm-diffused"], slope_ohm=0.0)
    assert led_model(fixed) == [".subckt LED A K", "Vf A K DC 2", ".ends"]
