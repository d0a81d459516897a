"""The answer of ``segkit resistor`` in words, in a table and as JSON."""

from __future__ import annotations

import math
from typing import Any

from segkit.cli import output
from segkit.cli.resistor_answer import Answer, outputs_on
from segkit.cli.resistor_more import network_rows, network_sentence, networks_dict, pin_text
from segkit.cli.resistor_question import Question
from segkit.electrical.arrangement import Arrangement
from segkit.electrical.driver import set_resistor_ohm
from segkit.electrical.preferred import next_up
from segkit.electrical.resistor import rating_name
from segkit.electrical.string import StringCircuit
from segkit.units import engineering, plain_number
from segkit.working import typeset, written_out

#: Rows of the list of arrangements; strings written one by one; share of the current asked for that is dim.
_MOST_ROWS, _WRITTEN_SINGLY, _DIM = 8, 4, 0.7


def print_answer(question: Question, answer: Answer) -> None:
    """One line to act on, the table behind it, the verdicts."""
    output.say(headline(question, answer) + "\n")
    if answer.ranked:
        columns = ("", "strings", "ohm", "ohm, E12", "each string", "in all", "lost", "currents")
        rows = [_arrangement_row(row, row.counts == answer.counts) for row in answer.ranked]
        output.print_table(columns, rows[:_MOST_ROWS], right=("in all", "lost"))
        if len(rows) > _MOST_ROWS:
            output.say(f"{len(rows) - _MOST_ROWS} more, all of them worse, are listed by --json.\n")
    output.print_table(("", "value", "how"), _why(question, answer))
    if answer.networks:
        heads = ("", "network", "packages", "spare", "one resistor", "package", "verdict")
        output.print_table(heads, network_rows(answer.networks), right=heads[2:6])
        if answer.networks[0].fit.fits:
            output.say(pin_text(answer.networks[0]) + "\n")
    output.print_findings(answer.findings)


def headline(question: Question, answer: Answer) -> str:
    """What to buy, or why not."""
    stop = next((finding for finding in answer.findings if finding.level == "stop"), None)
    if stop:
        return f"Do not build this: {stop.text}"
    string = answer.string
    if question.sink.type == "constant-current":
        return f"No resistor: the sink sets {engineering(answer.asked_a, 'A')} in {_strings(answer.counts)}."
    in_all = f", {_ma(answer.total_a)} in all" if len(answer.strings) > 1 else ""
    flow = f"{_ma(answer.current_a)} through {_strings(answer.counts)}{in_all}, on {_v(question.supply_v)}"
    if question.given_ohm is not None:
        return _given_sentence(question, answer, flow)
    buy = f"Buy {_shopping(answer.strings)}, {string.series}, {rating_text(_hottest(answer))}: {flow}."
    return f"{buy}{_kit_sentence(answer)}{network_sentence(answer.networks)}"


def _given_sentence(question: Question, answer: Answer, flow: str) -> str:
    """Whether the resistor at hand will do, and what it falls short of."""
    works = "works"
    if question.current_a and answer.current_a < _DIM * question.current_a:
        works = "works, dimly"
        flow += f", {answer.current_a / question.current_a:.0%} of the {_ma(question.current_a)} asked for"
    return f"{_ohm(answer.string)} {works}: {flow}. {_rating_sentence(question, answer)}"


def _rating_sentence(question: Question, answer: Answer) -> str:
    hot = next((finding for finding in answer.findings if finding.code == "resistor-hot"), None)
    needed = rating_text(answer.string)
    if question.given_rating_w and hot:
        return f"But buy {needed}, not {rating_name(question.given_rating_w)}: {hot.text}"
    return f"It must be rated {needed}."


def _shopping(strings: tuple[StringCircuit, ...]) -> str:
    if len(strings) == 1:
        return _ohm(strings[0])
    ohms = [one.chosen_ohm for one in strings]
    return " and ".join(f"{ohms.count(ohm)} × {plain_number(ohm)} ohm" for ohm in dict.fromkeys(ohms))


def _kit_sentence(answer: Answer) -> str:
    kit = answer.kit
    if (
        not kit
        or not kit[0].chosen_ohm
        or [k.chosen_ohm for k in kit] == [s.chosen_ohm for s in answer.strings]
    ):
        return ""
    in_all = f", {_ma(sum(one.current_a for one in kit))} in all" if len(kit) > 1 else ""
    return f" From an E12 kit: {_shopping(kit)}, {_ma(kit[0].current_a)}{in_all}."


def _hottest(answer: Answer) -> StringCircuit:
    return max(answer.strings, key=lambda string: string.rating_w)


def rating_text(string: StringCircuit) -> str:
    """The rating to buy, in shop words."""
    return rating_name(string.rating_w) if math.isfinite(string.rating_w) else "more than 10 W"


def _strings(counts: tuple[int, ...]) -> str:
    shape = _shape(counts)
    if len(set(counts)) == 1:
        one = f"{counts[0]} LED{'s' if counts[0] > 1 else ''}"
        if len(counts) > 1:
            return f"each of {len(counts)} strings of {one}"
        return f"{one} in series" if counts[0] > 1 else one
    return f"each of {len(counts)} strings of {shape} LEDs"


def _ma(current_a: float) -> str:
    return engineering(current_a, "A")


def _v(volt: float) -> str:
    return f"{plain_number(volt, 4)} V"


def _ohm(string: StringCircuit) -> str:
    return f"{plain_number(string.chosen_ohm)} ohm"


def _arrangement_row(row: Arrangement, chosen: bool) -> tuple[str, ...]:
    shape = _shape(row.counts)
    mark = "→" if chosen else ""
    if not row.current_a:
        return (mark, shape, "–", "–", "–", "–", "–", _judged(row))
    kinds = tuple(dict.fromkeys(row.strings))
    ohms = _slashed([plain_number(one.chosen_ohm) for one in kinds if one.chosen_ohm])
    kit = _slashed([plain_number(ohm) for ohm in map(_kit_ohm, kinds) if ohm])
    each = " / ".join(dict.fromkeys(_ma(one.current_a) for one in kinds))
    return (mark, shape, ohms, kit, each, _ma(row.current_a), f"{row.waste:.0%}", _judged(row))


def _judged(row: Arrangement) -> str:
    """What speaks against an arrangement, or how far apart its currents come at worst."""
    codes = dict.fromkeys(finding.code for finding in row.findings if finding.level != "note")
    return ", ".join(codes) or f"within ×{plain_number(row.spread, 3)}"


def _shape(counts: tuple[int, ...]) -> str:
    """``4×2``, ``3+3+2``, or with many strings ``6×3 + 1×2``."""
    if len(set(counts)) > 1 and len(counts) <= _WRITTEN_SINGLY:
        return "+".join(map(str, counts))
    return " + ".join(f"{counts.count(leds)}×{leds}" for leds in dict.fromkeys(counts))


def _slashed(words: list[str]) -> str:
    return " / ".join(dict.fromkeys(words)) or "–"


def _kit_ohm(string: StringCircuit) -> float:
    return next_up(string.exact_ohm, "E12") if string.exact_ohm > 0 else 0.0


def _why(question: Question, answer: Answer) -> list[tuple[str, str, str]]:
    string, conditions = answer.string, answer.conditions
    steady = question.sink.type == "constant-current"
    drop_from = question.sink.name if question.known_sink else "as given"
    if question.stated_drop_v is not None:
        drop_from = "as given"
    elif question.sink.type == "register":
        drop_from = f"{question.sink.name}; not counted on"
    elif not question.known_sink:
        drop_from = "no switch counted; give --drop or --driver if there is one"
    vf = f"{string.leds} × {_v(question.led.vf_v)}"
    rows = [
        ("supply", _v(question.supply_v), _range_text(question)),
        ("drop of the switch", _v(conditions.drop.typical_v), drop_from),
        ("LEDs", _v(string.leds * question.led.vf_v), vf),
        (f"left for the {'sink' if steady else 'resistor'}", _v(string.headroom_v), "supply − drop − LEDs"),
    ]
    if steady:
        output_a = len(answer.counts) * answer.asked_a
        ohm = f"{plain_number(set_resistor_ohm(output_a))} ohm"
        rows.append(("set resistor", ohm, f"18.75 V / {_ma(output_a)}; one a chip, for its usual type"))
    elif question.current_a is not None:
        exact = f"{plain_number(string.exact_ohm)} ohm" if string.exact_ohm > 0 else "none"
        rows.append(("exact resistor", exact, _written(question, answer)))
    return rows + (_current_rows(question, answer) if string.chosen_ohm else [])


def _written(question: Question, answer: Answer) -> str:
    string, drop_v = answer.string, answer.conditions.drop.typical_v
    terms = [plain_number(question.supply_v), f"{string.leds}*{plain_number(question.led.vf_v)}"]
    if drop_v:
        terms.insert(1, plain_number(drop_v))
    return typeset(f"({' - '.join(terms)})/{plain_number(answer.asked_a)}")


def _current_rows(question: Question, answer: Answer) -> list[tuple[str, str, str]]:
    string = answer.string
    how = "as given" if question.given_ohm is not None else f"next value up in {string.series}"
    if any(finding.code == "resistor-raised" for finding in answer.findings):
        how = f"{string.series}, raised: keeps the LED's limit at the worst corner"
    curve = "the LED's own curve" if question.known_led else "a usual LED's curve; estimate"
    heat_w = answer.current_a**2 * string.chosen_ohm
    rows = [
        ("resistor", _ohm(string), how),
        ("current, shop formula", _ma(string.simple_current_a), "LED voltage taken as fixed"),
        ("current, LED curve", _ma(answer.curve_a), curve),
    ]
    if question.has_range:
        over = f"{_ma(answer.supply_low_a)} to {_ma(answer.supply_high_a)}"
        rows.append(("over the supply range", over, "all else typical"))
    worst = f"{_ma(string.lowest_a)} to {_ma(string.highest_a)}"
    limit = f"{_ma(question.led.max_current_a)}{' (assumed)' if question.limit_assumed else ''}"
    tolerance = f"{plain_number(question.tolerance * 100)} %"
    if answer.many:
        share = answer.many.current_a
        most = f"{_ma(share.low)} to {_ma(share.high)}"
        rows.append(("98 of 100 strings", most, "parts drawn at random from the same ranges"))
    rows += [
        ("at the corners", worst, f"resistor ± {tolerance}, every range given; LED limit {limit}"),
        ("heat in the resistor", engineering(heat_w, "W"), f"{engineering(string.resistor_w, 'W')} at worst"),
        ("rating", rating_text(string), "next usual one from twice the worst heat"),
    ]
    if answer.load:
        rows += _package_rows(question, answer)
    return rows


def _package_rows(question: Question, answer: Answer) -> list[tuple[str, str, str]]:
    load = answer.load
    assert load is not None
    count = outputs_on(question)
    heat = f"{engineering(load.heat_w, 'W')}, junction {load.junction_c:.0f} °C in a box at 50 °C"
    rows = [(f"driver, {count} output{'s' if count > 1 else ''} on", _ma(load.total_a), heat)]
    if question.outputs and question.outputs > count:
        packages = math.ceil(question.outputs / question.sink.outputs)
        rows.append(
            ("packages", str(packages), f"{question.sink.outputs} outputs each; the fullest is judged")
        )
    return rows


def _range_text(question: Question) -> str:
    if not question.has_range:
        return "one number; a range is better"
    return f"{_v(question.supply_min_v)} to {_v(question.supply_max_v)}"


def as_dict(question: Question, answer: Answer) -> dict[str, Any]:
    """The answer with the keys that programs may rely on; null where there is no number."""
    string = answer.string
    heat_w = answer.current_a**2 * string.chosen_ohm
    fits = string.chosen_ohm > 0
    data: dict[str, Any] = {
        "answer": headline(question, answer),
        "exact_ohm": _number(string.exact_ohm) if _has_exact(question, string) else None,
        "chosen_ohm": string.chosen_ohm if fits else None,
        "values": string.series or None,
        "current_ma": _number(answer.current_a * 1000),
        "current_by": "led curve" if question.known_led else "shop formula",
        "current_shop_ma": _number(string.simple_current_a * 1000),
        "current_curve_ma": _number(answer.curve_a * 1000) if fits else _number(answer.current_a * 1000),
        "supply_lowest_ma": _number(answer.supply_low_a * 1000),
        "supply_highest_ma": _number(answer.supply_high_a * 1000),
        "lowest_ma": _number(string.lowest_a * 1000),
        "highest_ma": _number(string.highest_a * 1000),
        "max_current_ma": _number(question.led.max_current_a * 1000),
        "headroom_v": _number(string.headroom_v),
        "drop_v": _number(answer.conditions.drop.typical_v),
        "resistor_mw": _number(heat_w * 1000) if fits else None,
        "resistor_worst_mw": _number(string.resistor_w * 1000) if fits else None,
        "rating_mw": _number(string.rating_w * 1000) if fits else None,
        "strings": list(answer.counts),
        "chosen_ohms": [one.chosen_ohm or None for one in answer.strings],
        "total_ma": _number(answer.total_a * 1000),
        "e12": _kit_dict(answer),
    }
    if answer.ranked:
        data["arrangements"] = [_arrangement_dict(row) for row in answer.ranked]
    data |= _shared_dict(answer) | _load_dict(question, answer)
    if answer.many:
        data["strings_98_percent_ma"] = [
            _number(1000 * answer.many.current_a.low), _number(1000 * answer.many.current_a.high)
        ]  # fmt: skip
    if question.network is not None:
        data |= networks_dict(answer.networks)
    data["working"] = [written_out(line) for line in answer.lines]
    data["findings"] = [finding.as_dict() for finding in answer.findings]
    return data


def _kit_dict(answer: Answer) -> dict[str, Any]:
    return {
        "chosen_ohms": [one.chosen_ohm or None for one in answer.kit],
        "current_ma": [_number(one.current_a * 1000) for one in answer.kit],
        "total_ma": _number(sum(one.current_a for one in answer.kit) * 1000),
    }


def _shared_dict(answer: Answer) -> dict[str, Any]:
    shared = answer.shared
    if not shared:
        return {}
    return {
        "shared": {
            "total_ma": _number(shared.total_a * 1000),
            "fewest": shared.fewest,
            "most": shared.most,
            "fewest_each_ma": _number(shared.fewest_a * 1000),
            "most_each_ma": _number(shared.most_a * 1000),
            "ratio": _number(shared.ratio),
        }
    }


def _load_dict(question: Question, answer: Answer) -> dict[str, Any]:
    load = answer.load
    if not load:
        return {}
    return {
        "driver": {
            "id": question.sink.id,
            "total_ma": _number(load.total_a * 1000),
            "heat_mw": _number(load.heat_w * 1000),
            "junction_c": _number(load.junction_c),
        }
    }


def _has_exact(question: Question, string: StringCircuit) -> bool:
    return question.current_a is not None and string.exact_ohm > 0


def _arrangement_dict(row: Arrangement) -> dict[str, Any]:
    return {
        "strings": list(row.counts),
        "chosen_ohms": [one.chosen_ohm or None for one in row.strings],
        "current_ma": [_number(one.current_a * 1000) for one in row.strings],
        "total_ma": _number(row.current_a * 1000),
        "spread": _number(row.spread),
        "waste": _number(row.waste),
        "e12_ohms": [_kit_ohm(one) or None for one in row.strings],
        "resistors": row.resistors,
        "reason": row.reason,
        "findings": [finding.code for finding in row.findings],
    }


def _number(value: float) -> float | None:
    """A number for JSON: 12 significant digits, so that 19.333 does not end in rubble."""
    return float(f"{value:.12g}") if math.isfinite(value) else None
