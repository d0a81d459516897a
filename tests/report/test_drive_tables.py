import pytest

from segkit.design.reader import design_from_text
from segkit.project import Project, solve
from segkit.report.drive_tables import divided, drive_tables

TEXT = '[display]\nlayout = "88"\n[digit]\nheight = "150 mm"\n[pocket]\nper_segment = 3\n'


def made(more: str = "") -> Project:
    return solve(design_from_text(TEXT + more), name="yard")


def tables(project: Project) -> dict[str, object]:
    return {table.title: table for table in drive_tables(project) if table.title}


def test_every_table_is_rectangular_and_says_what_it_is() -> None:
    for more in ("", "[turns]\ndigits = 2\n", '[power]\ndriver = "constant-current-sink-8"\n',
                 '[power]\ndriver = "logic-mosfet"\n'):  # fmt: skip
        for table in drive_tables(made(more)):
            assert table.text
            assert all(len(row) == len(table.head) for row in table.rows), table.title
            assert table.rows or table.steps


def test_the_ratio_between_kinds_stands_in_the_book() -> None:
    project = made()
    (text,) = (table.text for table in drive_tables(project) if table.title == "Equal light")
    assert f"within {100 * (project.drive.equal.ratio - 1):.1f} % of each other" in text


def test_corners_show_what_was_worked_out() -> None:
    project = made()
    (table,) = (table for table in drive_tables(project) if table.title == "The corners")
    string = project.circuits["upright"].strings[0]
    row = next(row for row in table.rows if row[0].startswith("upright"))
    assert row[3].removesuffix(" mA") == pytest.approx(f"{1000 * string.current_a:.3g}")
    assert "-10 to 60 °C" in table.text


def test_pins_of_networks_that_fit_are_listed() -> None:
    project = made('[power]\nsupply = "12 V"\n')
    listed = [table for table in drive_tables(project) if table.head[:2] == ("Package", "Pin")]
    fitting = [one for one in project.drive.networks if one.plan.fit.fits]
    assert len(listed) == min(4, len(fitting))


def test_digits_in_turn_are_a_comparison() -> None:
    titles = tables(made("[turns]\ndigits = 2\n"))
    assert "Digits in turn, for comparison" in titles
    assert "Digits in turn, for comparison" not in tables(made())


def test_a_constant_current_sink_has_no_resistors_to_list() -> None:
    titles = tables(made('[power]\ndriver = "constant-current-sink-8"\n'))
    assert "The corners" not in titles
    assert "Resistor networks instead" not in titles
    assert "Heat of the sinks" in titles


def test_the_division_that_is_built_is_marked_among_the_others() -> None:
    project = made()
    (table,) = (table for table in drive_tables(project) if table.title == "Ways to divide the LEDs")
    taken = [row for row in table.rows if row[-1] == "taken"]
    assert len(taken) == len(project.circuits)
    for row, circuit in zip(taken, project.circuits.values(), strict=True):
        assert row[1] == divided(tuple(string.leds for string in circuit.strings))
    assert len(table.rows) > len(taken)


def test_the_hottest_of_many_single_parts_stands_for_all() -> None:
    (table,) = (
        table
        for table in drive_tables(made('[power]\ndriver = "logic-mosfet"\n'))
        if table.title == "Heat of the sinks"
    )
    assert len(table.rows) == 1
    assert table.rows[0][0].startswith("hottest of 14, chip ")
