"""What to buy: every part with its quantity, spares and where it goes."""

from __future__ import annotations

import csv
import io
import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from segkit.catalog.part import Sheet
from segkit.catalog.reader import networks
from segkit.electrical.driver import set_resistor_ohm
from segkit.electrical.preferred import next_up
from segkit.electrical.resistor import rating_name
from segkit.fabrication.section import SPACER_MM
from segkit.geometry.polygon import area, perimeter
from segkit.project import Project
from segkit.report.feed_parts import FeedPart, feed_parts
from segkit.report.logic_parts import logic_parts
from segkit.report.wiring_parts import wiring_parts
from segkit.units import engineering, plain_number
from segkit.workshop import screw_of

#: One small part in twenty as a spare, at least one: common practice.
SPARE_SHARE = 1 / 20


@dataclass(frozen=True)
class Item:
    """One line of the parts list.

    Attributes:
        buy: how much to buy, with spares.
        used: how much goes into the board.
        unit: ``pcs``, ``m``, ``m²``, ``sheets`` or ``rolls``.
        what: what to ask for in a shop.
        remark: where it goes.
        id: catalogue id; empty for parts that are not in the catalogue.
    """

    buy: float
    used: float
    unit: str
    what: str
    remark: str
    id: str = ""


def with_spares(used: int) -> int:
    """The number to buy.

    Example:
        >>> with_spares(4), with_spares(112)
        (5, 118)
    """
    return used + max(1, math.ceil(SPARE_SHARE * used - 1e-9))


def bill_of_materials(project: Project) -> tuple[Item, ...]:
    """The parts list of a project, in the order of the job; a thing that has two places is one line."""
    return merged(
        (
            *_sheets(project),
            *_lamps(project),
            *_chips(project),
            *_few(logic_parts(project)),
            *_fixings(project),
            *_wiring(project),
            *_few(feed_parts(project)),
        )
    )


def merged(items: Iterable[Item]) -> tuple[Item, ...]:
    """Lines of one thing made one line that tells how much goes where; its spares are counted once.

    Args:
        items: in the order of the list.

    Example:
        >>> one, two = (Item(5, 4, "pcs", "R", "gates"), Item(2, 1, "pcs", "R", "enable"))
        >>> merged([one, two])
        (Item(buy=6, used=5, unit='pcs', what='R', remark='gates: 4; enable: 1', id=''),)
    """
    alike: dict[tuple[str, str, str], list[Item]] = {}
    for item in items:
        alike.setdefault((item.what, item.unit, item.id), []).append(item)
    return tuple(same[0] if len(same) == 1 else _one_line(same) for same in alike.values())


def _one_line(same: list[Item]) -> Item:
    used, buy = sum(item.used for item in same), sum(item.buy for item in same)
    if all(item.unit == "pcs" and item.buy > item.used for item in same):
        buy = with_spares(int(used))
    remark = "; ".join(f"{item.remark}: {plain_number(item.used)}" for item in same)
    return replace(same[0], buy=buy, used=used, remark=remark)


def to_csv(
    items: tuple[Item, ...], *, prices: Mapping[str, float] | None = None, currency: str = "EUR"
) -> str:
    """The parts list as CSV text with one heading line.

    Args:
        items: of ``bill_of_materials``.
        prices: the builder's own, by catalogue id; with any, each line has its cost, and the last line the
            sum.
        currency: of the prices.

    Example:
        >>> items = (Item(2, 2, "sheets", "Opal", "", "opal"), Item(9, 8, "pcs", "LED", "", "led"))
        >>> print(to_csv(items, prices={"opal": 14.5}).splitlines()[-1])
        ,,,"sum of what has a price, 1 line without",,,,29
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    money = (f"price each, {currency}", f"cost, {currency}") if prices else ()
    writer.writerow(("buy", "used", "unit", "what", "where it goes", "catalogue id", *money))
    for item in items:
        cells = (plain_number(item.buy), plain_number(item.used), item.unit, item.what, item.remark, item.id)
        writer.writerow((*cells, *_cost_cells(item, prices)))
    if prices:
        total = sum(cost(item, prices) or 0.0 for item in items)
        without = sum(cost(item, prices) is None for item in items)
        lines = "1 line" if without == 1 else f"{without} lines"
        writer.writerow(
            (
                "",
                "",
                "",
                f"sum of what has a price, {lines} without",
                "",
                "",
                "",
                plain_number(round(total, 2), 8),
            )
        )
    return text.getvalue()


def cost(item: Item, prices: Mapping[str, float]) -> float | None:
    """Cost of a line by the builder's own prices: ``buy * price``; None without one."""
    return item.buy * prices[item.id] if item.id in prices else None


def _cost_cells(item: Item, prices: Mapping[str, float] | None) -> tuple[str, ...]:
    if not prices:
        return ()
    paid = cost(item, prices)
    return ("", "") if paid is None else (plain_number(prices[item.id], 8), plain_number(round(paid, 2), 8))


def _small(used: int, what: str, remark: str, part_id: str = "") -> Item:
    return Item(with_spares(used), used, "pcs", what, remark, part_id)


def _sheets(project: Project) -> Iterator[Item]:
    parts, cuts = project.parts, project.cuts
    places = (
        *([("front", "front, over the whole face", parts.front)] if parts.front else []),
        ("face", "face board", parts.face),
        ("light_grid", "light grid", parts.grid),
        ("back_board", "back board", parts.back),
        ("diffuser", "diffuser pieces", parts.diffuser),
        *([("reflector", "reflector pieces", parts.reflector)] if parts.reflector.role != "lining" else []),
    )
    for part, where, sheet in places:
        number = cuts.stock_sheets.get(part, 0)
        if number:
            size = f"{plain_number(sheet.width_mm)} x {plain_number(sheet.height_mm)} mm"
            count = cuts.counts[part]
            remark = where if count == 1 else f"{where}, cut {count} times"
            yield Item(number, number, "sheets", f"{sheet.name}, {size}", remark, sheet.id)
    if parts.bare:
        return
    yield from _linings(project)


def _linings(project: Project) -> Iterator[Item]:
    """What lines walls and backs, each material once."""
    parts, (walls_m2, backs_m2) = project.parts, lining_m2(project)
    stroke_mm = max(segment.stroke_mm for segment in project.board.segments)
    places = [(parts.walls, "walls", walls_m2, project.depth_mm)]
    if parts.reflector.role == "lining" or not project.cuts.stock_sheets.get("reflector"):
        places.append((parts.reflector, "backs", backs_m2, stroke_mm))
    for sheet in dict.fromkeys(place[0] for place in places):
        own = [place for place in places if place[0] == sheet]
        remark = f"{' and '.join(name for _, name, _, _ in own)} of the pockets, one coat or layer"
        if not sheet.width_mm:
            area_m2 = sum(m2 for _, _, m2, _ in own)
            yield Item(math.ceil(11 * area_m2) / 10, round(area_m2, 2), "m²", sheet.name, remark, sheet.id)
            continue
        nested = _nested_rolls(project, sheet)
        rolls = sum(
            nested if name == "backs" and nested else _rolls(sheet, m2, wide_mm=wide_mm)
            for _, name, m2, wide_mm in own
        )
        yield Item(math.ceil(1.1 * rolls), round(rolls, 2), "rolls", sheet.name, remark, sheet.id)


def _nested_rolls(project: Project, tape: Sheet) -> float:
    """Rolls that the pieces on the cut sheet take; 0 where none are cut, or some are strips laid by hand."""
    if any(finding.code == "reflector-in-strips" for finding in project.cuts.findings):
        return 0.0
    lengths_m = (line.value for line in project.cuts.lines if line.name == "fabrication.reflector_tape")
    return 1000 * next(lengths_m, 0.0) / tape.height_mm


def _rolls(tape: Sheet, lined_m2: float, *, wide_mm: float) -> float:
    """Rolls that go into a place, laid in as many strips side by side as it is wide."""
    strips = math.ceil(wide_mm / tape.width_mm - 1e-9)
    return lined_m2 * 1e6 / wide_mm * strips / tape.height_mm


def _fixings(project: Project) -> Iterator[Item]:
    """Screws through the whole stack, and what keeps the face off the grid between diffuser pieces."""
    settings, found = project.cuts.settings, screw_of(project.parts, project.board, project.cuts)
    if not found:
        return
    count, screw = len(project.board.fixings), found[1]
    yield _small(count, screw.name, "fixing holes, through the whole stack")
    piece = project.parts.diffuser.thickness_mm
    if settings.fit == "lip" and piece >= SPACER_MM and not settings.bulbs:
        what = f"Spacer {plain_number(piece)} mm for M{screw.thread_mm}"
        yield _small(count, what, "fixing holes, between light grid and face")


def lining_m2(project: Project) -> tuple[float, float]:
    """Area of the walls of all pockets as built, perimeter times depth, and that of their backs, m²."""
    outlines = [outline for segment in project.cuts.pockets.segments for outline in segment.outlines]
    walls = sum(perimeter(outline) for outline in outlines) * project.depth_mm
    return walls / 1e6, sum(area(outline) for outline in outlines) / 1e6


def _lamps(project: Project) -> Iterator[Item]:
    where = "light pockets"
    if project.parts.bare:
        where = f"bulbs, pushed into the holes of {plain_number(project.cuts.settings.hole_mm)} mm"
    yield _small(len(project.places), project.parts.led.name, where, project.parts.led.id)
    in_each = f"one in each LED string{' without a network' if project.drive.in_networks else ''}"
    counted: Counter[tuple[float, str, float]] = Counter()
    for placed in project.harness.plan.strings:
        string = project.circuits[placed.kind].strings[placed.number - 1]
        if placed.resistor and not placed.network:
            counted[string.chosen_ohm, string.series, string.rating_w] += 1
    for (ohm, series, rating), number in sorted(counted.items()):
        kind = series or "as given in the design"
        what = f"Resistor {engineering(ohm, 'Ω')}, {rating_name(rating)}, {kind}"
        yield _small(number, what, in_each)
    yield from _networks(project)


def _networks(project: Project) -> Iterator[Item]:
    """Packages in place of single resistors, by type and value."""
    catalogue = networks()
    strings = [string for string in project.harness.plan.strings if string.network]
    used = Counter((string.network, string.ohm) for string in strings)
    packages = Counter((part, ohm) for part, ohm, _ in {(s.network, s.ohm, s.resistor) for s in strings})
    for (part, ohm), number in sorted(packages.items()):
        spare = number * catalogue[part].resistors - used[part, ohm]
        where = (
            f"beside the connectors of the digits: {used[part, ohm]} LED strings, {spare} resistors unused"
        )
        yield _small(number, f"{catalogue[part].name}, {engineering(ohm, 'Ω')}", where, part)


def _chips(project: Project) -> Iterator[Item]:
    parts, channels = project.parts, project.channels
    yield _small(channels.chips, parts.register.name, "register chain", parts.register.id)
    if parts.sink.id != parts.register.id and parts.sink.type != "register":
        lit = sum(1 for channel in channels.channels if channel.segment)
        number = lit if parts.sink.outputs == 1 else channels.chips * math.ceil(8 / parts.sink.outputs)
        yield _small(number, parts.sink.name, "between register and segments", parts.sink.id)
        if parts.sink.outputs == 1:
            yield _small(number, "Resistor 10 kΩ, 1/4 W", "from each gate to ground: dark at power-on")
    if parts.sink.type == "constant-current":
        most_a = max(circuit.current_a for circuit in project.circuits.values())
        what = f"Resistor {engineering(next_up(set_resistor_ohm(most_a)), 'Ω')}, 1/4 W, E24"
        yield _small(channels.chips, what, "sets the current of each chip's outputs")
    yield _small(channels.chips, "Capacitor 100 nF, ceramic", "across the supply pins of each register")
    yield _small(1, "Resistor 10 kΩ, 1/4 W", "output-enable to the logic supply: dark at power-on")


def _wiring(project: Project) -> Iterator[Item]:
    for part in wiring_parts(project):
        if part.unit == "m":
            metres = math.ceil((1 + SPARE_SHARE) * part.used)
            yield Item(metres, round(part.used, 2), "m", part.what, part.where, part.id)
        else:
            yield _small(int(part.used), part.what, part.where)


def _few(parts: Iterable[FeedPart]) -> Iterator[Item]:
    """Parts from the plug to the board, and those around the chips."""
    for part in parts:
        if part.unit == "m":
            yield Item(math.ceil(part.used), round(part.used, 2), "m", part.what, part.where, part.id)
        elif part.spares:
            yield _small(int(part.used), part.what, part.where)
        else:
            yield Item(int(part.used), int(part.used), "pcs", part.what, part.where, part.id)
