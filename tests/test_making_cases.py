"""Situations at the workbench, as small designs: files that come in at the wrong size, pieces that fall out,
boxes that breathe. The sum stands beside each."""

import io

import pytest
import shapely

from segkit.drawing.drawing import Path as Line
from segkit.drawing.pdf import pdf_bytes
from segkit.drawing.svg import svg_text
from segkit.fabrication.weather import breath_litres
from segkit.fabrication.wrong_scale import wrong_scales
from segkit.report.check_bar import check_bar_table
from segkit.report.making_files import paper_pages
from segkit.workshop import paper_of
from tests.cases import found, made, value


def test_a_cut_file_says_its_size_so_that_no_program_can_guess_it() -> None:
    import svgelements

    project = made("kite_field_wrong_size")
    face = project.cuts.drawings["face"]
    text = svg_text(face)
    root = text[text.index("<svg") : text.index(">", text.index("<svg"))]
    wide, high = f"{face.width_mm:g}", f"{face.height_mm:g}"
    assert f'width="{wide}mm"' in root
    assert f'height="{high}mm"' in root
    assert f'viewBox="0 0 {wide} {high}"' in root
    # an independent reader, whatever it takes an inch for: openings of 300 mm, the lines half of 0.2 mm inside them
    for per_inch in (72, 90, 96):
        read = svgelements.SVG.parse(io.StringIO(text), ppi=per_inch)
        (openings,) = (one for one in read.elements() if one.id == "cut-openings")
        _, top, _, bottom = openings.bbox()
        assert (bottom - top) * 25.4 / per_inch == pytest.approx(299.8, abs=0.01)


def test_the_wrong_size_names_its_cause_and_its_factor() -> None:
    # 100 x 72/96 = 75, x 1.3333; 100 x 90/96 = 93.75 (50 mm as 46.875), x 1.0667; 96/25.4 = 3.7795; 300 x 0.75 = 225
    project = made("kite_field_wrong_size")
    rows = {row[0]: row for row in check_bar_table(project).rows}
    assert rows["75 mm"][1:3] == ("225 mm", "x 1.3333")
    assert "72 units an inch" in rows["75 mm"][3]
    assert rows["93.8 mm"][2] == "x 1.0667"
    assert "90 units an inch" in rows["93.8 mm"][3]
    pixels = next(one for one in wrong_scales(paper_of(project.design)) if "for pixels" in one.cause)
    assert pixels.bar_mm == pytest.approx(377.95, abs=0.005)
    assert 1 / pixels.factor == pytest.approx(3.7795, abs=5e-5)


def test_a_tiled_template_too_big_is_the_print_dialogue() -> None:
    import pypdf

    # A4 with margins of 5 mm fitted to the page: (297 - 10)/297 = 0.966; 58 cm for 50 are 1.16 on the bar
    project = made("barn_dance_tiled_template")
    assert 490 <= project.board.height_mm <= 510
    pages = pypdf.PdfReader(io.BytesIO(pdf_bytes(paper_pages(project)))).pages
    assert len(pages) > 4
    for page in pages:  # exactly the paper, so that no dialogue has a reason to fit it
        sides = sorted(float(side) * 25.4 / 72 for side in (page.mediabox.width, page.mediabox.height))
        assert sides == pytest.approx([210, 297], abs=0.01)
        assert "100 mm" in page.extract_text()
    table = check_bar_table(project)
    (fitted,) = (row for row in table.rows if "fitted the page" in row[3])
    assert fitted[0] == "96.6 mm"
    assert "100 %" in fitted[4]
    assert (
        "factor is 100 mm over the reading" in table.text
    )  # 116 mm: 100/116, it came out 1.16 times too big


def cut_by(tool_mm: float, line: Line) -> shapely.Geometry:
    """What a round tool takes away along a closed line."""
    return shapely.LinearRing(line.points).buffer(tool_mm / 2, quad_segs=32)


def test_inserts_neither_fall_out_nor_jam() -> None:
    # drawn alike and cut 0.2 mm wide, an insert loses 0.2 and its hole gains 0.2: 0.4 mm loose
    name = "cheese_market_inserts"
    assert value(name, "fabrication.kerf_play") == pytest.approx(0.4)
    assert "kerf-unusual" not in found(name)
    project = made(name)

    def lines(part: str, layer: str) -> list[Line]:
        drawing = project.cuts.drawings[part]
        return [
            s
            for one in drawing.layers
            if one.name == layer
            for s in one.shapes
            if isinstance(s, Line) and s.closed
        ]

    holes = [shapely.Polygon(one.points) | cut_by(0.2, one) for one in lines("face", "cut-openings")]
    pieces = [shapely.Polygon(one.points) - cut_by(0.2, one) for one in lines("diffuser", "cut-outline")]
    sizes = [sorted(round(one.area, 1) for one in some) for some in (holes, pieces)]
    assert len(sizes[0]) == len(sizes[1]) == 14
    for hole, piece in zip(*sizes, strict=True):
        assert piece == pytest.approx(hole, rel=1e-3)  # no gap, with make.clearance = "0 mm"


def test_half_a_kerf_is_asked_about() -> None:
    # a finger drawn at 6.2 and a slot at 5.8 mm are both 6.0 after a cut of 0.2: the 0.1 a side was half of it
    note = found("cheese_market_half_kerf")["kerf-unusual"]
    assert (note.level, note.value, note.limit) == ("note", 0.1, 0.14)
    assert "half of 0.2 mm" in note.text
    assert "full width of the cut" in note.text


def test_a_sealed_box_breathes_all_the_same() -> None:
    # 10 litres from 60 to 10 degrees: 10 x (1 - 283/333) = 1.5 litres of outside air
    assert breath_litres(10, hot_c=60, cold_c=10) == pytest.approx(1.5, abs=0.01)
    note = found("canal_lock_sealed_box")["vent-and-drain"]
    assert note.value == pytest.approx(1.5, abs=0.1)
    assert "sealed or not" in note.text
    for word in ("Do not seal", "drain hole", "lowest corners", "loop that drips"):
        assert word in note.remedy
    mains = found("canal_lock_sealed_box")["mains"]
    assert "kept dry" in mains.remedy
