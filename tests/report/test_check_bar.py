"""The table on the check bar speaks of this board's digits and this paper."""

from segkit.design.reader import design_from_text
from segkit.project import solve
from segkit.report.check_bar import check_bar_table

BOARD = (
    '[display]\nlayout = "8"\n[digit]\nheight = "400 mm"\n[pocket]\nevenness = 0.3\nper_segment = 4\n'
    '[paper]\nsize = "letter"\nmargin = "0.25 in"\n'
)


def test_rows_are_whole_and_of_this_board() -> None:
    table = check_bar_table(solve(design_from_text(BOARD), name="yard"))
    assert all(len(row) == len(table.head) for row in table.rows)
    rows = {row[0]: row for row in table.rows}
    assert rows["75 mm"][1] == "300 mm"
    assert rows["95.5 mm"][2] == "x 1.0476"  # 11 in / 10.5 in
    assert "6.35 mm" in rows["95.5 mm"][3]
