"""PDF read back by two readers: one takes the file apart, one renders it."""

from __future__ import annotations

import io
import re

import pytest

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.pdf import pdf_bytes, standard_letters

MM = 25.4 / 72  # a PDF unit is 1/72 in: ISO 32000-1, 8.3.2.3


def boxes(content: bytes, page: int = 0) -> list[tuple[float, ...]]:
    """Bounds of the objects of a page [mm], by the renderer."""
    import pypdfium2

    document = pypdfium2.PdfDocument(content)
    return [tuple(side * MM for side in thing.get_bounds()) for thing in document[page].get_objects()]


def test_page_is_exactly_the_drawing(page: Drawing) -> None:
    import pypdf

    box = pypdf.PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0].mediabox
    assert [float(side) * MM for side in box] == pytest.approx([0, 0, 120.5, 80.25], abs=0.001)


def test_shapes_at_true_size_in_the_renderer() -> None:
    page = Drawing(
        "Bars", 210, 297,
        (Layer("field", "fill", (Path(((20, 30), (120, 30), (120, 80), (20, 80))), Circle((60, 200), 2.6))),),
    )  # fmt: skip
    bar, hole = boxes(pdf_bytes([page]))
    assert bar == pytest.approx((20, 30, 120, 80), abs=0.002)
    assert hole == pytest.approx((57.4, 197.4, 62.6, 202.6), abs=0.002)


def test_lines_are_as_wide_as_drawn_and_closed() -> None:
    page = Drawing("", 100, 100, (Layer("cut", "cut", (Path(((10, 10), (60, 10), (60, 40))),), line_mm=0.2),))
    import pypdf

    stream = pypdf.PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0].get_contents().get_data().decode()
    assert re.search(r"10 10 m 60 10 l 60 40 l h", stream)
    assert ".2 w" in stream


def test_a_pixel_is_in_its_place_when_rendered() -> None:
    """At 254 dots an inch a pixel is 0.1 mm: the edge of a field is where it was drawn, to one pixel."""
    import numpy as np
    import pypdfium2

    page = Drawing("", 60, 40, (Layer("field", "fill", (Path(((10, 8), (50, 8), (50, 30), (10, 30))),)),))
    picture = pypdfium2.PdfDocument(pdf_bytes([page]))[0].render(scale=254 / 72).to_numpy()[:, :, 0]
    dark = np.argwhere(picture < 128)
    top, left = dark.min(axis=0)
    bottom, right = dark.max(axis=0)
    assert picture.shape == pytest.approx((400, 600), abs=1)
    assert (left, right + 1, top, bottom + 1) == pytest.approx((100, 500, 100, 320), abs=1)


def test_a_page_for_each_drawing_and_its_own_size(page: Drawing) -> None:
    import pypdf

    second = Drawing("B", 30, 20, ())
    read = pypdf.PdfReader(io.BytesIO(pdf_bytes([page, second])))
    assert [float(p.mediabox.width) * MM for p in read.pages] == pytest.approx([120.5, 30], abs=0.001)
    assert read.metadata is not None
    assert read.metadata.title == page.title
    assert read.metadata.subject == page.stamp


def test_the_same_bytes_and_no_clock(page: Drawing) -> None:
    content = pdf_bytes([page])
    assert content == pdf_bytes([page])
    import pypdf

    made = pypdf.PdfReader(io.BytesIO(content)).metadata
    assert made is not None
    assert made.creation_date is None or made.creation_date.year == 2000


def test_a_page_over_five_metres_has_a_larger_unit() -> None:
    """ISO 32000-1, annex C and 14.11.2: at most 14 400 units a side; UserUnit says how long a unit is."""
    import pypdf

    wall = Drawing("Wall", 12_000, 500, (Layer("cut", "cut", (Path(((0, 0), (12_000, 0), (9, 9))),)),))
    sheet = pypdf.PdfReader(io.BytesIO(pdf_bytes([wall]))).pages[0]
    unit = float(sheet.get("/UserUnit", 1))
    assert float(sheet.mediabox.width) <= 14_400
    assert float(sheet.mediabox.width) * unit * MM == pytest.approx(12_000, abs=0.01)


def test_text_is_text_and_turned() -> None:
    import pypdf

    page = Drawing("", 100, 100, (Layer("notes", "note", (
        Text((50, 50), "seen from behind", 5, "middle"), Text((9, 20), "reader's left", 4, "start", 90.0),
    )),))  # fmt: skip
    said = pypdf.PdfReader(io.BytesIO(pdf_bytes([page]))).pages[0].extract_text()
    assert "seen from behind" in said
    assert "reader's left" in said


@pytest.mark.parametrize(
    ("text", "shown"), [("Größe – 5 Ω", "Größe – 5 Ohm"), ("日本", "??"), ("a\nb", "a?b"), ("", "")]
)
def test_letters_that_no_standard_type_has(text: str, shown: str) -> None:
    assert standard_letters(text) == shown
    pdf_bytes([Drawing(text, 50, 50, (Layer("notes", "note", (Text((5, 5), text, 4),)),))])
