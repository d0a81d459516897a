"""One switch with some of its outputs on: heat by their number, and the most that each may carry."""

from __future__ import annotations

import math
from dataclasses import dataclass

from segkit.catalog.part import Sink
from segkit.electrical.driver import BOX_C, PackageLoad, package_load, sink_drop, thermal_resistance
from segkit.errors import InputError, Problem


@dataclass(frozen=True)
class SinkRow:
    """A switch with a number of outputs on.

    Attributes:
        on: outputs on.
        load: the package.
        most_a: the most that each of them may carry at this number and air, A.
    """

    on: int
    load: PackageLoad
    most_a: float


def most_each_a(sink: Sink, *, on: int, ambient_c: float = BOX_C, spare_v: float | None = None) -> float:
    """The highest current that each of some outputs may carry at once.

    Args:
        sink: the switch.
        on: outputs on, 1 to what it has.
        ambient_c: air in the box, °C.
        spare_v: voltage across an output, V, for a constant-current sink; its own worst drop if left out.

    Returns:
        A: the least of the output limit, the package limit and what heats the junction to its limit.

    Formula: the current at which ``on*V(I)*I*theta = Tlimit - Ta``, V the worst drop.

    Raises:
        InputError: more outputs than it has.

    Source: the ``source`` of the sink.

    Example:
        >>> from segkit.catalog.reader import sink
        >>> round(1000 * most_each_a(sink("darlington-sink-8"), on=8))
        100
    """
    if not 1 <= on <= sink.outputs:
        raise InputError(
            Problem(f"{sink.id} has {sink.outputs} output(s).", value=str(on), limit=f"1 to {sink.outputs}")
        )
    limits = [sink.max_output_a or math.inf, (sink.max_package_a or math.inf) / on]
    theta = thermal_resistance(sink)
    if not theta or not sink.max_junction_c:
        return min(limits)
    budget_w = max(0.0, sink.max_junction_c - ambient_c) / theta / on
    low_a, high_a = 0.0, min(*limits, 1000.0)

    def heat_w(current_a: float) -> float:
        across_v = sink_drop(sink, current_a=current_a).worst_v if spare_v is None else spare_v
        return across_v * current_a

    if heat_w(high_a) <= budget_w:
        return high_a
    for _ in range(60):
        middle_a = (low_a + high_a) / 2
        low_a, high_a = (middle_a, high_a) if heat_w(middle_a) <= budget_w else (low_a, middle_a)
    return low_a


def sink_rows(
    sink: Sink,
    *,
    current_a: float,
    supply_max_v: float = 0.0,
    logic_v: float | None = None,
    ambient_c: float = BOX_C,
    spare_v: float | None = None,
) -> tuple[SinkRow, ...]:
    """A switch with one output on, with two, up to all of them.

    Args:
        sink: the switch.
        current_a: of each output that is on, A, above 0.
        supply_max_v: highest supply of the LEDs, V; 0 = not judged.
        logic_v: supply of the logic before it, V; None = not judged.
        ambient_c: air in the box, °C.
        spare_v: voltage across an output, V; needed for a constant-current sink.

    Raises:
        InputError: a current that is not above 0, or a constant-current sink without ``spare_v``.

    Source: the ``source`` of the sink.

    Example:
        >>> from segkit.catalog.reader import sink
        >>> rows = sink_rows(sink("darlington-sink-8"), current_a=0.04)
        >>> len(rows), round(rows[-1].load.heat_w, 3)
        (8, 0.352)
    """
    if current_a <= 0:
        raise InputError(Problem("the current must be above 0.", value=f"{current_a} A"))
    if sink.type == "constant-current" and spare_v is None:
        remedy = "Give what the supply leaves after the LEDs."
        raise InputError(Problem("a constant-current sink takes what the LEDs leave.", remedy=remedy))
    return tuple(
        SinkRow(
            on,
            package_load(
                sink, outputs_a=(current_a,) * on, outputs_v=None if spare_v is None else (spare_v,) * on,
                supply_max_v=supply_max_v, logic_v=logic_v, ambient_c=ambient_c,
            ),
            most_each_a(sink, on=on, ambient_c=ambient_c, spare_v=spare_v),
        )
        for on in range(1, sink.outputs + 1)
    )  # fmt: skip
