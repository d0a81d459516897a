"""Tables of the electrical chapter: equal light, corners, parts as they come, networks, heat, pulses."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from segkit.circuits import DigitNetworks, ways_to_divide
from segkit.electrical.arrangement import Arrangement
from segkit.electrical.equal_light import equal_light_sentence
from segkit.electrical.power_on import flash_sentence
from segkit.electrical.resistor import rating_name
from segkit.electrical.spread import Percentiles
from segkit.project import Project
from segkit.units import engineering, plain_number

#: Networks whose pins are listed; more would bury the chapter.
_MOST_PLANS = 4
#: Ways to divide the LEDs of a kind that are shown.
_MOST_WAYS, _WRITTEN_SINGLY = 4, 4
_DERATED_FROM_C = 50.0
_FITS = {True: "fits", False: "too hot"}


@dataclass(frozen=True)
class Table:
    """A table with what to say about it.

    Attributes:
        title: heading; empty for a table that goes on from the one before.
        text: sentences before the table.
        head: column heads.
        rows: cells as text; the first column is left-aligned, the others to the right if ``numbers``.
        numbers: whether the other columns hold numbers.
        steps: a numbered list after the text.
    """

    title: str
    text: str
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    numbers: bool = True
    steps: tuple[str, ...] = ()


def drive_tables(project: Project) -> tuple[Table, ...]:
    """The tables of a project, those that have nothing to say left out.

    Args:
        project: what they are about.
    """
    return (
        _equal(project), _ways(project), *_corners(project), *_drawn(project), *_networks(project),
        _heat(project), _dimming(project), *_turns(project), _first(project),
    )  # fmt: skip


def _ma(current_a: float) -> str:
    return engineering(current_a, "A")


def _equal(project: Project) -> Table:
    equal = project.drive.equal
    rows = tuple(
        (
            kind, str(sum(string.leds for string in circuit.strings)), _ma(equal.aimed_a[kind]),
            _ma(sum(s.leds * s.current_a for s in circuit.strings) / sum(s.leds for s in circuit.strings)),
            f"{equal.light[kind]:.1%}",
        )
        for kind, circuit in project.circuits.items()
    )  # fmt: skip
    text = equal_light_sentence(equal)
    text += " Light is that of the brightest kind, then of its own at the ends of the supply."
    if project.parts.sink.type != "constant-current":
        series = project.design.power.values
        text += f" The steps of {series} allow {100 * (equal.limit - 1):.1f} % either way."
    head = ("Segment kind", "LEDs", "Aimed at", "An LED gets", "Light")
    apart = project.drive.drift
    if apart is None or len(rows) < 2:
        return Table("Equal light", text, head, rows)
    supply = project.parts.supply
    low, high = (f"At {plain_number(volt, 3)} V" for volt in (supply.min_v, supply.max_v))
    worst = max(apart.ratio_low, apart.ratio_high)
    if math.isfinite(worst):
        text += f" At the ends of the supply the kinds drift apart {worst:.2f} times at most."
    wider = tuple((*row, *(f"{end.get(row[0], 0):.0%}" for end in (apart.low, apart.high))) for row in rows)
    return Table("Equal light", text, (*head, low, high), wider)


def _ways(project: Project) -> Table:
    rows: list[tuple[str, ...]] = []
    for kind, circuit in project.circuits.items():
        taken = tuple(string.leds for string in circuit.strings)
        ways = ways_to_divide(project.design, project.parts, project.drive, kind)
        shown = [way for number, way in enumerate(ways) if number < _MOST_WAYS or way.counts == taken]
        rows += [
            (
                kind if number == 0 else "", divided(way.counts), str(way.resistors),
                _ma(way.current_a), f"{way.waste:.0%}",
                f"{way.spread:.3g} times" if math.isfinite(way.spread) else "may go dark",
                "taken" if way.counts == taken else _against(way),
            )
            for number, way in enumerate(shown)
        ]  # fmt: skip
    given = " and with the resistors given" if project.design.power.resistor_ohm is not None else ""
    text = (
        f"Every even division of the LEDs into strings was tried, at the current aimed at{given}; the best "
        "few are listed. Ranked by what speaks against them, then by power, spread over the corners, "
        "resistors to solder, and unequal strings."
    )
    head = ("Segment kind", "Strings", "Resistors", "Current", "Power lost", "Spread", "Remark")
    return Table("Ways to divide the LEDs", text, head, tuple(rows), numbers=False)


def divided(counts: tuple[int, ...]) -> str:
    """Strings in few letters.

    Args:
        counts: LEDs of each string, longest first.

    Example:
        >>> divided((3, 3, 2)), divided((2, 2, 2, 2, 2, 1))
        ('3+3+2', '5×2 + 1×1')
    """
    if len(counts) <= _WRITTEN_SINGLY:
        return "+".join(map(str, counts))
    return " + ".join(f"{counts.count(leds)}×{leds}" for leds in dict.fromkeys(counts))


def _against(way: Arrangement) -> str:
    """What speaks against an arrangement, by the names of the findings."""
    return ", ".join(dict.fromkeys(one.code for one in way.findings if one.level != "note"))


def _corners(project: Project) -> Iterator[Table]:
    rows = tuple(
        (
            f"{kind}, string of {string.leds}", plain_number(string.headroom_v, 3) + " V",
            _ma(string.lowest_a), _ma(string.current_a), _ma(string.highest_a),
            engineering(string.resistor_w, "W"), rating_name(string.rating_w),
        )
        for kind, circuit in project.circuits.items()
        for string in dict.fromkeys(circuit.strings)
        if string.chosen_ohm
    )  # fmt: skip
    if not rows:
        return
    supply, drive = project.parts.supply, project.design.drive
    text = (
        f"Supply {plain_number(supply.min_v, 3)} to {plain_number(supply.max_v, 3)} V, LEDs of every bin at "
        f"{drive.coldest_c:g} to {drive.hottest_c:g} °C, resistors within "
        f"{100 * project.design.power.tolerance:g} %, sink at its lowest and highest drop, all at once; the "
        f"LED's limit is {_ma(project.parts.led.max_current_a)}."
    )
    if drive.hottest_c > _DERATED_FROM_C:
        text += " Many data sheets lower it above 50 °C, which is not reckoned here: read the one you bought."
    head = ("String", "Left for the resistor", "Lowest", "Typical", "Highest", "Resistor heat", "Rating")
    yield Table("The corners", text, head, rows)


def _drawn(project: Project) -> Iterator[Table]:
    many = project.drive.many
    if many is None:
        return

    def row(name: str, values: Percentiles, unit: str) -> tuple[str, ...]:
        if unit:
            return name, *(engineering(v, unit) for v in (values.low, values.middle, values.high))
        return name, *(f"{v:.2f}" for v in (values.low, values.middle, values.high))

    bag = "all LEDs of a board from one bag" if project.design.drive.one_bag else "LEDs of mixed bins"
    text = (
        f"{many.boards} boards drawn at random, the same every time (seed {many.seed}), {bag}: few parts sit "
        f"in a corner. {many.over_limit:.0%} of the boards have a string above the LED's limit."
    )
    rows = (
        row("current of a string", many.current_a, "A"),
        row("strongest string of a board", many.highest_a, "A"),
        row("hottest resistor of a board", many.resistor_w, "W"),
        row("brightest over darkest segment of a kind", many.light_ratio, ""),
    )
    head = ("Quantity", "1 % lie below", "Half lie below", "99 % lie below")
    yield Table("Parts as they come", text, head, rows)


def _networks(project: Project) -> Iterator[Table]:
    found = project.drive.networks
    if not found:
        return
    rows = tuple(
        (
            _digits(one), f"{one.resistors} × {engineering(one.ohm, 'Ω')}", one.plan.name,
            str(one.plan.packages), f"{max(one.plan.fit.element_share, one.plan.fit.package_share):.0%}",
            one.plan.fit.limited_by, _FITS[one.plan.fit.fits],
        )
        for one in found
    )  # fmt: skip
    built = project.drive.in_networks
    text = (
        f"{'Built in' if built else 'Possible'} for single resistors: the best network for each value "
        "in each digit. The share is heat at the worst corner, twice over, against what the package or one "
        "resistor in it may take."
    )
    for remark in dict.fromkeys(one.remark for one in found if one.remark):
        text += f" {remark[0].upper()}{remark[1:]}"
    head = ("Digits", "Resistors of a digit", "Network", "Packages", "Share", "Held by", "Verdict")
    yield Table(
        "Resistor networks" if built else "Resistor networks instead", text, head, rows, numbers=False
    )
    for one in [one for one in found if one.plan.fit.fits][:_MOST_PLANS]:
        pins = tuple((f"{pin.package}", str(pin.pin), pin.goes_to) for pin in one.plan.pins)
        about = (
            f"Pins of the networks of {engineering(one.ohm, 'Ω')}, {_digits(one).lower()}; pin 1 is marked."
        )
        yield Table("", about, ("Package", "Pin", "Goes to"), pins, numbers=False)


def _digits(one: DigitNetworks) -> str:
    return f"Digit{'s' if len(one.digits) > 1 else ''} {', '.join(map(str, one.digits))}"


def _heat(project: Project) -> Table:
    sink = project.parts.sink
    alike: dict[tuple[str, ...], list[str]] = {}
    heats, name = project.heats, "{}"
    if sink.outputs == 1:  # one part for each segment: the hottest stands for all
        heats, name = (
            (max(heats, key=lambda heat: (heat.all_on_c, heat.mean_c)),),
            f"hottest of {len(heats)}, {{}}",
        )
    for heat in heats:
        cells = (
            str(heat.outputs), _ma(heat.all_on_a), engineering(heat.all_on_w, "W"), f"{heat.all_on_c:.0f} °C",
            engineering(heat.mean_w, "W"), f"{heat.mean_c:.0f} °C",
        )  # fmt: skip
        alike.setdefault(cells, []).append(name.format(heat.name))
    rows = tuple((_named(names), *cells) for cells, names in alike.items())
    limit = f" Its junction is to stay below {sink.max_junction_c:.0f} °C." if sink.max_junction_c else ""
    text = (
        f"{sink.name}, with air at {project.design.drive.box_c:g} °C around it, by the most cautious "
        f"maker.{limit} Everything lit is the worst corner, the mean is that of: "
        f"{project.design.power.use.content}."
    )
    head = ("Package", "Outputs", "All lit", "Heat", "Junction", "Mean heat", "Junction, mean")
    return Table("Heat of the sinks", text, head, rows)


def _named(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{names[0]} and {len(names) - 1} alike"


def _dimming(project: Project) -> Table:
    made = project.pulses.dimmed
    asked = project.design.dimming
    rows = tuple(
        (str(one.number), f"{one.lightness:.1f}", f"{one.share:.2%}", str(one.count), f"{one.got:.1f}")
        for one in made.levels
    )
    text = (
        f"On output-enable, {engineering(asked.frequency_hz, 'Hz')}, {made.bits} bits: steps that look equal "
        "(CIE 1976 lightness). Output-enable is active low: the count is the time for which it is low."
    )
    if made.night_share == 0:
        text += " At night the surroundings ask for a dark board."
    elif made.night_share < 1:
        text += f" At night {made.night_share:.1%} of full luminance is allowed: count {made.night_count}."
    head = ("Level", "Lightness wanted", "Luminance", "Count", "Lightness got")
    return Table("Dimming", text, head, rows)


def _turns(project: Project) -> Iterator[Table]:
    made = project.pulses.turns
    if made is None:
        return
    rows = (
        ("share of the time in which a digit is lit", "100 %", f"{made.duty:.1%}"),
        ("current of an LED while it is lit", _ma(made.peak_a * made.duty / made.light), _ma(made.peak_a)),
        ("light", "100 %", f"{made.light:.0%}"),
        ("through the common of a digit, everything lit", "", _ma(made.digit_a)),
        ("turn of a digit, lit part", "", f"{made.slot_s * 1e6:.0f} us, {made.lit_s * 1e6:.0f} us"),
        ("resistor, before rounding where it is not given", "", f"{engineering(made.resistor_ohm, 'Ω')}"),
        ("junction of a sink", "", f"{made.load.junction_c:.0f} °C"),
        *_colours(project),
    )
    text = (
        f"What {made.digits} digits on one set of registers would get. Wiring, table and parts in this book "
        "stay those of static drive."
    )
    yield Table("Digits in turn, for comparison", text, ("", "Static, as built", "In turn"), rows)


def _colours(project: Project) -> Iterator[tuple[str, str, str]]:
    """Rows on two LEDs behind the same resistors."""
    made = project.pulses.colours
    if made is None:
        return
    yield "current in its turn: " + " and ".join(made.names), "", " and ".join(map(_ma, made.currents_a))
    for what, shares in (("charge", made.charge), ("light", made.light)):
        if shares:
            yield f"on-time of each for equal {what}", "", " and ".join(f"{share:.0%}" for share in shares)


def _first(project: Project) -> Table:
    first = project.pulses.first
    return Table("Dark from the first moment", flash_sentence(first), steps=first.steps)
