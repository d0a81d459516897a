"""``segkit glyphs``: the byte for each character, what looks alike, and what a fault would show."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from segkit.cli import output
from segkit.cli.glyphs_answer import Request, as_data, findings_of
from segkit.cli.glyphs_print import print_answer
from segkit.errors import InputError, Problem

if TYPE_CHECKING:
    from segkit.catalog.part import Sink
    from segkit.glyphs.characters import Tail

EXAMPLE = 'segkit glyphs "0-9 A-F" --order "dp g f e d c b a"'
_DEFAULT_ORDER = "dp g f e d c b a"


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
        typer.Option(
            metavar="TEXT",
            help="What the board showed instead of TEXT, lit segments in brackets where it is no character: "
            '"[fg][bdeg dp]"; the fault is named.',
        ),
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
    findings = findings_of(request)
    if as_json:
        output.print_json(as_data(request, findings))
    else:
        print_answer(request, findings)
    from segkit.findings import stops

    raise typer.Exit(output.STOPPED if stops(findings) else output.GOOD)


# --- reading ---------------------------------------------------------------------------------------------


def _read(
    text: str, options: dict[str, str | None], ways: dict[str, str | None], draw: Sequence[str]
) -> Request:
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
    return Request(
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
