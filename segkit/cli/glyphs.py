"""``segkit glyphs``: the byte for each character, what looks alike, and what a fault would show."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from segkit.cli import output
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.catalog.part import Sink
    from segkit.findings import Finding
    from segkit.glyphs.bitmask import Active, Order
    from segkit.glyphs.characters import Style, Tail
    from segkit.glyphs.faults import Fingerprint, Shown

EXAMPLE = 'segkit glyphs "0-9 A-F" --order "dp g f e d c b a"'
_DEFAULT_ORDER = "dp g f e d c b a"
_STRIP, _FAULT_COLUMNS = 16, 5


@dataclass(frozen=True)
class _Request:
    """The options, read."""

    text: str
    chars: tuple[str, ...]
    order: Order
    sent: Order | None
    active: Active
    sink: Sink | None
    style: Style
    custom: dict[str, str]
    seen: str | None
    faults: bool


def glyphs(
    text: Annotated[
        str,
        typer.Argument(
            metavar="TEXT", help='Ranges such as "0-9 A-F", or the words to be shown, such as "GUEST".'
        ),
    ],
    order: Annotated[
        str,
        typer.Option(metavar="ORDER", help="Segments of a byte, written as a binary number is: bit 7 first."),
    ] = _DEFAULT_ORDER,
    active: Annotated[
        str | None,
        typer.Option(
            metavar="WORD", help="high: a 1 lights; low: a 0 lights. Default: high, or as the driver asks."
        ),
    ] = None,
    driver: Annotated[
        str | None,
        typer.Option(
            metavar="ID", help="Catalogue id of what switches the segments; its polarity is checked."
        ),
    ] = None,
    sent: Annotated[
        str | None,
        typer.Option(metavar="ORDER", help="Show what lights if the bytes are sent in this other order."),
    ] = None,
    seen: Annotated[
        str | None,
        typer.Option(metavar="TEXT", help="What the board showed instead of TEXT; the fault is named."),
    ] = None,
    faults: Annotated[
        bool, typer.Option("--faults", help="Table of common faults: what each character becomes.")
    ] = False,
    style: Annotated[
        str, typer.Option(metavar="WORD", help="tails or plain: 6 and 9 with or without tails.")
    ] = "tails",
    six: Annotated[str | None, typer.Option(metavar="WORD", help="tail or plain, for the 6 alone.")] = None,
    seven: Annotated[
        str | None, typer.Option(metavar="WORD", help="tail or plain: the 7 with or without f.")
    ] = None,
    nine: Annotated[str | None, typer.Option(metavar="WORD", help="tail or plain, for the 9 alone.")] = None,
    draw: Annotated[
        list[str] | None,
        typer.Option(metavar="GLYPH", help='A glyph of your own, such as "M=a c e g"; may be repeated.'),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON for programs.")] = False,
) -> None:
    """List the byte and the lit segments of each character, in any bit order and polarity."""
    ways = {"style": style, "six": six, "seven": seven, "nine": nine}
    options = {"order": order, "active": active, "driver": driver, "sent": sent}
    request = replace(_read(text, options, ways, draw or []), seen=seen, faults=faults)
    findings = _findings(request)
    if as_json:
        output.print_json(_as_data(request, findings))
    else:
        _print(request, findings)
    from segkit.findings import stops

    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


# --- reading ---------------------------------------------------------------------------------------------


def _read(
    text: str, options: dict[str, str | None], ways: dict[str, str | None], draw: Sequence[str]
) -> _Request:
    from segkit.catalog import reader
    from segkit.glyphs.bitmask import parse_active, parse_order
    from segkit.glyphs.characters import Style
    from segkit.glyphs.polarity import active_for

    read = output.gather(
        text=(text, lambda given: _characters(given, draw)),
        order=(options["order"], parse_order),
        active=(options["active"], parse_active),
        driver=(options["driver"], reader.sink),
        sent=(options["sent"], parse_order),
        style=(ways["style"], _usual),
        six=(ways["six"], _tail),
        seven=(ways["seven"], _tail),
        nine=(ways["nine"], _tail),
        draw=("\n".join(draw), _own_glyphs),
    )
    usual: Tail = read["style"]
    sink: Sink | None = read["driver"]
    return _Request(
        text=text,
        chars=read["text"],
        order=read["order"],
        sent=read["sent"],
        active=read["active"] or (active_for(sink) if sink else "high"),
        sink=sink,
        style=Style(six=read["six"] or usual, seven=read["seven"] or "plain", nine=read["nine"] or usual),
        custom=read["draw"],
        seen=None,
        faults=False,
    )


def _characters(text: str, draw: Sequence[str]) -> tuple[str, ...]:
    from segkit.glyphs.characters import cannot_show, plain_text, unshown
    from segkit.glyphs.text import expand, other_words

    own = {given[0]: "" for given in draw if given}
    problems: list[Problem] = []
    try:
        chars = expand(text)
    except InputError as error:
        problems += error.at(key="TEXT").problems
        chars = tuple(plain_text(text).replace(" ", ""))
    impossible = tuple(c for c in unshown("".join(chars), own) if c not in ".,:")
    if impossible:
        problem = cannot_show(impossible, value=f'"{text}"', remedy=other_words(text))
        problems.append(replace(problem, key="TEXT"))
    if problems:
        raise InputError(problems)
    shown = tuple(c for c in chars if c not in ".,:")
    if not shown:
        raise InputError(
            Problem(
                "points and colons are lamps of their own and have no glyph.", key="TEXT", value=f'"{text}"'
            )
        )
    return shown


def _usual(given: str) -> Tail:
    return _way(given, {"tails": "tail", "plain": "plain"})


def _tail(given: str) -> Tail:
    return _way(given, {"tail": "tail", "plain": "plain"})


def _way(given: str, ways: dict[str, Tail]) -> Tail:
    word = given.strip().lower()
    if word not in ways:
        raise InputError(Problem("not a way to draw it.", value=f'"{given}"', limit=" or ".join(ways)))
    return ways[word]


def _own_glyphs(lines: str) -> dict[str, str]:
    from segkit.glyphs.characters import ordered

    found = {}
    problems: list[Problem] = []
    for line in filter(None, lines.split("\n")):
        char, equals, segments = line[0], line[1:2], line[2:]
        if equals != "=":
            text = "no character, equals sign and segments."
            problems.append(Problem(text, value=f'"{line}"', remedy='Write it as in "M=a c e g".'))
            continue
        try:
            found[char] = "".join(ordered(segments.replace(",", "")))
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(problems)
    return found


# --- answering -------------------------------------------------------------------------------------------


def _findings(request: _Request) -> tuple[Finding, ...]:
    from segkit.findings import in_order
    from segkit.glyphs.confusions import confusion_findings
    from segkit.glyphs.faults import diagnose
    from segkit.glyphs.polarity import polarity_findings

    found: list[Finding] = []
    if request.sink is not None:
        found += polarity_findings(
            request.sink, active=request.active, order=request.order, style=request.style
        )
    if request.seen is not None:
        try:
            found += diagnose(request.text, request.seen, style=request.style, custom=request.custom)
        except InputError as error:
            raise error.at(key="--seen") from None
    found += confusion_findings(request.chars, request.style, request.custom)
    return in_order(found)


def _sent(request: _Request) -> tuple[Shown, ...]:
    from segkit.glyphs.faults import sent_as

    if request.sent is None:
        return ()
    return sent_as(
        request.chars,
        order=request.order,
        sent=request.sent,
        active=request.active,
        style=request.style,
        custom=request.custom,
    )


def _fingerprints(request: _Request) -> tuple[Fingerprint, ...]:
    from segkit.glyphs.faults import fingerprints

    return fingerprints(
        request.chars,
        order=request.order,
        active=request.active,
        style=request.style,
        custom=request.custom,
    )


# --- for programs ----------------------------------------------------------------------------------------


def _as_data(request: _Request, findings: Sequence[Finding]) -> dict[str, Any]:
    from segkit.glyphs.characters import near_alikes
    from segkit.glyphs.confusions import confused
    from segkit.glyphs.readings import single_faults

    alikes = confused(request.chars, request.style, request.custom)
    near = near_alikes(request.chars, request.style, request.custom)
    data: dict[str, Any] = {
        "order": list(request.order),
        "active": request.active,
        "style": {"six": request.style.six, "seven": request.style.seven, "nine": request.style.nine},
        "glyphs": [_glyph_data(char, request) for char in request.chars],
        "lookalikes": [
            {"chars": list(a.chars), "segments": list(a.segments), "in_use": a.in_use} for a in alikes
        ],
        "one_segment_apart": [{"chars": [one, other], "segment": name} for one, other, name in near],
        "findings": [finding.as_dict() for finding in findings],
    }
    if request.sent is not None:
        shown = [_shown_data(shown) for shown in _sent(request)]
        data["sent"] = {"order": list(request.sent), "glyphs": shown}
    if request.faults:
        data["faults"] = [
            {"fault": f.fault, "cause": f.cause, "glyphs": [_shown_data(s) for s in f.shown]}
            for f in _fingerprints(request)
        ]
        data["misreadings"] = [
            {"char": m.char, "segment": m.segment, "fault": m.fault, "reads": m.reads}
            for m in single_faults(request.chars, request.style, request.custom)
        ]
    return data


def _glyph_data(char: str, request: _Request) -> dict[str, Any]:
    from segkit.glyphs.bitmask import mask
    from segkit.glyphs.characters import drawn_as, segments_of

    segments = segments_of(char, request.style, request.custom)
    value = mask(segments, request.order, request.active)
    return {
        "char": char,
        "drawn": drawn_as(char, request.custom),
        "mask": value,
        "hex": f"0x{value:02X}",
        "binary": f"{value:08b}",
        "segments": list(segments),
    }


def _shown_data(shown: Shown) -> dict[str, Any]:
    return {
        "char": shown.char,
        "mask": shown.value,
        "hex": f"0x{shown.value:02X}",
        "lights": list(shown.lights),
        "reads": shown.reads or None,
    }


# --- for people ------------------------------------------------------------------------------------------


def _print(request: _Request, findings: Sequence[Finding]) -> None:
    rows = [_glyph_data(char, request) for char in request.chars]
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


def _print_near(request: _Request) -> None:
    from segkit.glyphs.characters import near_alikes

    near = near_alikes(request.chars, request.style, request.custom)
    if near:
        pairs = ", ".join(f"{one}-{other} ({name})" for one, other, name in near)
        output.console().print(f"One segment apart: {pairs}\n", markup=False)


def _print_sent(request: _Request) -> None:
    from segkit.glyphs.polarity import spoken

    output.print_table(
        ("char", "arrives as", "lights", "read as"),
        [(s.char, f"0x{s.value:02X}", spoken(s.lights), s.reads or "-") for s in _sent(request)],
        title=f"Sent as {' '.join(request.sent or ())}, on a board wired as {' '.join(request.order)}",
    )


def _print_faults(request: _Request) -> None:
    table = _fingerprints(request)
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
