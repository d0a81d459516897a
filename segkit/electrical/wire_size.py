"""Any wire as people name it: a catalogue id, a gauge, a cross-section, or a cable of several cores."""

from __future__ import annotations

import math
import re
from dataclasses import replace

from segkit.catalog import reader
from segkit.catalog.part import Wire
from segkit.electrical.cable import COPPER_OHM_MM2_PER_M, awg_diameter_mm, awg_resistance_ohm_per_m
from segkit.errors import InputError, MissingPartError, Problem, nearest
from segkit.units import plain_number

#: Highest resistance of a plain copper conductor at 20 °C, Ω/km, by cross-section, mm²: solid or stranded.
SOLID_OHM_PER_KM = {
    0.22: 96.0, 0.25: 76.0, 0.34: 53.0, 0.5: 36.0, 0.75: 24.5, 1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4.0: 4.61,
    6.0: 3.08,
}  # fmt: skip
#: The same of a flexible conductor, whose fine strands are longer than the wire.
FLEXIBLE_OHM_PER_KM = {0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30}
#: What the tables allow above ideal copper at most; for sizes that they do not have.
_EXCESS = 1.16
#: Stranded wire of a gauge over solid: the strands run a little longer than the wire.
_STRANDED = 1.05
#: Current to plan a core with: 1 A for each 700 circular mil.
_MM2_PER_A = 700 * math.pi / 4 * 0.0254**2
_THINNEST_MM2, _THICKEST_MM2, _GAUGES, _MOST_CORES = 0.05, 35.0, range(37), 100

_CORES = re.compile(r"^\s*(\d+)\s*[x×*]\s*(?=\d|awg)", re.IGNORECASE)
_AWG = re.compile(r"^(?:awg\s*-?\s*(\d+)|(\d+)\s*-?\s*awg)$", re.IGNORECASE)
_AREA = re.compile(r"^(\d+\.?\d*|\.\d+)\s*(?:mm2|mm²|mm\^2|sqmm)$", re.IGNORECASE)
_HOW = 'Write it as in "20 AWG", "0.75 mm2", "8 x 0.22 mm2", or take an id: segkit parts wires'


def wire_of(text: str) -> Wire:
    """The wire or cable that a text names.

    Args:
        text: a catalogue id (``cat5e``), a gauge (``20 AWG``, 0 to 36), a cross-section (``0.75 mm2``, 0.05
            to 35 mm²), either with a number of cores before it (``8 x 0.22 mm2``) and ``solid``,
            ``flexible`` or ``stranded`` after it. A gauge is taken as solid, a cross-section as flexible
            where the table of flexible conductors has it.

    Returns:
        the row; one made here has its size for an id, and 1 A for 700 circular mil to plan with.

    Raises:
        MissingPartError: neither an id nor a size.
        InputError: a size, or a number of cores, that no such cable has.

    Source: iec-60228 for cross-sections, astm-b258 and iec-60028 for gauges, wire-tables for the current.

    Example:
        >>> wire_of("20 AWG").area_mm2, wire_of("0.75 mm2").resistance_ohm_per_m
        (0.5176, 0.026)
    """
    name = text.strip()
    if name in reader.wires():
        return reader.wire(name)
    count = _CORES.match(name)
    cores = int(count[1]) if count else 1
    size = name[count.end() :] if count else name
    size, kind = _kind(size)
    if awg := _AWG.match(size):
        return _gauge(text, int(awg[1] or awg[2]), cores, kind)
    if area := _AREA.match(size):
        return _section(text, float(area[1]), cores, kind)
    known = nearest(name, tuple(reader.wires()))
    remedy = f"{known} {_HOW}." if known.startswith("Did you mean") else f"{_HOW}."
    raise MissingPartError(
        Problem("no wire of the catalogue, and no size.", value=f'"{text}"', remedy=remedy)
    )


def side_by_side(wire: Wire, *, cores: int) -> Wire:
    """Several cores of a cable, or several wires, used as one conductor.

    Args:
        wire: one of them.
        cores: how many, 1 or more.

    Raises:
        InputError: none at all.

    Source: the ``source`` of the wire.

    Example:
        >>> four = side_by_side(wire_of("cat5e"), cores=4)
        >>> round(4 * four.resistance_ohm_per_m, 4), four.max_current_a
        (0.0938, 2.0)
    """
    if cores < 1:
        raise InputError(Problem("a conductor needs a core.", value=str(cores), limit="1 or more"))
    if cores == 1:
        return wire
    return replace(
        wire, name=f"{wire.name}, {cores} side by side", area_mm2=cores * wire.area_mm2,
        resistance_ohm_per_m=wire.resistance_ohm_per_m / cores, max_current_a=cores * wire.max_current_a,
    )  # fmt: skip


def _kind(size: str) -> tuple[str, str]:
    for word in ("solid", "flexible", "stranded"):
        if size.lower().endswith(word):
            return size[: -len(word)].strip().rstrip(","), word if word == "solid" else "flexible"
    return size.strip(), ""


def _gauge(text: str, awg: int, cores: int, kind: str) -> Wire:
    if awg not in _GAUGES or not 1 <= cores <= _MOST_CORES:
        raise _out(text, f"{_GAUGES[0]} to {_GAUGES[-1]} AWG")
    area_mm2 = math.pi / 4 * awg_diameter_mm(awg) ** 2
    ohm = awg_resistance_ohm_per_m(awg) * (_STRANDED if kind == "flexible" else 1.0)
    return _made(f"{awg} AWG", cores, round(area_mm2, 4), ohm, kind or "solid", "awg-copper")


def _section(text: str, area_mm2: float, cores: int, kind: str) -> Wire:
    if not _THINNEST_MM2 <= area_mm2 <= _THICKEST_MM2 or not 1 <= cores <= _MOST_CORES:
        raise _out(text, f"{plain_number(_THINNEST_MM2)} to {plain_number(_THICKEST_MM2)} mm2")
    kind = kind or (
        "flexible" if area_mm2 in FLEXIBLE_OHM_PER_KM or area_mm2 > max(SOLID_OHM_PER_KM) else "solid"
    )
    table = FLEXIBLE_OHM_PER_KM if kind == "flexible" else SOLID_OHM_PER_KM
    ohm_per_km = table.get(area_mm2, 1000 * _EXCESS * COPPER_OHM_MM2_PER_M / area_mm2)
    return _made(f"{plain_number(area_mm2)} mm2", cores, area_mm2, ohm_per_km / 1000, kind, "iec-60228")


def _made(size: str, cores: int, area_mm2: float, ohm_per_m: float, kind: str, source: str) -> Wire:
    what = f"Cable {cores} x {size}, {kind}" if cores > 1 else f"Wire {size}, {kind}"
    return Wire(
        id=f"{cores} x {size}" if cores > 1 else size, name=what, source=source, knowledge="standard",
        cores=cores, area_mm2=area_mm2, resistance_ohm_per_m=ohm_per_m,
        max_current_a=round(area_mm2 / _MM2_PER_A, 2), colours=("any",),
    )  # fmt: skip


def _out(text: str, limit: str) -> InputError:
    limit = f"{limit}, 1 to {_MOST_CORES} cores"
    return InputError(Problem("no size of a wire.", value=f'"{text}"', limit=limit, remedy=f"{_HOW}."))
