"""The channel map on the board agrees with the channel map as CSV."""

import csv
import io

import pytest
from hypothesis import given

from segkit.wiring.channel_table import to_csv
from segkit.wiring.harness import Harness
from segkit.wiring.map_drawing import label, map_drawing
from segkit.wiring.pen import text_mm
from tests.wiring import boards
from tests.wiring.drawn import on_page, shapes, texts, words


def drawn(whole: Harness, *, behind: bool = True):
    return map_drawing(whole.plan.board, whole.plan.channels, title="t", stamp="s", behind=behind)


@boards.some_sheets
@given(whole=boards.anything)
def test_every_output_is_on_the_sheet_once(whole: Harness) -> None:
    page = drawn(whole)
    assert on_page(page)
    found = words(page)
    rows = list(csv.DictReader(io.StringIO(to_csv(whole.plan.channels))))
    outlines = {(str(s.digit), s.name): len(s.outlines) for s in whole.plan.board.segments}
    assert len({(row["chip"], row["output"]) for row in rows}) == len(rows)
    for row in rows:
        if row["segment"] == "spare":
            assert any(f"chip {row['chip']} {row['output']} (pin {row['pin']})" in text for text in found)
        else:
            times = outlines[row["digit"], row["segment"]]
            assert found.count(f"{row['chip']} {row['output']}") == times
            assert found.count(f"{row['pin']} #{row['place']}") == times


def test_it_stands_on_the_segment_that_it_lights() -> None:
    whole = boards.wired("8.8")
    page = drawn(whole, behind=False)
    outlines = [s.points for s in shapes(page, "line")]
    by_lamp = {(c.digit, c.segment): c for c in whole.plan.wired}
    at = {text.text: text.at for text in texts(page)}
    for segment, outline in zip(whole.plan.board.segments, outlines, strict=True):
        x, y = at[label(by_lamp[segment.digit, segment.name])[0]]
        assert min(p[0] for p in outline) < x < max(p[0] for p in outline)
        assert min(p[1] for p in outline) < y < max(p[1] for p in outline)


def test_mirrored_twice_is_the_original() -> None:
    whole = boards.wired("88:88", slant_deg=9.0)
    rear, front = (
        [p for s in shapes(drawn(whole, behind=behind), "line") for p in s.points] for behind in (True, False)
    )
    sums = {round(a[0] + b[0], 6) for a, b in zip(rear, front, strict=True)}
    assert len(sums) == 1
    axis = sums.pop()
    assert [axis - x for x, _ in rear] == pytest.approx([x for x, _ in front])
    assert [y for _, y in rear] == [y for _, y in front]


@pytest.mark.parametrize("driver", ["power-register-8", "darlington-sink-8"])
def test_labels_can_be_read_on_a_board_of_eight_digits(driver: str) -> None:
    """Type under 1.5 mm is hard to read at a bench (common practice); names of digit and segment keep apart."""
    page = drawn(boards.wired("8888 8888", driver=driver))
    assert min(t.height_mm for t in texts(page)) >= 1.3
    words_there = {t.text: t for t in texts(page)}
    name = words_there["digit 1"]
    letters = [t for t in texts(page) if t.text in ("b", "f") and abs(t.at[1] - name.at[1]) < 3]
    half = text_mm("digit 1", name.height_mm) / 2
    for letter in letters:
        if abs(letter.at[0] - name.at[0]) < 12:
            assert abs(letter.at[0] - name.at[0]) > half + text_mm("b", letter.height_mm) / 2
