"""Verdicts on a sink: current of an output and of the package, voltage, junction."""

from __future__ import annotations

from collections.abc import Sequence

from segkit.catalog.part import Sink
from segkit.electrical.preferred import next_up
from segkit.findings import Finding
from segkit.units import engineering, plain_number

#: A string made for the specified current exceeds it so far at its worst corner.
_CORNER = 1.3


def current_findings(
    sink: Sink, outputs_a: Sequence[float], *, drive_v: float | None = None
) -> tuple[Finding, ...]:
    """Whether outputs and package carry the currents of the outputs that are on.

    Args:
        sink: the sink.
        outputs_a: current of each output that is on, A.
        drive_v: supply less LEDs, V, so that a register's overload can name the resistor that would do.

    Source: the ``source`` of the sink.
    """
    register = sink.type == "register"
    found = []
    largest, total = max(outputs_a, default=0.0), sum(outputs_a)
    if sink.max_output_a and largest > sink.max_output_a:
        found.append(
            Finding(
                level="stop",
                code="register-overload" if register else "sink-output-limit",
                subject=sink.name,
                text=f"{engineering(largest, 'A')} in one output, {largest / sink.max_output_a:.2g} times "
                f"the limit of {engineering(sink.max_output_a, 'A')}.",
                value=round(largest * 1000, 2),
                limit=sink.max_output_a * 1000,
                unit="mA",
                source=sink.source,
                remedy="Less current, or a sink of higher current.",
                holds=("back_board",),
            )
        )
    if sink.max_package_a and total > sink.max_package_a and (len(outputs_a) > 1 or not found):
        found.append(_package_finding(sink, len(outputs_a), total, drive_v))
    if register and not found and largest > _CORNER * sink.drop_points[-1][0]:
        found.append(_beyond_drive(sink, largest))
    return tuple(found)


def _beyond_drive(sink: Sink, largest_a: float) -> Finding:
    """An absolute limit is no working value: beyond the current it is specified for the drop is anyone's."""
    specified_a = sink.drop_points[-1][0]
    return Finding(
        level="caution",
        code="register-beyond-drive",
        subject=sink.name,
        text=f"{engineering(largest_a, 'A')} an output: its voltage is specified up to "
        f"{engineering(specified_a, 'A')}; {engineering(sink.max_output_a, 'A')} is what it survives, not "
        "what it is made for.",
        value=round(1000 * largest_a, 3),
        limit=1000 * specified_a,
        unit="mA",
        source=sink.source,
        remedy=f"Stay at {engineering(specified_a, 'A')}, or put a sink array behind the register.",
    )


def _package_finding(sink: Sink, count: int, total: float, drive_v: float | None) -> Finding:
    register = sink.type == "register"
    return Finding(
        level="stop",
        code="register-overload" if register else "sink-package-limit",
        subject=sink.name,
        text=f"{count} outputs on take {engineering(total, 'A')} through one chip, "
        f"{total / sink.max_package_a:.3g} times its limit of {engineering(sink.max_package_a, 'A')}.",
        value=round(total * 1000, 2),
        limit=sink.max_package_a * 1000,
        unit="mA",
        source=sink.source,
        remedy=_package_remedy(sink, count, drive_v),
        holds=("back_board",),
    )


def _package_remedy(sink: Sink, count: int, drive_v: float | None) -> str:
    if sink.type != "register" or not sink.drop_points:
        return f"At most {engineering(sink.max_package_a / count, 'A')} an output, or more packages."
    each_a = min(sink.max_package_a / count, sink.drop_points[-1][0])
    do = f"Design for {engineering(each_a, 'A')} an output"
    if drive_v is not None and drive_v > 0:
        ohm = next_up(drive_v / each_a)
        do += f": {plain_number(ohm)} ohm, {engineering(count * drive_v / ohm, 'A', 2)} with everything lit"
    return f"{do}. Above that put a sink array behind the register."


def voltage_findings(sink: Sink, *, supply_max_v: float) -> tuple[Finding, ...]:
    """Whether an output that is off stands the supply.

    Args:
        sink: the sink.
        supply_max_v: highest supply of the LEDs, V.

    Source: the ``source`` of the sink.
    """
    if not sink.max_voltage_v or supply_max_v <= sink.max_voltage_v:
        return ()
    return (
        Finding(
            level="stop",
            code="sink-voltage",
            subject=sink.name,
            text=f"an output that is off sees the whole supply, {plain_number(supply_max_v)} V at most; "
            f"it stands {plain_number(sink.max_voltage_v)} V.",
            value=supply_max_v,
            limit=sink.max_voltage_v,
            unit="V",
            source=sink.source,
            remedy="Take a sink of higher voltage, or a lower supply.",
            holds=("back_board",),
        ),
    )


def junction_findings(
    sink: Sink, *, heat_w: float, junction_c: float, ambient_c: float, theta_k_per_w: float
) -> tuple[Finding, ...]:
    """Whether the junction stays below what is to be designed for.

    Args:
        sink: the sink.
        heat_w: heat in the package, W.
        junction_c: junction temperature, °C.
        ambient_c: air in the box, °C.
        theta_k_per_w: junction to air, K/W.

    Source: the ``source`` of the sink.
    """
    if not sink.max_junction_c or junction_c <= sink.max_junction_c:
        return ()
    allowed = max(0.0, (sink.max_junction_c - ambient_c) / theta_k_per_w)
    return (
        Finding(
            level="stop",
            code="sink-heat",
            subject=sink.name,
            text=f"{heat_w:.2f} W in the package bring the junction to {junction_c:.0f} °C in a box at "
            f"{ambient_c:.0f} °C; {sink.max_junction_c:.0f} °C, {allowed:.2f} W, is the limit.",
            value=round(junction_c, 1),
            limit=sink.max_junction_c,
            unit="°C",
            source=sink.source,
            remedy="Fewer outputs a package, less current, more LEDs in series, or MOSFETs.",
            holds=("back_board",),
        ),
    )
