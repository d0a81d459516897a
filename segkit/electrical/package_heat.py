"""Heat of every sink package: with everything lit, with what the board really shows, and in pulses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from segkit.catalog.part import Sink
from segkit.electrical.driver import (
    BOX_C,
    PackageLoad,
    package_load,
    sink_drop,
    thermal_resistance,
)
from segkit.findings import Finding
from segkit.working import Given, Line

#: A junction hotter than this share of the way from the box to its limit deserves a word.
WARM = 0.8


@dataclass(frozen=True)
class OutputLoad:
    """One output of a package.

    Attributes:
        current_a, highest_a: typical and at the worst corner, A.
        share: of the time in which it is on, 0 to 1.
        left_v: what the string leaves across the output, V; None where the sink's own drop counts.
    """

    current_a: float
    highest_a: float
    share: float
    left_v: float | None = None


@dataclass(frozen=True)
class PackageHeat:
    """One package.

    Attributes:
        name: what it is about, such as ``chip 1``.
        outputs: in use.
        all_on_a: everything lit, worst corner, A.
        all_on_w, all_on_c: heat and junction with everything lit, worst corner.
        mean_w, mean_c: heat and junction with what the board really shows, typical parts.
        limit_c: junction to design for, °C; 0 if not stated.
        lines, findings: working of the mean and verdicts on warmth.
    """

    name: str
    outputs: int
    all_on_a: float
    all_on_w: float
    all_on_c: float
    mean_w: float
    mean_c: float
    limit_c: float
    lines: tuple[Line, ...]
    findings: tuple[Finding, ...]


def package_heat(
    sink: Sink, outputs: Sequence[OutputLoad], *, name: str, ambient_c: float = BOX_C
) -> PackageHeat:
    """Heat of a package with everything lit and with what it really shows.

    Args:
        sink: the sink.
        outputs: what hangs on each output in use; at most as many as the package has.
        name: of the package, for the report.
        ambient_c: air in the closed box, °C.

    Formula: ``P = sum(V*I)`` with all on; ``Pm = sum(share*V*I)``; ``Tj = Ta + P*theta``.

    Raises:
        InputError: more outputs than the package has.

    Source: the ``source`` of the sink.

    Example:
        >>> from segkit.catalog.reader import sink
        >>> eight = [OutputLoad(0.1, 0.12, 0.7)] * 8
        >>> made = package_heat(sink("darlington-sink-8"), eight, name="chip 1")
        >>> made.all_on_c > made.mean_c > 50
        True
    """
    volts = [_across(sink, output, output.highest_a, worst=True) for output in outputs]
    full = package_load(
        sink, outputs_a=[output.highest_a for output in outputs], outputs_v=volts, ambient_c=ambient_c
    )
    terms = [
        (output.share, _across(sink, output, output.current_a, worst=False), output.current_a)
        for output in outputs
    ]
    mean_w = sum(share * volt * current_a for share, volt, current_a in terms)
    mean_c = ambient_c + mean_w * thermal_resistance(sink)
    return PackageHeat(
        name=name, outputs=len(outputs), all_on_a=full.total_a, all_on_w=full.heat_w,
        all_on_c=full.junction_c, mean_w=mean_w, mean_c=mean_c, limit_c=sink.max_junction_c,
        lines=_lines(sink, terms, mean_w, mean_c, ambient_c),
        findings=_warm(sink, full, mean_c, ambient_c),
    )  # fmt: skip


def _across(sink: Sink, output: OutputLoad, current_a: float, *, worst: bool) -> float:
    if output.left_v is not None:
        return output.left_v
    drop = sink_drop(sink, current_a=current_a)
    return drop.worst_v if worst or sink.type == "register" else drop.typical_v


def _lines(
    sink: Sink, terms: Sequence[tuple[float, float, float]], mean_w: float, mean_c: float, ambient_c: float
) -> tuple[Line, ...]:
    parts, inputs = [], []
    for number, term in enumerate(dict.fromkeys(terms), 1):
        share, volt, current_a = term
        parts.append(f"n{number}*s{number}*V{number}*I{number}")
        inputs += [
            Given(f"n{number}", list(terms).count(term), "", "outputs"),
            Given(f"s{number}", share, "", "share of the time in which it is on"),
            Given(f"V{number}", volt, "V", "across each, typical"),
            Given(f"I{number}", current_a, "A", "through each, typical"),
        ]
    theta = thermal_resistance(sink)
    warmth = (Given("T", ambient_c, "°C", "air in the box"), Given("P", mean_w, "W", "mean heat"),
              Given("theta", theta, "K/W", "junction to air, most cautious maker"))  # fmt: skip
    return (
        Line("electrical.sink_heat_mean", f"heat in one {sink.name}, mean of what it shows", "Pm", mean_w,
             "W", " + ".join(parts) or "0", tuple(inputs), sink.source),
        Line("electrical.sink_junction_mean", f"junction of the {sink.name}, mean of what it shows", "Tm",
             mean_c, "°C", "T + P*theta", warmth, sink.source),
    )  # fmt: skip


def _warm(sink: Sink, full: PackageLoad, mean_c: float, ambient_c: float) -> tuple[Finding, ...]:
    """A word where everything lit comes close to the limit; beyond it ``package_load`` says stop."""
    limit_c = sink.max_junction_c
    edge_c = ambient_c + WARM * (limit_c - ambient_c)
    if not limit_c or not edge_c < full.junction_c <= limit_c:
        return ()
    return (
        Finding(
            level="caution",
            code="sink-warm",
            subject=sink.name,
            text=f"with everything lit the junction reaches {full.junction_c:.0f} °C in a closed box at "
            f"{ambient_c:.0f} °C, near its {limit_c:.0f} °C; with the usual content {mean_c:.0f} °C.",
            value=round(full.junction_c, 1),
            limit=limit_c,
            unit="°C",
            source=sink.source,
            remedy="Let air pass through the box, keep lamp tests short, or use fewer outputs a package.",
        ),
    )


def pulsed_load(
    sink: Sink,
    *,
    output_a: float,
    outputs: int,
    duty: float = 1.0,
    ambient_c: float = BOX_C,
    left_v: float | None = None,
    drive_v: float | None = None,
) -> PackageLoad:
    """A package whose outputs carry a peak current for a share of the time.

    Args:
        sink: the sink.
        output_a: current of each output while it is on, A, 0 or more.
        outputs: outputs that are on together, at most what the package has.
        duty: share of the time in which any of them is on, 0 to 1: heat is its mean, limits hold at the peak.
        ambient_c: air in the box, °C.
        left_v: across each output, V; the sink's worst drop if left out.
        drive_v: supply less LEDs, V, so that a register's overload can name the resistor that would do.

    Returns:
        current at the peak, heat and junction in the mean.

    Formula: ``P = duty*n*V(I)*I``; ``Tj = Ta + P*theta``.

    Raises:
        InputError: more outputs than the package has.

    Source: the ``source`` of the sink.

    Example:
        >>> from segkit.catalog.reader import sink
        >>> round(pulsed_load(sink("darlington-sink-8"), output_a=0.1, outputs=8, duty=0.5).heat_w, 3)
        0.44
    """
    volts = None if left_v is None else [left_v] * outputs
    peak = package_load(
        sink, outputs_a=[output_a] * outputs, outputs_v=volts, ambient_c=ambient_c, drive_v=drive_v
    )
    heat = duty * peak.heat_w
    junction_c = ambient_c + heat * thermal_resistance(sink)
    kept = [finding for finding in peak.findings if finding.code != "sink-heat"]
    if sink.max_junction_c and junction_c > sink.max_junction_c:
        kept += [finding for finding in peak.findings if finding.code == "sink-heat"]
    return replace(peak, heat_w=heat, junction_c=junction_c, lines=(), findings=tuple(kept))
