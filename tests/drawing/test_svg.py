from __future__ import annotations

import io
import math
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path as File

import pytest
from hypothesis import given
from hypothesis import strategies as st

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.svg import svg_text
from tests.conftest import missing

# The SVG 1.1 (second edition) document type, W3C recommendation of 16 August 2011, as packed by Debian.
DTD = File("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
SVG = "{http://www.w3.org/2000/svg}"
PER_INCH = 96  # user units an inch of a reader with CSS units: W3C CSS 2.1, section 4.3.2


def _root(text: str):  # type: ignore[no-untyped-def]
    from lxml import etree

    return etree.fromstring(text.encode())


def test_valid_by_the_document_type_of_svg_1_1(page: Drawing) -> None:
    from lxml import etree

    if not DTD.exists():
        missing("the SVG 1.1 document type (w3c-sgml-lib)")
    dtd = etree.DTD(str(DTD))
    assert dtd.validate(_root(svg_text(page))), dtd.error_log.filter_from_errors()
    broken = svg_text(page).replace("<circle ", "<circle colour='red' ", 1)
    assert not dtd.validate(_root(broken)), "the check itself must be able to fail"


@pytest.mark.tool
def test_valid_by_xmllint(page: Drawing, tool: Callable[[str], str], tmp_path: File) -> None:
    if not DTD.exists():
        missing("the SVG 1.1 document type (w3c-sgml-lib)")
    (tmp_path / "page.svg").write_text(svg_text(page), encoding="utf-8")
    done = subprocess.run(
        [tool("xmllint"), "--nonet", "--noout", "--dtdvalid", str(DTD), str(tmp_path / "page.svg")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


def test_values_by_the_grammar_of_an_independent_library(page: Drawing) -> None:
    from svgwrite.validator2 import get_validator

    validator = get_validator("full", debug=True)
    checked = 0
    for element in _root(svg_text(page)).iter():
        name = element.tag.replace(SVG, "")
        for key, value in element.attrib.items():
            validator.check_svg_attribute_value(name, key, value)
            checked += 1
    assert checked > 50
    with pytest.raises((TypeError, ValueError)):
        validator.check_svg_attribute_value("circle", "cx", "left")


def test_true_size_read_back_by_an_independent_library(page: Drawing) -> None:
    import svgelements

    read = svgelements.SVG.parse(io.StringIO(svg_text(page)), ppi=PER_INCH)
    mm = 25.4 / PER_INCH
    assert read.width * mm == pytest.approx(120.5, abs=0.01)
    assert read.height * mm == pytest.approx(80.25, abs=0.01)
    circles = [
        (c.cx * mm, c.cy * mm, c.rx * mm) for c in read.elements() if isinstance(c, svgelements.Circle)
    ]
    assert [tuple(round(v, 2) for v in c) for c in circles] == [
        (60.0, 60.25, 10.0), (100.0, 20.25, 2.6), (110.0, 20.25, 1.5),
    ]  # fmt: skip
    paths = [p for p in read.elements() if isinstance(p, svgelements.Path)]
    left, top, right, bottom = (side * mm for side in paths[1].bbox())
    assert (left, 80.25 - bottom, right, 80.25 - top) == pytest.approx((10, 40, 60, 70), abs=0.01)


def test_true_size_in_a_pdf_made_by_an_independent_renderer(page: Drawing) -> None:
    try:
        import cairosvg
    except OSError:
        missing("libcairo")
    pdf = cairosvg.svg2pdf(bytestring=svg_text(page).encode())
    box = next(line for line in pdf.split(b"\n") if b"MediaBox" in line).split(b"[")[1].split(b"]")[0]
    sides = [float(number) * 25.4 / 72 for number in box.split()]
    assert sides[2:] == pytest.approx([120.5, 80.25], abs=0.01)


def test_viewbox_has_the_numbers_of_the_size(page: Drawing) -> None:
    root = _root(svg_text(page))
    assert (root.get("width"), root.get("height")) == ("120.5mm", "80.25mm")
    assert root.get("viewBox") == "0 0 120.5 80.25"


def test_y_is_turned_over_in_the_numbers_and_not_by_a_transform(page: Drawing) -> None:
    text = svg_text(page)
    assert '<path d="M10,40.25 L40.123,40.25 L60,10.25 Z"/>' in text
    assert "scale" not in text
    assert "matrix" not in text


def test_only_the_namespace_of_svg(page: Drawing) -> None:
    assert set(_root(svg_text(page)).nsmap.values()) == {"http://www.w3.org/2000/svg"}


def test_groups_are_the_layers_in_order(page: Drawing) -> None:
    groups = _root(svg_text(page)).findall(f"{SVG}g")
    assert [group.get("id") for group in groups] == [layer.name for layer in page.layers]
    looks = {group.get("id"): (group.get("fill"), group.get("stroke")) for group in groups}
    assert looks["cut-edge"] == ("none", "#1e88e5")
    assert looks["field"] == ("#204060", "none")


def test_a_layer_without_a_line_has_none(page: Drawing) -> None:
    bare = replace(page, layers=(replace(page.layers[2], line_mm=0),))
    assert _root(svg_text(bare)).find(f"{SVG}g").get("stroke") == "none"


@given(st.text(max_size=60))
def test_any_title_and_text_comes_back_from_a_parser(words: str) -> None:
    drawing = Drawing(words, 10, 10, (Layer("notes", "note", (Text((1, 1), words, 2),)),), stamp=words)
    root = _root(svg_text(drawing))
    legal = "".join(c if c in "\t\n" or " " <= c < "\ufffe" or c > "\uffff" else "\ufffd" for c in words)
    expected = legal.replace("\r", "\n")
    for tag in ("title", "desc", "g/{http://www.w3.org/2000/svg}text"):
        found = root.find(f"{SVG}{tag}").text or ""
        assert found.replace("\ufffd", "").replace("\n", "") == expected.replace("\ufffd", "").replace(
            "\n", ""
        )


_number = st.floats(-1e4, 1e4)


@given(st.lists(st.tuples(_number, _number), min_size=2, max_size=6))
def test_no_number_has_more_than_three_places_or_a_minus_zero(points: list[tuple[float, float]]) -> None:
    text = svg_text(Drawing("", 100, 100, (Layer("a", "cut", (Path(tuple(points)),)),)))
    path = _root(text).find(f"{SVG}g/{SVG}path").get("d")
    numbers = path.replace("M", "").replace("L", "").replace("Z", "").replace(",", " ").split()
    assert all(len(n.partition(".")[2]) <= 3 and n != "-0" and "e" not in n for n in numbers)
    assert [float(n) for n in numbers[::2]] == pytest.approx([x for x, _ in points], abs=0.00051)


@pytest.mark.parametrize(
    "layers",
    [
        (Layer("a", "cut", ()), Layer("a", "cut", ())),
        (Layer("two words", "cut", ()),),
        (Layer("9a", "cut", ()),),
        (Layer("a", "cut", (), "red"),),
        (Layer("a", "cut", (Circle((0, 0), math.nan),)),),
        (Layer("a", "cut", (Path(((0, 0), (math.inf, 0))),)),),
    ],
)
def test_faults_of_the_program_are_refused(layers: tuple[Layer, ...]) -> None:
    with pytest.raises(ValueError, match=r"layer names|colour|finite"):
        svg_text(Drawing("", 10, 10, layers))


def test_same_text_whatever_the_hash_seed_and_locale(page: Drawing) -> None:
    program = (
        "from segkit.drawing.drawing import *; from segkit.drawing.svg import svg_text;"
        f"import sys; from math import nan; sys.stdout.buffer.write(svg_text({page!r}).encode())"
    )
    made = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed, "LC_ALL": locale, "TZ": zone},
            capture_output=True,
            check=True,
        ).stdout
        for seed, locale, zone in (("1", "C", "UTC"), ("2", "de_DE.UTF-8", "Asia/Tokyo"))
    }
    assert made == {svg_text(page).encode()}
