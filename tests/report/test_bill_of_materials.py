"""The parts list agrees with what the stages drew, wired and lit."""

import csv
import io
import math
import re

import pytest

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.bill_of_materials import bill_of_materials, lining_m2, to_csv, with_spares
from segkit.report.stack import stack
from segkit.wiring.digit_cables import places_m


@pytest.mark.parametrize(("used", "buy"), [(1, 2), (4, 5), (20, 21), (21, 23), (112, 118), (224, 236)])
def test_spares_one_in_twenty_at_least_one(used: int, buy: int) -> None:
    # common practice
    assert with_spares(used) == buy


def found(project: Project, words: str):
    (item,) = [item for item in bill_of_materials(project) if words in item.what]
    return item


def test_leds_and_resistors_are_counted_from_the_board(boules: Project) -> None:
    assert found(boules, "LED 5 mm red").used == len(boules.places) == 224
    strings = sum(len(boules.circuits[s.kind].strings) for s in boules.board.segments)
    # one resistor a string, here all alike; the two of 10 kohm hold lines at power-on
    assert found(boules, "510").used == strings == 112


def test_single_mosfets_come_one_for_each_lit_output(clock: Project) -> None:
    lit = 4 * 7 + 1
    assert found(clock, "MOSFET").used == lit
    # 10 kohm: one at each gate and the pull-up of output-enable, one line in the shop
    (resistor,) = [i for i in bill_of_materials(clock) if "gate" in i.remark]
    assert (resistor.used, resistor.buy) == (lit + 1, with_spares(lit + 1))
    assert f"power-on: {lit}; output-enable" in resistor.remark


def test_an_array_comes_once_for_each_chip(boules: Project) -> None:
    assert found(boules, "Darlington").used == boules.channels.chips == 4


def test_cable_for_each_digit_with_half_a_metre_of_slack() -> None:
    cable = '{ kind = "cat5e", length = "8 m", carries = "segments" }'
    text = f'[display]\nlayout = "88 88"\n[power]\ncable = {cable}\n'
    project = solve(design_from_text(text), name="x")
    item = found(project, "Network cable")
    further = sum(places_m(project.board))  # each digit as far as it stands from the first
    assert item.used == pytest.approx(4 * (8 + 0.5) + further, abs=0.06)
    assert item.buy == math.ceil(item.used)


def test_another_lining_for_the_back_is_bought_as_well() -> None:
    text = '[pocket]\nwalls = "white-paint"\nreflector = "aluminium-tape"\n'
    project = solve(design_from_text(text), name="x")
    walls, backs = lining_m2(project)
    lined = {item.id: item for item in bill_of_materials(project) if "pockets, one" in item.remark}
    assert (lined["white-paint"].used, lined["white-paint"].unit) == (pytest.approx(walls, abs=0.006), "m²")
    # a roll is 50 mm x 5 m, and a strip narrower than the tape takes the tape's whole width
    assert lined["aluminium-tape"].used >= backs / 0.25 - 0.006
    # the pieces lie on the cut sheet end to end, with bridges between: that is the tape they take
    (tape,) = (line.value for line in project.cuts.lines if line.name == "fabrication.reflector_tape")
    assert lined["aluminium-tape"].used == pytest.approx(tape / 5, abs=0.006)
    pieces_m = sum(segment.length_mm for segment in project.cuts.pockets.segments) / 1000
    assert 0.5 * pieces_m < tape < 1.1 * pieces_m
    assert lined["aluminium-tape"].unit == "rolls"
    assert "back" in lined["aluminium-tape"].remark
    (told,) = [text for text in stack(project).texts if "laid on the back board" in text]
    assert "Aluminium tape" in told


def test_lining_covers_walls_and_backs(boules: Project) -> None:
    # 28 pointed bars of stroke 36.4 mm: area L T - T^2/2, perimeter 2 (L - T) + 2 sqrt(2) T, 40 mm deep
    mm2 = 0.0
    for segment in boules.board.segments:
        long, stroke = segment.length_mm, segment.stroke_mm
        mm2 += long * stroke - stroke**2 / 2 + 40 * (2 * (long - stroke) + 2 * 2**0.5 * stroke)
    tape = found(boules, "Aluminium tape")
    assert sum(lining_m2(boules)) == pytest.approx(mm2 / 1e6, rel=1e-6)
    walls, backs = lining_m2(boules)
    # tape 50 mm wide, rolls of 5 m: walls 40 mm deep and strokes 36.4 mm wide take one strip each
    strips_m = 1e3 * walls / 40 + 1e6 * backs / boules.board.segments[0].stroke_mm / 1e3
    assert tape.used == pytest.approx(strips_m / 5, abs=0.006)
    assert tape.buy >= 1.1 * tape.used
    assert tape.unit == "rolls"


def test_two_wires_for_a_supply_lead(clock: Project, barrel: Project) -> None:
    for project, metres in ((clock, 2 * 6.5), (barrel, 2 * 1.0)):
        (item,) = [item for item in bill_of_materials(project) if "supply to board" in item.remark]
        told = re.search(
            r"supply to board[^:;]*: ([\d.]+)", item.remark
        )  # where it shares a line with others
        assert (float(told[1]) if told else item.used) == pytest.approx(metres)


def test_battery_instead_of_adapter(barrel: Project, boules: Project) -> None:
    assert "7 Ah" in found(barrel, "12 V lead-acid").what
    assert "2 A or more" in found(boules, "Mains adapter").what


def test_nothing_is_on_the_list_twice(boules: Project, clock: Project, barrel: Project) -> None:
    for project in (boules, clock, barrel):
        whats = [item.what for item in bill_of_materials(project)]
        assert len(set(whats)) == len(whats)
    boards = found(boules, "white paper faces")
    counts = boules.cuts.stock_sheets
    assert boards.used == counts["light_grid"] + counts["back_board"]
    assert f"back board: {counts['back_board']}" in boards.remark


def test_csv_holds_every_item(boules: Project) -> None:
    items = bill_of_materials(boules)
    rows = list(csv.DictReader(io.StringIO(to_csv(items))))
    assert [row["what"] for row in rows] == [item.what for item in items]
    assert all(float(row["buy"]) >= float(row["used"]) > 0 for row in rows)


def test_a_constant_current_sink_is_bought_with_its_set_resistors() -> None:
    text = '[display]\nlayout = "88"\n[power]\ndriver = "constant-current-sink-8"\nin_series = 3\n'
    made = solve(design_from_text(text + '[pocket]\nper_segment = 3\ncurrent = "20 mA"\n'), name="x")
    (item,) = (item for item in bill_of_materials(made) if "sets the current" in item.remark)
    assert item.used == made.channels.chips == 2
    assert "1 kΩ" in item.what or "1.0 kΩ" in item.what  # 18.75 V over 20 mA: 937.5 ohm, next of E24


def test_a_battery_gets_its_fuse_on_the_list_even_while_no_usual_one_fits() -> None:
    text = '[power]\nsource = "lead-acid"\ncable = {{ kind = "{}", length = "1 m" }}\n'
    thin = solve(design_from_text(text.format("hook-up-awg-26")), name="x")
    (stop,) = [finding for finding in thin.findings if finding.code == "fuse-above-wire"]
    later = found(thin, "Fuse, size")
    assert "see finding fuse-above-wire" in later.what
    assert (later.used, later.remark) == (1, "at the supply, in the positive lead")
    named = stop.remedy.split("(")[1].split(")")[0]
    mended = solve(design_from_text(text.format(named)), name="x")
    assert found(mended, "time-lag").what == f"Fuse {mended.budget.fuse_a:g} A, time-lag"


def test_own_prices_give_costs_and_a_sum(boules: Project) -> None:
    items = bill_of_materials(boules)
    prices = {"opal-acrylic-3mm": 14.5, "red-5mm-diffused": 0.08}
    rows = [*csv.reader(io.StringIO(to_csv(items, prices=prices, currency="CHF")))]
    assert rows[0][-2:] == ["price each, CHF", "cost, CHF"]
    bought = {item.id: item.buy for item in items}
    total = sum(price * bought[part] for part, price in prices.items())
    assert float(rows[-1][-1]) == pytest.approx(total, abs=0.01)
    assert f"{len(items) - 2} lines without" in rows[-1][3]
    assert len(next(csv.reader(io.StringIO(to_csv(items))))) == 6, "no columns of money without prices"


def test_screws_go_through_the_whole_stack(boules: Project) -> None:
    screw = next(item for item in bill_of_materials(boules) if "screw" in item.what)
    assert screw.used == len(boules.board.fixings)
    length = float(screw.what.split(" x ")[1].split(" mm")[0])
    assert stack(boules).total_mm < length < stack(boules).total_mm + 15
    spacer = next(item for item in bill_of_materials(boules) if "Spacer" in item.what)
    assert spacer.used == screw.used


def test_a_reflector_of_sheet_is_bought_by_the_sheet_and_only_once() -> None:
    text = '[pocket]\nwalls = "aluminium-tape"\nreflector = "acrylic-white-3mm"\n'
    items = bill_of_materials(solve(design_from_text(text), name="x"))
    (white,) = (item for item in items if item.id == "acrylic-white-3mm")
    assert (white.unit, white.used, white.remark) == ("sheets", 1, "reflector pieces")
    (tape,) = (item for item in items if item.id == "aluminium-tape")
    assert tape.remark.startswith("walls of the pockets")


def test_a_front_is_bought_by_the_sheet_it_is_sold_in() -> None:
    """3 m of board from sheets of 1000 x 600 mm: as many as panels are drawn, none of a size nobody sells."""
    text = '[display]\nlayout = "88:88"\n[digit]\nheight = "500 mm"\n[pocket]\nfront = "grey-tint-3mm"\n'
    project = solve(design_from_text(text), name="x")
    (front,) = (item for item in bill_of_materials(project) if item.id == "grey-tint-3mm")
    assert (front.unit, front.remark) == ("sheets", "front, over the whole face")
    assert front.what == "Acrylic 3 mm, grey tint, 1000 x 600 mm"
    (joined,) = (f for f in project.findings if f.code == "joined-panels" and f.subject == "front")
    assert front.buy == front.used == joined.value == project.cuts.stock_sheets["front"]
    assert front.used * 1000 >= project.board.width_mm > 1000


def test_a_film_needs_no_spacer() -> None:
    """What is put under the face is as thick as the diffuser; tracing paper is 0.1 mm."""
    for sheet, bought in (("tracing-paper", False), ("opal-acrylic-3mm", True)):
        text = f'[pocket]\ndiffuser = "{sheet}"\n[make]\nfit = "lip"\n'
        project = solve(design_from_text(text), name="x")
        assert any("Spacer" in item.what for item in bill_of_materials(project)) is bought
        assert any("spacers" in told for told in stack(project).texts) is bought
