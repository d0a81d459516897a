"""The answers of ``segkit glyphs`` for people."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from segkit.cli import output
from segkit.cli.glyphs_answer import Request, fault_table, glyph_data, sent

if TYPE_CHECKING:
    from segkit.findings import Finding
    from segkit.glyphs.faults import Shown

_STRIP, _FAULT_COLUMNS = 16, 5


def print_answer(request: Request, findings: Sequence[Finding]) -> None:
    """Pictures, table, look-alikes, faults, verdicts."""
    rows = [glyph_data(char, request) for char in request.chars]
    for start in range(0, len(rows), _STRIP):
        _print_strip(rows[start : start + _STRIP])
    lights = 1 if request.active == "high" else 0
    output.print_table(
        ("char", "drawn", "hex", "binary", "decimal", "lit segments"),
        [
            (r["char"], r["drawn"], r["hex"], r["binary"], str(r["mask"]), " ".join(r["segments"]) or "none")
            for r in rows
        ],
        title=f"Bits 7 to 0: {' '.join(request.order)}; {lights} = lit",
        right=("decimal",),
    )
    _print_near(request)
    _print_slips(request)
    if request.sent is not None:
        _print_sent(request)
    if request.faults:
        _print_faults(request)
    output.print_findings(findings)


def _print_strip(rows: Sequence[dict[str, Any]]) -> None:
    from segkit.glyphs.picture import picture

    pictures = [picture(row["segments"]) for row in rows]
    for line in zip(*pictures, strict=True):
        sys.stdout.write("  " + "  ".join(line).rstrip() + "\n")
    sys.stdout.write("  " + "  ".join(f" {row['char']}  " for row in rows).rstrip() + "\n\n")


def _print_near(request: Request) -> None:
    from segkit.glyphs.characters import near_alikes

    near = near_alikes(request.chars, request.style, request.custom)
    if near:
        pairs = ", ".join(f"{one}-{other} ({name})" for one, other, name in near)
        output.console().print(f"One segment apart: {pairs}\n", markup=False)


def _print_slips(request: Request) -> None:
    """What one dark or one stuck segment makes of each digit in use, among all ten."""
    from segkit.glyphs.characters import DIGITS
    from segkit.glyphs.readings import single_faults

    digits = [char for char in request.chars if char in DIGITS]
    faults = single_faults(DIGITS, request.style, request.custom)
    rows = []
    for char in digits:
        ways = {word: [m for m in faults if m.char == char and m.fault == word] for word in ("dark", "stuck")}
        if any(ways.values()):
            cells = (", ".join(f"{m.reads} ({m.segment})" for m in found) or "-" for found in ways.values())
            rows.append((char, *cells))
    if rows:
        title = "One faulty segment that turns a digit into another, which no reader can notice"
        output.print_table(("digit", "read with one dark", "read with one stuck"), rows, title=title)


def _print_sent(request: Request) -> None:
    from segkit.glyphs.polarity import spoken

    output.print_table(
        ("char", "arrives as", "lights", "read as"),
        [(s.char, f"0x{s.value:02X}", spoken(s.lights), s.reads or "-") for s in sent(request)],
        title=f"Sent as {' '.join(request.sent or ())}, on a board wired as {' '.join(request.order)}",
    )


def _print_faults(request: Request) -> None:
    table = fault_table(request)
    for start in range(0, len(request.chars), _FAULT_COLUMNS):
        part = slice(start, start + _FAULT_COLUMNS)
        output.print_table(
            ("fault", *(f'"{char}"' for char in request.chars[part])),
            [(f.fault, *(_cell(shown) for shown in f.shown[part])) for f in table],
            title="What a fault shows: the lit segments, . for the point, =n what is read",
        )
    causes: dict[str, list[str]] = {}
    for one in table:
        causes.setdefault(one.cause, []).append(one.fault)
    for cause, names in causes.items():
        named = names[0] if len(names) == 1 else f"{names[0].split()[0]} to {names[-1]}"
        output.console().print(f"{named}: {cause}", markup=False)


def _cell(shown: Shown) -> str:
    if shown.reads == shown.char:
        return "same"
    letters = "".join("." if name == "dp" else name for name in shown.lights) or "dark"
    return f"{letters} ={shown.reads}" if shown.reads else letters
