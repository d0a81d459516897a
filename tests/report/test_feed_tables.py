import pytest

from segkit.design.reader import design_from_text
from segkit.project import solve
from segkit.report.feed_tables import HEAD, feed_tables

BOARD = '[display]\nlayout = "88:88"\n[digit]\nwidth = "one-piece"\nheight = "200 mm"\n[pocket]\nevenness = 0.3\nper_segment = 4\n'


def tables(text):
    made = solve(design_from_text(BOARD + text), name="yard")
    return {table.title: table for table in feed_tables(made)}, made


def test_each_row_names_a_line_that_can_be_asked_for():
    found, made = tables('[power]\nsource = "lead-acid"\n[power.use]\ncontent = "clock 24 h"\n')
    names = {line.name.removeprefix("electrical.") for line in made.lines}
    for table in found.values():
        assert table.head == HEAD
        assert {row[2] for row in table.rows} <= names
    assert set(found) == {
        "Current and supply",
        "The cable",
        "Near and far digit",
        "Data, clock and latch",
        "Battery",
    }
    assert "clock 24 h" in found["Current and supply"].text


@pytest.mark.parametrize(
    ("text", "title", "says"),
    [
        ('[power.converter]\nfrom = "24 V"\n', "Converter at the board", "24 V come over 3 m"),
        ('[power.regulator]\nkind = "linear"\n', "Supply of the logic", "(linear)"),
        ('[power.regulator]\nkind = "step-down"\n', "Supply of the logic", "(step-down)"),
        (
            '[power.cable]\ncarries = "segments"\nkind = "10 x 0.5 mm2"\nreturn = "2 cores"\n',
            "The cable",
            "2 cores",
        ),
        ('[power.cable]\nfeed = "middle"\n', "Near and far digit", "in the middle"),
        ('[power.common]\ndrop = "0.7 V"\n', "In the common lead", "takes 0.7 V"),
    ],
)
def test_tables_that_a_design_calls_for(text, title, says):
    found, _ = tables(text)
    assert says in found[title].text
