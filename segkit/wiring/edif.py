"""All parts and nets of a board in EDIF 2 0 0, the open interchange format of netlists."""

from __future__ import annotations

from collections.abc import Iterator

from segkit.wiring.circuit import Circuit, Component
from segkit.wiring.plan import Plan

_LIBRARY, _TOP, _VIEW = "parts", "board", "netlist"


def edif_netlist(plan: Plan, circuit: Circuit) -> str:
    """The netlist as EDIF text, level 0; references, pins and nets keep their names.

    Args:
        plan: gives title and stamp.
        circuit: parts and nets.

    Source: edif-2-0-0.
    """
    cells = {_cell_key(part): f"{part.kind}_{number}" for number, part in enumerate(_distinct(circuit), 1)}
    lines = [
        f"(edif {_TOP}",
        " (edifVersion 2 0 0) (edifLevel 0) (keywordMap (keywordLevel 0))",
        f" (status (written (timeStamp 1970 1 1 0 0 0) (program {_quoted(plan.stamp)})))",
        f" (library {_LIBRARY} (edifLevel 0) (technology (numberDefinition))",
    ]
    for key, name in cells.items():
        lines += _cell(key, name)
    lines += [" )", " (library work (edifLevel 0) (technology (numberDefinition))"]
    lines += [f"  (cell {_TOP} (cellType GENERIC)", f"   (view {_VIEW} (viewType NETLIST) (interface)"]
    lines.append("    (contents")
    lines += [_instance(part, cells[_cell_key(part)]) for part in circuit.components]
    for net in circuit.nets:
        pins = " ".join(f"(portRef {_port(pin)} (instanceRef {_name(ref)}))" for ref, pin in net.pins)
        lines.append(f"     (net {_name(net.name)} (joined {pins}))")
    lines += ["    )))", " )", f" (design {_TOP} (cellRef {_TOP} (libraryRef work)))", ")", ""]
    return "\n".join(lines)


Key = tuple[str, tuple[str, ...]]


def _cell_key(part: Component) -> Key:
    """Parts of one kind with the same pins share a cell."""
    return part.kind, part.pins


def _distinct(circuit: Circuit) -> Iterator[Component]:
    seen = set()
    for part in circuit.components:
        if _cell_key(part) not in seen:
            seen.add(_cell_key(part))
            yield part


def _cell(key: Key, name: str) -> list[str]:
    ports = " ".join(f'(port (rename {_port(pin)} "{pin}") (direction INOUT))' for pin in key[1])
    return [
        f"  (cell {name} (cellType GENERIC)",
        f"   (view {_VIEW} (viewType NETLIST) (interface {ports})))",
    ]


def _instance(part: Component, cell: str) -> str:
    value = f"(property value (string {_quoted(part.value)}))"
    place = f"(viewRef {_VIEW} (cellRef {cell} (libraryRef {_LIBRARY})))"
    return f"     (instance {_name(part.ref)} {place} {value})"


def _port(pin: str) -> str:
    """An identifier for a pin: letters, digits and underscores, a letter first."""
    return "p" + "".join(_letter(c) for c in pin)


def _name(text: str) -> str:
    return "".join(_letter(c) for c in text)


def _letter(char: str) -> str:
    known = {"+": "plus", "-": "minus"}
    return char if char.isalnum() else known.get(char, "_")


def _quoted(text: str) -> str:
    """A string of plain characters: others are written as their numbers between percent signs."""
    plain = "".join(c if " " <= c <= "~" and c not in '"%' else f"%{ord(c)}%" for c in text)
    return f'"{plain}"'
