"""The tables beside the drawing of a digit: poles and cores, strings, polarity, how to read it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from segkit.units import engineering
from segkit.wiring.circuit import seat_of
from segkit.wiring.colours import PLUS_CODE, SEGMENT_CODES, name_of
from segkit.wiring.harness import Harness
from segkit.wiring.led_strings import PlacedString
from segkit.wiring.page import EDGE_MM, PAGE_WIDE_MM, PANEL_MM, TOP_MM, notes, table
from segkit.wiring.pen import Pen
from segkit.wiring.plan import CONNECTOR_PINS, PLUS_PIN, Plan, connector
from segkit.wiring.symbols import led_in_hole


def panel(pen: Pen, whole: Harness, digits: Sequence[int]) -> None:
    """Tables and reading help at the right edge.

    Args:
        pen: the page.
        whole: the wiring of the board.
        digits: that are wired alike; the first one is drawn.

    Sources: iec-60757, led-lead-pitch.
    """
    plan, left = whole.plan, PAGE_WIDE_MM - EDGE_MM - PANEL_MM
    pen.line((left - 4, EDGE_MM), (left - 4, TOP_MM + 2), ink="faint")
    names = ", ".join(f"{connector(digit)} of digit {digit}" for digit in digits)
    pen.text((left, TOP_MM - 4), f"Connector {names}" if len(digits) < 5 else "Connectors", 3.2)
    foot = table(
        pen, _pole_rows(plan, digits), left=left, top=TOP_MM - 7, size=3.0,
        columns=(11, 15, 36, 17, 24, 17),
    )  # fmt: skip
    foot = table(pen, _string_rows(plan, digits[0]), left=left, top=foot - 4, size=3.0,
                 columns=(26, 24, 40, 30))  # fmt: skip
    x, y = left + 13, foot - 13
    led_in_hole(pen, (x - 1, y), (x + 1, y), radius=6)
    pen.line((x - 12, y), (x - 6, y))
    pen.line((x + 6, y), (x + 12, y))
    pen.text((x - 13, y + 1.5), "A +", 3.2)
    pen.text((x + 7, y + 1.5), "K −", 3.2)
    pen.text((x + 18, y + 2), "A: anode, plus, the long lead", 3.2)
    pen.text((x + 18, y - 3), "K: cathode, the short lead, flat on the rim", 3.2)
    notes(
        pen,
        _reading(plan, digits[0], several=len(digits) > 1),
        left=left,
        top=y - 10,
        wide=PANEL_MM - 4,
        size=3.0,
    )


def poles(plan: Plan, digit: int) -> Mapping[int, tuple[str, str]]:
    """Pole of a digit's connector to what it feeds and the colour of its wire on the board.

    Args:
        plan: what the wiring follows from.
        digit: from 1.
    """
    own = {c.segment for c in plan.wired if c.digit == digit}
    return {PLUS_PIN: ("+", PLUS_CODE)} | {
        pole: (name, SEGMENT_CODES[name]) for name, pole in CONNECTOR_PINS.items() if name in own
    }


def _pole_rows(plan: Plan, digits: Sequence[int]) -> list[tuple[str, ...]]:
    card = plan.card_of(digits[0])
    rows: list[tuple[str, ...]] = [("pole", "to", "core", "output", "pin", "sink pin")]
    outputs = {c.segment: c for c in plan.wired if c.digit == digits[0]}
    for pole, (name, code) in sorted(poles(plan, digits[0]).items()):
        if name == "+":
            rows.append((str(pole), "+", f"{code} {name_of(code)}", "LED plus", "", ""))
            continue
        channel = outputs[name]
        seat = seat_of(plan, channel)
        away = "" if channel.chip == card else f", chip {channel.chip}"
        sink = (f"Q {seat.out}" if seat.ref[0] == "Q" else seat.out) if seat.ref else "–"
        rows.append(
            (str(pole), name, f"{code} {name_of(code)}", channel.output + away, str(channel.pin), sink)
        )
    return rows


def _string_rows(plan: Plan, digit: int) -> list[tuple[str, ...]]:
    """Segments of one kind with their strings: LEDs and resistors."""
    kinds: dict[str, list[str]] = {}
    for segment in plan.board.segments:
        if segment.digit == digit:
            kinds.setdefault(segment.kind, []).append(segment.name)
    rows: list[tuple[str, ...]] = [("segments", "string", "LEDs in it", "resistor")]
    for names in kinds.values():
        strings = plan.strings_of(digit, names[0])
        for string in strings[:8]:
            first, last = string.leds[0].number, string.leds[-1].number
            count = f"{first} to {last}" if last > first else str(first)
            ohm = engineering(string.ohm, "Ω") if string.resistor else "none"
            ohm += " in a network" * bool(string.network)
            rows.append((" ".join(names) if string is strings[0] else "", str(string.number), count, ohm))
    return rows


def pin_name(string: PlacedString) -> str:
    """Pin of a network as the sheet of its digit names it: ``A3`` for pin 3 of ``RN2A``.

    Args:
        string: one whose resistor is in a network.

    Source: design-choice (names).
    """
    return string.resistor.removeprefix(f"RN{string.digit}") + string.own_pin


def short_name(string: PlacedString) -> str:
    """A resistor as the sheet of digits that are wired alike names it, ``Ra1`` for ``R2a1``.

    No part of a board has such a name: a digit or an N comes after every R.

    Args:
        string: one with a resistor of its own.

    Source: design-choice (names).
    """
    return f"R{string.segment}{string.number}"


def _named(string: PlacedString) -> str:
    if not string.network:
        return f"{short_name(string)} is {string.resistor}"
    pins = f"pins {string.feed_pin} and {string.own_pin}"
    return f"resistor is {pins} of {string.resistor}, here {pin_name(string)}"


def _from_networks(plan: Plan, digit: int) -> str:
    """What the red lines are where the resistors sit in networks."""
    own = [string for string in plan.strings_of(digit) if string.network]
    refs = list(dict.fromkeys(string.resistor for string in own))
    fed = list(dict.fromkeys(f"pin {string.feed_pin}" for string in own))
    plus = fed[0] if len(fed) == 1 else "the odd pins"
    named = refs[0] if len(refs) == 1 else f"{refs[0]} to {refs[-1]}"
    return (
        f"Resistors: {named} on a strip beside the connector, {plus} of each to pole {PLUS_PIN}. The red "
        "line is a loom of one wire for each string, named by network and pin where it leaves it. Current "
        "runs through them and the LEDs of each string"
    )


def _reading(plan: Plan, digit: int, *, several: bool) -> list[str]:
    example = next(string for string in plan.strings_of(digit))
    cards = (
        "The card of the digit sits behind its connector."
        if plan.carries == "supply"
        else "The digit's cable ends at this connector; its core colours are in the wire list."
    )
    through = "each resistor R and the LEDs of its string" if example.resistor else "the LEDs of each string"
    start = f"Current runs from the red plus wire round the outside through {through}"
    if any(string.network for string in plan.strings_of(digit)):
        start = _from_networks(plan, digit)
    alike = f" The names are those of digit {digit}: for another digit put its number in place of {digit}."
    return [
        f"{start} to the segment's own wire on the inner side, and back to the connector.",
        "Numbers at the LEDs count in that order. "
        f"In the lists, LED 1 of segment {example.segment} is {example.leds[0].ref}"
        + (f" and its {_named(example)}." if example.resistor else ".")
        + alike * several,
        "Wires join at a dot; where they cross without a dot they do not touch.",
        f"{cards} Two letters at a wire are its colour; every length is in wire_list.csv.",
    ]
