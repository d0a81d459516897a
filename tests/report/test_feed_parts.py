import pytest

from segkit.design.reader import design_from_text
from segkit.project import solve
from segkit.report.feed_parts import CABLE_SLACK_M, feed_parts

BOARD = '[display]\nlayout = "88"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nevenness = 0.3\nper_segment = 4\n'


def parts(text):
    return feed_parts(solve(design_from_text(BOARD + text), name="yard"))


def one(text, words):
    (part,) = [part for part in parts(text) if words in part.what]
    return part


def test_cable_out_and_back_and_for_each_digit():
    assert one('[power.cable]\nkind = "0.5 mm2"\nlength = "8 m"\n', "0.5 mm2").used == pytest.approx(
        2 * (8 + CABLE_SLACK_M)
    )
    cable = '[power.cable]\nkind = "8 x 0.22 mm2"\nlength = "8 m"\ncarries = "segments"\nreturn = "1 mm2"\n'
    project = solve(design_from_text(BOARD + cable), name="yard")
    near, far = sorted({w.run.beyond_mm / 1000 for w in project.harness.wires if w.run.group == "cable"})
    assert near == 8 < far
    assert one(cable, "Cable 8 x").used == pytest.approx(near + far + 2 * CABLE_SLACK_M)
    assert one(cable, "Cable 8 x").where == "one cable for each digit, 8.5 to 8.7 m"
    assert one(cable, "1 mm2").where == "common of each digit's cable"
    assert one(cable, "time-lag").used == one(cable, "Fuse holder").used == 2


def test_a_converter_and_what_feeds_it():
    text = '[power.converter]\nfrom = "24 V"\n'
    assert "Mains adapter 24 V" in one(text, "Mains adapter").what
    module = one(text, "Step-down module")
    assert module.where.startswith("at the board")
    assert "to 12 V" in module.what


def test_signal_resistors_and_the_fuse_with_its_holder():
    assert one("", "Resistor 62 Ω").used == 3
    assert one("", "time-lag").spares
    assert not one("", "Fuse holder").spares


def test_a_battery_is_bought_with_its_capacity():
    asked = '[power]\nsource = "lead-acid"\nbattery = "18 Ah"\n'
    assert "18 Ah" in one(asked, "12 V lead-acid").what
    assert one(asked, "Charger").what == "Charger for a lead-acid battery of 12 V"
    assert not [part for part in parts("") if "Charger" in part.what]


def test_what_stands_in_the_common_lead_is_counted():
    text = '[power.common]\ndrop = "0.4 V to 0.7 V"\n'
    each = one(text, "takes 0.4 V to 0.7 V")
    assert (each.used, each.where) == (2, "in the common lead of each digit")
    assert one(text + 'drop_in = "board"\n', "takes 0.4 V").used == 1
