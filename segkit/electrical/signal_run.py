"""Data, clock and latch over a length of wire: edges that ring, ground that moves, and what to put in."""

from __future__ import annotations

from dataclasses import dataclass

from segkit.electrical.preferred import nearest
from segkit.errors import InputError, Problem
from segkit.findings import Finding
from segkit.units import engineering, plain_number
from segkit.working import Given, Line

#: Edge of a CMOS logic output, s; delay of a wire, s/m; its impedance beside its ground, Ω; capacitance, F/m.
EDGE_S, DELAY_S_PER_M, IMPEDANCE_OHM, FARAD_PER_M = 6e-9, 5e-9, 100.0, 56e-12
#: Resistance of a CMOS logic output, Ω.
OUTPUT_OHM = 41.0
#: A wire is long where an edge takes less than six times its delay; one-ended signals end here, m.
_LONG, ONE_ENDED_M, HARD_END_M = 6, 5.0, 10.0
#: A buffer on every board from this length on, m.
_BUFFER_M = 1.0


@dataclass(frozen=True)
class SignalRun:
    """What a run of signal wires needs.

    Attributes:
        critical_m: from this length on an edge sees the wire as long, m.
        resistor_ohm: in series at the driving end, Ω.
        shift_s: time to shift a frame, s.
        fastest_hz: fastest clock that the wire's capacitance lets through this resistor, Hz.
        lines, findings: working and verdicts.
    """

    critical_m: float
    resistor_ohm: float
    shift_s: float
    fastest_hz: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def signal_run(
    *,
    length_m: float,
    bits: int,
    clock_hz: float = 1e6,
    edge_s: float = EDGE_S,
    impedance_ohm: float = IMPEDANCE_OHM,
    series: str = "E24",
) -> SignalRun:
    """Judge the wires that bring data, clock and latch to a chain of registers.

    Args:
        length_m: from the controller to the last register, m, above 0.
        bits: bits of a frame, 1 or more.
        clock_hz: bit clock, Hz, above 0.
        edge_s: rise time of what drives the wires, s, above 0.
        impedance_ohm: of a signal wire beside its ground, Ω: 100 for a twisted pair or a ribbon.
        series: preferred numbers of the resistor.

    Returns:
        the run. A note where the wire is long for the edge; a caution beyond 5 m, where signals with one end
        on ground give way to differential ones.

    Formula: ``l = t/(6*tau)``; ``R = Z - Ro`` to the nearest value; ``t = bits/f``; a wire of capacitance C
        is charged in ``2.2*R*C``, twice a clock period at most.

    Raises:
        InputError: a value out of its range, or no such series.

    Source: signal-practice, series-termination, tia-568-cable.

    Example:
        >>> run = signal_run(length_m=20, bits=80, clock_hz=125e3)
        >>> round(run.critical_m, 3), run.resistor_ohm, round(1000 * run.shift_s, 3)
        (0.2, 62.0, 0.64)
    """
    if min(length_m, bits, clock_hz, edge_s, impedance_ohm) <= 0:
        values = f"{length_m} m, {bits} bits, {clock_hz} Hz, {edge_s} s, {impedance_ohm} ohm"
        raise InputError(Problem("these values do not describe signal wires.", value=values, limit="above 0"))
    critical_m = edge_s / (_LONG * DELAY_S_PER_M)
    resistor_ohm = nearest(max(1.0, impedance_ohm - OUTPUT_OHM), series)
    shift_s = bits / clock_hz
    fastest_hz = 1 / (4.4 * (OUTPUT_OHM + resistor_ohm) * FARAD_PER_M * length_m)
    lines = _lines(length_m, bits, clock_hz, edge_s, impedance_ohm, series, critical_m, resistor_ohm, shift_s,
                   fastest_hz)  # fmt: skip
    findings = (
        *_length_findings(length_m, critical_m, edge_s, resistor_ohm, clock_hz),
        *_clock_findings(length_m, clock_hz, fastest_hz),
    )
    return SignalRun(critical_m, resistor_ohm, shift_s, fastest_hz, lines, findings)


def _lines(
    length_m: float, bits: int, clock_hz: float, edge_s: float, impedance_ohm: float, series: str,
    critical_m: float, resistor_ohm: float, shift_s: float, fastest_hz: float,
) -> tuple[Line, ...]:  # fmt: skip
    own = Given("Ro", OUTPUT_OHM, "ohm", "the driving output")
    return (
        Line("electrical.signal_critical", "length from which a wire is long", "l", critical_m, "m",
             "t/(6*tau)", (Given("t", edge_s, "s", "rise time"), Given("tau", DELAY_S_PER_M, "s/m", "delay")),
             "signal-practice"),
        Line("electrical.signal_resistor", "resistor at the driving end of data, clock and latch", "R",
             resistor_ohm, "ohm", f"nearest_{series.lower()}(max(1, Z - Ro))",
             (Given("Z", impedance_ohm, "ohm", "wire beside its ground"), own), "series-termination"),
        Line("electrical.shift_time", "time to shift a frame", "t", shift_s, "s", "B/f",
             (Given("B", float(bits), "", "bits of a frame"), Given("f", clock_hz, "Hz", "clock")),
             "arithmetic"),
        Line("electrical.fastest_clock", "fastest clock that the wires let through", "f", fastest_hz, "Hz",
             "1/(4.4*(R + Ro)*c*l)",
             (Given("R", resistor_ohm, "ohm", "at the driving end"), own,
              Given("c", FARAD_PER_M, "F/m", "of a signal wire"), Given("l", length_m, "m", "of the wires")),
             "tia-568-cable"),
    )  # fmt: skip


def _length_findings(
    length_m: float, critical_m: float, edge_s: float, resistor_ohm: float, clock_hz: float
) -> tuple[Finding, ...]:
    if length_m <= critical_m:
        return ()
    far = length_m > ONE_ENDED_M
    remedy = (
        f"Put {plain_number(resistor_ohm)} ohm (33 to 100 will do) in series at the driving end of data, "
        "clock and latch, a ground wire beside each of them, 100 nF across the supply of each chip"
    )
    if length_m > _BUFFER_M:
        remedy += ", and a Schmitt buffer at the input of each board"
    if far:
        remedy += (
            f". Beyond {plain_number(ONE_ENDED_M)} to {plain_number(HARD_END_M)} m use differential drivers "
            "and receivers (RS-422), or put the controller at the board"
        )
    text = (
        f"data, clock and latch run over {plain_number(length_m, 3)} m; an edge of "
        f"{plain_number(1e9 * edge_s, 3)} ns takes any wire over {plain_number(critical_m, 2)} m for a long "
        "one and rings on it, whatever the clock"
    )
    slow = f"; slowing it below {engineering(clock_hz, 'Hz')} does not help" if far else ""
    return (
        Finding(
            level="caution" if far else "note",
            code="signal-too-long" if far else "signal-edge",
            subject="data, clock and latch",
            text=f"{text}{slow}.",
            value=round(length_m, 3),
            limit=ONE_ENDED_M if far else round(critical_m, 3),
            unit="m",
            source="signal-practice",
            remedy=f"{remedy}.",
        ),
    )


def _clock_findings(length_m: float, clock_hz: float, fastest_hz: float) -> tuple[Finding, ...]:
    if clock_hz <= fastest_hz:
        return ()
    return (
        Finding(
            level="caution",
            code="clock-too-fast",
            subject="data, clock and latch",
            text=f"the clock runs at {engineering(clock_hz, 'Hz')}; {plain_number(length_m, 3)} m of wire "
            f"are charged in time up to {engineering(fastest_hz, 'Hz')}.",
            value=clock_hz,
            limit=round(fastest_hz),
            unit="Hz",
            source="tia-568-cable",
            remedy=f"Clock at {engineering(fastest_hz / 2, 'Hz', 2)} or less: a board needs no more.",
        ),
    )


def ground_findings(
    *, shift_v: float, controller_v: float, needed_v: float, register: str, source: str
) -> tuple[Finding, ...]:
    """Whether a 1 is still a 1 where the board's ground is lifted by the current in the supply wire.

    Args:
        shift_v: drop in the ground wire between controller and board, everything lit, V, 0 or more.
        controller_v: level of the controller's pins, V.
        needed_v: what the register surely takes for a 1, V.
        register: its name.
        source: key of its figures.

    Returns:
        nothing where the level is too low even without the lift: that has its own finding.

    Source: the ``source`` of the register.

    Example:
        >>> found = ground_findings(shift_v=1.0, controller_v=3.3, needed_v=2.4, register="x", source="y")
        >>> found[0].code
        'ground-shift'
    """
    if controller_v < needed_v or controller_v - shift_v >= needed_v:
        return ()
    return (
        Finding(
            level="caution",
            code="ground-shift",
            subject=register,
            text=f"with everything lit the supply's minus wire lifts the ground of the board by "
            f"{shift_v:.2f} V: of a 1 of {plain_number(controller_v)} V {controller_v - shift_v:.2f} V are "
            f"left, {plain_number(needed_v, 3)} V are needed.",
            value=round(controller_v - shift_v, 2),
            limit=round(needed_v, 2),
            unit="V",
            source=source,
            remedy="Use a thicker minus wire, put the controller at the board, or send differential signals.",
        ),
    )
