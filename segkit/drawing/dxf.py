"""A drawing as a DXF file in millimetres: one layer an operation, outlines that are closed."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Point, Shape, Text
from segkit.units import coordinate

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

VERSION = "R2010"
MILLIMETRES, METRIC = 4, 1  # values of $INSUNITS and $MEASUREMENT in the DXF reference
CAPITAL = 0.72  # height of a capital, which is what DXF means by text height, over the size of the type
#: Line weights that the DXF reference knows, in 1/100 mm.
WEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
_ENTITIES = "  0\nSECTION\n  2\nENTITIES\n"
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff^]")  # a caret starts a control character


def dxf_bytes(drawing: Drawing) -> bytes:
    """The drawing as the bytes of a DXF file.

    Origin at the lower left of the page, y up, unit millimetre, coordinates to 0.001 mm as in the SVG.
    Closed paths are closed polylines, circles are circles. The background and the fill of areas are left
    out. The same drawing gives the same bytes, always: no date, no random id.

    Args:
        drawing: any page with a size above zero.

    Sources: dxf-reference.

    Example:
        >>> dxf_bytes(Drawing("Empty", 20, 10, ())).splitlines()[:4]
        [b'  0', b'SECTION', b'  2', b'HEADER']
    """
    from ezdxf.filemanagement import new

    with _no_clock():
        document = new(VERSION, setup=False)
        _describe(document, drawing)
        for layer in drawing.layers:
            _add_layer(document, layer)
        entities = "".join(_entities(document, drawing.layers))
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # in one order: the library would take that of a set
        text = io.StringIO()
        document.write(text)
    head, mark, rest = text.getvalue().partition(_ENTITIES)
    return f"{head}{mark}{entities}{rest}".encode()


@contextmanager
def _no_clock() -> Iterator[None]:
    """The library writes dates and random ids unless told otherwise; its setting is put back after use."""
    from ezdxf._options import options

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _describe(document: Document, drawing: Drawing) -> None:
    document.header["$INSUNITS"] = MILLIMETRES
    document.header["$MEASUREMENT"] = METRIC
    corner = (round(drawing.width_mm, 3), round(drawing.height_mm, 3))
    space = document.modelspace()
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (0, 0, 0), (*corner, 0)
    space.dxf.extmin, space.dxf.extmax = (0, 0, 0), (*corner, 0)  # the library writes these, or skips them
    space.dxf.limmin, space.dxf.limmax = (0, 0), corner
    document.header.custom_vars.append("Title", _plain(drawing.title))
    document.header.custom_vars.append("Made from", _plain(drawing.stamp))


def _add_layer(document: Document, layer: Layer) -> None:
    from ezdxf.colors import RGB

    red, green, blue = (int(layer.colour[i : i + 2], 16) for i in (1, 3, 5))
    made = document.layers.add(layer.name)
    made.rgb = RGB(red, green, blue)
    made.dxf.lineweight = min(WEIGHTS, key=lambda weight: abs(weight - 100 * layer.line_mm))


def _entities(document: Document, layers: Iterable[Layer]) -> Iterator[str]:
    """The shapes as tags of the format: a tenth of the time that the library takes to build and write them.

    Handles come from the document, so that its seed for the next one is right.
    """
    owner = document.modelspace().layout_key
    for layer in layers:
        for shape in layer.shapes:
            kind, tags = _tags(shape)
            handle = document.entitydb.handles.next()
            head = ((0, kind), (5, handle), (330, owner), (100, "AcDbEntity"), (8, layer.name))
            yield "".join(f"{code:>3}\n{value}\n" for code, value in (*head, *tags))


def _tags(shape: Shape) -> tuple[str, Iterable[tuple[int, str]]]:
    match shape:
        case Path(points=points, closed=closed):
            corners = (tag for x, y in points for tag in ((10, coordinate(x)), (20, coordinate(y))))
            return "LWPOLYLINE", (
                (100, "AcDbPolyline"), (90, str(len(points))), (70, "1" if closed else "0"), *corners,
            )  # fmt: skip
        case Circle(centre=centre, radius_mm=radius):
            return "CIRCLE", ((100, "AcDbCircle"), *_place(10, centre), (40, coordinate(radius)))
        case Text():
            return "TEXT", _text_tags(shape)


def _text_tags(text: Text) -> Iterable[tuple[int, str]]:
    aligned = {"start": "0", "middle": "1", "end": "2"}[text.anchor]
    height, turn = coordinate(CAPITAL * text.height_mm), coordinate(text.rotation_deg)
    return (
        (100, "AcDbText"), *_place(10, text.at), (40, height), (1, _plain(text.text)),
        (50, turn), (72, aligned), *_place(11, text.at), (100, "AcDbText"), (73, "0"),
    )  # fmt: skip


def _place(code: int, at: Point) -> tuple[tuple[int, str], ...]:
    return (code, coordinate(at[0])), (code + 10, coordinate(at[1])), (code + 20, "0")


def _plain(text: str) -> str:
    return _CONTROL.sub(" ", text)
