"""DXF read back by two readers that are not the writer's own: its library's audit, and a mapping library."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
import warnings
from dataclasses import replace
from pathlib import Path as File

import pytest

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Text
from segkit.drawing.dxf import WEIGHTS, dxf_bytes


def read(drawing: Drawing):  # type: ignore[no-untyped-def]
    from ezdxf import recover

    return recover.read(io.BytesIO(dxf_bytes(drawing)))


def header(content: bytes) -> dict[str, list[str]]:
    """Header variables by the plain rule of the format: a line with the group code, a line with the value."""
    lines = [line.strip() for line in content.decode().splitlines()]
    tags = list(zip(lines[::2], lines[1::2], strict=True))
    found: dict[str, list[str]] = {}
    name = ""
    for code, value in tags[: tags.index(("0", "ENDSEC"))]:
        name = value if code == "9" else name
        if code != "9" and name:
            found.setdefault(name, []).append(value)
    return found


def test_audit_finds_nothing(page: Drawing) -> None:
    document, auditor = read(page)
    assert (len(auditor.errors), len(auditor.fixes)) == (0, 0)
    assert [entity.dxftype() for entity in document.modelspace()].count("LWPOLYLINE") == 3


def test_unit_is_the_millimetre(page: Drawing) -> None:
    """DXF reference, header variables: $INSUNITS 4 is millimetres, $MEASUREMENT 1 is metric."""
    found = header(dxf_bytes(page))
    assert found["$INSUNITS"] == ["4"]
    assert found["$MEASUREMENT"] == ["1"]
    assert [float(v) for v in found["$EXTMAX"]] == pytest.approx([120.5, 80.25, 0])


def test_layers_have_the_names_and_colours_of_the_operations(page: Drawing) -> None:
    document, _ = read(page)
    for layer in page.layers:
        kept = document.layers.get(layer.name)
        assert "#{:02x}{:02x}{:02x}".format(*kept.rgb) == layer.colour
        assert kept.dxf.lineweight in WEIGHTS
        on = [e for e in document.modelspace() if e.dxf.layer == layer.name]
        assert len(on) == len(layer.shapes)


def test_no_text_where_a_tool_moves(page: Drawing) -> None:
    document, _ = read(page)
    text_layers = {e.dxf.layer for e in document.modelspace().query("TEXT")}
    assert text_layers == {"notes"}


def test_true_size_and_closed_in_a_mapping_library(page: Drawing, tmp_path: File) -> None:
    """GDAL's own DXF reader, written in C++ and unrelated to the writer."""
    pyogrio = pytest.importorskip("pyogrio")
    import shapely

    (tmp_path / "page.dxf").write_bytes(dxf_bytes(page))
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # no map projection in it: right for a drawing
        _, _, shapes, fields = pyogrio.raw.read(tmp_path / "page.dxf", columns=["Layer", "Text"])
    by_layer: dict[str, list[object]] = {}
    for shape, layer in zip(shapely.from_wkb(shapes), fields[0], strict=True):
        by_layer.setdefault(layer, []).append(shape)
    edge = by_layer["cut-edge"][0]
    assert shapely.get_coordinates(edge)[0].tolist() == shapely.get_coordinates(edge)[-1].tolist()
    assert shapely.bounds(edge) == pytest.approx((10, 40, 60, 70), abs=0.0005)
    holes = [shapely.bounds(hole).tolist() for hole in by_layer["drill-holes"]]
    assert holes[0] == pytest.approx([97.4, 57.4, 102.6, 62.6], abs=0.01)
    assert holes[1] == pytest.approx([108.5, 58.5, 111.5, 61.5], abs=0.01)
    assert "5 < 6 & up" in list(fields[1])


def test_the_same_bytes_whatever_the_hash_seed() -> None:
    code = (
        "import hashlib\n"
        "from segkit.drawing.drawing import *\n"
        "from segkit.drawing.dxf import dxf_bytes\n"
        "page = Drawing('A', 50, 40, (Layer('cut', 'cut', (Path(((1, 1), (9, 1), (9, 9))),)),"
        "Layer('notes', 'note', (Text((5, 5), 'x', 3),))), stamp='s')\n"
        "print(hashlib.sha256(dxf_bytes(page)).hexdigest())"
    )
    sums = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in ("1", "4")
    }
    here = Drawing(
        "A", 50, 40,
        (Layer("cut", "cut", (Path(((1, 1), (9, 1), (9, 9))),)), Layer("notes", "note", (Text((5, 5), "x", 3),))),
        stamp="s",
    )  # fmt: skip
    sums.add(hashlib.sha256(dxf_bytes(here)).hexdigest())
    assert len(sums) == 1


def test_the_setting_of_the_library_is_put_back(page: Drawing) -> None:
    import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    dxf_bytes(page)
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_any_text_is_kept_readable(page: Drawing) -> None:
    odd = Layer("notes", "note", (Text((5, 5), "Größe\n^J日 5 Ω", 4),))
    document, auditor = read(replace(page, layers=(odd, Layer("cut", "cut", (Circle((9, 9), 2),)))))
    assert not auditor.errors
    assert document.modelspace().query("TEXT")[0].dxf.text == "Größe  J日 5 Ω"


def test_coordinates_are_those_of_the_svg() -> None:
    page = Drawing("", 50, 40, (Layer("cut", "cut", (Path(((1.00049, 2), (9, 2), (9, 9))),)),))
    document, _ = read(page)
    assert document.modelspace()[0].get_points("xy")[0] == (1.0, 2.0)
