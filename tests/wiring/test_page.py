"""The frame of a bench sheet."""

from segkit.drawing.drawing import Text
from segkit.wiring.page import BEHIND, BEHIND_HINT, PAGE_HIGH_MM, PAGE_WIDE_MM, notes, sheet, table, wrapped
from segkit.wiring.pen import text_mm


def texts(pen) -> dict[str, Text]:
    return {s.text: s for layer in pen.drawing().layers for s in layer.shapes if isinstance(s, Text)}


def test_the_page_is_a3_across() -> None:
    assert (PAGE_WIDE_MM, PAGE_HIGH_MM) == (420.0, 297.0)  # ISO 216


def test_a_sheet_from_behind_says_so_larger_than_anything_else() -> None:
    found = texts(sheet("Boules court", "Wiring", "stamp"))
    assert BEHIND_HINT in found
    assert found[BEHIND].height_mm == max(text.height_mm for text in found.values())
    left, right = found["reader's right"], found["reader's left"]
    assert left.at[0] < right.at[0]  # mirrored: the reader's left is on the right
    assert BEHIND not in texts(sheet("Boules court", "Schematic", "stamp", behind=False))


def test_a_long_heading_is_set_smaller() -> None:
    words = "Wiring of " + ", ".join(map(str, range(1, 30)))
    size = texts(sheet("t", words, "s"))[words].height_mm
    assert text_mm(words, size) <= 201


def test_a_table_goes_down_and_fits_its_columns() -> None:
    pen = sheet("t", "w", "s", behind=False)
    foot = table(pen, [("one", "two"), ("a very long cell indeed", "x")], left=10, top=100, columns=(20, 30))
    found = texts(pen)
    assert found["one"].at[1] > found["x"].at[1] > foot
    cell = found["a very long cell indeed"]
    assert text_mm(cell.text, cell.height_mm) <= 20


def test_notes_are_broken_between_words() -> None:
    pen = sheet("t", "w", "s", behind=False)
    foot = notes(pen, ["Solder the links first, then the wires of the segments."], left=10, top=90, wide=40)
    lines = [
        words for words in texts(pen) if words.split()[0] in ("Solder", "then", "the", "wires", "first,")
    ]
    assert len(lines) > 1
    assert foot < 90
    assert wrapped("a bb ccc", letters=4) == ["a bb", "ccc"]
