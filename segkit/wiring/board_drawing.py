"""The whole board from behind: cards in their chain, connectors, cable entry, wires between them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from segkit.drawing.drawing import Drawing, Path
from segkit.geometry.polygon import Point
from segkit.units import plain_number
from segkit.wiring.chips import register_ref
from segkit.wiring.circuit import fuse_ref, seat_of
from segkit.wiring.colours import PLUS_CODE, SIGNAL_CODES, ZERO_CODE, name_of
from segkit.wiring.harness import Harness, total_mm
from segkit.wiring.page import EDGE_MM, PAGE_HIGH_MM, PAGE_WIDE_MM, notes, sheet, table
from segkit.wiring.pen import Pen, text_mm
from segkit.wiring.plan import CONTROLLER, ENTRY, PLUS_PIN, Plan, connector
from segkit.wiring.run import Run
from segkit.wiring.view import View, view_of

#: Field of the board on the page, mm.
_FIELD_LEFT, _FIELD_WIDE = EDGE_MM + 14, PAGE_WIDE_MM - 2 * EDGE_MM - 28
_FIELD_FOOT, _FIELD_TOP = 104.0, PAGE_HIGH_MM - EDGE_MM - 26
#: Wires of one loom are drawn side by side, this far apart, mm.
_APART_MM = 2.2
#: The line of the chain is drawn so far up and to the right of its route, mm.
_CHAIN_MM = 1.5 * _APART_MM
#: Height of the box of a card, and size of the boxes of controller and cable entry, mm.
_CARD_HIGH, _ENTRY_WIDE, _ENTRY_HIGH = 17.0, 12.0, 7.0


def board_drawing(whole: Harness, *, behind: bool = True) -> Drawing:
    """The sheet of the whole board.

    Args:
        whole: the wiring of the board.
        behind: False draws the same from the front, for a check.

    Sources: iec-60757 (codes of colours); routes: design-choice.
    """
    plan = whole.plan
    pen = sheet(plan.title, "Wiring of the whole board", plan.stamp, behind=behind, panel=False)
    board = plan.board
    view = view_of(
        [(0.0, 0.0), (board.width_mm, board.height_mm)], left_mm=_FIELD_LEFT, foot_mm=_FIELD_FOOT,
        wide_mm=_FIELD_WIDE, high_mm=_FIELD_TOP - _FIELD_FOOT, behind=behind,
    )  # fmt: skip
    _outline(pen, plan, view)
    _looms(pen, whole, view)
    for digit in plan.digits:
        _card(pen, whole, digit, view)
    if plan.carries == "supply":
        _more_cards(pen, whole, view)
        _entry(pen, whole, view)
    _tables(pen, whole)
    return pen.drawing()


def _outline(pen: Pen, plan: Plan, view: View) -> None:
    """Board, pockets and the number of each digit."""
    board = plan.board
    corners = ((0.0, 0.0), (board.width_mm, 0.0), (board.width_mm, board.height_mm), (0.0, board.height_mm))
    pen.put("board", view.outline(corners))
    for segment in board.segments:
        for outline in segment.outlines:
            pen.put("area", view.outline(outline))
            pen.put("faint", view.outline(outline))
    for digit in plan.digits:
        named = {s.name: s for s in board.segments if s.digit == digit}
        (ax, ay), (bx, by) = named["a"].axes[0][0], named["g"].axes[0][1]
        at = view.at(((ax + bx) / 2, (ay + by) / 2))
        room = abs(named["b"].axes[0][0][0] - named["f"].axes[0][0][0]) - named["b"].stroke_mm
        size = min(9.0, 0.24 * abs(ay - by) * view.scale, 0.8 * room * view.scale / text_mm("digit 8", 1.0))
        pen.centred((at[0], at[1] + 0.9 * size), f"digit {digit}", size)


def _looms(pen: Pen, whole: Harness, view: View) -> None:
    """Supply pair, chain of six, cables of the digits, single wires between cards."""
    loom: dict[tuple[str, tuple[Point, ...]], list[Run]] = {}
    for wire in whole.wires:
        if wire.run.group in ("supply", "chain", "segment") and _between(wire.run):
            loom.setdefault((wire.run.group, wire.run.route), []).append(wire.run)
    for (group, route), runs in loom.items():
        path = view.path(route)
        if group == "chain":
            moved = _shifted(path, _CHAIN_MM)
            pen.line(*moved, ink="heavy")
            _count(pen, moved, f"{len(runs)}", ends=_hidden(runs[0]))
        elif group == "supply":
            for run in runs:
                pen.wire(_shifted(path, 0.0 if run.code == PLUS_CODE else -_APART_MM), run.code)
        else:
            pen.wire(_shifted(path, -2.2 * _APART_MM), runs[0].code)
    for digit in whole.plan.digits:
        cores = [w.run for w in whole.wires if w.run.group == "cable" and w.run.digit == digit]
        if cores:
            path = view.path(cores[0].route[:2])
            moved = ((path[0][0], path[0][1] - 8), *path)
            pen.line(*moved, ink="heavy")
            pen.text((path[0][0] + 2, path[0][1] - 7), f"cable of digit {digit}: {len(cores)} cores", 2.8)


def _between(run: Run) -> bool:
    """Whether a wire runs between cards, not inside a digit."""
    return bool(run.route) and (run.group != "segment" or run.start[0][-1] == "S")


def _shifted(path: Sequence[Point], by: float) -> tuple[Point, ...]:
    return tuple((x + by, y + by) for x, y in path)


def _hidden(run: Run) -> tuple[float, float]:
    """How much of a chain's line the boxes hide at its start and end: that from the controller is short."""
    if run.start[0] != CONTROLLER:
        return 0.0, 0.0
    return _ENTRY_HIGH / 2 - _CHAIN_MM, _CARD_HIGH / 2 + _CHAIN_MM


def _count(pen: Pen, path: Sequence[Point], words: str, *, ends: tuple[float, float]) -> None:
    """A stroke across a line, the number of wires in it, and an arrow the way the data goes.

    They stand in the part of the line that the boxes at its ends leave to be seen.
    """
    one, other = max(pairwise(path), key=lambda pair: math.dist(*pair))
    length = math.dist(one, other)
    ux, uy = (other[0] - one[0]) / length, (other[1] - one[1]) / length
    seen = max(0.0, length - sum(ends))
    middle = ends[0] + 0.5 * seen
    x, y = one[0] + middle * ux, one[1] + middle * uy
    pen.line((x - 1.4, y - 1.8), (x + 1.4, y + 1.8))
    pen.tag((x + 3.4 * abs(uy), y + 3.4 * abs(ux)), words, 2.8)
    reach = min(8.0, 0.5 * seen)
    tip = (x + reach * ux, y + reach * uy)
    back = (tip[0] - 3.4 * ux, tip[1] - 3.4 * uy)
    pen.put(
        "solid",
        Path((tip, (back[0] - 1.6 * uy, back[1] + 1.6 * ux), (back[0] + 1.6 * uy, back[1] - 1.6 * ux))),
    )


def _card(pen: Pen, whole: Harness, digit: int, view: View) -> None:
    """Card or connector in the lower cell of its digit."""
    plan, layout = whole.plan, whole.digits[digit].layout
    x, y = view.at(layout.connector_at)
    room = 2 * abs(layout.bars["c"].middle[0] - layout.connector_at[0]) - 2 * layout.bars["c"].reach
    wide, high = min(40.0, 0.86 * room * view.scale), _CARD_HIGH
    on_board = plan.carries == "supply"
    words = [connector(digit)]
    if on_board:
        chip = plan.card_of(digit)
        words = [f"card {chip}", f"{', '.join(_chips(plan, chip))}", connector(digit)]
    else:
        high = 8.0
    _box(pen, (x, y), words, wide, high)


def _more_cards(pen: Pen, whole: Harness, view: View) -> None:
    """Cards for what did not fit on those of the digits."""
    plan = whole.plan
    for chip in plan.chips:
        if plan.card_of(plan.home(chip)) != chip:
            words = [f"card {chip}", ", ".join(_chips(plan, chip))]
            wide = 6 + max(text_mm(word, 3.0) for word in words)
            _box(pen, view.at(whole.stations.cards[chip]), words, wide, 11.0)


def _box(pen: Pen, at: Point, words: Sequence[str], wide: float, high: float) -> None:
    """A box with lines of text."""
    x, y = at
    for ink in ("blank", "line"):
        pen.box(x - wide / 2, y - high / 2, wide, high, ink=ink)
    for number, word in enumerate(words):
        size = min(4.0, 0.28 * high if len(words) > 1 else 4.0)
        size = min(size, size * (wide - 3) / text_mm(word, size))
        pen.centred((x, y + (len(words) - 1) * 0.147 * high - 0.294 * high * number), word, size)


def _chips(plan: Plan, chip: int) -> tuple[str, ...]:
    seats = [seat_of(plan, c).ref for c in plan.wired if c.chip == chip]
    names = dict.fromkeys(ref for ref in seats if ref)
    single = [ref for ref in names if ref[0] == "Q"]
    if single:
        return register_ref(chip), f"{single[0]}–{single[-1]}"
    return register_ref(chip), *names


def _entry(pen: Pen, whole: Harness, view: View) -> None:
    """Cable entry and controller in the lower margin, with what comes to them."""
    plan, at = whole.plan, whole.stations
    gap = abs(view.at(at.entry)[0] - view.at(at.controller)[0])
    spread = max(0.0, _ENTRY_WIDE + 1.0 - gap) / 2
    middle = (view.at(at.entry)[0] + view.at(at.controller)[0]) / 2
    for point, ref, words in (
        (at.entry, ENTRY, f"{plain_number(plan.supply_v)} V, {plain_number(plan.cable_m)} m of cable from "
                          f"{fuse_ref(plan, plan.digits[0])} at the supply"),
        (at.controller, CONTROLLER, "controller"),
    ):  # fmt: skip
        x, y = view.at(point)
        x += math.copysign(spread, x - middle)
        for ink in ("blank", "line"):
            pen.box(x - _ENTRY_WIDE / 2, y - _ENTRY_HIGH / 2, _ENTRY_WIDE, _ENTRY_HIGH, ink=ink)
        pen.centred((x, y), ref, 3.4)
        foot = view.at((point[0], 0.0))[1]
        wide = text_mm(words, 3.0)
        left = min(max(x - wide / 2, EDGE_MM + 12), PAGE_WIDE_MM - EDGE_MM - 12 - wide)
        pen.text((left, foot - (5 if ref == CONTROLLER else 10)), words, 3.0)
        if ref == ENTRY:
            pen.line((x, y - _ENTRY_HIGH / 2), (x, foot - 6.5), ink="heavy")


def _tables(pen: Pen, whole: Harness) -> None:
    """Cards, wires to cut, signals, and how to read the sheet."""
    top = _FIELD_FOOT - 14
    table(pen, list(_card_rows(whole)), left=EDGE_MM + 6, top=top, columns=(14, 18, 38, 26, 28, 22), size=3.0)
    table(pen, list(_wire_rows(whole)), left=EDGE_MM + 166, top=top, columns=(58, 26, 22), size=3.0)
    lines = [
        "Heavy line with a number: the six wires of the chain: "
        + ", ".join(f"{pole} {code}" for pole, code in SIGNAL_CODES.items()) + ".",
        f"Supply pair: {PLUS_CODE} plus, {ZERO_CODE} 0 V, in at digit {whole.stations.fed}, then from "
        "card to card.",
        "Entry, controller and routes are a proposal; a wire that you lay in another way has another length.",
    ]  # fmt: skip
    if whole.plan.carries == "segments":
        lines[0] = "Cards, controller and fuses are in the driver box; each digit has a cable of its own."
        lines[1] = "Cores: see the sheets of the digits and the wire list."
    if whole.plan.lost_v:
        lines.append(_lost_note(whole.plan))
    notes(pen, lines, left=EDGE_MM + 284, top=top, wide=PAGE_WIDE_MM - 2 * EDGE_MM - 290, size=3.0)


def _lost_note(plan: Plan) -> str:
    """Where the part goes that stands in plus and takes volts."""
    where = "the plus of the cable, before the entry"
    if plan.lost_in == "digit":
        where = f"the plus of each digit, before pole {PLUS_PIN} of its connector"
    elif plan.carries == "segments":
        where = "the plus in the driver box, before the fuses"
    return f"Not drawn: the part that takes {plain_number(plan.lost_v, 3)} V. It goes into {where}."


def _card_rows(whole: Harness) -> Iterator[tuple[str, ...]]:
    plan = whole.plan
    yield "card", "register", "sink", "digit", "connector", "byte sent"
    for chip in plan.chips:
        digits = sorted({c.digit for c in plan.wired if c.chip == chip})
        sinks = ", ".join(_chips(plan, chip)[1:]) or "–"
        yield (
            str(chip), register_ref(chip), sinks, ", ".join(map(str, digits)),
            ", ".join(connector(d) for d in digits), f"{plan.channels.chips - chip + 1}.",
        )  # fmt: skip


def _wire_rows(whole: Harness) -> Iterator[tuple[str, ...]]:
    yield "wire to cut, slack in it", "colour", "length"
    sizes = {wire.size.id: wire.size.name for wire in whole.wires if wire.size}
    for (size, code), length in sorted(total_mm(whole.wires).items()):
        yield sizes[size], f"{code} {name_of(code)}", f"{length / 1000:.2f} m"
