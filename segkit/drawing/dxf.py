"""A drawing as a DXF file in millimetres: one layer an operation, outlines that are closed."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from segkit.drawing.drawing import Circle, Drawing, Layer, Path, Shape, Text

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

VERSION = "R2010"
MILLIMETRES, METRIC = 4, 1  # values of $INSUNITS and $MEASUREMENT in the DXF reference
CAPITAL = 0.72  # height of a capital, which is what DXF means by text height, over the size of the type
#: Line weights that the DXF reference knows, in 1/100 mm.
WEIGHTS = (0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211)
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
        space = document.modelspace()
        for layer in drawing.layers:
            _add_layer(document, layer)
            for shape in layer.shapes:
                _add(space, shape, layer.name)
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # in one order: the library would take that of a set
        text = io.StringIO()
        document.write(text)
    return text.getvalue().encode("utf-8")


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


def _add(space: Modelspace, shape: Shape, layer: str) -> None:
    on = {"layer": layer}
    match shape:
        case Path(points=points, closed=closed):
            corners = [(round(x, 3), round(y, 3)) for x, y in points]
            space.add_lwpolyline(corners, close=closed, dxfattribs=on)
        case Circle(centre=(x, y), radius_mm=radius):
            space.add_circle((round(x, 3), round(y, 3)), round(radius, 3), dxfattribs=on)
        case Text():
            _add_text(space, shape, on)


def _add_text(space: Modelspace, text: Text, on: dict[str, str]) -> None:
    from ezdxf.enums import TextEntityAlignment as Align

    align = {"start": Align.LEFT, "middle": Align.CENTER, "end": Align.RIGHT}[text.anchor]
    entity = space.add_text(
        _plain(text.text), height=CAPITAL * text.height_mm, rotation=text.rotation_deg, dxfattribs=on
    )
    entity.set_placement((round(text.at[0], 3), round(text.at[1], 3)), align=align)


def _plain(text: str) -> str:
    return _CONTROL.sub(" ", text)
